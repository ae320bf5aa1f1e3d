#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/circle/circle.hpp"

namespace brakewright {
namespace {

std::vector<double> spread_angles(int count) {
  std::vector<double> angles;
  for (int j = 0; j < count; ++j) angles.push_back(360.0 * j / count);
  return angles;
}

/// The definition, walked over the phases in small steps.
double seen_by_stepping(const std::vector<double>& angles_deg, int order, int steps) {
  double least = 1.0;
  for (int i = 0; i < steps; ++i) {
    const double phase = 2.0 * std::numbers::pi * i / steps;
    double low = 1.0;
    double high = -1.0;
    for (const double angle : angles_deg) {
      const double value = std::cos(order * angle * std::numbers::pi / 180.0 - phase);
      low = std::min(low, value);
      high = std::max(high, value);
    }
    least = std::min(least, (high - low) / 2.0);
  }
  return least;
}

TEST(Blind, EqualPointsSeeWhatTheTradesTableSays) {
  // Fraction of the true peak to peak seen at worst by N equal points: calculated table of the trade notes, two digits.
  const struct {
    int order;
    double seen[5];
  } rows[] = {{1, {0.71, 0.87, 0.92, 0.97, 0.98}},
              {2, {0, 0.75, 0.71, 0.87, 0.92}},
              {3, {0.71, 0, 0.92, 0.71, 0.98}},
              {4, {0, 0.75, 0, 0.75, 0.71}}};
  const int counts[] = {4, 6, 8, 12, 16};
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < 5; ++i) {
      EXPECT_NEAR(seen_fraction(spread_angles(counts[i]), row.order), row.seen[i], 0.005)
          << counts[i] << " " << row.order;
    }
  }
}

TEST(Blind, FourPointsMissEveryEvenOrder) {
  EXPECT_EQ(blind_orders(spread_angles(4)), (std::vector<int>{2, 4, 6, 8, 10, 12}));
  EXPECT_EQ(blind_orders(spread_angles(8)), (std::vector<int>{4, 8, 12}));
  EXPECT_EQ(blind_orders(spread_angles(16)), (std::vector<int>{8}));
  EXPECT_EQ(blind_orders(spread_angles(36)), std::vector<int>{});
  EXPECT_EQ(blind_orders(spread_angles(12)), (std::vector<int>{6, 12}));
}

TEST(Blind, TwoAnglesSeeNothingForSure) {
  EXPECT_EQ(blind_orders(std::vector<double>{0, 90}).size(), 12U);
  EXPECT_EQ(blind_orders(std::vector<double>{0, 180}).size(), 12U);
  EXPECT_EQ(blind_orders(std::vector<double>{30, 30, 390}).size(), 12U);
}

TEST(Blind, UnevenPointsAreJudgedByTheirOwnAngles) {
  const std::vector<double> quarter{0, 10, 30, 50, 70, 90};
  EXPECT_NEAR(seen_fraction(quarter, 1), seen_by_stepping(quarter, 1, 100000), 1e-4);
  EXPECT_EQ(blind_orders(quarter).front(), 1);
}

TEST(Blind, ManyScatteredPointsMissNothing) {
  std::vector<double> angles;
  for (int i = 0; i < 5000; ++i) angles.push_back(std::fmod(i * 137.50776405, 360.0));
  EXPECT_TRUE(blind_orders(angles).empty());
}

RC_GTEST_PROP(Blind, TheLeastWidthIsTheLeastRangeOverAllPhases, ()) {
  const auto tenths =
      *rc::gen::container<std::vector<int>>(*rc::gen::inRange<std::size_t>(1, 12), rc::gen::inRange(0, 3600));
  std::vector<double> angles;
  for (const int tenth : tenths) angles.push_back(tenth / 10.0);
  const int order = *rc::gen::inRange(1, 13);
  const double stepped = seen_by_stepping(angles, order, 7200);
  const double seen = seen_fraction(angles, order);
  RC_ASSERT(seen <= stepped + 1e-9);
  RC_ASSERT(seen >= stepped - 1e-3);
}

}  // namespace
}  // namespace brakewright
