#include "core/verdict/after_cut.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"
#include "core/thickness/reduced.hpp"
#include "core/verdict/check.hpp"
#include "core/verdict/decide.hpp"
#include "core/want.hpp"

namespace brakewright {
namespace {

constexpr double kSameAngleDeg = 1e-6;

ThicknessInput thickness_input(const AfterCutInput& input, bool after) {
  const auto value = [](const std::optional<LengthLimit>& limit) {
    return limit ? std::optional<double>(limit->value_mm) : std::nullopt;
  };
  ThicknessInput thickness{.readings = after ? input.after : input.before,
                           .micrometer = after ? input.micrometer_after : input.micrometer_before,
                           .part_temperature_c = after ? input.temperature_after_c : input.temperature_before_c,
                           .variation_limit_mm = std::nullopt,
                           .discard_mm = std::nullopt,
                           .machine_to_mm = std::nullopt,
                           .confidence = input.confidence,
                           .seed = input.seed,
                           .draws = input.draws};
  if (after) {
    thickness.variation_limit_mm = value(input.limits.variation);
    thickness.discard_mm = value(input.limits.discard);
    thickness.machine_to_mm = value(input.limits.machine_to);
  }
  return thickness;
}

/// Renames the fields of one list of readings to the caller's own.
InputError renamed(const InputError& error, const char* when) {
  std::string field = error.field();
  const std::string suffix = std::string("_") + when;
  if (field.rfind("readings", 0) == 0) {
    field = when + field.substr(8);
  } else if (field.rfind("micrometer", 0) == 0) {
    field = "micrometer" + suffix + field.substr(10);
  } else if (field == "part_temperature_c") {
    field = "temperature" + suffix + "_c";
  }
  return {error.code(), field, error.what()};
}

void check_all(const AfterCutInput& input) {
  check(input.limits);
  for (const bool after : {false, true}) {
    try {
      check(thickness_input(input, after));
    } catch (const InputError& error) {
      throw renamed(error, after ? "after" : "before");
    }
  }
  if (input.outboard_marks) want(*input.outboard_marks, 0, 10000, "outboard_marks", "from 0 to 10000 marks");
  if (input.inboard_marks) want(*input.inboard_marks, 0, 10000, "inboard_marks", "from 0 to 10000 marks");
  if (input.outboard_marks.has_value() != input.inboard_marks.has_value()) {
    throw InputError("missing", input.outboard_marks ? "inboard_marks" : "outboard_marks",
                     "what both dials took is needed, or neither: 0 for a side that was not cut");
  }
  want(input.dial_um_per_mark, 0.01, 1e5, "dial_um_per_mark", "from 0.01 to 100000 um for one mark");
  if (input.dial_inboard_um_per_mark) {
    want(*input.dial_inboard_um_per_mark, 0.01, 1e5, "dial_inboard_um_per_mark", "from 0.01 to 100000 um for one mark");
  }
  want(input.dial_repeatability_um, 0, 1000, "dial_repeatability_um", "from 0 to 1000 um");
  if (input.planned_final_mm) want(*input.planned_final_mm, 0.1, 1000, "planned_final_mm", "from 0.1 to 1000 mm");
  if (input.ra_um) want(*input.ra_um, 0.001, 1000, "ra_um", "from 0.001 to 1000 um");
  want(input.u_ra_relative, 0, 1, "u_ra_relative", "from 0 to 1");
}

const PointMean* same_spot(const Reduced& among, const PointMean& spot) {
  for (const PointMean& other : among.points) {
    const bool same_angle = std::abs(other.angle_deg - spot.angle_deg) < kSameAngleDeg;
    if (same_angle && std::abs(other.radius_mm - spot.radius_mm) < 0.02) return &other;
  }
  return nullptr;
}

std::vector<RemovedAtPoint> removed_at(const Reduced& before, const Reduced& after) {
  std::vector<RemovedAtPoint> removed;
  for (const PointMean& spot : after.points) {
    const PointMean* was = same_spot(before, spot);
    if (was == nullptr) {
      throw InputError(
          "sizes_differ", "after",
          "the same spots as before: nothing was read before at " + angle_text(spot.angle_deg) + " degrees");
    }
    removed.push_back({.angle_deg = spot.angle_deg,
                       .radius_mm = spot.radius_mm,
                       .before_mm = was->mean_mm,
                       .after_mm = spot.mean_mm,
                       .removed_um = (was->mean_mm - spot.mean_mm) * 1000});
  }
  if (before.points.size() != after.points.size()) {
    throw InputError("sizes_differ", "after", "the same spots as before: some of them are missing");
  }
  return removed;
}

/// What the readings of one map are off by, on their mean: scatter over all spots, and what they share.
double u_mean_um(const Reduced& reduced, const Micrometer& micrometer) {
  const double scatter = reduced.noise.repeatability_um * reduced.noise.repeatability_um;
  const double rounding = reduced.noise.resolution_um * reduced.noise.resolution_um / 12;
  const double spots = static_cast<double>(reduced.points.size());
  return std::hypot(std::sqrt((scatter + rounding) / spots), common_u_mm(micrometer, reduced.centre_mm) * 1000);
}

void put_removed(const AfterCutInput& input, const Reduced& before, const Reduced& after, AfterCut& answer) {
  answer.removed = removed_at(before, after);
  answer.removed_min_um = answer.removed_max_um = answer.removed.front().removed_um;
  for (const RemovedAtPoint& spot : answer.removed) {
    answer.removed_mean_um += spot.removed_um / static_cast<double>(answer.removed.size());
    answer.removed_min_um = std::min(answer.removed_min_um, spot.removed_um);
    answer.removed_max_um = std::max(answer.removed_max_um, spot.removed_um);
  }
  answer.u_removed_mean_um =
      std::hypot(u_mean_um(before, input.micrometer_before), u_mean_um(after, input.micrometer_after));
}

/// The plan: what the dials took bounds what any spot may have lost; the planned thickness says what should be left.
void put_plan(const AfterCutInput& input, const Reduced& after, AfterCut& answer) {
  if (input.outboard_marks) {
    answer.planned_um = *input.outboard_marks * input.dial_um_per_mark +
                        *input.inboard_marks * input.dial_inboard_um_per_mark.value_or(input.dial_um_per_mark);
  }
  const double u_dials = input.dial_repeatability_um * std::sqrt(2.0);
  if (input.planned_final_mm) {
    answer.difference_um = (*input.planned_final_mm - after.centre_mm) * 1000;
    const double u = std::hypot(u_dials, u_mean_um(after, input.micrometer_after));
    answer.agrees_with_plan = std::abs(*answer.difference_um) <= 2 * u;
  } else if (answer.planned_um) {
    answer.difference_um = answer.removed_mean_um - *answer.planned_um;
    answer.agrees_with_plan = *answer.difference_um <= 2 * std::hypot(u_dials, answer.u_removed_mean_um);
  }
}

Outcome outcome_of(Standing standing) {
  if (standing == Standing::within) return Outcome::pass;
  return standing == Standing::outside ? Outcome::fail : Outcome::cannot_tell;
}

std::string verb(Outcome outcome, const char* yes, const char* no) {
  if (outcome == Outcome::pass) return yes;
  return outcome == Outcome::fail ? no : "is too near to tell from";
}

AfterCheck thickness_check(const char* code, const char* words, const Thickness& thickness, const LengthLimit& limit,
                           double p, double confidence) {
  AfterCheck check{.code = code,
                   .value = thickness.min_mm,
                   .limit = limit.value_mm,
                   .p = p,
                   .outcome = outcome_of(standing_of(p, confidence)),
                   .text = {},
                   .source = limit.source};
  check.text = "The lowest reading after the cut, " + mm_text(thickness.min_mm) + " mm, " +
               verb(check.outcome, "is over", "is under") + " " + words + ", " + mm_text(limit.value_mm) +
               " mm (probability " + percent_text(p) + ").";
  return check;
}

AfterCheck variation_check(const Thickness& thickness, const LengthLimit& limit) {
  AfterCheck check{.code = "variation",
                   .value = thickness.variation_mm,
                   .limit = limit.value_mm,
                   .p = *thickness.p_variation_within,
                   .outcome = outcome_of(*thickness.variation_verdict),
                   .text = {},
                   .source = limit.source};
  check.text = "Highest less lowest reading after the cut is " + mm_text(thickness.variation_mm) +
               " mm; the part's own variation, " + mm_text(thickness.true_variation_mm.low95) + " to " +
               mm_text(thickness.true_variation_mm.high95) + " mm, " + verb(check.outcome, "is within", "is over") +
               " the limit of " + mm_text(limit.value_mm) + " mm (probability " + percent_text(check.p) + ").";
  return check;
}

AfterCheck finish_check(const AfterCutInput& input) {
  const double limit = input.limits.finish->value_um;
  const double u = input.u_ra_relative * *input.ra_um;
  const double p =
      judge_conformity(*input.ra_um, u, {.lower = std::nullopt, .upper = limit}, input.confidence).p_conform;
  AfterCheck check{.code = "finish",
                   .value = *input.ra_um,
                   .limit = limit,
                   .p = p,
                   .outcome = outcome_of(standing_of(p, input.confidence)),
                   .text = {},
                   .source = input.limits.finish->source};
  check.text = "Ra of " + mm_text(*input.ra_um) + " um " + verb(check.outcome, "is within", "is over") + " " +
               mm_text(limit) + " um (probability " + percent_text(p) + ").";
  return check;
}

void put_checks(const AfterCutInput& input, AfterCut& answer) {
  const Thickness& thickness = answer.thickness;
  if (input.limits.machine_to) {
    answer.checks.push_back(thickness_check("machine_to", "machine-to", thickness, *input.limits.machine_to,
                                            *thickness.p_min_above_machine_to, input.confidence));
  }
  if (input.limits.discard) {
    answer.checks.push_back(thickness_check("discard", "discard", thickness, *input.limits.discard,
                                            *thickness.p_min_above_discard, input.confidence));
  }
  if (input.limits.variation) answer.checks.push_back(variation_check(thickness, *input.limits.variation));
  if (input.limits.finish && input.ra_um) answer.checks.push_back(finish_check(input));
  const auto any = [&](Outcome outcome) {
    return std::any_of(answer.checks.begin(), answer.checks.end(),
                       [&](const AfterCheck& check) { return check.outcome == outcome; });
  };
  answer.outcome = any(Outcome::fail)                                   ? Outcome::fail
                   : answer.checks.empty() || any(Outcome::cannot_tell) ? Outcome::cannot_tell
                                                                        : Outcome::pass;
}

void put_advice(const AfterCutInput& input, AfterCut& answer) {
  answer.advice = answer.thickness.advice;
  const double u = 2 * answer.u_removed_mean_um;
  for (const RemovedAtPoint& spot : answer.removed) {
    if (spot.removed_um >= -u) continue;
    answer.advice.push_back({"thicker_after", "At " + angle_text(spot.angle_deg) + " degrees the part reads " +
                                                  um_text(-spot.removed_um) +
                                                  " um thicker after the cut than before: read that spot again."});
  }
  if (answer.agrees_with_plan == false) {
    const std::string what = input.planned_final_mm
                                 ? "The part is " + um_text(std::abs(*answer.difference_um)) + " um " +
                                       (*answer.difference_um > 0 ? "thinner" : "thicker") + " than planned"
                                 : "More is gone than both dials took, by " + um_text(*answer.difference_um) + " um";
    answer.advice.push_back(
        {"not_as_planned", what + ": check the dials' zero, the play of the slides and the readings."});
  }
  if (input.outboard_marks && (*input.outboard_marks > 0) != (*input.inboard_marks > 0)) {
    answer.advice.push_back({"one_side_only",
                             "Only one side was cut: the cheeks of the part are no longer alike, and a "
                             "one-sided cut bends thin parts."});
  }
  if (input.limits.finish && !input.ra_um) {
    answer.advice.push_back({"finish_not_read", "A limit for the finish is given, but no Ra was read."});
  }
}

}  // namespace

const char* name_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass:
      return "pass";
    case Outcome::fail:
      return "fail";
    case Outcome::cannot_tell:
      break;
  }
  return "cannot tell";
}

AfterCut check_after_cut(const AfterCutInput& input) {
  check_all(input);
  const ThicknessInput after_input = thickness_input(input, true);
  const Reduced before = reduce(thickness_input(input, false));
  const Reduced after = reduce(after_input);
  AfterCut answer;
  put_removed(input, before, after, answer);
  put_plan(input, after, answer);
  answer.thickness = reduce_thickness(after_input);
  put_checks(input, answer);
  put_advice(input, answer);
  return answer;
}

}  // namespace brakewright
