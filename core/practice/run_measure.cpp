#include <algorithm>
#include <cmath>
#include <string>

#include "core/practice/state.hpp"
#include "core/want.hpp"

namespace brakewright::practice {
namespace {

/// What is really in the hand.
bench_sim::SimMicrometer in_hand(const BenchInstrument& instrument, double zero_error_mm) {
  if (instrument.kind == "caliper") {
    return {.resolution_mm = 0.01, .zero_error_mm = 0, .repeatability_mm = 0.015, .anvil_diameter_mm = 3};
  }
  const bool point = instrument.kind == "point_micrometer";
  return {.resolution_mm = 0.001,
          .zero_error_mm = zero_error_mm,
          .repeatability_mm = point ? 0.002 : 0.0012,
          .anvil_diameter_mm = point ? 0 : 6.5};
}

const BenchInstrument& instrument_of(const BenchState& state, const std::string& id) {
  for (const BenchInstrument& one : state.bench.instruments) {
    if (one.id == id) return one;
  }
  throw InputError("unknown_instrument", "instrument_id", "must be one of the bench's instruments");
}

bool is_zeroed(const BenchState& state, const std::string& id) {
  return std::find(state.zeroed.begin(), state.zeroed.end(), id) != state.zeroed.end();
}

void see_part(const BenchState& state, std::vector<std::string>& seen) {
  const auto& part = state.truth.part;
  bool uncut = state.removed_so_far_mm3() == 0;
  if (part.grooves && uncut) {
    for (Side side : bench_sim::kSides) {
      const bool scored = std::any_of(part.grooves->begin(), part.grooves->end(),
                                      [&](const auto& groove) { return groove.side == side && groove.depth_um > 50; });
      if (scored) seen.push_back(side == Side::outboard ? "grooves_outboard" : "grooves_inboard");
    }
  }
  if (part.lip && uncut) seen.push_back("lip");
  if (part.hard_spots) seen.push_back("blue_spots");
  if (part.cheek_difference_mm) seen.push_back("uneven_cheeks");
  constexpr double kWarmToTheHand_c = 28;
  if (state.temperature_c() > kWarmToTheHand_c) seen.push_back("warm");
}

void see_finish(const BenchState& state, std::vector<std::string>& seen) {
  if (state.removed_so_far_mm3() == 0) return;
  state.settle();
  for (Side side : bench_sim::kSides) {
    if (sung_um(state, side) > 0) {
      seen.push_back(side == Side::outboard ? "chatter_outboard" : "chatter_inboard");
    }
  }
}

void see_mount(const BenchState& state, std::vector<std::string>& seen) {
  if (!state.mounted) {
    if (!state.dirt.empty()) seen.push_back(state.bench.hubbed() ? "grease_in_races" : "dirt_on_seat");
    if (state.races_pitted()) seen.push_back("pits_in_races");
    if (!state.worn_nut.empty()) seen.push_back("worn_thread:" + state.worn_nut);
    return;
  }
  const auto& motion = state.motion();
  if (std::hypot(motion.offset_x_mm, motion.offset_y_mm) > 0.08) seen.push_back("rim_orbits");
  if (!state.mounted->nut_tight) seen.push_back("nut_not_tight");
  if (state.mounted->slips > 0) seen.push_back("part_slipped");
}

}  // namespace

Outcome act_on(BenchState& state, const Look&) {
  Outcome outcome;
  see_part(state, outcome.seen);
  if (!state.turns()) see_finish(state, outcome.seen);
  constexpr double kSeenWear_mm = 0.2;
  if (std::max(state.tools[0].wear_mm, state.tools[1].wear_mm) > kSeenWear_mm) outcome.seen.push_back("edge_worn");
  see_mount(state, outcome.seen);
  if (!state.band) outcome.seen.push_back("no_band");
  state.take(20);
  return outcome;
}

Outcome act_on(BenchState& state, const ZeroMicrometer& act) {
  instrument_of(state, act.instrument_id);
  if (!is_zeroed(state, act.instrument_id)) state.zeroed.push_back(act.instrument_id);
  state.take(20);
  return {};
}

Outcome act_on(BenchState& state, const Measure& act) {
  const BenchInstrument& instrument = instrument_of(state, act.instrument_id);
  const auto& grid = state.part.grid;
  want(act.radius_mm, grid.inner_radius_mm, grid.outer_radius_mm(), "radius_mm", "must lie on the face");
  want(act.angle_deg, -360, 720, "angle_deg", "must be from -360 to 720");
  if (state.refitted) not_now("Take the part off the car first.");
  state.take(15);
  if (state.turns()) {
    state.end("measured_turning",
              "The micrometer was put to the turning part. It can be torn out of the hand, and take fingers with it. "
              "Stop the spindle and wait until it stands.");
    return {};
  }
  state.settle();
  const double zero = is_zeroed(state, act.instrument_id) ? 0 : state.truth.zero_error_mm;
  Outcome outcome;
  outcome.shown_mm = bench_sim::read_thickness_mm(state.part, in_hand(instrument, zero), {act.radius_mm, act.angle_deg},
                                                  state.temperature_c(), state.exercise.seed, ++state.readings);
  return outcome;
}

Outcome act_on(BenchState& state, const ReadRunout& act) {
  const auto& grid = state.part.grid;
  want(act.radius_mm, grid.inner_radius_mm, grid.outer_radius_mm(), "radius_mm", "must lie on the face");
  want(act.points, 4, 36, "points", "must be from 4 to 36");
  if (!state.mounted) not_now("Mount the part first: the indicator reads it on the lathe, turned by hand.");
  state.take(30 + 4.0 * act.points);
  if (state.turns()) {
    state.end("measured_turning",
              "The indicator was put to the part under power. A hand beside a turning part can be drawn in. Stop the "
              "spindle, take its drive off, and turn the part by hand.");
    return {};
  }
  state.settle();
  std::vector<double> angles;
  for (int k = 0; k <= act.points; ++k) angles.push_back(360.0 * (k % act.points) / act.points);
  const bench_sim::SimIndicator indicator{.resolution_um = kIndicator_um, .repeatability_um = 0.7, .play_um = 0.5};
  const auto trace = bench_sim::read_face(state.part, state.motion(), act.side, act.radius_mm, angles, indicator,
                                          state.exercise.seed, ++state.traces);
  Outcome outcome;
  outcome.angles_deg = trace.angles_deg;
  outcome.shown_um = trace.values_um;
  return outcome;
}

Outcome act_on(BenchState& state, const Wait& act) {
  want(std::isfinite(act.minutes) && act.minutes > 0 && act.minutes <= 120, "minutes",
       "must be more than 0 and at most 120");
  if (state.turns()) not_now("Stop the spindle first.");
  state.take(60 * act.minutes);
  return {};
}

Outcome act_on(BenchState& state, const Decide& act) {
  want(act.action == Action::leave || act.action == Action::cut || act.action == Action::replace, "action",
       "must be leave, cut or replace");
  if (state.removed_so_far_mm3() > 0) not_now("Iron has been cut already: this cannot be decided any more.", "action");
  if (state.turns()) not_now("Stop the spindle first.");
  state.decided = act.action;
  state.take(10);
  return {};
}

}  // namespace brakewright::practice
