#include "core/uncertainty/conformity.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

TEST(Conformity, AValueOnTheLimitIsEvenOdds) {
  const ConformityAnswer answer = judge_conformity(5.0, 0.1, {.upper = 5.0}, 0.95);
  EXPECT_DOUBLE_EQ(answer.p_conform, 0.5);
  EXPECT_EQ(answer.verdict, Conformity::cannot_tell);
  EXPECT_EQ(name_of(answer.verdict), "cannot tell");
}

TEST(Conformity, AValueAGuardBandInsideIsJustWithin) {
  for (const double confidence : {0.8, 0.95, 0.99}) {
    const double guard = judge_conformity(0.0, 0.1, {.upper = 5.0}, confidence).guard;
    EXPECT_NEAR(judge_conformity(5.0 - guard, 0.1, {.upper = 5.0}, confidence).p_conform, confidence, 1e-12);
    EXPECT_EQ(judge_conformity(5.0 - guard * 1.001, 0.1, {.upper = 5.0}, confidence).verdict, Conformity::within);
    EXPECT_EQ(judge_conformity(5.0 - guard * 0.999, 0.1, {.upper = 5.0}, confidence).verdict, Conformity::cannot_tell);
    EXPECT_EQ(judge_conformity(5.0 + guard * 1.001, 0.1, {.upper = 5.0}, confidence).verdict, Conformity::outside);
    EXPECT_EQ(judge_conformity(5.0 - guard * 1.001, 0.1, {.lower = 5.0}, confidence).verdict, Conformity::outside);
  }
  EXPECT_NEAR(judge_conformity(0.0, 1.0, {.upper = 5.0}, 0.95).guard, 1.6449, 5e-5);
}

TEST(Conformity, TwoLimitsCloserThanTheUncertaintyCannotBeToldFromWithin) {
  const ConformityAnswer answer = judge_conformity(0.0, 1.0, {.lower = -1.0, .upper = 1.0}, 0.95);
  EXPECT_NEAR(answer.p_conform, 0.6826894921, 1e-10);
  EXPECT_DOUBLE_EQ(answer.p_best, answer.p_conform);
  EXPECT_EQ(answer.verdict, Conformity::cannot_tell);
  EXPECT_DOUBLE_EQ(judge_conformity(9.0, 1.0, {.lower = -1.0}, 0.95).p_best, 1.0);
}

TEST(Conformity, CertainValuesAreWithinOrOutside) {
  const Limits limits{.lower = 1.0, .upper = 2.0};
  EXPECT_EQ(judge_conformity(1.0, 0.0, limits, 0.95).verdict, Conformity::within);
  EXPECT_EQ(judge_conformity(2.0, 0.0, limits, 0.95).verdict, Conformity::within);
  EXPECT_EQ(judge_conformity(2.0000001, 0.0, limits, 0.95).verdict, Conformity::outside);
  EXPECT_EQ(judge_conformity(0.9, 0.0, limits, 0.95).p_conform, 0.0);
  EXPECT_EQ(judge_conformity(1.0, 0.0, {.lower = 1.0, .upper = 1.0}, 0.95).verdict, Conformity::within);
}

TEST(Conformity, SmallProbabilitiesKeepTheirDigits) {
  // Tails of the standard normal distribution beyond 8, and between 8 and 9: computed with 40 digits in mpmath.
  EXPECT_NEAR(judge_conformity(8.0, 1.0, {.upper = 0.0}, 0.95).p_conform / 6.220960574271784e-16, 1.0, 1e-12);
  EXPECT_NEAR(judge_conformity(8.0, 1.0, {.lower = -1.0, .upper = 0.0}, 0.95).p_conform / 6.219831985865831e-16, 1.0,
              1e-12);
  EXPECT_NEAR(judge_conformity(-8.0, 1.0, {.lower = 0.0}, 0.95).p_conform / 6.220960574271784e-16, 1.0, 1e-12);
}

TEST(Conformity, ExtremeNumbersGiveAnAnswerAndNeverNaN) {
  for (const double u : {1e-320, 1e-10, 1.0, 1e300}) {
    const ConformityAnswer answer = judge_conformity(1e308, u, {.lower = -1e308, .upper = 1e308}, 0.95);
    EXPECT_TRUE(answer.p_conform >= 0.0 && answer.p_conform <= 1.0) << u;
    EXPECT_TRUE(std::isfinite(answer.guard)) << u;
  }
}

TEST(Conformity, BadInputIsRefusedByName) {
  const auto refusal = [](double value, double u, const Limits& limits, double confidence) {
    try {
      judge_conformity(value, u, limits, confidence);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return std::string("accepted");
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal(nan, 1, {.upper = 1.0}, 0.95), "not_finite value");
  EXPECT_EQ(refusal(1, nan, {.upper = 1.0}, 0.95), "not_finite u");
  EXPECT_EQ(refusal(1, -1, {.upper = 1.0}, 0.95), "out_of_range u");
  EXPECT_EQ(refusal(1, 1.79e308, {.upper = 1.0}, 0.95), "out_of_range u");
  EXPECT_EQ(refusal(1, 1, {}, 0.95), "missing upper");
  EXPECT_EQ(refusal(1, 1, {.lower = nan}, 0.95), "not_finite lower");
  EXPECT_EQ(refusal(1, 1, {.lower = 2.0, .upper = 1.0}, 0.95), "out_of_range upper");
  EXPECT_EQ(refusal(1, 1, {.upper = 1.0}, 1.0), "out_of_range confidence");
  EXPECT_EQ(refusal(1, 1, {.upper = 1.0}, 0.4), "out_of_range confidence");
}

RC_GTEST_PROP(Conformity, NeitherUnitNorOriginChangesTheProbability, ()) {
  const double value = *rc::gen::inRange(-3000, 3000) / 1000.0;
  const double u = *rc::gen::inRange(1, 1000) / 1000.0;
  const double shift = *rc::gen::inRange(-100, 100);
  const double p = judge_conformity(value, u, {.lower = -1.0, .upper = 1.0}, 0.95).p_conform;
  const double inches =
      judge_conformity(value / 25.4, u / 25.4, {.lower = -1.0 / 25.4, .upper = 1.0 / 25.4}, 0.95).p_conform;
  const double moved = judge_conformity(value + shift, u, {.lower = shift - 1.0, .upper = shift + 1.0}, 0.95).p_conform;
  const double mirrored = judge_conformity(-value, u, {.lower = -1.0, .upper = 1.0}, 0.95).p_conform;
  RC_ASSERT(std::abs(p - inches) < 1e-10);
  RC_ASSERT(std::abs(p - moved) < 1e-9);
  RC_ASSERT(std::abs(p - mirrored) < 1e-12);
}

}  // namespace
}  // namespace brakewright
