#include <gtest/gtest.h>

#include "tests/core/practice/at_bench.hpp"

namespace brakewright::practice {
namespace {

const Exercise kExercise{.seed = 11, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble}};

/// What an act at a turning spindle ends the run with.
std::string ends_with(const Act& act) {
  AtBench at(kExercise);
  at.start_turning();
  EXPECT_FALSE(at.run.view().ended);
  at.run.apply(act);
  const auto ended = at.run.view().ended;
  if (!ended) return "goes on";
  EXPECT_TRUE(ended->unsafe);
  EXPECT_GT(ended->text.size(), 40U);
  EXPECT_EQ(at.refusal(Look{}), "ended do");
  EXPECT_FALSE(at.run.mark().safe);
  return ended->code;
}

TEST(Unsafe, EachUnsafeActAtTheTurningSpindleEndsTheRunWithItsCode) {
  EXPECT_EQ(ends_with(Look{}), "goes on");
  EXPECT_EQ(ends_with(Reach{}), "reached_in");
  EXPECT_EQ(ends_with(Unmount{}), "reached_in");
  EXPECT_EQ(ends_with(Band{false}), "reached_in");
  EXPECT_EQ(ends_with(ChangeEdge{}), "reached_in");
  EXPECT_EQ(ends_with(Wear{.glasses = true, .gloves = true}), "gloves");
  EXPECT_EQ(ends_with(Wear{.glasses = false}), "no_glasses");
  EXPECT_EQ(ends_with(WalkAway{}), "left_alone");
  EXPECT_EQ(ends_with(Wipe{}), "wiped_turning");
  EXPECT_EQ(ends_with(Place{50}), "into_hat");
  const double on_face = AtBench(kExercise).middle_mm();
  EXPECT_EQ(ends_with(Measure{"micrometer_fine", on_face, 0}), "measured_turning");
  EXPECT_EQ(ends_with(ReadRunout{.radius_mm = on_face}), "measured_turning");
}

TEST(Unsafe, TheSpindleStartsOnlyWithGlassesAndBareHands) {
  for (const bool gloves : {false, true}) {
    AtBench at(kExercise);
    at.run.apply(Wear{.glasses = gloves, .gloves = gloves});
    at.run.apply(Decide{Action::cut});
    at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
    at.run.apply(Spindle{100});
    ASSERT_TRUE(at.run.view().ended);
    EXPECT_EQ(at.run.view().ended->code, gloves ? "gloves" : "no_glasses");
  }
}

TEST(Unsafe, ANutThatIsNotTightLetsThePartSlipAndInTheEndComeLoose) {
  AtBench at(kExercise);
  at.run.apply(Wear{});
  at.run.apply(Decide{Action::cut});
  at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces, .nut_tight = false});
  at.run.apply(Spindle{150});
  for (int k = 0; k < 60 && !at.run.view().ended; ++k) at.run.apply(Turns{200});
  ASSERT_TRUE(at.run.view().ended);
  EXPECT_EQ(at.run.view().ended->code, "loose_part");
}

TEST(Unsafe, ACutFarTooDeepBreaksTheEdge) {
  AtBench at(kExercise);
  at.start_turning();
  at.run.apply(TurnDial{Side::outboard, 200});
  at.run.apply(Feed{0.4});
  for (int k = 0; k < 5 && !at.run.view().ended; ++k) at.run.apply(Turns{10});
  ASSERT_TRUE(at.run.view().ended);
  EXPECT_EQ(at.run.view().ended->code, "broken_edge");
}

}  // namespace
}  // namespace brakewright::practice
