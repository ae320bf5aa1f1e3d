#include "shop/progress.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "shop/find.hpp"
#include "shop/places.hpp"
#include "shop/states.hpp"

namespace brakewright::shop {
namespace {

bool is_rejected(const JobFile& file, const Uuid& part_id) {
  return std::any_of(file.findings.begin(), file.findings.end(), [&](const Finding& finding) {
    return finding.part_id == part_id && !finding.withdrawn_at && finding.judgement == Judgement::reject;
  });
}

bool was_looked_at(const JobFile& file, const Uuid& part_id) {
  return std::any_of(file.findings.begin(), file.findings.end(),
                     [&](const Finding& finding) { return finding.part_id == part_id && !finding.withdrawn_at; });
}

bool was_cut(const JobFile& file, const Uuid& part_id) {
  return std::any_of(file.cuts.begin(), file.cuts.end(), [&](const Cut& cut) { return cut.part_id == part_id; });
}

bool is_measured(const JobFile& file, const Uuid& part_id, Stage stage) {
  const Progress progress = progress_of(file, part_id, stage);
  const std::int64_t wanted = progress.thickness_wanted + progress.diameter_wanted;
  return wanted > 0 && progress.thickness_done + progress.diameter_done >= wanted;
}

bool is_proven(const JobFile& file, const Uuid& part_id) {
  const MountProof* proof = proof_in_force(file, part_id);
  return proof != nullptr && proof->goes_on;
}

bool is_planned(const JobFile& file, const Uuid& part_id) {
  return std::any_of(file.cut_plans.begin(), file.cut_plans.end(),
                     [&](const CutPlan& plan) { return plan.part_id == part_id; });
}

/// What the part needs that is furthest on of those which are not cut yet; nothing when all are.
std::optional<WaitsFor> before_the_cut(const JobFile& file, const BenchReady& bench) {
  std::optional<WaitsFor> furthest;
  for (const Part& part : file.parts) {
    if (was_cut(file, part.id)) continue;
    WaitsFor next = WaitsFor::cut;
    if (bench.passes && !is_planned(file, part.id)) next = WaitsFor::plan;
    if (bench.stacks && !is_proven(file, part.id)) next = WaitsFor::mount;
    furthest = std::max(furthest.value_or(next), next);
  }
  return furthest;
}

/// Whether a step of finishing is ticked, and was not unticked since.
bool is_ticked(const JobFile& file, const Uuid& part_id, const char* step) {
  bool ticked = false;
  for (const BenchStep& taken : file.bench_steps) {
    if (taken.part_id != part_id || taken.phase != BenchPhase::finish || taken.step != step) continue;
    if (taken.event == StepEvent::done) ticked = true;
    if (taken.event == StepEvent::undone) ticked = false;
  }
  return ticked;
}

bool is_finished(const JobFile& file, const Uuid& part_id) {
  const bool guided =
      std::any_of(file.passes.begin(), file.passes.end(), [&](const Pass& pass) { return pass.part_id == part_id; });
  return !guided || (is_ticked(file, part_id, "washed") && is_ticked(file, part_id, "cloth_white"));
}

bool was_read_on_car(const JobFile& file, const Uuid& part_id) {
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const Reading& reading = file.readings[k];
    if (states[k] == ReadingState::current && reading.part_id == part_id && is_on_car(reading.stage)) return true;
  }
  return false;
}

/// A disc that was read on the car goes back on it, unless it was ruled out. A drum is closed in there: how it sits
/// cannot be read, and no position is better than another.
WaitsFor back_on_the_car(const JobFile& file) {
  for (const Part& part : file.parts) {
    if (is_drum(part.kind) || is_rejected(file, part.id)) continue;
    if (was_read_on_car(file, part.id) && refit_in_force(file, part.id) == nullptr) return WaitsFor::refit;
  }
  return WaitsFor::seal;
}

WaitsFor after_deciding(const JobFile& file, const BenchReady& bench) {
  if (file.decisions.back().action == Action::replace) return WaitsFor::seal;
  if (file.decisions.back().action == Action::leave) return back_on_the_car(file);
  if (const auto needed = before_the_cut(file, bench)) return *needed;
  for (const Part& part : file.parts) {
    if (!is_finished(file, part.id)) return WaitsFor::finish;
  }
  for (const Part& part : file.parts) {
    if (!is_measured(file, part.id, Stage::after)) return WaitsFor::readings_after;
  }
  return back_on_the_car(file);
}

}  // namespace

bool is_on_car(Stage stage) { return stage == Stage::on_car || stage == Stage::refit; }

std::optional<MeasuringPlan> plan_of(const JobFile& file, const Uuid& part_id, Stage stage) {
  std::optional<MeasuringPlan> like;
  for (const MeasuringPlan& plan : file.plans) {
    if (plan.part_id != part_id) continue;
    if (plan.stage == stage) return plan;
    const bool nearer = stage == Stage::refit && plan.stage == Stage::on_car;
    if (nearer || (plan.stage == Stage::before && !like)) like = plan;
  }
  if (like) {
    like->stage = stage;
    like->version = 1;
    like->part_temperature_c.reset();
    if (is_on_car(stage)) {
      like->circles_from_edge.resize(1);
      like->runout_place = RunoutPlace::on_car;
    }
  }
  return like;
}

Progress progress_of(const JobFile& file, const Uuid& part_id, Stage stage) {
  const Part* part = find(file.parts, part_id);
  const auto kind = part != nullptr ? part->kind : std::nullopt;
  const Quantity size = size_of(kind);
  std::set<std::pair<std::int64_t, std::int64_t>> spots;
  std::set<std::int64_t> points;
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const Reading& reading = file.readings[k];
    if (states[k] != ReadingState::current || reading.part_id != part_id || reading.stage != stage) continue;
    if (reading.quantity == size) spots.emplace(reading.circle, reading.point);
    if (reading.quantity == Quantity::runout_outboard) points.insert(reading.point);
  }
  Progress progress;
  (is_drum(kind) ? progress.diameter_done : progress.thickness_done) = static_cast<std::int64_t>(spots.size());
  progress.runout_done = static_cast<std::int64_t>(points.size());
  if (const auto plan = plan_of(file, part_id, stage)) {
    (is_drum(kind) ? progress.diameter_wanted : progress.thickness_wanted) =
        plan->points * static_cast<std::int64_t>(plan->circles_from_edge.size());
    progress.runout_wanted = spread_of(Quantity::runout_outboard, *plan, kind).points;
  }
  return progress;
}

const Refit* refit_in_force(const JobFile& file, const Uuid& part_id) {
  std::optional<UtcTime> cut_at;
  for (const Cut& cut : file.cuts) {
    if (cut.part_id == part_id) cut_at = std::max(cut_at.value_or(cut.at), cut.at);
  }
  const Refit* last = nullptr;
  for (const Refit& refit : file.refits) {
    if (refit.part_id == part_id && (!cut_at || refit.at >= *cut_at)) last = &refit;
  }
  return last;
}

BenchReady ready_with(const Lathe* lathe, bool pegboard_is_empty) {
  if (lathe == nullptr) return {};
  return {.stacks = lathe->arbor_diameter && lathe->thread_start && lathe->tip && !pegboard_is_empty,
          .passes = !lathe->speeds_rpm.empty() && !lathe->feeds_mm_per_rev.empty()};
}

const MountProof* proof_in_force(const JobFile& file, const Uuid& part_id) {
  std::optional<UtcTime> mounted_at;
  for (const Mount& mount : file.mounts) {
    if (mount.part_id == part_id) mounted_at = std::max(mounted_at.value_or(mount.at), mount.at);
  }
  const MountProof* last = nullptr;
  for (const MountProof& proof : file.mount_proofs) {
    if (proof.part_id == part_id && (!mounted_at || proof.at >= *mounted_at)) last = &proof;
  }
  return last;
}

WaitsFor waits_for(const JobFile& file, const BenchReady& bench) {
  if (file.job.state == JobState::sealed) return WaitsFor::nothing;
  if (!file.decisions.empty() && file.decisions.back().action != Action::measure_again) {
    return after_deciding(file, bench);
  }
  for (const Part& part : file.parts) {
    if (!part.limits.discard && !part.limits.machine_to && !is_rejected(file, part.id)) return WaitsFor::limits;
  }
  for (const Part& part : file.parts) {
    if (!was_looked_at(file, part.id)) return WaitsFor::findings;
  }
  for (const Part& part : file.parts) {
    if (!is_rejected(file, part.id) && !is_measured(file, part.id, Stage::before)) return WaitsFor::readings;
  }
  return WaitsFor::decision;
}

}  // namespace brakewright::shop
