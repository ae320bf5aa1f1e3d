#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/bench_sim/part/faces.hpp"

namespace brakewright::practice {

using bench_sim::Side;

// One struct for each thing that a hand can do at the bench. What is not possible where the bench stands is refused
// (see Run::apply); what is possible but unsafe is done, and ends the run.

struct Look {};  ///< at part, edge and mount: what an eye sees
struct ZeroMicrometer {
  std::string instrument_id = {};
};
struct Measure {
  std::string instrument_id = {};
  double radius_mm = 0;
  double angle_deg = 0;
  bool ratchet = true;  ///< false: turned by the thimble, with whatever force the hand has
};
struct ReadRunout {  ///< on the bench, one slow turn by hand
  Side side = Side::outboard;
  double radius_mm = 0;
  int points = 12;  ///< 4 to 36, evenly round, and once more at the first
};
struct Wait {          ///< for a warm part to cool
  double minutes = 0;  ///< more than 0, to 120
};
enum class Action { leave, cut, replace };
struct Decide {
  Action action = Action::leave;
};
struct Wipe {};        ///< part and adapters, on both seats; only while nothing is mounted
struct RenewRaces {};  ///< new bearing cups driven into a hub, clean; only while nothing is mounted
struct MountPart {
  std::vector<std::string> pieces = {};  ///< from the shoulder outward, the part itself left out; the nut last
  double turn_deg = 0;                   ///< the part turned on the arbor
  bool nut_tight = true;                 ///< turned home, to the left
};
struct Unmount {};
struct Band {
  bool on = true;
};
struct Wear {  ///< what the student has on
  bool glasses = true;
  bool gloves = false;
};
struct ChangeEdge {};  ///< a new insert on both holders; only while the spindle stands
struct Spindle {
  double rpm = 0;  ///< one of the lathe's; 0 stands still
};
struct Place {  ///< both tools along the radius by hand, off the feed
  double radius_mm = 0;
};
struct TurnDial {
  Side side = Side::outboard;
  double marks = 0;  ///< from where it stands; into the iron positive; -200 to 200
};
struct LockTool {
  Side side = Side::outboard;
  bool locked = true;
};
struct Feed {
  double mm_per_rev = 0;  ///< one of the lathe's, outward; 0 disengages
};
struct Turns {       ///< lets the spindle turn on
  double turns = 0;  ///< more than 0, to 200
};
struct Reach {};             ///< a hand towards the turning part
struct WalkAway {};          ///< from a turning lathe
struct Wash {};              ///< soap and water, rinsed and dried; takes the part off the car, not off the lathe
struct Refit {               ///< to the car's hub; a part with its own hub: on its bearings
  int position = 0;          ///< stud, 0 to 4; 0 with its own hub, which has no other
  bool hub_cleaned = true;   ///< its face; of a part with its own hub the races, packed with clean grease
  bool nuts_in_star = true;  ///< all of them, in stages across the star, with a torque wrench
};
struct Finish {};  ///< hand it over, to be marked

using Act = std::variant<Look, ZeroMicrometer, Measure, ReadRunout, Wait, Decide, Wipe, RenewRaces, MountPart, Unmount,
                         Band, Wear, ChangeEdge, Spindle, Place, TurnDial, LockTool, Feed, Turns, Reach, WalkAway, Wash,
                         Refit, Finish>;

}  // namespace brakewright::practice
