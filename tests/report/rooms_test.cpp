#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "report/canvas/canvas.hpp"
#include "report/scale/scale.hpp"
#include "report/trace/trace.hpp"

namespace brakewright::report {
namespace {

TEST(Drawable, CutsLongTextAtACharacterNeverInsideOne) {
  std::string text;
  for (int k = 0; k < 100; ++k) text += "é";
  EXPECT_EQ(drawable(text, 5), "éé…");
  EXPECT_EQ(drawable(text, 200), text);
}

TEST(Drawable, TurnsBreaksControlsAndDirectionSignsIntoBlanks) {
  EXPECT_EQ(drawable("a\nb\tc\x7f"
                     "d"),
            "a b c d");
  EXPECT_EQ(drawable("a\u202Eb\u2066c"), "a b c");
  EXPECT_EQ(drawable("<b>&amp;"), "<b>&amp;");
}

TEST(Drawable, ShowsBytesThatAreNoUtf8AsReplacementCharacters) {
  EXPECT_EQ(drawable("a\xff"
                     "b"),
            "a\uFFFDb");
}

TEST(ScaleLabels, StayWhereTheyAreWantedWhenThereIsRoom) {
  EXPECT_EQ(spread_labels({10, 30, 60}, 5, 0, 100), (std::vector<double>{10, 30, 60}));
}

TEST(ScaleLabels, NeverOverlapAndNeverLeaveTheirArea) {
  for (const std::vector<double>& wanted :
       {std::vector<double>{0, 0, 0, 0}, {48, 49, 50, 51}, {20, 21, 21, 22, 40}, {-10, 70}}) {
    const std::vector<double> tops = spread_labels(wanted, 5, 0, 50);
    ASSERT_EQ(tops.size(), wanted.size());
    for (std::size_t k = 0; k < tops.size(); ++k) {
      EXPECT_GE(tops[k], -1e-9);
      EXPECT_LE(tops[k] + 5, 50 + 1e-9);
      if (k > 0) {
        EXPECT_GE(tops[k] - tops[k - 1], 5 - 1e-9);
      }
    }
  }
}

TEST(ScaleLabels, AreSqueezedEvenlyWhereTheyCannotFit) {
  EXPECT_EQ(spread_labels({0, 0, 0}, 10, 0, 20), (std::vector<double>{0, 5, 10}));
}

TEST(NiceStep, IsOneTwoOrFiveTimesAPowerOfTenAndLeavesAsManyPartsAsAskedForOrAFewMore) {
  for (const double span : {0.0013, 0.02, 0.7, 1.0, 9.0, 24.6, 400.0}) {
    const double step = nice_step(span, 4);
    EXPECT_GE(span / step, 3.999) << span;
    EXPECT_LE(span / step, 10.01) << span;
    const double lead = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
    EXPECT_TRUE(std::abs(lead - 1) < 1e-6 || std::abs(lead - 2) < 1e-6 || std::abs(lead - 5) < 1e-6) << step;
  }
}

TEST(Diverging, IsPaleAtTheMeanAndNeverTheSameOnBothSides) {
  const Colour middle = diverging(0);
  EXPECT_GT(middle.red + middle.green + middle.blue, 2.8);
  for (const double share : {0.2, 0.5, 1.0, 5.0}) {
    const Colour low = diverging(-share);
    const Colour high = diverging(share);
    EXPECT_GT(low.red, low.blue);
    EXPECT_LT(high.red, high.blue);
  }
}

}  // namespace
}  // namespace brakewright::report
