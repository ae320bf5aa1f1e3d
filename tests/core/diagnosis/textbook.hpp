#pragma once

#include <vector>

#include "core/diagnosis/causes.hpp"
#include "core/diagnosis/signs.hpp"

/// Signs as the trade's table of faults and signatures names them, each line beside the signs that stand for it. The
/// numbers are ours: of a size that the line speaks of where it names one.
namespace brakewright::diagnosis {

struct Textbook {
  const char* line;
  Cause cause;
  std::vector<std::pair<Sign, double>> found;
};

inline Signs signs_of(const Textbook& book) {
  Signs signs;
  for (const auto& [sign, value] : book.found) signs[sign] = value;
  return signs;
}

inline const std::vector<Textbook>& textbooks() {
  using practice::Fault;
  static const std::vector<Textbook> kBooks{
      // F01: thickness variation small after the cut, runout once per turn on the car, the high spot follows the rotor
      // to another stud; cut looked perfect on the bench; chip, rust or burr on the mounting face; two-scratch test.
      {"F01",
       Fault::dirty_seat,
       {{Sign::variation, 3},
        {Sign::bench_runout_after, 3},
        {Sign::car_runout, 80},
        {Sign::car_runout_follows_part, 1},
        {Sign::shoulder_runout, 1},
        {Sign::remount_difference, 1},
        {Sign::dirt_seen, 1}}},
      // F02: runout before the cut, second scratch lands about 180 degrees from the first; indicate the arbor bare.
      {"F02",
       Fault::bent_arbor,
       {{Sign::bench_runout_before, 120},
        {Sign::scratch_apart, 175},
        {Sign::shoulder_runout, 25},
        {Sign::bench_runout_after, 3}}},
      // F05: the face's mean height jumps during the cut; sudden step in thickness.
      {"F05", Fault::loose_nut, {{Sign::face_step, 60}, {Sign::thickness_step, 25}, {Sign::bench_runout_after, 25}}},
      // F06: radial wander with the face true.
      {"F06", Fault::wrong_cone, {{Sign::rim_wander, 700}, {Sign::bench_runout_after, 3}, {Sign::face_step, 1}}},
      // F07: runout changes each time it is mounted; repeat readings disagree by more than the gauge.
      {"F07",
       Fault::pitted_races,
       {{Sign::remount_difference, 45}, {Sign::shoulder_runout, 1}, {Sign::face_step, 1}, {Sign::dirt_seen, 0}}},
      // F08: short-wave marks, 20 to 100 per turn; roughness high; thickness range small; howl.
      {"F08",
       Fault::no_band,
       {{Sign::chatter_marks, 70}, {Sign::chatter_height, 4}, {Sign::howl, 1}, {Sign::variation, 4}}},
      // F09: thickness changes steadily from outer to inner edge, the same on both sides.
      {"F09",
       Fault::taper,
       {{Sign::taper, 50}, {Sign::lip, 0}, {Sign::lip_seen, 0}, {Sign::face_step, 2}, {Sign::rubbed_glaze, 0}}},
      // F10: regular radial pitch equal to the feed per turn; feed too coarse on the last pass.
      {"F10",
       Fault::coarse_feed,
       {{Sign::spiral_equals_feed, 1}, {Sign::spiral_height, 15}, {Sign::ra, 4}, {Sign::ra_over_kinematic, 1.15}}},
      // F11: Ra high although the feed was fine; torn surface, glazing; compare Ra with f^2/(32 r).
      {"F11",
       Fault::worn_edge,
       {{Sign::ra, 4}, {Sign::ra_over_kinematic, 15}, {Sign::torn_surface, 1}, {Sign::rubbed_glaze, 1}}},
      // F12: the two cheeks unequal; measure outer face to vent slot each side.
      {"F12", Fault::uneven_cheeks, {{Sign::cheek_difference, 0.8}, {Sign::variation, 4}, {Sign::taper, 1}}},
      // F15: thickness changes by 0.01 to 0.02 mm while cooling down.
      {"F15", Fault::warm_part, {{Sign::warm_drift, 10}, {Sign::variation, 4}, {Sign::micrometer_offset, 0.5}}},
      // F16: local bumps at fixed angles on both faces; blue spots that stay after the first pass.
      {"F16", Fault::hard_spots, {{Sign::both_faces_bump, 12}, {Sign::blue_spots, 1}, {Sign::rubbed_glaze, 0}}},
      // F17: outer ring much thicker than the swept band, step at the rim.
      {"F17", Fault::lip, {{Sign::lip, 300}, {Sign::lip_seen, 1}}},
      // F19: constant offset at all points; check on a gauge block or setting standard.
      {"F19", Fault::micrometer_zero, {{Sign::micrometer_offset, 20}, {Sign::warm_drift, 0}}},
  };
  return kBooks;
}

}  // namespace brakewright::diagnosis
