#include "core/gauge_study/order.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>

#include "core/input_error.hpp"

namespace brakewright::gauge_study {
namespace {

std::string parts_of(const std::vector<Turn>& turns) {
  std::string text;
  for (const Turn& turn : turns) text += std::to_string(turn.part);
  return text;
}

RC_GTEST_PROP(StudyOrder, EveryRoundHasEveryPartOnceAndNoPartComesTwiceRunning, ()) {
  const auto parts = *rc::gen::inRange<std::size_t>(2, 12), operators = *rc::gen::inRange<std::size_t>(1, 6),
             repeats = *rc::gen::inRange<std::size_t>(1, 6);
  const auto plan = plan_study(parts, operators, repeats, *rc::gen::arbitrary<std::uint64_t>());
  RC_ASSERT(plan.size() == operators);
  for (const auto& turns : plan) {
    RC_ASSERT(turns.size() == parts * repeats);
    for (std::size_t round = 0; round < repeats; ++round) {
      std::vector<int> seen(parts);
      for (std::size_t i = round * parts; i < (round + 1) * parts; ++i) {
        ++seen.at(turns[i].part);
        RC_ASSERT(turns[i].repeat == round);
        if (i > 0) RC_ASSERT(turns[i].part != turns[i - 1].part);
      }
      RC_ASSERT(std::all_of(seen.begin(), seen.end(), [](int count) { return count == 1; }));
    }
  }
}

TEST(StudyOrder, ASeedGivesTheSameOrderEverywhereAndFurtherPeopleChangeNone) {
  const auto plan = plan_study(5, 3, 3, 42);
  EXPECT_EQ(parts_of(plan[0]), "014234203142031");
  EXPECT_EQ(parts_of(plan[1]), "412030321434012");
  const auto more = plan_study(5, 4, 4, 42);
  for (std::size_t i = 0; i < plan.size(); ++i) {
    EXPECT_EQ(parts_of(more[i]).substr(0, 15), parts_of(plan[i]));
  }
  EXPECT_NE(parts_of(plan_study(5, 1, 3, 43)[0]), parts_of(plan[0]));
}

TEST(StudyOrder, AllOrdersOfARoundAreEquallyLikely) {
  std::map<std::string, int> first, second;
  const int plans = 6000;
  for (std::uint64_t seed = 0; seed < plans / 1000; ++seed) {
    for (const auto& turns : plan_study(3, 1000, 2, seed)) {
      const std::string parts = parts_of(turns);
      ++first[parts.substr(0, 3)];
      ++second[parts.substr(3)];
    }
  }
  ASSERT_EQ(first.size(), 6U);
  ASSERT_EQ(second.size(), 6U);
  // 1000 of each, standard deviation 29.
  for (const auto& counts : {first, second}) {
    for (const auto& [order, count] : counts) EXPECT_NEAR(count, plans / 6, 130) << order;
  }
}

TEST(StudyOrder, WhatCannotBeOrderedSoIsRefused) {
  const auto refusal = [](std::size_t parts, std::size_t operators, std::size_t repeats) {
    try {
      plan_study(parts, operators, repeats, 1);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return std::string("accepted");
  };
  EXPECT_EQ(refusal(1, 2, 2), "out_of_range parts");
  EXPECT_EQ(refusal(1, 2, 1), "accepted");
  EXPECT_EQ(refusal(0, 2, 1), "out_of_range parts");
  EXPECT_EQ(refusal(3, 0, 2), "out_of_range operators");
  EXPECT_EQ(refusal(3, 2, 0), "out_of_range repeats");
  EXPECT_EQ(refusal(3, 2, 101), "out_of_range repeats");
}

}  // namespace
}  // namespace brakewright::gauge_study
