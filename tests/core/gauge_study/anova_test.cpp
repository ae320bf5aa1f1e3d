#include "core/gauge_study/anova.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

using Groups = std::vector<std::vector<double>>;

TEST(Anova, SplitsASmallTableAsByHand) {
  // Means 2, 4 and 9, grand mean 5; by hand: 3*(9 + 1 + 16) = 78 between, 2 + 2 + 2 = 6 within.
  const Anova table = one_way_anova({{1, 2, 3}, {3, 4, 5}, {8, 9, 10}});
  EXPECT_DOUBLE_EQ(table.ss_between, 78.0);
  EXPECT_DOUBLE_EQ(table.ss_within, 6.0);
  EXPECT_EQ(table.df_between, 2);
  EXPECT_EQ(table.df_within, 6);
  EXPECT_DOUBLE_EQ(table.f.value(), 39.0);
  EXPECT_NEAR(table.p.value(), std::pow(1.0 + 2.0 * 39.0 / 6.0, -3.0), 1e-15);  // closed form for 2 degrees above
  EXPECT_DOUBLE_EQ(table.r_squared.value(), 78.0 / 84.0);
  EXPECT_DOUBLE_EQ(table.residual_sd, 1.0);
  EXPECT_EQ(table.group_means, (std::vector<double>{2, 4, 9}));
}

TEST(Anova, GroupsOfUnequalSizeAreWeightedByTheirSize) {
  const Anova table = one_way_anova({{0, 2}, {4, 4, 4, 4}});
  EXPECT_DOUBLE_EQ(table.ss_within, 2.0);
  EXPECT_DOUBLE_EQ(table.ss_between, 2 * 4.0 + 4 * 1.0);
}

TEST(Anova, NoScatterWithinMakesFInfiniteAndSaysSoByLeavingItOut) {
  const Anova apart = one_way_anova({{0.1, 0.1, 0.1}, {0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3}});
  EXPECT_EQ(apart.ss_within, 0.0);
  EXPECT_FALSE(apart.f);
  EXPECT_EQ(apart.p.value(), 0.0);
  EXPECT_EQ(apart.r_squared.value(), 1.0);
  const Anova equal = one_way_anova({{0.1, 0.1}, {0.1, 0.1}});
  EXPECT_FALSE(equal.f);
  EXPECT_FALSE(equal.p);
  EXPECT_FALSE(equal.r_squared);
  EXPECT_EQ(equal.residual_sd, 0.0);
}

TEST(Anova, EqualMeansGiveFOfZero) {
  const Anova table = one_way_anova({{1, 3}, {0, 4}});
  EXPECT_EQ(table.f.value(), 0.0);
  EXPECT_EQ(table.p.value(), 1.0);
}

TEST(Anova, BadTablesAreRefusedWithTheirPath) {
  const auto refusal = [](const Groups& groups) {
    try {
      one_way_anova(groups);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return std::string("accepted");
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal({}), "missing groups");
  EXPECT_EQ(refusal({{1, 2}}), "missing groups");
  EXPECT_EQ(refusal({{1, 2}, {}}), "missing groups[1]");
  EXPECT_EQ(refusal({{1}, {2}}), "missing groups");
  EXPECT_EQ(refusal({{1, 2}, {3, nan}}), "not_finite groups[1][1]");
  EXPECT_EQ(refusal({{1e308, -1e308}, {3, 4}}), "out_of_range groups");
  EXPECT_EQ(refusal({{1e200, -1e200}, {3, 4}}), "out_of_range groups");
}

TEST(Anova, TinyValuesKeepTheirF) {
  const Anova table = one_way_anova({{1e-200, 2e-200, 3e-200}, {3e-200, 4e-200, 5e-200}, {8e-200, 9e-200, 10e-200}});
  EXPECT_NEAR(table.f.value(), 39.0, 1e-10);
}

RC_GTEST_PROP(Anova, OriginAndScaleLeaveFAlone, ()) {
  Groups groups(static_cast<std::size_t>(*rc::gen::inRange(2, 6)));
  for (auto& group : groups) {
    const int count = *rc::gen::inRange(2, 8);
    for (int i = 0; i < count; ++i) group.push_back(*rc::gen::inRange(-1000, 1000) / 8.0);
  }
  Groups moved = groups;
  for (auto& group : moved) {
    for (double& value : group) value = 1e6 + 4.0 * value;
  }
  const Anova first = one_way_anova(groups);
  const Anova second = one_way_anova(moved);
  RC_ASSERT(first.f.has_value() == second.f.has_value());
  if (first.f) RC_ASSERT(std::abs(*first.f - *second.f) <= 1e-11 * *first.f + 1e-13);
}

}  // namespace
}  // namespace brakewright
