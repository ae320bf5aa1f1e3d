#include <algorithm>
#include <cmath>

#include "core/bench_sim/cut/finish.hpp"
#include "core/circle/circle.hpp"
#include "core/cutting/plan.hpp"
#include "core/input_error.hpp"
#include "core/practice/marking.hpp"
#include "core/refit/refit.hpp"

namespace brakewright::practice {
namespace {

constexpr double kMarginOfCut_um = 5;
constexpr double kTouched_mm3 = 60;  ///< what touching off takes at most

/// The faces over the worn band, on a true mount.
Cleanup least_of(const BenchState& state, const bench_sim::SimPart& before) {
  constexpr int kEvery = 5;
  const auto& grid = before.grid;
  const auto& shape = state.truth.make.shape;
  CleanupInput input;
  for (int r = 0; r < grid.rings; ++r) {
    if (grid.radius_mm(r) < shape.band_inner_radius_mm || grid.radius_mm(r) > shape.band_outer_radius_mm) continue;
    for (int a = 0; a < grid.angles; a += kEvery) {
      input.thickness_mm.push_back(bench_sim::thickness_mm(before, r, a));
      input.outboard_um.push_back(static_cast<double>(before.outboard.height_um[grid.at(r, a)]));
      input.angles_deg.push_back(grid.angle_deg(a));
    }
  }
  input.margin_um = kMarginOfCut_um;
  input.dial_um_per_mark = state.bench.lathe.dial_um_per_mark;
  input.machine_to_mm = state.truth.make.limits.machine_to_mm;
  return least_cleanup(input);
}

/// An expert's passes; nothing where the rules leave none.
std::optional<cutting::Plan> plan_of(const BenchState& state, const Cleanup& least) {
  const auto& lathe = state.bench.lathe;
  const auto& make = state.truth.make;
  cutting::PlanInput input{.outer_radius_mm = make.outer_radius_mm,
                           .inner_radius_mm = make.inner_radius_mm,
                           .approach_mm = 4,
                           .needed_outboard_um = least.outboard_cut_um,
                           .needed_inboard_um = least.inboard_cut_um,
                           .start_min_mm = least.start_min_mm,
                           .machine_to_mm = std::nullopt,
                           .speeds_rpm = lathe.speeds_rpm,
                           .feeds_mm_per_rev = lathe.feeds_mm_per_rev,
                           .dial_um_per_mark = lathe.dial_um_per_mark,
                           .nose_radius_mm = lathe.nose_radius_mm,
                           .max_speed_m_per_min = lathe.max_speed_m_per_min,
                           .rough_max_um = 260,
                           .finish_min_um = 40,
                           .finish_max_um = 160,
                           .ra_target_um = 2,
                           .ra_factor = 1.2};
  try {
    return cutting::plan(input);
  } catch (const InputError&) {
    return std::nullopt;
  }
}

/// What an expert's acts take besides the passes, as long as each takes at this bench. Touching off and the way from
/// pass to pass: our own assumption, no source.
double expert_time_s(const BenchState& state, bool cuts, bool replaces, double passes_s, std::int64_t passes) {
  constexpr double kLookZeroReadDecide = 20 + 20 + 12 * 15 + 10 + 5, kWipeMountReadUnmount = 60 + 2 * (120 + 78 + 60);
  constexpr double kRefit = 300, kWash = 180, kTouchOff = 300, kOnePass = 40;
  double seconds = kLookZeroReadDecide + kWipeMountReadUnmount;
  if (state.truth.has(Fault::warm_part)) seconds += kCooling_s * std::log((state.truth.part_start_c - kRoom_c) / 2);
  if (state.truth.has(Fault::bent_arbor)) seconds += 2 * (120 + 78 + 60);
  if (state.truth.has(Fault::pitted_races)) seconds += 900;
  if (cuts) {
    seconds += kWash + kTouchOff + passes_s + kOnePass * static_cast<double>(passes);
    if (state.truth.has(Fault::worn_edge)) seconds += 120;
  }
  return replaces ? seconds : seconds + kRefit;
}

/// Whether new cups did not come in before the cut, where they were wanted.
bool stays_pitted(const BenchState& state) {
  if (!state.truth.has(Fault::pitted_races)) return false;
  return std::none_of(state.done.begin(), state.done.end(), [](const Done& done) {
    return std::holds_alternative<RenewRaces>(done.act) && done.removed_mm3 <= kTouched_mm3;
  });
}

std::vector<double> positions_of(const BenchState& state) {
  if (state.bench.hubbed()) {
    return {runout_on_hub_um(state.part, state.bench, 0, {}) + state.truth.bearing_play_um};
  }
  constexpr int kAround = 72, kOrders = 12;
  const double middle = band_middle_mm(state.truth.make);
  Trace trace;
  for (int k = 0; k < kAround; ++k) {
    trace.angles_deg.push_back(360.0 * k / kAround);
    trace.values_um.push_back(
        bench_sim::height_um_at(state.part.grid, state.part.outboard, middle, trace.angles_deg.back()));
  }
  RefitInput input;
  input.hub = {{.order = 1, .amplitude_um = state.bench.hub_runout_um / 2, .phase_deg = state.bench.hub_high_deg}};
  input.part = fit_circle(trace, kOrders).harmonics;
  for (Harmonic& wave : input.part) wave.u_amplitude_um.reset();
  input.positions = static_cast<int>(state.bench.stud_positions_deg.size());
  const brakewright::Refit answer = best_refit(input);
  std::vector<double> positions(state.bench.stud_positions_deg.size());
  for (const FittedRunout& fitted : answer.all) {
    positions.at(static_cast<std::size_t>(fitted.position)) = fitted.runout_um;
  }
  return positions;
}

}  // namespace

Facts facts_of(const BenchState& state) {
  state.settle();
  Facts facts;
  facts.before = part_before(state);
  facts.of_iron = chances_of(state.bench, all_information(state.truth, facts.before));
  facts.all = facts.of_iron;
  const auto own = own_information(state);
  if (own) facts.own = chances_of(state.bench, *own);
  facts.least = least_of(state, facts.before);
  const double removed = state.removed_so_far_mm3();
  facts.cut = removed > kTouched_mm3;
  facts.on_pits = stays_pitted(state);
  if (facts.on_pits) {
    facts.all = chances_on_pits(state, facts.of_iron);
    facts.own.reset();  // pits are seen, not read
  }
  constexpr double kAsGood = 0.05;
  constexpr double kPlainlyWorse = 0.2;
  if (state.decided) {
    facts.right_by_all = facts.all.of(*state.decided) >= facts.all.of(facts.all.best()) - kAsGood;
    facts.right = facts.right_by_all ||
                  (facts.own && facts.own->of(*state.decided) >= facts.own->of(facts.own->best()) - kAsGood);
    facts.lucky = facts.right_by_all && facts.own && !own->mixed &&
                  facts.own->of(*state.decided) < facts.own->of(facts.own->best()) - kPlainlyWorse;
  }
  facts.wanted = facts.right ? *state.decided : facts.all.best();
  facts.wants_cut = facts.cut || facts.wanted == Action::cut;
  if (!state.mounts.empty()) facts.cut_mount = state.mounts.size() - 1;
  double most = kTouched_mm3;
  for (std::size_t k = 0; k < state.mounts.size(); ++k) {
    const bool on = state.mounted && k + 1 == state.mounts.size();
    const double in_it = state.mounts[k].removed_mm3 + (on ? removed - state.removed_mm3 : 0);
    if (in_it <= most) continue;
    most = in_it;
    facts.cut_mount = k;
  }
  const auto plan = plan_of(state, facts.least);
  facts.least_final_mm = facts.least.final_whole_marks_mm;
  if (plan) {
    std::int64_t more = -facts.least.outboard_marks - facts.least.inboard_marks;
    for (const cutting::Pass& pass : plan->passes) more += pass.outboard_marks + pass.inboard_marks;
    facts.least_final_mm -= static_cast<double>(more) * state.bench.lathe.dial_um_per_mark / 1000;
  }
  constexpr double kUnplanned_s = 900;
  facts.plan_passes = plan ? static_cast<std::int64_t>(plan->passes.size()) : 3;
  facts.expert_s = expert_time_s(state, facts.wants_cut, facts.wanted == Action::replace && !facts.cut,
                                 plan ? plan->time_s : kUnplanned_s, facts.plan_passes);
  facts.positions_um = positions_of(state);
  return facts;
}

double sung_um(const BenchState& state, Side side) {
  constexpr double kLeastWaves = 60, kLeastHeight_um = 1.5;
  const auto marks = bench_sim::face_marks(state.part.grid, state.part.face(side), band_middle_mm(state.truth.make));
  return marks && marks->per_turn > kLeastWaves && marks->height_um > kLeastHeight_um ? marks->height_um : 0;
}

double band_middle_mm(const bench_sim::PartMake& make) {
  const auto& shape = make.shape;
  return (shape.band_inner_radius_mm + shape.band_outer_radius_mm) / 2;
}

}  // namespace brakewright::practice
