#include <gtest/gtest.h>

#include <algorithm>

#include "tests/core/practice/hands.hpp"

namespace brakewright::practice {
namespace {

double share_of(const Mark& mark, const std::string& code) {
  const auto part =
      std::find_if(mark.parts.begin(), mark.parts.end(), [&](const MarkedPart& one) { return one.code == code; });
  return part == mark.parts.end() ? -1 : part->points / part->of;
}

TEST(PracticeMarking, AnExpertGetsEightyFiveAndACarelessHandLessOnEverySeed) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Exercise exercise{.seed = seed, .difficulty = static_cast<int>(seed % 6)};
    AtBench expert(exercise), careless(exercise);
    ExpertHand(expert).work();
    work_carelessly(careless);
    const Mark good = expert.run.mark(), poor = careless.run.mark();
    EXPECT_TRUE(good.safe);
    EXPECT_GE(good.points, 85) << "seed " << seed;
    EXPECT_LT(poor.points, good.points - 10) << "seed " << seed;
    EXPECT_FALSE(good.expert.empty());
    for (const MarkedPart& part : poor.parts) EXPECT_GT(part.why.size(), 20U) << part.code;
  }
}

TEST(PracticeMarking, TheWeightsOfAWholeRunSumToAHundred) {
  AtBench at({.seed = 12, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}});
  ExpertHand hand(at);
  hand.work();
  ASSERT_EQ(hand.chosen(), Action::cut);
  double of = 0;
  for (const MarkedPart& part : at.run.mark().parts) of += part.of;
  EXPECT_EQ(of, 100);
}

TEST(PracticeMarking, APartThatIsRightlyReplacedIsNotMarkedForACut) {
  int replaced = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    AtBench at({.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::thin, Fault::wobble}});
    ExpertHand hand(at);
    hand.work();
    const Mark mark = at.run.mark();
    if (hand.chosen() != Action::replace) continue;
    ++replaced;
    for (const char* code : {"metal", "finish", "runout"}) EXPECT_EQ(share_of(mark, code), -1);
    EXPECT_GE(mark.points, 90);
  }
  EXPECT_GE(replaced, 5);
}

TEST(PracticeMarking, ACutThatWasCalledForAndNotMadeIsMarkedAsMissing) {
  AtBench at({.seed = 12, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}});
  at.run.apply(Decide{Action::replace});
  at.run.apply(Finish{});
  const Mark mark = at.run.mark();
  EXPECT_EQ(share_of(mark, "metal"), 0);
  EXPECT_EQ(share_of(mark, "finish"), 0);
  EXPECT_LT(share_of(mark, "verdict"), 0.2);
  EXPECT_LT(mark.points, 15);
}

TEST(PracticeMarking, AVerdictThatWasRightByWhatWasReadIsRightOnBadLuck) {
  int unlucky = 0;
  for (std::uint64_t seed = 1; seed <= 400 && unlucky < 2; ++seed) {
    // of a part whose variation lies on its limit, readings of one more turn say another thing
    const Exercise exercise{.seed = seed, .difficulty = 4};
    const Bench bench = bench_of(exercise);
    const Truth truth = truth_of(exercise);
    const auto coarse = bench_sim::part_of_faults(truth.make, truth.part, 180, 0.5);
    const auto all = chances_of(bench, all_information(truth, coarse));
    if (std::max({all.leave, all.cut, all.replace}) > 0.85) continue;
    AtBench at(exercise);
    ExpertHand hand(at);
    hand.work();
    const Mark mark = at.run.mark();
    EXPECT_EQ(share_of(mark, "verdict"), 1) << "seed " << seed;
    ++unlucky;
  }
  EXPECT_EQ(unlucky, 2);
}

TEST(PracticeMarking, AVerdictIsNotRightByLuckWithoutReadings) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    AtBench at({.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}});
    at.run.apply(Decide{Action::leave});
    at.run.apply(Finish{});
    EXPECT_LT(share_of(at.run.mark(), "verdict"), 0.5) << "seed " << seed;
  }
}

TEST(PracticeMarking, TheNextExerciseTrainsTheWeakestPart) {
  const Exercise exercise{.seed = 12, .difficulty = 2, .faults = std::vector<Fault>{Fault::wobble}};
  AtBench good(exercise);
  ExpertHand(good).work();
  EXPECT_EQ(good.run.mark().next.difficulty, 3);
  // all by the book but for the measuring
  AtBench blind(exercise);
  blind.run.apply(Wear{});
  blind.run.apply(Decide{Action::cut});
  blind.run.apply(MountPart{.pieces = blind.stacks(1)[0].pieces});
  blind.run.apply(Spindle{150});
  blind.run.apply(Reach{});
  const Mark mark = blind.run.mark();
  EXPECT_FALSE(mark.safe);
  EXPECT_EQ(mark.parts.front().code, "safety");
  EXPECT_EQ(mark.next.difficulty, 1);
  EXPECT_EQ(share_of(mark, mark.weakest), 0);
  EXPECT_NE(mark.next.seed, exercise.seed);
  ASSERT_TRUE(mark.next.faults);
  EXPECT_FALSE(mark.next.faults->empty());
  EXPECT_NE(mark.next_why.find(mark.weakest), std::string::npos);
  EXPECT_EQ(AtBench(mark.next).run.view().acts, 0);
}

TEST(PracticeMarking, IsRefusedUntilTheRunHasEnded) {
  AtBench at({.seed = 1, .difficulty = 0});
  try {
    static_cast<void>(at.run.mark());
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.code(), "not_yet");
  }
}

}  // namespace
}  // namespace brakewright::practice
