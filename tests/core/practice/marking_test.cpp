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

void expect_marks_to_tell_hands_apart(mount::PartKind kind) {
  std::uint64_t seed = 0;
  for (int k = 0; k < 40; ++k) {
    seed = seed_of(kind, seed + 1);
    const Exercise exercise{.seed = seed, .difficulty = k % 6};
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

TEST(PracticeMarking, AnExpertGetsEightyFiveAndACarelessHandLessOnEverySeedWithAHat) {
  expect_marks_to_tell_hands_apart(mount::PartKind::hubless);
}

TEST(PracticeMarking, AnExpertGetsEightyFiveAndACarelessHandLessOnEverySeedWithAHub) {
  expect_marks_to_tell_hands_apart(mount::PartKind::hubbed);
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

TEST(PracticeMarking, OnePlaceReadAgainAndAgainIsNotAVerdictByReadings) {
  AtBench at({.seed = 3, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}});
  for (int i = 0; i < 120; ++i) at.run.apply(Measure{"micrometer_fine", at.middle_mm(), 0});
  at.run.apply(MountPart{.pieces = at.stacks(1).front().pieces});
  at.run.apply(ReadRunout{.radius_mm = at.middle_mm(), .points = 12});
  at.run.apply(Decide{Action::leave});
  at.run.apply(Unmount{});
  at.run.apply(Finish{});
  EXPECT_LT(share_of(at.run.mark(), "verdict"), 0.5);
}

TEST(PracticeMarking, AVerdictIsNotRightByLuckWithoutReadings) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    AtBench at({.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}});
    at.run.apply(Decide{Action::leave});
    at.run.apply(Finish{});
    EXPECT_LT(share_of(at.run.mark(), "verdict"), 0.5) << "seed " << seed;
  }
}

Mark mark_with(const Exercise& exercise, const Habits& habits) {
  AtBench at(exercise);
  ExpertHand(at, habits).work();
  return at.run.mark();
}

bool trains(const Mark& mark, Fault fault) {
  const auto& faults = mark.next.faults;
  return faults && std::find(faults->begin(), faults->end(), fault) != faults->end();
}

TEST(PracticeMarking, TheNextExerciseTrainsTheWeakestPart) {
  struct Case {
    const char* weakest;
    Habits habits;
    Fault fault;
  };
  const Case cases[] = {
      {"measuring", {.zeroes = false, .measures_all_round = false}, Fault::micrometer_zero},
      {"proof", {.wipes = false, .reads_the_mount = false}, Fault::dirty_seat},
      {"finish", {.bands = false}, Fault::no_band},
  };
  for (const Case& one : cases) {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      std::vector<Fault> faults = {Fault::wobble, one.fault};
      std::sort(faults.begin(), faults.end());
      const Mark mark = mark_with({.seed = seed, .difficulty = 2, .faults = faults}, one.habits);
      EXPECT_EQ(mark.weakest, one.weakest) << "seed " << seed;
      EXPECT_TRUE(trains(mark, one.fault)) << one.weakest << " seed " << seed;
      EXPECT_NE(mark.next_why.find(one.weakest), std::string::npos);
      EXPECT_EQ(AtBench(mark.next).run.view().acts, 0);
    }
  }
}

TEST(PracticeMarking, WhereNothingWasWeakTheNextExerciseIsAStepHarder) {
  const Mark mark = mark_with({.seed = 12, .difficulty = 2, .faults = std::vector<Fault>{Fault::wobble}}, {});
  EXPECT_GE(mark.points, 95);
  EXPECT_EQ(mark.next.difficulty, 3);
  EXPECT_FALSE(mark.next.faults);
}

TEST(PracticeMarking, AnUnsafeEndIsToldFirstAndMakesTheNextOneEasier) {
  const Exercise exercise{.seed = 12, .difficulty = 2, .faults = std::vector<Fault>{Fault::wobble}};
  AtBench at(exercise);
  at.start_turning();
  at.run.apply(Reach{});
  const Mark mark = at.run.mark();
  EXPECT_FALSE(mark.safe);
  EXPECT_EQ(mark.parts.front().code, "safety");
  EXPECT_EQ(mark.parts.front().why, at.run.view().ended->text);
  EXPECT_EQ(mark.next.difficulty, 1);
  EXPECT_NE(mark.next.seed, exercise.seed);
}

TEST(PracticeMarking, LeavingOutAStepCostsThatPart) {
  const Exercise exercise{.seed = 7, .difficulty = 2, .faults = std::vector<Fault>{Fault::wobble, Fault::worn_edge}};
  const Mark all = mark_with(exercise, {});
  const auto less = [&](const Habits& habits, const char* code) {
    return share_of(mark_with(exercise, habits), code) < share_of(all, code) - 0.1;
  };
  EXPECT_TRUE(less({.measures_all_round = false}, "measuring"));
  EXPECT_TRUE(less({.zeroes = false}, "measuring"));
  EXPECT_TRUE(less({.reads_the_mount = false}, "proof"));
  EXPECT_TRUE(less({.worse_stack = 59}, "stack"));
}

TEST(PracticeMarking, TwoScratchesHalfATurnApartProveTheMountAsAnIndicatorDoes) {
  const Exercise exercise{.seed = 7, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}};
  const auto proof = [&](double turn_deg) {
    AtBench at(exercise);
    at.run.apply(Wear{});
    at.run.apply(Wipe{});
    at.run.apply(Decide{Action::cut});
    for (double turn : {0.0, turn_deg}) {
      if (!at.run.view().mounted.empty()) at.run.apply(Unmount{});
      at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces, .turn_deg = turn});
      at.run.apply(Place{at.middle_mm()});
      at.run.apply(Spindle{150});
      while (at.run.view().outboard.contact_share == 0) {
        at.run.apply(TurnDial{Side::outboard, 0.5});
        at.run.apply(Turns{1});
      }
      at.run.apply(TurnDial{Side::outboard, -8});
      at.run.apply(Spindle{0});
    }
    at.run.apply(Finish{});
    return share_of(at.run.mark(), "proof");
  };
  EXPECT_GT(proof(180), proof(20) + 0.3);
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
