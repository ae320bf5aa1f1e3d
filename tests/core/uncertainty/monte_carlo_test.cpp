#include "core/uncertainty/monte_carlo.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

double first_of(std::span<const double> inputs) { return inputs[0]; }

TEST(MonteCarlo, EachShapeHasTheMeanTheSpreadAndTheReachItSays) {
  const struct {
    Distribution distribution;
    double reach;  // half width over standard uncertainty
  } shapes[] = {{Distribution::rectangular, std::sqrt(3.0)},
                {Distribution::triangular, std::sqrt(6.0)},
                {Distribution::u_shaped, std::sqrt(2.0)}};
  for (const auto& shape : shapes) {
    const std::vector<Quantity> inputs{{.mean = 5.0, .u = 0.2, .distribution = shape.distribution}};
    const Propagated answer = propagate(inputs, first_of, 200000, 0.999, 1);
    EXPECT_NEAR(answer.mean, 5.0, 0.002);
    EXPECT_NEAR(answer.u, 0.2, 0.001);
    EXPECT_LE(answer.symmetric.high - 5.0, 0.2 * shape.reach);
    EXPECT_GT(answer.symmetric.high - 5.0, 0.2 * shape.reach * 0.95);
  }
}

TEST(MonteCarlo, TheSameSeedGivesTheSameAnswer) {
  const std::vector<Quantity> inputs{{.mean = 0.0, .u = 1.0}};
  EXPECT_EQ(propagate(inputs, first_of, 1000, 0.95, 5).u, propagate(inputs, first_of, 1000, 0.95, 5).u);
  EXPECT_NE(propagate(inputs, first_of, 1000, 0.95, 5).u, propagate(inputs, first_of, 1000, 0.95, 6).u);
}

TEST(MonteCarlo, IntervalsAreTakenFromTheSortedDraws) {
  std::vector<double> draws;
  for (int i = 100; i >= 0; --i) draws.push_back(i);
  const Propagated answer = summarise(draws, 0.9);
  EXPECT_EQ(answer.symmetric.low, 5.0);
  EXPECT_EQ(answer.symmetric.high, 96.0);
  EXPECT_EQ(answer.shortest.high - answer.shortest.low, 91.0);
  EXPECT_EQ(answer.mean, 50.0);
}

TEST(MonteCarlo, BadInputIsRefused) {
  const std::vector<Quantity> inputs{{.mean = 0.0, .u = -1.0}};
  EXPECT_THROW(propagate(inputs, first_of, 1000, 0.95, 1), InputError);
  const std::vector<Quantity> good{{.mean = 0.0, .u = 1.0}};
  EXPECT_THROW(propagate(good, first_of, 99, 0.95, 1), InputError);
  EXPECT_THROW(propagate(good, first_of, 1000, 1.0, 1), InputError);
  const auto bad_model = [](std::span<const double> x) { return std::sqrt(-1.0 - x[0] * x[0]); };
  EXPECT_THROW(propagate(good, bad_model, 1000, 0.95, 1), InputError);
}

}  // namespace
}  // namespace brakewright
