#include "core/disc_modes/likely_mode.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/input_error.hpp"

namespace brakewright::disc_modes {
namespace {

const Plate kHung{.outer_radius_mm = 140, .inner_radius_mm = 70, .thickness_mm = 12, .inner_edge = InnerEdge::free};

TEST(LikelyMode, AFrequencyNearAModeThatStandsAloneIsThatMode) {
  const auto modes = plate_modes(kHung, 4, 0);
  const auto found = likely_mode(modes, 1.02 * modes[0].hz, 1);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->mode.diameters, 2);
  EXPECT_GT(found->probability, 0.6);
}

TEST(LikelyMode, AFrequencyFarFromAllIsNoneOfThem) {
  const auto modes = plate_modes(kHung, 4, 0);
  EXPECT_LT(likely_mode(modes, 0.4 * modes[0].hz, 1)->probability, 0.01);
  EXPECT_FALSE(likely_mode({}, 1000, 1));
}

TEST(LikelyMode, BetweenTwoModesNeitherIsCertain) {
  const PlateMode pair[] = {{.diameters = 0, .hz = 1000}, {.diameters = 1, .hz = 1040}};
  EXPECT_LT(likely_mode(pair, 1020, 1)->probability, 0.5);
}

TEST(ChatterMarks, TellTheFrequencyThatLeftThem) {
  const ChatterMarks marks = frequency_of_marks(2, 0.1, 120, 120);
  EXPECT_NEAR(marks.hz, 2 * std::numbers::pi * 120 * 2 / 2, 1e-9);
  EXPECT_NEAR(marks.per_turn, marks.hz * 60 / 120, 1e-9);
  EXPECT_NEAR(marks.u_hz / marks.hz, 0.05, 1e-12);
  EXPECT_NEAR(marks.surface_speed_m_per_min * 1000 / 60 / 2, marks.hz, 1e-9);
  EXPECT_THROW(frequency_of_marks(0, 0, 120, 120), InputError);
  EXPECT_THROW(frequency_of_marks(2, 3, 120, 120), InputError);
  EXPECT_THROW(frequency_of_marks(755, 0, 120, 120), InputError);
}

}  // namespace
}  // namespace brakewright::disc_modes
