#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "core/uncertainty/random.hpp"
#include "tests/core/practice/at_bench.hpp"
#include "tests/core/practice/prints.hpp"

namespace brakewright::practice {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN(), kInf = std::numeric_limits<double>::infinity();

/// Mostly a sensible value, now and then any.
double some(Random& random, double low, double high) {
  constexpr double kWild[] = {kNan, kInf, -kInf, -1, 0, 1e9, -1e9, 1e300, 359.999};
  if (random.uniform() < 0.1) return kWild[random.below(std::size(kWild))];
  return low + (high - low) * random.uniform();
}

double one_of(Random& random, const std::vector<double>& values) {
  return random.uniform() < 0.1 ? some(random, -10, 300) : values[random.below(values.size())];
}

std::vector<std::string> some_pieces(Random& random, const AtBench& at) {
  std::vector<std::string> pieces = at.stacks(5)[random.below(5)].pieces;
  if (random.uniform() < 0.3) {
    const auto& all = at.run.bench().pieces;
    pieces[random.below(pieces.size())] = all[random.below(all.size())].id;
  }
  if (random.uniform() < 0.1) pieces.push_back("nothing");
  if (random.uniform() < 0.1) pieces.clear();
  return pieces;
}

Act measuring_act(Random& random, const AtBench& at) {
  const std::string instruments[] = {"micrometer_fine", "micrometer_point", "caliper_coarse", "", "ruler"};
  const Bench& bench = at.run.bench();
  const Side side = random.below(2) == 0 ? Side::outboard : Side::inboard;
  const double radius = some(random, bench.make.inner_radius_mm - 2, bench.make.outer_radius_mm + 2);
  switch (random.below(6)) {
    case 0:
      return ZeroMicrometer{instruments[random.below(5)]};
    case 1:
      return ReadRunout{.side = side, .radius_mm = radius, .points = static_cast<int>(random.below(45)) - 3};
    case 2:
      return Wait{some(random, 0, 130)};
    case 3:
      return Look{};
    default:
      return Measure{instruments[random.below(5)], radius, some(random, 0, 360), random.below(4) != 0};
  }
}

Act cutting_act(Random& random, const AtBench& at) {
  const Bench& bench = at.run.bench();
  const Side side = random.below(2) == 0 ? Side::outboard : Side::inboard;
  switch (random.below(6)) {
    case 0:
      return Place{some(random, bench.make.shape.hat_radius_mm - 2, bench.make.outer_radius_mm + 30)};
    case 1:
      return LockTool{side, random.below(2) == 0};
    case 2:
      return Feed{one_of(random, {0, 0.05, 0.1, 0.2, 0.4})};
    case 3:
      return TurnDial{side, some(random, -30, 40)};
    default:
      return Turns{some(random, 0, 12)};
  }
}

Act hand_act(Random& random, const AtBench& at) {
  switch (random.below(20)) {
    case 0:
      return random.below(3) == 0 ? Act(RenewRaces{}) : random.below(2) == 0 ? Act(Wipe{}) : Act(Wash{});
    case 1:
      return Unmount{};
    case 2:
      return Band{random.below(2) == 0};
    case 3:
      return Wear{.glasses = random.uniform() < 0.95, .gloves = random.uniform() < 0.05};
    case 4:
      return ChangeEdge{};
    case 5:
      return random.below(8) != 0 ? Act(Look{}) : random.below(2) == 0 ? Act(Reach{}) : Act(WalkAway{});
    case 6:
      return Refit{.position = static_cast<int>(random.below(7)) - 1,
                   .hub_cleaned = random.below(2) == 0,
                   .nuts_in_star = random.below(2) == 0};
    case 7:
      return random.below(4) == 0 ? Act(Finish{}) : Act(Look{});
    case 8:
    case 9:
    case 10:
      return Decide{static_cast<Action>(random.uniform() < 0.8 ? 1 : random.below(4))};
    case 11:
    case 12:
    case 13:
    case 14:
      return MountPart{some_pieces(random, at), some(random, -360, 360), random.below(4) != 0};
    default:
      return Spindle{one_of(random, {0, 100, 150, 200, 150})};
  }
}

Act any_act(Random& random, const AtBench& at) {
  const double kind = random.uniform();
  if (kind < 0.2) return measuring_act(random, at);
  return kind < 0.55 ? hand_act(random, at) : cutting_act(random, at);
}

// Three runs to a case.
RC_GTEST_PROP(RandomActs, ThrowNothingButRefusalsAndARefusedOneChangesNothing, ()) {
  for (int k = 0; k < 3; ++k) {
    const auto seed = *rc::gen::inRange<std::uint64_t>(0, std::uint64_t{1} << 53);
    Random random(seed);
    AtBench at({.seed = seed, .difficulty = static_cast<int>(random.below(6))});
    if (random.uniform() < 0.7) {
      at.start_turning();
      for (Side side : bench_sim::kSides) at.run.apply(TurnDial{side, 10.0 + static_cast<double>(random.below(25))});
      at.run.apply(Place{at.middle_mm()});
    }
    std::int64_t done = at.run.view().acts;
    for (int n = 0; n < 40 && !at.run.view().ended; ++n) {
      const Act act = any_act(random, at);
      const std::string before = print_of(at.run);
      try {
        at.run.apply(act);
        RC_ASSERT(at.run.view().acts == ++done);
      } catch (const InputError& error) {
        RC_ASSERT(!error.code().empty());
        RC_ASSERT(std::string(error.what()).size() > 5);
        RC_ASSERT(print_of(at.run) == before);
      }
    }
    if (at.run.view().ended) {
      const Mark mark = at.run.mark();
      RC_ASSERT(mark.points >= 0 && mark.points <= 100);
      RC_ASSERT(mark.safe != at.run.view().ended->unsafe);
      for (const MarkedPart& part : mark.parts) RC_ASSERT(part.points >= 0 && part.points <= part.of + 1e-9);
    }
  }
}

}  // namespace
}  // namespace brakewright::practice
