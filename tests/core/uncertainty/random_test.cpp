#include "core/uncertainty/random.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace brakewright {
namespace {

TEST(Random, ASeedGivesTheDrawsItAlwaysGave) {
  // Drawn once with this code and kept: a change of library or platform that alters a draw shows here.
  Random random(20261125);
  EXPECT_DOUBLE_EQ(random.normal(), 2.3545833713398641);
  EXPECT_DOUBLE_EQ(random.normal(), -0.31184329695362845);
  EXPECT_DOUBLE_EQ(random.uniform(), 0.20495520726362659);
  EXPECT_DOUBLE_EQ(random.chi_squared(7.5), 2.2003832144083013);
  EXPECT_EQ(random.below(1000), 283U);
}

TEST(Random, SameSeedSameDrawsOtherSeedOrStreamOthers) {
  Random first(1);
  Random again(1);
  Random other_seed(2);
  Random other_stream(1, 1);
  const double draw = first.normal();
  EXPECT_EQ(draw, again.normal());
  EXPECT_NE(draw, other_seed.normal());
  EXPECT_NE(draw, other_stream.normal());
}

TEST(Random, FillingIsTheSameAsDrawingOneByOne) {
  Random first(9);
  Random second(9);
  std::vector<double> draws(100);
  first.fill_normal(draws);
  for (const double draw : draws) EXPECT_EQ(draw, second.normal());
}

struct Moments {
  double mean;
  double variance;
  double fourth;
};

template <typename Draw>
Moments moments(Draw draw) {
  const int count = 400000;
  std::vector<double> draws(count);
  std::generate(draws.begin(), draws.end(), draw);
  Moments m{0, 0, 0};
  for (const double x : draws) m.mean += x / count;
  for (const double x : draws) m.variance += std::pow(x - m.mean, 2) / count;
  for (const double x : draws) m.fourth += std::pow(x - m.mean, 4) / count;
  return m;
}

TEST(Random, DrawsHaveTheMomentsOfTheirDistributions) {
  Random random(4);
  const Moments normal = moments([&] { return random.normal(); });
  EXPECT_NEAR(normal.mean, 0.0, 0.008);
  EXPECT_NEAR(normal.variance, 1.0, 0.012);
  EXPECT_NEAR(normal.fourth, 3.0, 0.08);
  const Moments uniform = moments([&] { return random.uniform(); });
  EXPECT_NEAR(uniform.mean, 0.5, 0.003);
  EXPECT_NEAR(uniform.variance, 1.0 / 12.0, 0.001);
  const Moments chi = moments([&] { return random.chi_squared(5.0); });
  EXPECT_NEAR(chi.mean, 5.0, 0.03);
  EXPECT_NEAR(chi.variance, 10.0, 0.2);
}

TEST(Random, StreamsOfOneSeedAreUncorrelated) {
  Random first(6, 0);
  Random second(6, 1);
  double product = 0.0;
  for (int i = 0; i < 100000; ++i) product += first.normal() * second.normal();
  EXPECT_LT(std::abs(product) / std::sqrt(100000.0), 4.0);
}

TEST(Random, BelowReachesEveryNumberAndNoOther) {
  Random random(8);
  std::vector<int> count(7);
  for (int i = 0; i < 70000; ++i) ++count.at(random.below(7));
  for (const int c : count) EXPECT_NEAR(c, 10000, 500);
  EXPECT_EQ(random.below(1), 0U);
}

}  // namespace
}  // namespace brakewright
