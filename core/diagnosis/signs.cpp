#include "core/diagnosis/signs.hpp"

#include <cmath>
#include <cstdio>

#include "core/want.hpp"

namespace brakewright::diagnosis {
namespace {

constexpr SignInfo yes_or_no(std::string_view name, std::string_view words, std::string_view how) {
  return {.name = name, .words = words, .how = how, .low = 0, .high = 1, .yes_no = true, .ends = {0.5}, .levels = 2};
}

constexpr std::array<SignInfo, kSigns> kAbout{{
    {.name = "bench_runout_before_um",
     .words = "Runout on the bench before the cut",
     .unit = "um",
     .how = "Indicator square to the face, one slow turn by hand, before any metal comes off.",
     .high = 5000,
     .ends = {20, 50, 90, 160},
     .levels = 5},
    {.name = "bench_runout_after_um",
     .words = "Runout on the bench after the cut, still mounted",
     .unit = "um",
     .how = "Leave the part on the arbor and turn it once by hand under the indicator.",
     .high = 5000,
     .ends = {5, 12, 30},
     .levels = 4},
    {.name = "car_runout_um",
     .words = "Runout on the car, once per turn",
     .unit = "um",
     .how = "All nuts on, torqued as the vehicle's instructions say; indicator on the face at the middle of the band, "
            "twelve points, and take the wave that comes once per turn.",
     .high = 5000,
     .ends = {15, 30, 50, 90},
     .levels = 5},
    yes_or_no("car_runout_follows_part", "Runout on the car goes with the part to another stud",
              "Mark the high spot, move the part on by one or two studs, read again: does the high spot go with the "
              "part or stay with the hub?"),
    {.name = "scratch_apart_deg",
     .words = "Angle on the part between two scratches, half a turn between",
     .unit = "deg",
     .how = "A light scratch, loosen, turn the part alone by half a turn on the arbor, tighten, scratch again: measure "
            "the angle between the middles. By the lathe's own instructions, hands away while it turns.",
     .high = 180,
     .ends = {45, 135},
     .levels = 3},
    {.name = "shoulder_runout_um",
     .words = "Runout of the bare shoulder or adapter",
     .unit = "um",
     .how = "Take the part off, wipe arbor and adapter, and read the bare shoulder with the indicator, one turn by "
            "hand.",
     .high = 5000,
     .ends = {4, 8, 16},
     .levels = 4},
    {.name = "rim_wander_um",
     .words = "Wander of the rim, in and out",
     .unit = "um",
     .how = "Indicator on the rim, pointing at the arbor, one turn by hand; or look at the rim against a fixed edge.",
     .high = 10000,
     .ends = {60, 150, 400},
     .levels = 4},
    {.name = "remount_difference_um",
     .words = "Difference of runout between two mountings",
     .unit = "um",
     .how = "Take the part off and put it on again in the same place; read the runout each time, three times at best.",
     .high = 5000,
     .size_only = true,
     .ends = {4, 10, 25},
     .levels = 4},
    {.name = "closing_error_um",
     .words = "Difference between first and last reading of a turn",
     .unit = "um",
     .how = "Come back to the first angle after the whole turn: the indicator should show what it showed at first.",
     .low = -5000,
     .high = 5000,
     .size_only = true,
     .ends = {2, 5, 12},
     .levels = 4},
    {.name = "variation_um",
     .words = "Thickness variation after the cut",
     .unit = "um",
     .how = "Micrometer that reads 0.001 mm, twelve points at one radius; highest less lowest.",
     .high = 5000,
     .ends = {5, 8, 13, 25},
     .levels = 5},
    {.name = "variation_1_um",
     .words = "Thickness wave once per turn, half its height",
     .unit = "um",
     .how = "Twelve thickness readings round one radius give it.",
     .high = 2500,
     .ends = {0.8, 1.6, 4},
     .levels = 4},
    {.name = "variation_2_um",
     .words = "Thickness wave twice per turn, half its height",
     .unit = "um",
     .how = "Twelve thickness readings round one radius give it.",
     .high = 2500,
     .ends = {0.8, 1.6, 4},
     .levels = 4},
    {.name = "variation_3_um",
     .words = "Thickness wave three times per turn, half its height",
     .unit = "um",
     .how = "Twelve thickness readings round one radius give it.",
     .high = 2500,
     .ends = {0.8, 1.6, 4},
     .levels = 4},
    {.name = "variation_4_um",
     .words = "Thickness wave four times per turn, half its height",
     .unit = "um",
     .how = "Twelve thickness readings round one radius give it.",
     .high = 2500,
     .ends = {0.8, 1.6, 4},
     .levels = 4},
    {.name = "taper_um",
     .words = "Taper, outer edge less inner",
     .unit = "um",
     .how = "Thickness near the outer and near the inner edge of the band, four angles each, away from any lip.",
     .low = -5000,
     .high = 5000,
     .ends = {-8, 6, 15, 40},
     .levels = 5},
    {.name = "thickness_step_um",
     .words = "Sudden step of thickness along the radius",
     .unit = "um",
     .how = "Point micrometer along one radius in small steps: look for a jump from one place to the next.",
     .high = 5000,
     .ends = {3.2, 7, 20},
     .levels = 4},
    {.name = "face_step_um",
     .words = "Sudden step of a face along the radius",
     .unit = "um",
     .how = "Draw an indicator along the radius, or lay a straight edge on the face: look for a sudden step or a ring "
            "where the tool dug.",
     .high = 5000,
     .ends = {3.2, 7, 20},
     .levels = 4},
    {.name = "both_faces_bump_um",
     .words = "Bump at the same angle on both faces",
     .unit = "um",
     .how = "Indicator round each face, or thickness at close points: look for a short rise at one angle on both "
            "sides.",
     .high = 5000,
     .ends = {2.5, 5, 10},
     .levels = 4},
    {.name = "ra_um",
     .words = "Roughness Ra",
     .unit = "um",
     .how = "Roughness gauge along the radius, or a comparison plate beside the face.",
     .high = 100,
     .ends = {0.9, 1.4, 2.2, 4},
     .levels = 5},
    {.name = "ra_over_kinematic",
     .words = "Roughness Ra over what feed and nose alone leave",
     .unit = "",
     .how = "Divide the measured Ra by feed x feed/(32 x nose radius), all in micrometres.",
     .high = 1000,
     .ends = {1.3, 2.5, 5, 10},
     .levels = 5},
    {.name = "spiral_height_um",
     .words = "Height of the regular spiral",
     .unit = "um",
     .how = "The roughness gauge's trace along the radius, highest less lowest of the regular grooves.",
     .high = 1000,
     .ends = {1.5, 4, 8},
     .levels = 4},
    yes_or_no("spiral_equals_feed", "Regular spiral whose pitch is the feed",
              "Lens on the face: count the grooves over ten millimetres of radius and compare with 10 divided by the "
              "feed."),
    {.name = "chatter_marks_per_turn",
     .words = "Marks to a turn (0: none found)",
     .unit = "",
     .how = "Slanting light or chalk on the face: count the marks over a tenth of the turn, times ten.",
     .high = 5000,
     .ends = {6, 100},
     .levels = 3},
    {.name = "chatter_height_um",
     .words = "Height of the marks round the face (0: none found)",
     .unit = "um",
     .how = "Roughness gauge drawn along the circle instead of the radius.",
     .high = 500,
     .ends = {0.4, 1.5, 5},
     .levels = 4},
    {.name = "cheek_difference_mm",
     .words = "Difference of the two cheeks, outboard less inboard",
     .unit = "mm",
     .how = "Depth from each face to the vent slot, at four angles; vented parts only.",
     .low = -30,
     .high = 30,
     .size_only = true,
     .ends = {0.12, 0.25, 0.5},
     .levels = 4},
    {.name = "warm_drift_um",
     .words = "Fall of thickness while the part stands for half an hour",
     .unit = "um",
     .how = "Read the same four points, let the part stand for half an hour, read them again.",
     .low = -1000,
     .high = 1000,
     .ends = {1.5, 4, 8},
     .levels = 4},
    {.name = "micrometer_offset_um",
     .words = "Micrometer's error on a known standard",
     .unit = "um",
     .how = "Wipe the anvils, measure a gauge block or setting standard, and note shown less true.",
     .low = -2000,
     .high = 2000,
     .size_only = true,
     .ends = {2, 5, 12},
     .levels = 4},
    {.name = "lip_um",
     .words = "Height of the outer rim over the band",
     .unit = "um",
     .how = "Straight edge or indicator from the band outward over the rim.",
     .low = -1000,
     .high = 5000,
     .ends = {15, 60, 200},
     .levels = 4},
    {.name = "dial_difference_um",
     .words = "Final thickness less what the dials' sum says",
     .unit = "um",
     .how = "First thickness less the outboard and the inboard depths is what should be left, but for the spring that "
            "this lathe usually has: compare.",
     .low = -5000,
     .high = 5000,
     .ends = {-20, -8, 8, 20},
     .levels = 5},
    yes_or_no("blue_spots_seen", "Blue or shiny spots that stayed after a pass",
              "Look at the face after a pass, in slanting light: spots that shine or are blue."),
    yes_or_no("torn_surface_seen", "Torn, dull surface", "Lens on the face, and on the tool's edge."),
    yes_or_no("rubbed_glaze_seen", "Glaze, rubbed instead of cut", "Slanting light on the face; lens on the edge."),
    yes_or_no("howl_heard", "Howl during the cut", "Ask who stood at the lathe, or play the recording."),
    yes_or_no("lip_seen", "Lip or rust left at the rim", "Look at the rim; a fingernail feels a lip when it stands."),
    yes_or_no("dirt_seen", "Chip, rust or burr between part and adapter",
              "Take the part off and look at both seats before wiping them."),
}};

}  // namespace

const SignInfo& about(Sign sign) { return kAbout[static_cast<std::size_t>(sign)]; }

void check(const Signs& signs) {
  for (std::size_t i = 0; i < kSigns; ++i) {
    if (!signs.values[i]) continue;
    const SignInfo& info = kAbout[i];
    char accepted[64];
    std::snprintf(accepted, sizeof accepted, info.yes_no ? "must be yes or no" : "must be from %g to %g", info.low,
                  info.high);
    want(*signs.values[i], info.low, info.high, info.name, accepted);
    if (info.yes_no) want(*signs.values[i] == 0 || *signs.values[i] == 1, info.name, accepted);
  }
}

int level_of(Sign sign, double value) {
  const SignInfo& info = about(sign);
  const double size = info.size_only ? std::abs(value) : value;
  int level = 0;
  while (level < info.levels - 1 && size >= info.ends[static_cast<std::size_t>(level)]) ++level;
  return level;
}

std::string said(Sign sign, double value) {
  const SignInfo& info = about(sign);
  if (info.yes_no) return std::string(info.words) + (value >= 0.5 ? ": yes" : ": no");
  char number[32];
  std::snprintf(number, sizeof number, "%.3g", value);
  return std::string(info.words) + ": " + number + (info.unit.empty() ? "" : " ") + std::string(info.unit);
}

}  // namespace brakewright::diagnosis
