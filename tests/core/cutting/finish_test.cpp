#include "core/cutting/finish.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/cutting/force.hpp"
#include "core/input_error.hpp"

namespace brakewright::cutting {
namespace {

TEST(Finish, AFeedPastTwiceTheNoseIsRefused) {
  EXPECT_NO_THROW(finish(1.6, 0.8));
  EXPECT_THROW(finish(1.6001, 0.8), InputError);
  EXPECT_THROW(finish(0, 0.8), InputError);
  EXPECT_THROW(finish(std::nan(""), 0.8), InputError);
  EXPECT_THROW(finish(0.1, -1), InputError);
}

TEST(Finish, AtTwiceTheNoseTheArcIsAHalfCircle) {
  const auto made = finish(2, 1);
  EXPECT_NEAR(made.rt_exact_um, 1000, 1e-9);
  // mean height of a half circle is r (1 - pi/4)
  const double mean = 1 - std::acos(-1.0) / 4, crossing = std::sqrt(1 - (1 - mean) * (1 - mean));
  const double below = 2 * crossing * mean - 2 * crossing + crossing * (1 - mean) + std::asin(crossing);
  EXPECT_NEAR(made.ra_exact_um, below * 1e3, 1e-6);
}

TEST(Finish, TheArcTendsToTheParabolaAsTheFeedFalls) {
  for (const double feed : {0.1, 0.01, 0.001, 1e-5}) {
    const auto made = finish(feed, 0.8);
    EXPECT_NEAR(made.ra_exact_um / made.ra_um, 1, feed * feed);
  }
}

TEST(Finish, UnderTheFeedOfBrammertzAFaceGetsRougher) {
  // Rt = f^2/(8r) + h/2 (1 + r h/f^2) is least, and equal to h, at f = sqrt(2 r h)
  const double least = *finish(0.1, 0.8, 3).feed_of_least_rt_mm_per_rev;
  EXPECT_NEAR(*finish(least, 0.8, 3).rt_brammertz_um, 3, 1e-9);
  EXPECT_GT(*finish(least * 0.8, 0.8, 3).rt_brammertz_um, 3);
  EXPECT_GT(*finish(least * 1.2, 0.8, 3).rt_brammertz_um, 3);
}

TEST(NoseForce, AVanishingCuspLeavesADepthTimesFeedChip) {
  const auto force = nose_force({.depth_mm = 0.2, .feed_mm_per_rev = 0.001, .nose_radius_mm = 0.8});
  EXPECT_NEAR(force.chip_area_mm2 / (0.2 * 0.001), 1, 1e-4);
  EXPECT_TRUE(force.extrapolated);
  EXPECT_NEAR(force.force_high_n / force.force_n, 1.5, 1e-12);
}

TEST(NoseForce, ACutShallowerThanTheCuspStillHasAChip) {
  // the cusp of feed 0.4 on a nose of 0.4 is 53 um high
  const auto force = nose_force({.depth_mm = 0.02, .feed_mm_per_rev = 0.4, .nose_radius_mm = 0.4});
  EXPECT_GT(force.chip_area_mm2, 0);
  EXPECT_GT(force.force_n, 0);
  EXPECT_LE(force.h_max_um, 20 + 1e-9);
}

TEST(NoseForce, WithoutAFallOfPressureTheForceIsPressureTimesEdgeAndThickness) {
  const auto thin =
      nose_force({.depth_mm = 0.1, .feed_mm_per_rev = 0.1, .nose_radius_mm = 0.4, .kc11_n_per_mm2 = 1000, .mc = 0});
  const auto twice =
      nose_force({.depth_mm = 0.1, .feed_mm_per_rev = 0.1, .nose_radius_mm = 0.4, .kc11_n_per_mm2 = 2000, .mc = 0});
  EXPECT_NEAR(twice.force_n / thin.force_n, 2, 1e-12);
  EXPECT_NEAR(thin.force_n / (1000 * thin.chip_area_mm2), 1, 0.1);  // radial thickness against true area
}

TEST(NoseForce, ADepthPastTheNoseIsRefusedByName) {
  try {
    nose_force({.depth_mm = 0.5, .feed_mm_per_rev = 0.1, .nose_radius_mm = 0.4});
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.field(), "depth_mm");
  }
}

}  // namespace
}  // namespace brakewright::cutting
