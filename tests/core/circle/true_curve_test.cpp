#include "core/circle/true_curve.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace brakewright {
namespace {

CurvePoints even_points(std::size_t count, double amplitude_um) {
  CurvePoints points;
  for (std::size_t i = 0; i < count; ++i) {
    const double angle = 360.0 * static_cast<double>(i) / static_cast<double>(count);
    points.angles_deg.push_back(angle);
    points.readings_um.push_back({amplitude_um * std::cos(angle * std::numbers::pi / 180)});
    points.circles.push_back(0);
  }
  return points;
}

std::vector<float> ranges(const TrueCurve& curve, std::size_t draws, std::uint64_t seed) {
  Random random(seed);
  CurveStream stream(curve, draws, random);
  std::vector<float> values;
  for (std::size_t b = 0; b < stream.blocks(); ++b) {
    const Extremes ends = extremes(on_grid(stream.next()[0]));
    append(values, ends.highest - ends.lowest);
  }
  return values;
}

TEST(CurveGrid, AgreesWithTheSumOfWavesAtEveryAngle) {
  CurveBlock block;
  block.level = Lanes::all(3);
  for (const std::size_t orders : {std::size_t{0}, std::size_t{1}, std::size_t{4}, std::size_t{5}, kDrawnOrders}) {
    block.orders = orders;
    for (std::size_t k = 0; k < orders; ++k) {
      block.cosine[k] = Lanes::all(1.0F / static_cast<float>(k + 1));
      block.sine[k] = Lanes::all(-0.5F + 0.1F * static_cast<float>(k));
    }
    const CurveGrid grid = on_grid(block);
    EXPECT_EQ(grid.count, orders <= 4 ? kGrid / 2 : kGrid);
    for (std::size_t i = 0; i < grid.count; ++i) {
      double sum = 3;
      for (std::size_t k = 0; k < orders; ++k) {
        const double phase = 2 * std::numbers::pi * static_cast<double>(i * (k + 1)) / static_cast<double>(grid.count);
        sum += std::cos(phase) / static_cast<double>(k + 1) + (-0.5 + 0.1 * static_cast<double>(k)) * std::sin(phase);
      }
      EXPECT_NEAR(static_cast<double>(grid.values[i].array()[5]), sum, 2e-5) << "order " << orders << " at " << i;
    }
  }
}

TEST(CurveGrid, RefinesTheEndsBetweenItsAngles) {
  for (std::size_t order = 1; order <= kDrawnOrders; ++order) {
    CurveBlock block;
    block.level = Lanes::all(0);
    block.orders = order;
    for (std::size_t k = 0; k < order; ++k) block.cosine[k] = block.sine[k] = Lanes::all(0);
    const double phase = 0.37 * static_cast<double>(order);
    block.cosine[order - 1] = Lanes::all(static_cast<float>(std::cos(phase)));
    block.sine[order - 1] = Lanes::all(static_cast<float>(std::sin(phase)));
    const Extremes ends = extremes(on_grid(block));
    const double range = static_cast<double>(ends.highest.array()[0] - ends.lowest.array()[0]);
    EXPECT_NEAR(range, 2.0, order <= 8 ? 0.02 : 0.08) << "order " << order;
  }
}

TEST(Middle95, TakesTheMiddleAndTheEndsOfDrawsInAnyOrder) {
  Random random(5);
  std::vector<float> draws;
  for (int i = 0; i < 1000; ++i) draws.push_back(static_cast<float>(i));
  for (std::size_t i = draws.size(); i > 1; --i) std::swap(draws[i - 1], draws[random.below(i)]);
  const Middle95 middle = middle95(draws);
  EXPECT_EQ(middle.low95, 24);
  EXPECT_EQ(middle.median, 499);
  EXPECT_EQ(middle.high95, 974);
}

TEST(TrueCurve, NarrowsToTheCurveAsTheNoiseVanishes) {
  const TrueCurve curve(even_points(16, 10), {.repeatability_um = 0.01, .resolution_um = 0.01});
  std::vector<float> values = ranges(curve, 4000, 1);
  const Middle95 middle = middle95(values);
  EXPECT_NEAR(middle.median, 20, 0.02);
  EXPECT_LT(middle.high95 - middle.low95, 0.2);
}

TEST(TrueCurve, DoesNotAddTheNoiseTwiceToAFlatPart) {
  const TrueCurve curve(even_points(8, 0), {.repeatability_um = 3, .resolution_um = 1});
  std::vector<float> values = ranges(curve, 4000, 1);
  const Middle95 middle = middle95(values);
  EXPECT_EQ(middle.low95, 0) << "equal readings leave it open that there is no pattern at all";
  EXPECT_LT(middle.median, 2.85 * 3) << "under what the noise alone makes of eight readings";
}

TEST(TrueCurve, GivesTheSameDrawsForTheSameSeed) {
  const TrueCurve curve(even_points(12, 5), {.repeatability_um = 1, .resolution_um = 1});
  EXPECT_EQ(ranges(curve, 800, 7), ranges(curve, 800, 7));
  EXPECT_NE(ranges(curve, 800, 7), ranges(curve, 800, 8));
}

TEST(TrueCurve, ItsMeanFollowsTheReadings) {
  const CurvePoints points = even_points(12, 8);
  const TrueCurve curve(points, {.repeatability_um = 0.5, .resolution_um = 0.1});
  const std::vector<double> mean = curve.mean_at(points.angles_deg, 0);
  for (std::size_t i = 0; i < mean.size(); ++i) EXPECT_NEAR(mean[i], points.readings_um[i][0], 0.3);
}

TEST(TrueCurve, CirclesOfOnePatternSpeakForEachOther) {
  CurvePoints points = even_points(8, 6);
  const TrueCurve alone(points, {.repeatability_um = 2, .resolution_um = 1});
  const CurvePoints second = even_points(8, 6);
  for (std::size_t i = 0; i < second.angles_deg.size(); ++i) {
    points.angles_deg.push_back(second.angles_deg[i]);
    points.readings_um.push_back(second.readings_um[i]);
    points.circles.push_back(1);
  }
  const TrueCurve both(points, {.repeatability_um = 2, .resolution_um = 1});
  std::vector<float> of_one = ranges(alone, 4000, 1);
  std::vector<float> of_two = ranges(both, 4000, 1);
  const Middle95 one = middle95(of_one);
  const Middle95 two = middle95(of_two);
  EXPECT_LT(two.high95 - two.low95, one.high95 - one.low95);
}

}  // namespace
}  // namespace brakewright
