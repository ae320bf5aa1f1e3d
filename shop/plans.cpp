#include "shop/plans.hpp"

#include <algorithm>
#include <cmath>

#include "core/cutting/foresee.hpp"
#include "core/cutting/plan.hpp"
#include "core/drum/bore_plan.hpp"
#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"

namespace brakewright::shop {

Marks taken_from(const JobFile& file, const Uuid& part_id) {
  Marks passes, cuts;
  for (const Pass& pass : file.passes) {
    if (pass.part_id != part_id || pass.outcome != PassOutcome::finished) continue;
    passes.outboard += pass.outboard_marks;
    passes.inboard += pass.inboard_marks;
  }
  for (const Cut& cut : file.cuts) {
    if (cut.part_id != part_id) continue;
    cuts.outboard += cut.outboard_marks;
    cuts.inboard += cut.inboard_marks;
  }
  return {std::max(passes.outboard, cuts.outboard), std::max(passes.inboard, cuts.inboard)};
}

namespace {

/// Depth that is left to take: as the verdict counts, what is whole to a millionth of a mark needs no further one.
double left_um(double cut_um, std::int64_t marks, std::int64_t taken, double dial_um) {
  if (taken >= marks) return 0;
  return std::min(cut_um, static_cast<double>(marks) * dial_um) - static_cast<double>(taken) * dial_um;
}

/// The verdict on the part that is planned, of discs or of drums.
template <class Verdicts>
auto verdict_on(const PlanContext& context, const std::optional<Verdicts>& verdict) {
  const auto& parts = context.file.parts;
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.id == context.part.id; });
  const auto place = static_cast<std::size_t>(found - parts.begin());
  const auto* found_verdict = verdict && place < verdict->parts.size() ? &verdict->parts[place] : nullptr;
  return found_verdict;
}

std::vector<std::string> missing_for(const PlanContext& context, bool judged) {
  std::vector<std::string> missing;
  if (is_drum(context.part.kind)) {
    if (!context.part.band_width) missing.push_back("band_width");
  } else {
    if (!context.part.outer_diameter) missing.push_back("outer_diameter");
    if (!context.part.seat.ring_inner) missing.push_back("seat.ring_inner");
  }
  if (context.lathe == nullptr) {
    missing.push_back("lathe");
  } else {
    if (context.lathe->speeds_rpm.empty()) missing.push_back("lathe.speeds_rpm");
    if (context.lathe->feeds_mm_per_rev.empty()) missing.push_back("lathe.feeds_mm_per_rev");
  }
  if (context.insert == nullptr) missing.push_back("insert");
  if (!judged) missing.push_back("verdict");
  return missing;
}

/// Fills in what the verdict says of the part as it is now, mounted.
void put_start(const PlanContext& context, const PartVerdict& verdict, PlanAdvice& advice) {
  const Cleanup& least = verdict.cleanup;
  const Marks taken = taken_from(context.file, context.part.id);
  const BenchFigures& bench = context.bench;
  const auto depth_mm = [&](std::int64_t outboard, std::int64_t inboard) {
    return (static_cast<double>(outboard) * bench.dial_um_per_mark +
            static_cast<double>(inboard) * bench.dial_inboard_um_per_mark) /
           1000;
  };
  advice.needed_outboard_um =
      left_um(least.outboard_cut_um, least.outboard_marks, taken.outboard, bench.dial_um_per_mark);
  advice.needed_inboard_um =
      left_um(least.inboard_cut_um, least.inboard_marks, taken.inboard, bench.dial_inboard_um_per_mark);
  advice.start_min_mm = verdict.thickness.min_mm;
  advice.u_start_min_um = verdict.thickness.u_min_mm * 1000;
  advice.touch_mm = least.final_whole_marks_mm + depth_mm(least.outboard_marks, least.inboard_marks) -
                    depth_mm(taken.outboard, taken.inboard);
  if (verdict.machine_to) advice.machine_to_mm = verdict.machine_to->value_mm;
}

cutting::PlanInput plan_input(const PlanContext& context, const PlanAdvice& advice) {
  const CuttingRules& rules = context.settings.cutting;
  cutting::PlanInput in;
  in.outer_radius_mm = context.part.outer_diameter->value.mm() / 2;
  in.inner_radius_mm = context.part.seat.ring_inner->value.mm() / 2;
  in.approach_mm = context.lathe->approach.mm();
  in.needed_outboard_um = *advice.needed_outboard_um;
  in.needed_inboard_um = *advice.needed_inboard_um;
  in.start_min_mm = *advice.touch_mm;
  in.machine_to_mm = advice.machine_to_mm;
  in.speeds_rpm = context.lathe->speeds_rpm;
  in.feeds_mm_per_rev = context.lathe->feeds_mm_per_rev;
  in.dial_um_per_mark = context.bench.dial_um_per_mark;
  in.dial_inboard_um_per_mark = context.bench.dial_inboard_um_per_mark;
  in.nose_radius_mm = context.insert->nose_radius.mm();
  in.max_speed_m_per_min = context.insert->max_speed_m_per_min;
  in.rough_max_um = rules.rough_max_um;
  in.finish_min_um = rules.finish_min_um;
  in.finish_max_um = rules.finish_max_um;
  in.ra_target_um = rules.ra_target_um;
  in.ra_factor = rules.ra_factor;
  return in;
}

cutting::ForeseeInput foresee_input(const PlanContext& context, const PlanAdvice& advice,
                                    const std::vector<PlannedPass>& passes) {
  const cutting::PlanInput plan = plan_input(context, advice);
  cutting::ForeseeInput in;
  in.outer_radius_mm = plan.outer_radius_mm;
  in.inner_radius_mm = plan.inner_radius_mm;
  in.approach_mm = plan.approach_mm;
  in.start_min_mm = plan.start_min_mm;
  in.u_start_min_um = *advice.u_start_min_um;
  in.machine_to_mm = plan.machine_to_mm;
  if (context.part.limits.discard) in.discard_mm = context.part.limits.discard->value.value.mm();
  in.dial_um_per_mark = plan.dial_um_per_mark;
  in.dial_inboard_um_per_mark = plan.dial_inboard_um_per_mark;
  in.dial_sd_um = context.bench.dial_sd_um;
  in.speeds_rpm = plan.speeds_rpm;
  in.feeds_mm_per_rev = plan.feeds_mm_per_rev;
  in.nose_radius_mm = plan.nose_radius_mm;
  in.max_speed_m_per_min = plan.max_speed_m_per_min;
  in.rough_max_um = plan.rough_max_um;
  in.finish_min_um = plan.finish_min_um;
  in.finish_max_um = plan.finish_max_um;
  in.ra_target_um = plan.ra_target_um;
  in.ra_factor = plan.ra_factor;
  in.confidence = context.settings.confidence;
  for (const PlannedPass& pass : passes) {
    in.passes.push_back({pass.outboard_marks, pass.inboard_marks, pass.rpm, pass.feed_mm_per_rev});
  }
  return in;
}

std::optional<double> force_n(const std::optional<cutting::SideForce>& force) {
  if (!force) return std::nullopt;
  return force->n;
}

void put_warnings(const std::vector<cutting::PassWarning>& warnings, PlanAdvice& advice) {
  for (const cutting::PassWarning& warning : warnings) {
    advice.warnings.push_back({warning.code, warning.text, static_cast<std::int64_t>(warning.pass) + 1, warning.side});
  }
}

void put_foresight(const PlanContext& context, const std::vector<PlannedPass>& passes, PlanAdvice& advice) {
  const cutting::Foresight seen = cutting::foresee(foresee_input(context, advice, passes));
  // Until a pass reaches it, the thinnest point stays what it was.
  const auto thinnest = [&](double touched_mm) { return std::min(touched_mm, *advice.start_min_mm); };
  for (std::size_t k = 0; k < passes.size(); ++k) {
    const cutting::ForeseenPass& pass = seen.passes[k];
    advice.passes.push_back({.outboard_marks = passes[k].outboard_marks,
                             .inboard_marks = passes[k].inboard_marks,
                             .rpm = passes[k].rpm,
                             .feed_mm_per_rev = passes[k].feed_mm_per_rev,
                             .time_s = pass.time_s,
                             .surface_speed_m_per_min = pass.surface_speed_m_per_min,
                             .ra_um = pass.ra_um,
                             .ra_low_um = pass.ra_low_um,
                             .ra_high_um = pass.ra_high_um,
                             .force_outboard_n = force_n(pass.outboard),
                             .force_inboard_n = force_n(pass.inboard),
                             .power_w = pass.power_w,
                             .thickness_after_mm = thinnest(pass.thickness_after_mm),
                             .u_thickness_after_um = pass.u_thickness_after_um,
                             .p_over_machine_to = pass.p_over_machine_to});
  }
  put_warnings(seen.warnings, advice);
  advice.time_s = seen.time_s;
  advice.final_mm = thinnest(seen.final_mm);
}

/// Where the dial begins to count in a drum whose verdict this is.
double touch_mm(const drum::DrumVerdict& drum) { return drum.final_mm - drum.marks_on_diameter_um / 1000; }

/// The size that both drums come to when each takes its least cut, or what it took already.
double size_of_pair(const PlanContext& context, const drum::Drums& drums) {
  double size_mm = 0;
  for (std::size_t k = 0; k < drums.parts.size() && k < context.file.parts.size(); ++k) {
    const std::int64_t taken = taken_from(context.file, context.file.parts[k].id).outboard;
    const auto marks = static_cast<double>(std::max(drums.parts[k].marks, taken));
    size_mm = std::max(size_mm, touch_mm(drums.parts[k]) + 2 * marks * context.bench.dial_um_per_mark / 1000);
  }
  return size_mm;
}

void put_start(const PlanContext& context, const drum::DrumVerdict& drum, bool one_size, PlanAdvice& advice) {
  const double dial_um = context.bench.dial_um_per_mark;
  const std::int64_t taken = taken_from(context.file, context.part.id).outboard;
  const double gone_um = static_cast<double>(taken) * dial_um;
  advice.start_max_mm = drum.max_mm;
  advice.u_start_min_um = drum.u_max_mm * 1000;
  advice.touch_mm = touch_mm(drum) + 2 * gone_um / 1000;
  if (drum.machine_to) advice.machine_to_mm = drum.machine_to->value_mm;
  advice.needed_outboard_um = left_um(drum.cut_on_radius_um, drum.marks, taken, dial_um);
  advice.needed_inboard_um = 0;
  const auto& drums = *context.assessment.drums;
  if (!one_size || drums.parts.size() != 2) return;
  const double pair_mm = size_of_pair(context, drums);
  if (advice.machine_to_mm && pair_mm > *advice.machine_to_mm) {
    advice.warnings.push_back(
        {.code = "pair_over_machine_to",
         .text = "The size that the other drum comes to, " + mm_text(pair_mm) +
                 " mm, is over this one's machine-to diameter: it is turned to its own least cut."});
    return;
  }
  advice.pair_mm = pair_mm;
  const double size_in_marks = (pair_mm - *advice.touch_mm) * 500 / dial_um;
  const bool rounds_over =
      advice.machine_to_mm && *advice.touch_mm + 2 * std::round(size_in_marks) * dial_um / 1000 > *advice.machine_to_mm;
  const double marks = rounds_over ? std::floor(size_in_marks) : std::round(size_in_marks);
  advice.needed_outboard_um = std::max(*advice.needed_outboard_um, marks * dial_um);
}

drum::BorePlanInput bore_input(const PlanContext& context, const PlanAdvice& advice) {
  const CuttingRules& rules = context.settings.cutting;
  drum::BorePlanInput in;  // with the depths of drum work
  in.diameter_mm = std::max(*advice.start_max_mm, *advice.touch_mm);
  in.first_touch_mm = *advice.touch_mm;
  in.width_mm = context.part.band_width->value.mm();
  in.approach_mm = context.lathe->approach.mm();
  in.needed_um = *advice.needed_outboard_um;
  in.machine_to_mm = advice.machine_to_mm;
  in.speeds_rpm = context.lathe->speeds_rpm;
  in.feeds_mm_per_rev = context.lathe->feeds_mm_per_rev;
  in.dial_um_per_mark = context.bench.dial_um_per_mark;
  in.nose_radius_mm = context.insert->nose_radius.mm();
  in.max_speed_m_per_min = context.insert->max_speed_m_per_min;
  in.rough_max_um = std::min(in.rough_max_um, rules.rough_max_um);
  in.ra_target_um = rules.ra_target_um;
  in.ra_factor = rules.ra_factor;
  return in;
}

void put_bore_foresight(const PlanContext& context, const std::vector<PlannedPass>& passes, PlanAdvice& advice) {
  drum::BoreOutlook outlook{.u_diameter_um = *advice.u_start_min_um, .discard_mm = {}};
  if (context.part.limits.discard) outlook.discard_mm = context.part.limits.discard->value.value.mm();
  outlook.dial_sd_um = context.bench.dial_sd_um;
  outlook.confidence = context.settings.confidence;
  for (const PlannedPass& pass : passes) {
    outlook.passes.push_back({pass.outboard_marks, pass.rpm, pass.feed_mm_per_rev});
  }
  const drum::BoreForesight seen = drum::foresee_bore(bore_input(context, advice), outlook);
  for (std::size_t k = 0; k < passes.size(); ++k) {
    const drum::ForeseenBorePass& pass = seen.passes[k];
    advice.passes.push_back({.outboard_marks = passes[k].outboard_marks,
                             .rpm = passes[k].rpm,
                             .feed_mm_per_rev = passes[k].feed_mm_per_rev,
                             .time_s = pass.time_s,
                             .surface_speed_m_per_min = pass.surface_speed_m_per_min,
                             .ra_um = pass.ra_um,
                             .ra_low_um = pass.ra_low_um,
                             .ra_high_um = pass.ra_high_um,
                             .force_outboard_n = force_n(pass.force),
                             .power_w = pass.power_w,
                             .p_over_machine_to = pass.p_within_machine_to,
                             .depth_on_radius_um = pass.depth_on_radius_um,
                             .change_on_diameter_um = pass.change_on_diameter_um,
                             .diameter_after_mm = pass.diameter_after_mm,
                             .u_diameter_after_um = pass.u_diameter_after_um});
  }
  put_warnings(seen.warnings, advice);
  advice.time_s = seen.time_s;
  advice.final_mm = seen.final_mm;
}

void put_any_foresight(const PlanContext& context, const std::vector<PlannedPass>& passes, PlanAdvice& advice) {
  is_drum(context.part.kind) ? put_bore_foresight(context, passes, advice) : put_foresight(context, passes, advice);
}

std::vector<PlannedPass> soonest(const PlanContext& context, const PlanAdvice& advice) {
  std::vector<PlannedPass> passes;
  if (is_drum(context.part.kind)) {
    for (const drum::BorePass& pass : drum::plan_bore(bore_input(context, advice)).passes) {
      passes.push_back({pass.marks, 0, pass.rpm, pass.feed_mm_per_rev});
    }
    return passes;
  }
  for (const cutting::Pass& pass : cutting::plan(plan_input(context, advice)).passes) {
    passes.push_back({pass.outboard_marks, pass.inboard_marks, pass.rpm, pass.feed_mm_per_rev});
  }
  return passes;
}

/// core/drum calls its own input `plan`.
std::string own_field(const std::string& field) { return field.starts_with("plan.") ? field.substr(5) : field; }

/// Whatever both ways begin with; then `work`, whose refusal becomes part of the answer.
template <class F>
PlanAdvice advised(const PlanContext& context, bool one_size, F&& work) {
  PlanAdvice advice;
  advice.basis = context.bench.basis;
  const PartVerdict* disc = verdict_on(context, context.assessment.verdict);
  const drum::DrumVerdict* drum = verdict_on(context, context.assessment.drums);
  advice.missing = missing_for(context, disc != nullptr || drum != nullptr);
  if (!advice.missing.empty()) return advice;
  drum != nullptr ? put_start(context, *drum, one_size, advice) : put_start(context, *disc, advice);
  try {
    work(advice);
  } catch (const InputError& refusal) {
    advice.refusal = PlanRefusal{refusal.code(), own_field(refusal.field()), refusal.what()};
  }
  return advice;
}

}  // namespace

PlanAdvice plan_passes(const PlanContext& context, bool one_size) {
  return advised(context, one_size,
                 [&](PlanAdvice& advice) { put_any_foresight(context, soonest(context, advice), advice); });
}

PlanAdvice foresee_passes(const PlanContext& context, const std::vector<PlannedPass>& passes) {
  return advised(context, true, [&](PlanAdvice& advice) { put_any_foresight(context, passes, advice); });
}

std::vector<PlannedPass> settings_of(const std::vector<ForeseenPass>& passes) {
  std::vector<PlannedPass> settings;
  for (const ForeseenPass& pass : passes) {
    settings.push_back({pass.outboard_marks, pass.inboard_marks, pass.rpm, pass.feed_mm_per_rev});
  }
  return settings;
}

}  // namespace brakewright::shop
