#include "core/drum/cut_check.hpp"

#include <algorithm>
#include <cmath>

#include "core/drum/mirror.hpp"
#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"
#include "core/verdict/decide.hpp"
#include "core/verdict/drum_study.hpp"

namespace brakewright::drum {
namespace {

/// Runs `work` on one stage's drum and puts its name before a refusal.
template <class F>
auto at_stage(const char* stage, F&& work) {
  try {
    return work();
  } catch (const InputError& refusal) {
    throw refusal.within(stage);
  }
}

std::optional<double> value_of(const std::optional<LengthLimit>& limit) {
  return limit ? std::optional(limit->value_mm) : std::nullopt;
}

ThicknessInput thickness_input(const PartReadings& part, const Draws& draws) {
  return {.readings = part.readings,
          .micrometer = part.micrometer,
          .part_temperature_c = 20,
          .variation_limit_mm = value_of(part.limits.variation),
          .discard_mm = value_of(part.limits.discard),
          .machine_to_mm = value_of(part.limits.machine_to),
          .confidence = draws.confidence,
          .seed = draws.seed,
          .draws = draws.count};
}

Figures figures_of(const Thickness& mirrored, const PartReadings& part, double confidence) {
  Figures figures;
  static_cast<Shape&>(figures) = shape_of(mirrored, part.mirror_mm);
  for (const PointMean& point : mirrored.points) {
    figures.points.push_back({.depth_mm = point.radius_mm - kDepthOffset_mm,
                              .angle_deg = point.angle_deg / 2,
                              .mean_mm = part.mirror_mm - point.mean_mm,
                              .count = point.count});
  }
  figures.p_under_discard = mirrored.p_min_above_discard;
  figures.p_within_machine_to = mirrored.p_min_above_machine_to;
  figures.p_out_of_round_within = mirrored.p_variation_within;
  figures.p_taper_within = taper_of(mirrored, part, confidence).p_within;
  return figures;
}

Outcome outcome_of(Standing standing) {
  if (standing == Standing::within) return Outcome::pass;
  return standing == Standing::outside ? Outcome::fail : Outcome::cannot_tell;
}

std::string verb(Outcome outcome) {
  if (outcome == Outcome::pass) return "is within";
  return outcome == Outcome::fail ? "is over" : "is too near to tell from";
}

std::string ending(const AfterCheck& check) {
  return " " + mm_text(check.limit) + " mm (probability " + percent_text(check.p) + ").";
}

/// The check of a rotor's thickness in the words of a diameter.
AfterCheck size_check(AfterCheck check, const Figures& after, double mirror_mm) {
  check.value = after.max_mm;
  check.limit = mirror_mm - check.limit;
  check.text = "The largest diameter after the cut, " + mm_text(after.max_mm) + " mm at " +
               angle_text(after.max_angle_deg) + " degrees, " +
               (check.outcome == Outcome::pass   ? "is under"
                : check.outcome == Outcome::fail ? "is over"
                                                 : "is too near to tell from") +
               (check.code == "discard" ? " discard," : " machine-to,") + ending(check);
  return check;
}

AfterCheck round_check(AfterCheck check, const Figures& after) {
  check.code = "out_of_round";
  check.text = "Largest less least diameter at one depth is " + mm_text(check.value) +
               " mm after the cut; the drum's " + "own, " + mm_text(after.true_out_of_round_mm.low95) + " to " +
               mm_text(after.true_out_of_round_mm.high95) + " mm, " + verb(check.outcome) + " the limit of" +
               ending(check);
  return check;
}

AfterCheck taper_check(const Taper& taper, const LengthLimit& limit, double confidence) {
  AfterCheck check{.code = "taper",
                   .value = taper.mm,
                   .limit = limit.value_mm,
                   .p = *taper.p_within,
                   .outcome = outcome_of(standing_of(*taper.p_within, confidence)),
                   .text = {},
                   .source = limit.source};
  check.text = "The mean diameters at its depths differ by " + mm_text(taper.mm) + " mm after the cut; that " +
               verb(check.outcome) + " the limit of" + ending(check);
  return check;
}

AfterCutInput mirrored_input(const CutCheckInput& input, const PartReadings& before, const PartReadings& after) {
  AfterCutInput cut;
  cut.before = before.readings;
  cut.after = after.readings;
  cut.micrometer_before = before.micrometer;
  cut.micrometer_after = after.micrometer;
  // A mark goes on both ends of the diameter at once.
  cut.outboard_marks = cut.inboard_marks = input.marks;
  cut.dial_um_per_mark = input.dial_um_per_mark;
  cut.dial_repeatability_um = input.dial_repeatability_um * std::sqrt(2.0);
  if (input.planned_final_mm) cut.planned_final_mm = after.mirror_mm - *input.planned_final_mm;
  cut.ra_um = input.ra_um;
  cut.u_ra_relative = input.u_ra_relative;
  cut.limits = after.limits;
  cut.confidence = input.draws.confidence;
  cut.seed = input.draws.seed;
  cut.draws = input.draws.count;
  return cut;
}

/// A refusal of the mirrored check in the caller's own names.
InputError renamed(const InputError& refusal) {
  std::string field = in_drum_words(refusal).field();
  const auto starts = [&](const char* with) { return field.rfind(with, 0) == 0; };
  if (starts("before[")) field = "before.readings" + field.substr(6);
  if (starts("after[") || field == "after") field = "after.readings" + field.substr(5);
  if (starts("micrometer_before")) field = "before.gauge" + field.substr(17);
  if (starts("micrometer_after")) field = "after.gauge" + field.substr(16);
  if (starts("limits")) field = "after." + field;
  if (field == "outboard_marks" || field == "inboard_marks") field = "marks";
  if (refusal.code() == "sizes_differ") {
    return {refusal.code(), field, "the same depths and angles as before: a diameter was read at only one stage"};
  }
  return {refusal.code(), field, refusal.what()};
}

void put_taken(const AfterCut& mirrored, double mirror_mm, CutCheck& check) {
  for (const RemovedAtPoint& spot : mirrored.removed) {
    check.taken.push_back({.depth_mm = spot.radius_mm - kDepthOffset_mm,
                           .angle_deg = spot.angle_deg / 2,
                           .before_mm = mirror_mm - spot.before_mm,
                           .after_mm = mirror_mm - spot.after_mm,
                           .taken_um = spot.removed_um});
  }
  check.taken_mean_um = mirrored.removed_mean_um;
  check.taken_min_um = mirrored.removed_min_um;
  check.taken_max_um = mirrored.removed_max_um;
  check.u_taken_mean_um = mirrored.u_removed_mean_um;
  check.planned_um = mirrored.planned_um;
  if (mirrored.planned_um) check.planned_on_radius_um = *mirrored.planned_um / 2;
  check.difference_um = mirrored.difference_um;
  check.agrees_with_plan = mirrored.agrees_with_plan;
}

void put_checks(const CutCheckInput& input, const AfterCut& mirrored, const PartReadings& after, CutCheck& check) {
  for (const AfterCheck& one : mirrored.checks) {
    if (one.code == "variation") {
      check.checks.push_back(round_check(one, check.after));
    } else if (one.code == "finish") {
      check.checks.push_back(one);
    } else {
      check.checks.push_back(size_check(one, check.after, after.mirror_mm));
    }
  }
  const Taper taper = taper_of(mirrored.thickness, after, input.draws.confidence);
  check.outcome = mirrored.outcome;
  if (!taper.p_within) return;
  const AfterCheck along = taper_check(taper, *after.limits.taper, input.draws.confidence);
  const bool alone = check.checks.empty();
  check.checks.push_back(along);
  if (alone || along.outcome == Outcome::fail || (along.outcome != Outcome::pass && check.outcome == Outcome::pass)) {
    check.outcome = along.outcome;
  }
}

void put_advice(const CutCheckInput& input, CutCheck& check) {
  const double u = 2 * check.u_taken_mean_um;
  for (const TakenAtSpot& spot : check.taken) {
    if (spot.taken_um >= -u) continue;
    check.advice.push_back({"smaller_after", "At " + angle_text(spot.angle_deg) + " degrees, " +
                                                 mm_text(spot.depth_mm) + " mm in, the drum reads " +
                                                 um_text(-spot.taken_um) +
                                                 " um smaller after the cut than before: read that diameter again."});
  }
  if (check.agrees_with_plan == false) {
    const std::string what =
        input.planned_final_mm
            ? "The drum is " + um_text(std::abs(*check.difference_um)) + " um " +
                  (*check.difference_um > 0 ? "larger" : "smaller") + " than planned"
            : "The diameter grew by " + um_text(*check.difference_um) + " um more than twice what the dial took";
    check.advice.push_back({"not_as_planned", what + ": check the dial's zero, the play of the slide and the readings. "
                                                     "A mark goes on the radius and counts twice on the diameter."});
  }
  if (input.after.limits.finish && !input.ra_um) {
    check.advice.push_back({"finish_not_read", "A limit for the finish is given, but no Ra was read."});
  }
  check.advice.push_back({"two_point_gauge",
                          "A gauge across the diameter does not see whether the drum was turned off centre: an "
                          "indicator inside it, in its place on the axle, does."});
}

}  // namespace

Figures reduce_diameters(const Drum& drum, const Draws& draws) {
  const PartReadings part = mirrored(drum, mirror_for(drum));
  try {
    return figures_of(reduce_thickness(thickness_input(part, draws)), part, draws.confidence);
  } catch (const InputError& refusal) {
    std::string field = in_drum_words(refusal).field();
    if (field.rfind("micrometer", 0) == 0) field = "gauge" + field.substr(10);
    throw InputError(refusal.code(), field, refusal.what());
  }
}

CutCheck check_drum_cut(const CutCheckInput& input) {
  if (input.planned_final_mm && !(*input.planned_final_mm >= 50 && *input.planned_final_mm <= 1500)) {
    throw InputError("out_of_range", "planned_final_mm", "a diameter from 50 to 1500 mm");
  }
  const double mirror_mm =
      std::max({at_stage("before", [&] { return mirror_for(input.before); }),
                at_stage("after", [&] { return mirror_for(input.after); }), input.planned_final_mm.value_or(0) + 1});
  const PartReadings before = at_stage("before", [&] { return mirrored(input.before, mirror_mm); });
  const PartReadings after = at_stage("after", [&] { return mirrored(input.after, mirror_mm); });
  CutCheck check;
  AfterCut found;
  try {
    found = check_after_cut(mirrored_input(input, before, after));
  } catch (const InputError& refusal) {
    throw renamed(refusal);
  }
  put_taken(found, mirror_mm, check);
  check.after = figures_of(found.thickness, after, input.draws.confidence);
  put_checks(input, found, after, check);
  put_advice(input, check);
  return check;
}

}  // namespace brakewright::drum
