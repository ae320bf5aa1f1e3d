#include "core/refit/refit.hpp"

#include <cmath>

#include "tests/core/refit/simulated_fit.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

// Brute force over every position, plate and plate position on a grid of 2 degrees, then of a quarter degree about
// what it finds: the check's own sums, 5,000 random cases.
TEST(RefitByBruteForce, NoFittingLeavesLessThanTheOneThatIsNamedBest) {
  Random random(1212);
  for (int n = 0; n < 5000; ++n) {
    RefitInput input;
    input.positions = 3 + static_cast<int>(random.below(5));
    input.hub = drawn_waves(random, 1 + static_cast<int>(random.below(4)), 20, 1);
    input.part = drawn_waves(random, 1 + static_cast<int>(random.below(4)), 20, 1);
    input.radius_mm = 130;
    for (std::uint64_t i = random.below(3); i > 0; --i) {
      input.plates.push_back({"plate", 10 + 50 * random.uniform(), 140 + 30 * random.uniform()});
    }
    input.limit_um = 5 + 60 * random.uniform();
    const Refit found = best_refit(input);
    double size = 0;
    for (const auto* waves : {&input.hub, &input.part}) {
      for (const Harmonic& wave : *waves) size += wave.amplitude_um * wave.order * wave.order;
    }
    const double coarse = size * 2 * (1 - std::cos(1 * kRadPerDeg)), step = 360.0 / input.positions;
    double least = 1e300;
    for (int position = 0; position < input.positions; ++position) {
      const double spread = spread_on_grid(input.hub, input.part, step * position, 0, 0, 180);
      ASSERT_GE(found.all[static_cast<std::size_t>(position)].runout_um, spread - 1e-9);
      ASSERT_LE(found.all[static_cast<std::size_t>(position)].runout_um, spread + coarse + 1e-9);
      least = std::min(least, spread);
    }
    const double exact = spread_on_grid(input.hub, input.part, found.all[0].turn_deg, 0, 0, 1440);
    ASSERT_NEAR(found.all[0].runout_um, exact, coarse / 50 + 1e-9);
    const bool kept_without = least <= *input.limit_um - coarse;
    ASSERT_FALSE(kept_without && found.best.plate.has_value());
    if (least > *input.limit_um) {
      for (const TaperPlate& plate : input.plates) {
        const double tilt = plate.taper_um * *input.radius_mm / plate.diameter_mm;
        for (int position = 0; position < input.positions; ++position) {
          for (int thick = 0; thick < input.positions; ++thick) {
            least = std::min(least, spread_on_grid(input.hub, input.part, step * position, tilt, step * thick, 180));
          }
        }
      }
    }
    ASSERT_LE(found.best.runout_um, least + coarse + 1e-9) << n;
    ASSERT_GE(found.best.runout_um, least - 1e-9) << n;
  }
}

}  // namespace
}  // namespace brakewright::outside
