#include <algorithm>
#include <cmath>
#include <string>

#include "core/bench_sim/cut/trace.hpp"
#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/practice/state.hpp"
#include "core/want.hpp"

namespace brakewright::practice {
namespace {

using bench_sim::Side;

// The bench's own stiffness: an invented lathe, our own assumption, no source. Without a band a disc of this damping
// sings at any depth that is worth cutting; with one it holds at a third of a millimetre.
constexpr chatter::Mode kDisc{.k_n_per_m = 1e8, .zeta = 0.0015, .fn_hz = 560};
constexpr chatter::Mode kHolder{.k_n_per_m = 5e7, .zeta = 0.06, .fn_hz = 410};
constexpr double kBandFactor = 14;
constexpr double kNoDampingSpacer = 0.5;  ///< of the disc's damping

constexpr double kTravelBeyond_mm = 25;  ///< of the carriage, past the part's rim
/// Mean thrust of a turn at which an edge breaks. Our own assumption, no source.
constexpr double kBreak_n = 300;
constexpr double kThrown_um = 110;  ///< by which a part has slipped along the arbor when it comes loose
/// Land of a worn insert, and the minutes of cut at its own speed that make it. Source: ISO 3685's criterion of 0.3 mm
/// and the 15 minutes that inserts' speeds are given for, from memory; evenly in between is our own assumption.
constexpr double kWornLand_mm = 0.3, kLife_min = 15;
/// By which a tool that is not locked is pushed back in a turn under 100 N. Our own assumption, no source.
constexpr double kDrift_um = 0.15;
constexpr double kHeard_s = 12;

std::int64_t ticks_of_step(double rpm) { return std::llround(60.0 * kTicks_per_s / rpm / kAngles); }

/// Root mean square of what the give has quicker than about a tenth of a wave of the disc.
double quick_swing_um(const std::vector<float>& give_um) {
  constexpr std::size_t kWindow = 13;
  const std::size_t count = give_um.size();
  if (count < 2 * kWindow) return 0;
  double sum = 0;
  for (std::size_t i = 0; i < kWindow; ++i) sum += static_cast<double>(give_um[i]);
  double squares = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double off = static_cast<double>(give_um[(i + kWindow / 2) % count]) - sum / kWindow;
    squares += off * off;
    sum += static_cast<double>(give_um[(i + kWindow) % count]) - static_cast<double>(give_um[i]);
  }
  return std::sqrt(squares / static_cast<double>(count));
}

void feel(BenchState& state) {
  constexpr double kSings_um = 1.2;
  for (Side side : bench_sim::kSides) {
    Tool& tool = state.tools[index(side)];
    const auto& trace = state.mounted->cut->trace(side);
    const auto report = bench_sim::report_of(trace);
    tool.felt.thrust_n = report.mean_thrust_n;
    tool.felt.contact_share = report.contact_share;
    tool.felt.swing_um = report.swing_um;
    tool.felt.rubs = report.rubs;
    tool.felt.sings = report.contact_share > 0.1 && quick_swing_um(trace.give_um) > kSings_um;
  }
}

/// How much the land grows with a metre of cut: a life goes with speed to the power of -1/n, its way to that of 1 -
/// 1/n, with n = 0.25 for carbide. Source: Taylor (1907); 0.25 from memory.
double wear_mm_per_m(double m_per_min, double rated_m_per_min) {
  const double over = m_per_min / rated_m_per_min;
  return kWornLand_mm / (kLife_min * rated_m_per_min) * over * over * over;
}

void set_tips(BenchState& state) {
  for (Side side : bench_sim::kSides) state.mounted->cut->set_tip(side, state.tip_um(side));
}

/// Keeps what was felt in the last `steps` of the turn.
void listen(BenchState& state, int steps) {
  const auto& cut = *state.mounted->cut;
  const auto& out = cut.trace(Side::outboard).thrust_n;
  const auto& in = cut.trace(Side::inboard).thrust_n;
  const int first = cut.next_angle() - steps + kAngles;
  for (int k = 0; k < steps; ++k) {
    const auto at = static_cast<std::size_t>((first + k) % kAngles);
    state.heard.thrust_n.push_back(out[at] + in[at]);
  }
  const auto most = static_cast<std::size_t>(kHeard_s * state.heard.steps_per_s);
  auto& heard = state.heard.thrust_n;
  if (heard.size() > 2 * most) heard.erase(heard.begin(), heard.end() - static_cast<std::ptrdiff_t>(most));
}

void after_slip(BenchState& state) {
  Mounted& mounted = *state.mounted;
  ++mounted.slips;
  mounted.cut->set_motion(state.motion());
  if (std::abs(state.motion().axial_um - mounted.mounting.motion.axial_um) < kThrown_um) return;
  state.end(
      "loose_part",
      "The nut did not hold: the part came loose in the cut. A part that is thrown off the arbor is not stopped by "
      "a hand or a face. Turn the nut home, and look at its thread, before the spindle starts.");
}

/// What changes from turn to turn; at whole turns of the spindle, so that it does not depend on the acts.
void after_turn(BenchState& state) {
  const auto& cut = *state.mounted->cut;
  for (Side side : bench_sim::kSides) {
    Tool& tool = state.tools[index(side)];
    const auto report = bench_sim::report_of(cut.trace(side));
    const double round_m = 2 * std::numbers::pi * cut.radius_mm() / 1000, length_m = round_m * report.contact_share;
    const double grows_mm = length_m * wear_mm_per_m(round_m * state.rpm, state.bench.lathe.max_speed_m_per_min);
    tool.cut_length_m += length_m;
    tool.wear_mm = std::min(1.0, tool.wear_mm + grows_mm);
    if (!tool.locked) tool.drift_um += kDrift_um * report.mean_thrust_n / 100;
    if (report.mean_thrust_n > kBreak_n && !state.ended) {
      state.end(
          "broken_edge",
          "The cut was far too deep: the edge broke under it, and pieces flew. Take a little at a time, and count "
          "the marks.");
    }
  }
  set_tips(state);
  if (state.feed_mm_per_rev > 0 && cut.radius_mm() > state.truth.make.outer_radius_mm + kTravelBeyond_mm) {
    state.feed_mm_per_rev = 0;  // the end of its travel
    state.mounted->cut->set_feed(0);
  }
}

void count_pass(BenchState& state) {
  const auto& shape = state.truth.make.shape;
  if (state.pass_counted || state.feed_mm_per_rev == 0 || state.radius_mm < shape.band_outer_radius_mm) return;
  state.pass_counted = true;
  ++state.passes;
}

/// Steps to the next thing that happens at a step of its own.
std::int64_t steps_to_event(const Mounted& mounted) {
  std::int64_t most = kAngles - mounted.steps % kAngles;
  if (mounted.slips < mounted.mounting.slips.size()) {
    const double at = std::ceil(mounted.mounting.slips[mounted.slips].at_turn * kAngles);
    most = std::min(most, std::max<std::int64_t>(1, static_cast<std::int64_t>(at) - mounted.steps));
  }
  return most;
}

bool slips_now(const Mounted& mounted) {
  if (mounted.slips >= mounted.mounting.slips.size()) return false;
  return static_cast<double>(mounted.steps) >= std::ceil(mounted.mounting.slips[mounted.slips].at_turn * kAngles);
}

}  // namespace

void renew_cut(BenchState& state) {
  Mounted& mounted = *state.mounted;
  if (mounted.cut) {
    mounted.cut->settle();
    const double before = state.removed_mm3;
    state.removed_mm3 = state.removed_so_far_mm3();
    state.mounts.back().removed_mm3 += state.removed_mm3 - before;
  }
  const auto tool_of = [&](Side side) {
    return bench_sim::CuttingTool{
        .nose = {.radius_mm = state.bench.lathe.nose_radius_mm, .wear_mm = state.tools[index(side)].wear_mm},
        .holder = kHolder,
        .tip_um = state.tip_um(side)};
  };
  // thrust over cutting force: 0.4 to 0.7, from memory
  bench_sim::CutSetup setup{.material = {.thrust_ratio = 0.6},
                            .outboard = tool_of(Side::outboard),
                            .inboard = tool_of(Side::inboard),
                            .disc = {kDisc},
                            .band_factor = state.band ? kBandFactor : 1,
                            .rpm = state.turns() ? state.rpm : state.bench.lathe.speeds_rpm.front(),
                            .feed_mm_per_rev = state.feed_mm_per_rev,
                            .start_radius_mm = state.radius_mm,
                            .motion = state.motion()};
  const auto damps = [&](const std::string& id) {
    return std::any_of(state.bench.pieces.begin(), state.bench.pieces.end(),
                       [&](const mount::Piece& piece) { return piece.id == id && piece.damping; });
  };
  if (std::none_of(mounted.pieces.begin(), mounted.pieces.end(), damps)) setup.disc[0].zeta *= kNoDampingSpacer;
  auto cut = std::make_unique<bench_sim::Cut>(state.part, setup);
  mounted.cut = std::move(cut);
}

Outcome act_on(BenchState& state, const Spindle& act) {
  const auto& speeds = state.bench.lathe.speeds_rpm;
  want(act.rpm == 0 || std::find(speeds.begin(), speeds.end(), act.rpm) != speeds.end(), "rpm",
       "must be 0 or one of the lathe's speeds");
  if (act.rpm > 0) {
    if (!state.mounted) not_now("Mount the part first.");
    if (!state.decided) not_now("Decide first: measure, then say what is to be done.");
    if (*state.decided != Action::cut) not_now("It was decided not to cut this part: the spindle is not needed.");
  }
  state.rpm = act.rpm;
  state.take(5);
  if (act.rpm == 0) return {};
  state.mounted->cut->set_rpm(act.rpm);
  if (!state.glasses) {
    state.end("no_glasses",
              "The spindle was started without glasses. A hot chip can cost an eye. Put them on before the switch.");
  } else if (state.gloves) {
    state.end(
        "gloves",
        "The spindle was started with gloves on. A glove that is caught pulls the hand in. Bare hands, rings off, "
        "at a turning lathe.");
  }
  return {};
}

double nearest_radius_mm(const BenchState& state) {
  return state.truth.make.shape.hat_radius_mm + state.bench.lathe.nose_radius_mm;
}

Outcome act_on(BenchState& state, const Place& act) {
  const double farthest = state.truth.make.outer_radius_mm + kTravelBeyond_mm;
  want(act.radius_mm, 0, farthest, "radius_mm", "must be from 0 to 25 mm past the part's rim");
  if (state.feed_mm_per_rev > 0) not_now("Take the feed off first.");
  state.take(8);
  if (state.mounted && act.radius_mm < nearest_radius_mm(state)) {
    state.end(
        "into_hat",
        "The tools were run into the hat. Tool, part and arbor can break, and pieces fly. Look where the hat ends, "
        "and stop short of it.");
    return {};
  }
  state.radius_mm = act.radius_mm;
  if (state.mounted) state.mounted->cut->set_radius(act.radius_mm);
  return {};
}

Outcome act_on(BenchState& state, const TurnDial& act) {
  want(act.marks, -200, 200, "marks", "must be from -200 to 200");
  Tool& tool = state.tools[index(act.side)];
  if (tool.locked) not_now("Unlock this tool first.", "side");
  bench_sim::DialState turned = tool.dial;
  constexpr double kScrew_um = 12000;
  bench_sim::turn_dial(state.dial(), turned, act.marks);
  want(std::abs(turned.carriage_um) <= kScrew_um, "marks", "must keep the tool within its screw: 12 mm either way");
  tool.dial = turned;
  if (state.mounted) set_tips(state);
  state.take(2);
  return {};
}

Outcome act_on(BenchState& state, const LockTool& act) {
  state.tools[index(act.side)].locked = act.locked;
  state.take(2);
  return {};
}

Outcome act_on(BenchState& state, const Feed& act) {
  const auto& feeds = state.bench.lathe.feeds_mm_per_rev;
  want(act.mm_per_rev == 0 || std::find(feeds.begin(), feeds.end(), act.mm_per_rev) != feeds.end(), "mm_per_rev",
       "must be 0 or one of the lathe's feeds");
  if (act.mm_per_rev > 0 && !state.turns()) not_now("Start the spindle first.");
  if (act.mm_per_rev > 0 && state.feed_mm_per_rev == 0) {
    state.feed_from_mm = state.radius_mm;
    state.pass_counted = state.radius_mm >= state.truth.make.shape.band_outer_radius_mm;
    renew_cut(state);  // with the edges as they are worn by now
  }
  state.feed_mm_per_rev = act.mm_per_rev;
  if (state.mounted) state.mounted->cut->set_feed(act.mm_per_rev);
  state.take(2);
  return {};
}

Outcome act_on(BenchState& state, const Turns& act) {
  want(std::isfinite(act.turns) && act.turns > 0 && act.turns <= 200, "turns", "must be more than 0 and at most 200");
  if (!state.turns()) not_now("Start the spindle first.");
  Mounted& mounted = *state.mounted;
  state.heard = {.thrust_n = {}, .steps_per_s = state.rpm / 60 * kAngles};
  std::int64_t left = std::max<std::int64_t>(1, std::llround(act.turns * kAngles));
  const std::int64_t before = state.ticks;
  while (left > 0 && !state.ended) {
    const auto steps = static_cast<int>(std::min(left, steps_to_event(mounted)));
    mounted.cut->advance(steps);
    listen(state, steps);
    mounted.steps += steps;
    left -= steps;
    state.ticks += steps * ticks_of_step(state.rpm);
    state.radius_mm = mounted.cut->radius_mm();
    count_pass(state);
    if (slips_now(mounted)) after_slip(state);
    if (mounted.steps % kAngles == 0) after_turn(state);
  }
  feel(state);
  Outcome outcome;
  outcome.took_s = static_cast<double>(state.ticks - before) / static_cast<double>(kTicks_per_s);
  return outcome;
}

Outcome act_on(BenchState& state, const Reach&) {
  state.take(2);
  if (state.turns()) {
    state.end("reached_in",
              "A hand went to the turning part. Sleeve, rag or finger is wound in before the spindle can be stopped. "
              "Nothing is touched until it stands.");
  }
  return {};
}

Outcome act_on(BenchState& state, const WalkAway&) {
  state.take(60);
  if (state.turns()) {
    state.end("left_alone",
              "The lathe was left turning alone. Nobody is there to stop it when the part slips or somebody else comes "
              "near. Stop the spindle before you go.");
  }
  return {};
}

Outcome act_on(BenchState& state, const Finish&) {
  if (!state.decided) not_now("Decide first: measure, then say what is to be done.");
  if (state.turns()) not_now("Stop the spindle first.");
  state.end("finished", "It was handed over.", false);
  return {};
}

}  // namespace brakewright::practice
