#include <algorithm>
#include <cmath>
#include <string>

#include "core/input_error.hpp"
#include "core/practice/state.hpp"
#include "core/uncertainty/random.hpp"
#include "core/want.hpp"

namespace brakewright::practice {
namespace {

constexpr double kRuleBump_um = 90;  ///< what a ring that stands over the flat lifts the part by; our own, no source

std::vector<mount::Piece> taken_pieces(const BenchState& state, const std::vector<std::string>& ids) {
  want(ids.size() <= state.bench.pieces.size(), "pieces", "must name each piece once at most");
  std::vector<mount::Piece> taken;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const std::string field = "pieces[" + std::to_string(i) + "]";
    if (std::find(ids.begin(), ids.begin() + static_cast<std::ptrdiff_t>(i), ids[i]) !=
        ids.begin() + static_cast<std::ptrdiff_t>(i)) {
      throw InputError("duplicate_id", field, "must not name a piece twice");
    }
    const auto piece = std::find_if(state.bench.pieces.begin(), state.bench.pieces.end(),
                                    [&](const mount::Piece& one) { return one.id == ids[i]; });
    if (piece == state.bench.pieces.end()) {
      throw InputError("unknown_piece", field, "must be one of the pegboard's pieces");
    }
    taken.push_back(*piece);
  }
  return taken;
}

/// Rules without which the nut does not close the stack.
void want_closed(const mount::OwnStack& own) {
  for (const mount::Miss& miss : own.broken) {
    if (miss.rule == "order") not_now("These pieces cannot go on in this order. In order " + miss.text + ".", "pieces");
    if (miss.rule == "bore" || miss.rule == "length") {
      not_now("This stack cannot be closed: " + miss.text + ".", "pieces");
    }
  }
}

/// What broken rules do to the seat. Sizes are our own assumption, no source.
void add_broken_rules(const mount::OwnStack& own, double seat_mm, Random& random, bench_sim::MountFaults& faults) {
  constexpr double kMostOffset_mm = 0.4, kOffRace_um = 25;
  for (const mount::Miss& miss : own.broken) {
    const double angle = 360 * random.uniform();
    const bool off_race = miss.rule == "taper_inner" || miss.rule == "taper_outer";
    // on the hub's bore, or loose in the race, it finds another place at each mounting
    if (off_race) faults.seating_sd_um = std::max(faults.seating_sd_um, kOffRace_um);
    if (off_race || miss.rule == "cone" || miss.rule == "cup_bore" || miss.rule == "spring_room") {
      faults.bore_offset_mm = std::min(kMostOffset_mm, 0.12 + 0.05 * miss.miss_mm);
      faults.bore_offset_deg = angle;
    } else {
      const double height_um = miss.rule == "ring_pair" ? kRuleBump_um / 3 : kRuleBump_um;
      faults.dirt.push_back(
          {.bump = {.height_um = height_um, .radius_mm = 0.95 * seat_mm, .angle_deg = angle}, .on_the_part = false});
    }
  }
}

bench_sim::MountInput mount_input(const BenchState& state, const std::vector<mount::Piece>& taken,
                                  const mount::OwnStack& own, const MountPart& act) {
  const double reach_mm = bench_sim::seat_reach_mm(state.truth.make.shape);
  const double ring_mm = taken.front().ring_outer_mm / 2;
  bench_sim::MountInput input;
  input.turn_deg = act.turn_deg;
  input.seat_radius_mm = ring_mm > 0 ? std::min(ring_mm, reach_mm) : reach_mm;
  input.seed = state.exercise.seed;
  input.number = state.mountings + 1;
  input.faults.dirt = state.dirt;
  input.faults.seating_sd_um = state.seating_sd_um;
  if (taken.front().id == state.bent_clamp) input.faults.arbor = state.truth.bent;
  Random random(state.exercise.seed, stream_of(Draw::slip, input.number));
  add_broken_rules(own, *input.seat_radius_mm, random, input.faults);
  for (bench_sim::Dirt& dirt : input.faults.dirt) {
    dirt.bump.radius_mm = std::min(dirt.bump.radius_mm, *input.seat_radius_mm);
  }
  // How far and how often such a nut lets it slip: our own assumption, no source.
  if (!act.nut_tight || taken.back().id == state.worn_nut) {
    input.faults.nut = bench_sim::LooseNut{.axial_sd_um = 20, .tilt_sd_um = 25, .mean_turns = 60};
  }
  return input;
}

/// Rust left under the part, or dirt in its races; our own assumption, no source.
bench_sim::Tilt left_under(const BenchState& state) {
  Random random(state.exercise.seed, stream_of(Draw::refit));
  const double rust_um = 50 + 60 * random.uniform();
  return bench_sim::tilt_of(rust_um, bench_sim::seat_reach_mm(state.truth.make.shape), 360 * random.uniform());
}

/// On pitted races the car's bearings seat anew as well, each time.
bench_sim::Tilt seated_anew(BenchState& state) {
  if (!state.races_pitted()) return {};
  using bench_sim::kScatterRadius_mm;
  Random random(state.exercise.seed, stream_of(Draw::bearing, ++state.refits));
  const double x = random.normal() * state.seating_sd_um / kScatterRadius_mm;
  return {.x_um_per_mm = x, .y_um_per_mm = random.normal() * state.seating_sd_um / kScatterRadius_mm};
}

/// A part pulled out of true by uneven or too few nuts; our own assumption, no source.
bench_sim::Tilt pulled_by_nuts(const BenchState& state) {
  Random random(state.exercise.seed, stream_of(Draw::nuts));
  const double pulled_um = 25 + 35 * random.uniform();
  return bench_sim::tilt_of(pulled_um, band_middle_mm(state.truth.make), 360 * random.uniform());
}

}  // namespace

Outcome act_on(BenchState& state, const Wipe&) {
  if (state.turns()) {
    state.end("wiped_turning",
              "A rag was held to the turning part. It is caught and takes the hand with it. Stop the spindle, take the "
              "part off, and wipe then.");
    return {};
  }
  if (state.mounted) not_now("Take the part off the arbor first: its seats are covered.");
  if (state.refitted) not_now(kOnTheCar);
  state.dirt.clear();
  state.speck.reset();
  state.wiped = true;
  state.take(60);
  return {};
}

Outcome act_on(BenchState& state, const RenewRaces&) {
  constexpr double kRenew_s = 900;  // our own assumption, no source
  if (!state.bench.hubbed()) not_now("This part has no bearing races.");
  if (state.mounted) not_now("Take the part off the arbor first: its races are covered.");
  if (state.refitted) not_now(kOnTheCar);
  state.races_renewed = true;
  state.seating_sd_um = kSoundSeat_um;
  std::erase_if(state.dirt, [](const bench_sim::Dirt& dirt) { return dirt.on_the_part; });
  state.take(kRenew_s);
  return {};
}

Outcome act_on(BenchState& state, const MountPart& act) {
  if (state.mounted) not_now("Take the part off first: it is on the arbor.");
  want(act.turn_deg, -360, 360, "turn_deg", "must be from -360 to 360");
  if (state.radius_mm < nearest_radius_mm(state)) not_now("Draw the tools out first: the hat would meet them.");
  const auto taken = taken_pieces(state, act.pieces);
  Mounted mounted{.pieces = act.pieces, .turn_deg = act.turn_deg, .nut_tight = act.nut_tight};
  mounted.own = mount::check_stack(state.bench.lathe.arbor, state.truth.make.shape.seat, taken);
  want_closed(mounted.own);
  mounted.mounting = bench_sim::mount_of(state.part, mount_input(state, taken, mounted.own, act));
  mounted.number = ++state.mountings;
  state.mounts.push_back({.pieces = act.pieces,
                          .keeps_rules = mounted.own.stack.has_value(),
                          .turn_deg = act.turn_deg,
                          .wiped = state.wiped,
                          .nut_tight = act.nut_tight,
                          .seating_sd_um = state.seating_sd_um,
                          .motion = mounted.mounting.motion});
  state.refitted.reset();
  state.mounted = std::move(mounted);
  renew_cut(state);
  state.take(120);
  return {};
}

Outcome act_on(BenchState& state, const Unmount&) {
  if (!state.mounted) not_now("Nothing is on the arbor.");
  if (state.turns()) {
    state.end(
        "reached_in",
        "The nut was reached for with the spindle turning. Hand and sleeve are wound in. Stop the spindle and wait "
        "until it stands.");
    return {};
  }
  state.settle();
  const double before = state.removed_mm3;
  state.removed_mm3 = state.removed_so_far_mm3();
  state.mounts.back().removed_mm3 += state.removed_mm3 - before;
  state.mounts.back().slipped = state.mounted->slips > 0;
  state.mounted.reset();
  for (Tool& tool : state.tools) tool.felt = {};
  state.heard = {};
  state.take(60);
  return {};
}

Outcome act_on(BenchState& state, const Band& act) {
  if (state.turns()) {
    state.end("reached_in",
              "The damping band was reached for with the spindle turning. It can whip round and take fingers with it. "
              "Stop the spindle first.");
    return {};
  }
  if (!state.mounted) not_now("Mount the part first.");
  state.band = act.on;
  renew_cut(state);
  state.take(30);
  return {};
}

Outcome act_on(BenchState& state, const Wear& act) {
  state.glasses = act.glasses;
  state.gloves = act.gloves;
  state.take(5);
  if (!state.turns()) return {};
  if (act.gloves) {
    state.end("gloves",
              "Gloves were put on beside the turning spindle. A glove that is caught pulls the hand in. Bare hands, "
              "rings off, at a turning lathe.");
  } else if (!act.glasses) {
    state.end("no_glasses",
              "The glasses were taken off while the spindle turned. A hot chip can cost an eye. They stay on until it "
              "stands.");
  }
  return {};
}

Outcome act_on(BenchState& state, const ChangeEdge&) {
  if (state.turns()) {
    state.end("reached_in",
              "The tools were reached for with the spindle turning. Stop it, and wait until it stands, before a hand "
              "goes to an edge.");
    return {};
  }
  Random random(state.exercise.seed, stream_of(Draw::edge, ++state.edges));
  for (Tool& tool : state.tools) {
    tool.wear_mm = 0;
    tool.cut_length_m = 0;
    tool.edge_um = std::round(30 * random.normal());
  }
  if (state.mounted) renew_cut(state);
  state.take(120);
  return {};
}

Outcome act_on(BenchState& state, const Wash&) {
  if (state.mounted) not_now("Take the part off the lathe first: water is no good to arbor and bearings.");
  state.refitted.reset();
  state.speck.reset();
  state.take(180);
  return {};
}

Outcome act_on(BenchState& state, const Refit& act) {
  want(act.position >= 0 && act.position < static_cast<int>(state.bench.stud_positions_deg.size()), "position",
       state.bench.hubbed() ? "must be 0: the hub is part of it" : "must be from 0 to 4");
  if (!state.decided) not_now("Decide first: measure, then say what is to be done.");
  if (*state.decided == Action::replace) not_now("It was decided to replace this part: it does not go on the car.");
  if (state.turns()) not_now("Stop the spindle first.");
  if (state.mounted) not_now("Take the part off the lathe first.");
  state.refitted = act;
  auto under = act.hub_cleaned ? bench_sim::Tilt{} : left_under(state);
  if (!act.nuts_in_star) under = under + pulled_by_nuts(state);
  state.refit_runout_um =
      runout_on_hub_um(state.part, state.bench, act.position, under + seated_anew(state)) + state.truth.bearing_play_um;
  state.take(300);
  Outcome outcome;
  outcome.hub_runout_um = std::round(state.refit_runout_um / kIndicator_um) * kIndicator_um;
  return outcome;
}

double runout_on_hub_um(const bench_sim::SimPart& part, const Bench& bench, int position, const bench_sim::Tilt& dirt) {
  const double middle = band_middle_mm(bench.make);
  const auto hub = bench_sim::tilt_of(bench.hub_runout_um, middle, bench.hub_high_deg) + dirt;
  const double turn = bench.stud_positions_deg.at(static_cast<std::size_t>(position));
  double high = -1e300, low = 1e300;
  for (int at = 0; at < 360; ++at) {
    const double height =
        bench_sim::tilt_um(hub, middle, at) + bench_sim::height_um_at(part.grid, part.outboard, middle, at - turn);
    high = std::max(high, height);
    low = std::min(low, height);
  }
  return high - low;
}

}  // namespace brakewright::practice
