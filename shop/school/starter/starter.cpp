#include "shop/school/starter/starter.hpp"

#include <string>

namespace brakewright::shop {
namespace {

constexpr const char* kDefers =
    " The machine's own instructions and your school's rules come first. (Common practice, no source.)";

/// Version 8 ids (RFC 9562, 5.8): made by a rule of our own.
Uuid fixed_id(std::uint8_t list, std::uint8_t number) {
  Uuid id;
  id.bytes = {0x42, 0x72, 0x61, 0x6b, 0x65, 0x77, 0x80, list, 0x80, 0, 0, 0, 0, 0, 0, number};
  return id;
}

struct Point {
  const char* question;
  std::vector<std::string> choices;
  std::int64_t right;
  const char* reason;
};

const std::vector<Point>& points() {
  static const std::vector<Point> kPoints{
      {"What do you wear at a turning lathe?",
       {"Gloves, so that chips do not cut", "Eye protection, close sleeves, hair and cords tied away, no gloves",
        "A loose overall that comes off easily"},
       1,
       "Whatever can be caught is caught and wound in; chips fly as far as the eyes."},
      {"The part is still turning. May you measure it, wipe it or feel its face?",
       {"Yes, with a rag", "Yes, on the outer rim only", "No. Stop the spindle and wait until it stands still"},
       2,
       "Nothing touches a turning part but the tool."},
      {"Where are the chips taken away, and how?",
       {"By hand, while they are warm", "With a brush or a hook, spindle stopped", "With compressed air"},
       1,
       "Chips are sharp and hot, and air drives them and the dust into eyes and lungs."},
      {"How is brake dust taken off a part?",
       {"Blown off with compressed air", "Brushed off dry", "Washed off wet, or taken by a filtered vacuum"},
       2,
       "The dust is not to be breathed; old linings may hold asbestos."},
      {"Before the spindle is started, what is looked at last?",
       {"That the stack is tight, wrenches are off, tools stand clear, the guard is where it belongs, nobody is near",
        "That the job is on record", "That the speed is the highest"},
       0,
       "What was left on the arbor is thrown by it."},
      {"You hear a new noise or see the part wobble in the cut. What first?",
       {"Back the tool off and stop the spindle", "Take a deeper cut to get past it", "Wait for the end of the pass"},
       0,
       "A part that comes loose does so in seconds; a stopped pass can be cut again."},
      {"How do you stop the machine when something goes wrong?",
       {"Look for the main switch", "Press the emergency stop, whose place I have shown to my teacher",
        "Hold the arbor nut"},
       1,
       "Nobody finds a switch for the first time in an emergency."},
      {"A rotor weighs 12 kg. How does it get on the arbor?",
       {"One hand holds it, the other the cone", "Both hands hold it, or two people do; the stack is ready beside it",
        "It is thrown on with momentum"},
       1,
       "A part that slips falls on feet and fingers and is no longer true."},
      {"Your measurement says that a part is at its limit. Who decides?",
       {"The one who is next in the queue", "I do, as it is nearly good", "My teacher, by the limits on record"},
       2,
       "A part that is too thin can fail on the road; limits come from the part or its service information."},
      {"After the refit, what comes before the car is driven?",
       {"Nuts to the vehicle's torque in its order, the pedal pumped hard, the fluid looked at, a teacher's look",
        "A quick drive round the yard", "Washing the car"},
       0,
       "The first press of the pedal after brake work may go to the floor. The vehicle's instructions come first."}};
  return kPoints;
}

struct Skill {
  const char* name;
  const char* words;
};

constexpr Skill kSkills[] = {
    {"Measure thickness and variation",
     "Zeroes the micrometer, reads evenly spaced points on the circle, says how much the part varies and how sure."},
    {"Measure runout", "Sets the indicator square, reads a full turn, tells the part's share from the hub's."},
    {"Decide with reasons", "Finds the limits and their source, weighs the readings, says leave, cut or replace."},
    {"Mount a part without a hub",
     "Chooses cone and clamps, cleans every face, proves the mount by indicator or scratch."},
    {"Mount a part with its hub", "Looks at the races, chooses tapers that sit in them, proves the mount."},
    {"Set up and cut", "Finds first touch, sets both dials, keeps to the settled passes, stops when something is odd."},
    {"Check the cut", "Measures after the cut, holds it against plan and limits, says what the dials did."},
    {"Turn a drum", "Measures out-of-round and taper, knows depth from diameter, turns both of an axle to one size."},
    {"Refit on the hub", "Cleans hub and part, chooses the position, reads the runout as fitted."},
    {"Tighten to torque", "Finds the vehicle's figure, tightens in its order and stages, notes it."},
    {"Bed in and hand over",
     "Beds the linings as their maker says, tells the driver what to expect, knows when not to."},
    {"Keep the bench", "Hangs up what was taken, says what is worn, leaves chips and dust where they belong."}};

}  // namespace

std::vector<SafetyPoint> starter_safety_points() {
  std::vector<SafetyPoint> all;
  for (const Point& point : points()) {
    const auto number = static_cast<std::uint8_t>(all.size() + 1);
    all.push_back({.id = fixed_id(1, number),
                   .position = number,
                   .question = point.question,
                   .choices = point.choices,
                   .right_choice = point.right,
                   .reason = std::string(point.reason) + kDefers});
  }
  return all;
}

std::vector<Competence> starter_competences() {
  std::vector<Competence> all;
  for (const Skill& skill : kSkills) {
    const auto number = static_cast<std::uint8_t>(all.size() + 1);
    all.push_back({.id = fixed_id(2, number), .position = number, .name = skill.name, .words = skill.words});
  }
  return all;
}

}  // namespace brakewright::shop
