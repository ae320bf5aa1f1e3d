#include "core/practice/state.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::practice {
namespace {

/// Of the best stack, the piece of a kind that is taken first.
std::string best_piece(const Bench& bench, mount::PieceKind kind) {
  const auto answer = mount::find_stacks(bench.lathe.arbor, bench.make.shape.seat, bench.pieces, 1);
  for (const std::string& id : answer.stacks.at(0).pieces) {
    const auto piece =
        std::find_if(bench.pieces.begin(), bench.pieces.end(), [&](const mount::Piece& one) { return one.id == id; });
    if (piece->kind == kind) return id;
  }
  return "";
}

}  // namespace

BenchState::BenchState(const Exercise& wanted)
    : exercise(wanted),
      truth(truth_of(wanted)),
      bench(bench_of(wanted)),
      part(bench_sim::part_of_faults(truth.make, truth.part, kAngles, kRingStep_mm)) {
  const auto at_shoulder = bench.hubbed() ? mount::PieceKind::taper : mount::PieceKind::clamp;
  if (truth.has(Fault::bent_arbor)) bent_clamp = best_piece(bench, at_shoulder);
  if (truth.has(Fault::loose_nut)) worn_nut = best_piece(bench, mount::PieceKind::nut);
  dirt = truth.dirt;
  seating_sd_um = truth.seating_sd_um;
  speck = truth.speck;
  band = !truth.has(Fault::no_band);
  radius_mm = bench.start_radius_mm;
  Random random(exercise.seed, stream_of(Draw::edge));
  for (Tool& tool : tools) {
    tool.gap_um = std::round(250 + 450 * random.uniform());
    tool.wear_mm = truth.wear_mm;
  }
}

double BenchState::temperature_c() const {
  return kRoom_c + (truth.part_start_c - kRoom_c) * std::exp(-clock_s() / kCooling_s);
}

double BenchState::removed_so_far_mm3() const {
  if (!mounted) return removed_mm3;
  return removed_mm3 + mounted->cut->removed_mm3(Side::outboard) + mounted->cut->removed_mm3(Side::inboard);
}

void BenchState::take(double seconds) { ticks += std::llround(seconds * static_cast<double>(kTicks_per_s)); }

void BenchState::end(std::string code, std::string text, bool unsafe) {
  ended = Ended{.code = std::move(code), .text = std::move(text), .unsafe = unsafe};
}

bench_sim::GraduatedDial BenchState::dial() const {
  return {.um_per_mark = bench.lathe.dial_um_per_mark, .wobble_um = 1, .marks_per_turn = 50, .backlash_um = 40};
}

double BenchState::tip_um(Side side) const {
  const Tool& tool = tools[index(side)];
  const double grown_um = part.nominal_thickness_mm * 1000 * kExpansion_per_k * (temperature_c() - kRoom_c) / 2;
  const double tip = tool.gap_um - tool.dial.carriage_um + tool.edge_um + tool.drift_um - grown_um;
  return static_cast<double>(bench_sim::stored_um(std::clamp(tip, -14900.0, 14900.0)));
}

void BenchState::settle() const {
  if (mounted) mounted->cut->settle();
}

const bench_sim::Motion& BenchState::motion() const {
  const auto& mounting = mounted->mounting;
  return mounted->slips == 0 ? mounting.motion : mounting.slips[mounted->slips - 1].motion;
}

void not_now(const std::string& first, const std::string& field) { throw InputError("not_now", field, first); }

}  // namespace brakewright::practice
