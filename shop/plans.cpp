#include "shop/plans.hpp"

#include <algorithm>

#include "core/cutting/foresee.hpp"
#include "core/cutting/plan.hpp"
#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

/// Marks of both dials.
struct Marks {
  std::int64_t outboard = 0;
  std::int64_t inboard = 0;
};

/// What the dials have taken off already: finished passes, or the cut that sums them up.
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

/// Depth that is left to take: as the verdict counts, what is whole to a millionth of a mark needs no further one.
double left_um(double cut_um, std::int64_t marks, std::int64_t taken, double dial_um) {
  if (taken >= marks) return 0;
  return std::min(cut_um, static_cast<double>(marks) * dial_um) - static_cast<double>(taken) * dial_um;
}

const PartVerdict* verdict_on(const PlanContext& context) {
  if (!context.assessment.verdict) return nullptr;
  const auto& parts = context.file.parts;
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.id == context.part.id; });
  const auto place = static_cast<std::size_t>(found - parts.begin());
  const auto& verdicts = context.assessment.verdict->parts;
  return place < verdicts.size() ? &verdicts[place] : nullptr;
}

std::vector<std::string> missing_for(const PlanContext& context, const PartVerdict* verdict) {
  std::vector<std::string> missing;
  if (!context.part.outer_diameter) missing.push_back("outer_diameter");
  if (!context.part.seat.ring_inner) missing.push_back("seat.ring_inner");
  if (context.lathe == nullptr) {
    missing.push_back("lathe");
  } else {
    if (context.lathe->speeds_rpm.empty()) missing.push_back("lathe.speeds_rpm");
    if (context.lathe->feeds_mm_per_rev.empty()) missing.push_back("lathe.feeds_mm_per_rev");
  }
  if (context.insert == nullptr) missing.push_back("insert");
  if (verdict == nullptr) missing.push_back("verdict");
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
  for (const cutting::PassWarning& warning : seen.warnings) {
    advice.warnings.push_back({warning.code, warning.text, static_cast<std::int64_t>(warning.pass) + 1, warning.side});
  }
  advice.time_s = seen.time_s;
  advice.final_mm = thinnest(seen.final_mm);
}

/// Whatever both ways begin with; then `work`, whose refusal becomes part of the answer.
template <class F>
PlanAdvice advised(const PlanContext& context, F&& work) {
  PlanAdvice advice;
  advice.basis = context.bench.basis;
  const PartVerdict* verdict = verdict_on(context);
  advice.missing = missing_for(context, verdict);
  if (!advice.missing.empty()) return advice;
  put_start(context, *verdict, advice);
  try {
    work(advice);
  } catch (const InputError& refusal) {
    advice.refusal = PlanRefusal{refusal.code(), refusal.field(), refusal.what()};
  }
  return advice;
}

}  // namespace

PlanAdvice plan_passes(const PlanContext& context) {
  return advised(context, [&](PlanAdvice& advice) {
    std::vector<PlannedPass> passes;
    for (const cutting::Pass& pass : cutting::plan(plan_input(context, advice)).passes) {
      passes.push_back({pass.outboard_marks, pass.inboard_marks, pass.rpm, pass.feed_mm_per_rev});
    }
    put_foresight(context, passes, advice);
  });
}

PlanAdvice foresee_passes(const PlanContext& context, const std::vector<PlannedPass>& passes) {
  return advised(context, [&](PlanAdvice& advice) { put_foresight(context, passes, advice); });
}

std::vector<PlannedPass> settings_of(const std::vector<ForeseenPass>& passes) {
  std::vector<PlannedPass> settings;
  for (const ForeseenPass& pass : passes) {
    settings.push_back({pass.outboard_marks, pass.inboard_marks, pass.rpm, pass.feed_mm_per_rev});
  }
  return settings;
}

}  // namespace brakewright::shop
