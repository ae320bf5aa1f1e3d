#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>
#include <string>

#include "core/practice/state.hpp"
#include "core/want.hpp"

namespace brakewright::practice {
namespace {

/// Turned by the thimble a micrometer squeezes its frame and part as each hand will: it reads low, and scatters. How
/// much: our own assumption, no source.
constexpr double kSqueezed_mm = -0.004, kUnsteady = 3;

constexpr double kBridged_mm = 0.05;  ///< a groove under flat anvils that counts

/// What is really in the hand.
bench_sim::SimMicrometer in_hand(const BenchInstrument& instrument, double zero_error_mm, bool ratchet) {
  if (instrument.kind == "caliper") {
    return {.resolution_mm = 0.01, .zero_error_mm = 0, .repeatability_mm = 0.015, .anvil_diameter_mm = 3};
  }
  const bool point = instrument.kind == "point_micrometer";
  return {.resolution_mm = 0.001,
          .zero_error_mm = zero_error_mm,
          .error_mm = ratchet ? 0 : kSqueezed_mm,
          .repeatability_mm = (point ? 0.002 : 0.0012) * (ratchet ? 1 : kUnsteady),
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

/// Of a face's places, above which an eye calls all of it cut.
constexpr double kAllTaken = 0.98;
/// By which walls differ that look uneven through the vent; common practice, no source.
constexpr double kSeenWalls_mm = bench_sim::kCheek_mm.low;

bool lip_is_there(const BenchState& state, const bench_sim::SimPart& before) {
  const double from_mm = state.truth.make.shape.band_outer_radius_mm + 0.5;
  return std::any_of(std::begin(bench_sim::kSides), std::end(bench_sim::kSides), [&](Side side) {
    return change_of(state, before, side, from_mm, state.truth.make.outer_radius_mm).taken_share < kAllTaken;
  });
}

/// What a speck lifts a tip or an anvil by that stands there.
double on_speck_um(const BenchState& state, double radius_mm, double angle_deg, double reach_mm) {
  constexpr double kHalf_mm = 3, kCutOff_mm3 = 60;
  if (!state.speck || state.removed_so_far_mm3() > kCutOff_mm3) return 0;
  const double away_mm =
      std::hypot(radius_mm - state.speck->radius_mm,
                 radius_mm * std::remainder(angle_deg - state.speck->angle_deg, 360) * std::numbers::pi / 180);
  return away_mm <= kHalf_mm + reach_mm ? state.speck->height_um : 0;
}

void see_part(const BenchState& state, std::vector<std::string>& seen) {
  const auto& part = state.truth.part;
  const bool uncut = state.removed_so_far_mm3() == 0;
  state.settle();
  const bench_sim::SimPart before = part_before(state);
  for (Side side : bench_sim::kSides) {
    const bool outboard = side == Side::outboard;
    const auto is_there = [&](const bench_sim::Groove& groove) {
      if (groove.side != side || groove.depth_um <= 50) return false;
      const double half_mm = groove.width_mm / 2;
      return uncut ||
             change_of(state, before, side, groove.radius_mm - half_mm, groove.radius_mm + half_mm).taken_share <
                 kAllTaken;
    };
    if (part.grooves && std::any_of(part.grooves->begin(), part.grooves->end(), is_there)) {
      seen.push_back(outboard ? "grooves_outboard" : "grooves_inboard");
    }
    if (!uncut && band_change(state, before, side).taken_share < kAllTaken) {
      seen.push_back(outboard ? "old_face_outboard" : "old_face_inboard");
    }
  }
  if (part.lip && lip_is_there(state, before)) seen.push_back("lip");
  if (part.hard_spots) seen.push_back("blue_spots");
  if (part.cheek_difference_mm || std::abs(wall_difference_mm(state, before)) >= kSeenWalls_mm)
    seen.push_back("uneven_cheeks");
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
    const bool in_races =
        state.bench.hubbed() &&
        std::any_of(state.dirt.begin(), state.dirt.end(), [](const bench_sim::Dirt& dirt) { return dirt.on_the_part; });
    if (!state.dirt.empty()) seen.push_back(in_races ? "grease_in_races" : "dirt_on_seat");
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
  if (state.refitted) not_now(kOnTheCar);
  state.take(15);
  if (state.turns()) {
    state.end("measured_turning",
              "The micrometer was put to the turning part. It can be torn out of the hand, and take fingers with it. "
              "Stop the spindle and wait until it stands.");
    return {};
  }
  state.settle();
  const double zero = is_zeroed(state, act.instrument_id) ? 0 : state.truth.zero_error_mm;
  bench_sim::SimMicrometer hand = in_hand(instrument, zero, act.ratchet);
  const bench_sim::Spot spot{act.radius_mm, act.angle_deg};
  state.odd = {};
  if (instrument.kind != "caliper") state.odd.misread = ++state.micrometer_readings == state.truth.misread_number;
  if (state.odd.misread) hand.misread_chance = 1;
  const double speck_um = on_speck_um(state, act.radius_mm, act.angle_deg, hand.anvil_diameter_mm / 2);
  state.odd.on_speck = speck_um > 0;
  const bool uneven = state.truth.part.grooves || state.truth.part.lip;
  state.odd.bridged = uneven && hand.anvil_diameter_mm > 0 &&
                      bench_sim::thickness_between_anvils_mm(state.part, hand.anvil_diameter_mm, spot) -
                              bench_sim::thickness_between_anvils_mm(state.part, 0, spot) >
                          kBridged_mm;
  const double shown = bench_sim::read_thickness_mm(state.part, hand, spot, state.temperature_c(), state.exercise.seed,
                                                    ++state.readings);
  Outcome outcome;
  outcome.shown_mm =
      state.odd.on_speck ? std::round((shown + speck_um / 1000) / hand.resolution_mm) * hand.resolution_mm : shown;
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
  // a part whose nut does not hold gives while it is turned by hand: how much is our own assumption, no source
  constexpr double kGives_um = 14;
  const bool held = state.mounted->nut_tight && state.mounted->pieces.back() != state.worn_nut;
  const bench_sim::SimIndicator indicator{.resolution_um = kIndicator_um,
                                          .repeatability_um = 0.7,
                                          .play_um = 0.5,
                                          .creep_um_per_turn = held ? 0 : kGives_um};
  const auto trace = bench_sim::read_face(state.part, state.motion(), act.side, act.radius_mm, angles, indicator,
                                          state.exercise.seed, ++state.traces);
  Outcome outcome;
  outcome.angles_deg = trace.angles_deg;
  outcome.shown_um = trace.values_um;
  state.odd = {};
  if (act.side == Side::outboard) {
    const double first_um = on_speck_um(state, act.radius_mm, angles.front(), 0);
    for (std::size_t k = 0; k < angles.size(); ++k) {
      const double speck_um = on_speck_um(state, act.radius_mm, angles[k], 0);
      state.odd.on_speck = state.odd.on_speck || speck_um > 0;
      outcome.shown_um[k] += speck_um - first_um;
    }
  }
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
