#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <string>
#include <vector>

#include "core/mount/mount.hpp"
#include "core/uncertainty/random.hpp"

/// Held against 50 ms for the best three stacks from a pegboard of 500 pieces, the slowest of 24 parts; 60 and 5000
/// pieces show how it grows. The pegboards are invented: sizes and proportions as a shop would hang them up.
namespace brakewright::mount {
namespace {

constexpr double kTargetMs = 50;

double stepped(Random& random, double low, double high, double step) {
  return low + step * static_cast<double>(random.below(static_cast<std::uint64_t>((high - low) / step) + 1));
}

/// From one end to the other in even steps, as a set is bought.
double graded(double low, double high, std::size_t i, std::size_t count) {
  return low + (high - low) * (static_cast<double>(i) + 0.5) / static_cast<double>(count);
}

Piece cone(Random& random, PieceKind kind, std::size_t i, std::size_t count) {
  Piece piece{.id = {}, .kind = kind};
  piece.length_mm = stepped(random, 20, 40, 5);
  piece.small_mm = kind == PieceKind::cone ? graded(42, 115, i, count) : graded(24, 85, i, count);
  piece.large_mm = piece.small_mm + stepped(random, 14, 26, 2);
  return piece;
}

/// Two of a size.
Piece clamp(Random& random, std::size_t i, std::size_t count) {
  Piece piece{.id = {}, .kind = PieceKind::clamp};
  piece.length_mm = stepped(random, 25, 50, 5);
  piece.ring_outer_mm = graded(90, 190, i / 2, (count + 1) / 2);
  piece.ring_inner_mm = piece.ring_outer_mm - stepped(random, 14, 22, 2);
  piece.cup_depth_mm = stepped(random, 30, 50, 5);
  piece.cup_bore_mm = piece.ring_inner_mm - 2;
  return piece;
}

Piece spring(Random& random) {
  Piece piece{.id = {}, .kind = PieceKind::spring};
  piece.solid_mm = stepped(random, 8, 16, 1);
  piece.free_mm = piece.solid_mm + stepped(random, 15, 40, 5);
  return piece;
}

/// Inch and metric lengths, as they are bought.
Piece spacer(Random& random) {
  static constexpr double kLengths[] = {3, 5, 6.35, 10, 12.7, 15, 20, 25.4, 30, 38.1, 50};
  Piece piece{.id = {}, .kind = PieceKind::spacer};
  piece.length_mm = kLengths[random.below(std::size(kLengths))];
  piece.damping = random.below(12) == 0;
  piece.weighted = random.below(10) == 0;
  return piece;
}

/// Of sixty pieces: 16 cones, 14 clamps, 5 springs, 10 tapers, 13 spacers and 2 nuts; larger pegboards alike.
std::vector<Piece> pegboard(std::size_t count) {
  Random random(7);
  std::vector<Piece> pieces;
  const auto hang = [&](std::size_t of_sixty, const auto& make) {
    const std::size_t share = std::max<std::size_t>(2, of_sixty * count / 60);
    for (std::size_t i = 0; i < share; ++i) {
      Piece piece = make(i, share);
      piece.id = std::to_string(pieces.size());
      piece.bore_mm = pieces.size() % 20 == 19 ? 30 : 25.4;  // some for another arbor
      piece.runout_um = stepped(random, 0, 20, 0.5);
      pieces.push_back(std::move(piece));
    }
  };
  hang(16, [&](std::size_t i, std::size_t share) { return cone(random, PieceKind::cone, i, share); });
  hang(14, [&](std::size_t i, std::size_t share) { return clamp(random, i, share); });
  hang(5, [&](std::size_t, std::size_t) { return spring(random); });
  hang(10, [&](std::size_t i, std::size_t share) { return cone(random, PieceKind::taper, i, share); });
  hang(13, [&](std::size_t, std::size_t) { return spacer(random); });
  hang(2, [](std::size_t, std::size_t) { return Piece{.id = {}, .kind = PieceKind::nut}; });
  return pieces;
}

constexpr Arbor kArbor{.diameter_mm = 25.4, .thread_start_mm = 120, .tip_mm = 240, .nut_engagement_mm = 20};

/// Parts from a small car's rear to a van's front; beyond them, hats that no ring can fit.
std::vector<PartSeat> parts(PartKind kind) {
  std::vector<PartSeat> parts;
  for (int i = 0; i < 24; ++i) {
    PartSeat part{.kind = kind};
    if (kind == PartKind::hubless) {
      part.bore_mm = 54 + 2.5 * i;
      part.flange_mm = 6 + i % 4;
      part.flat_inner_mm = part.bore_mm + 12;
      part.flat_outer_mm = part.bore_mm + 70;
    } else {
      part.hub_length_mm = 55 + 2 * i;
      part.inner_race_mm = 38 + 1.5 * i;
      part.outer_race_mm = 30 + 1.2 * i;
    }
    parts.push_back(part);
  }
  return parts;
}

double milliseconds(const PartSeat& part, const std::vector<Piece>& pieces, const Arbor& arbor, bool& carried) {
  const std::clock_t start = std::clock();
  const auto answer = find_stacks(arbor, part, pieces, 3);
  const double ms = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  carried = !answer.stacks.empty();
  return ms;
}

/// @param state  range: pieces on the pegboard; one iteration asks for every part
void find_for(benchmark::State& state, PartKind kind, const Arbor& arbor) {
  const auto pieces = pegboard(static_cast<std::size_t>(state.range(0)));
  const auto all = parts(kind);
  double slowest_ms = 0;
  int carried = 0, asked = 0;
  for (auto _ : state) {
    for (const PartSeat& part : all) {
      bool found = false;
      slowest_ms = std::max(slowest_ms, milliseconds(part, pieces, arbor, found));
      carried += found;
      ++asked;
    }
  }
  state.counters["carried"] = static_cast<double>(carried) / asked;
  state.counters["slowest_ms"] = slowest_ms;
  if (state.range(0) == 500) state.counters["of_50_ms"] = slowest_ms / kTargetMs;
}

void find_hubless(benchmark::State& state) { find_for(state, PartKind::hubless, kArbor); }
void find_hubbed(benchmark::State& state) { find_for(state, PartKind::hubbed, kArbor); }

/// A window of a hundredth of a millimetre, which few sets of spacers meet.
void find_narrow(benchmark::State& state) {
  find_for(state, PartKind::hubless,
           {.diameter_mm = 25.4, .thread_start_mm = 151.99, .tip_mm = 172, .nut_engagement_mm = 20});
}

/// An arbor whose thread begins within the shortest stack: nothing fits, and what misses is looked for.
void find_none(benchmark::State& state) {
  find_for(state, PartKind::hubless,
           {.diameter_mm = 25.4, .thread_start_mm = 20, .tip_mm = 60, .nut_engagement_mm = 20});
}

BENCHMARK(find_hubless)->ArgName("pieces")->Arg(60)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond);
BENCHMARK(find_hubbed)->ArgName("pieces")->Arg(60)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond);
BENCHMARK(find_narrow)->ArgName("pieces")->Arg(60)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond);
BENCHMARK(find_none)->ArgName("pieces")->Arg(60)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::mount
