#include "shop/practice/seen.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace brakewright::shop {
namespace {

constexpr int kAngles = 36, kRings = 8;
constexpr double kInnerMm = 80, kStepMm = 5;

template <class F>
practice::Picture face_of(F&& height_um) {
  practice::Picture face{.angles = kAngles, .rings = kRings, .inner_radius_mm = kInnerMm, .ring_step_mm = kStepMm};
  for (int ring = 0; ring < kRings; ++ring) {
    for (int angle = 0; angle < kAngles; ++angle) {
      face.height_um.push_back(
          static_cast<float>(height_um(kInnerMm + ring * kStepMm, 2 * std::numbers::pi * angle / kAngles)));
    }
  }
  return face;
}

TEST(WhatIsSeenOfAFace, TellsNeitherItsThicknessNorItsWobble) {
  const auto seen = as_seen(face_of([](double r_mm, double turn) { return -347 + 0.6 * r_mm * std::cos(turn - 1); }));
  for (const float height_um : seen.height_um) EXPECT_EQ(height_um, 0);
  EXPECT_EQ(seen.angles, kAngles);
  EXPECT_EQ(seen.ring_step_mm, kStepMm);
}

TEST(WhatIsSeenOfAFace, ShowsNewSurfaceBesideOldInStepsOfTwoMicrometres) {
  const auto with_lip = [](double um) {
    return face_of([um](double r_mm, double turn) { return (r_mm > 110 ? um : 0.0) + 0.3 * r_mm * std::sin(turn); });
  };
  const auto seen = as_seen(with_lip(80));
  EXPECT_EQ(seen.height_um.back() - seen.height_um.front(), 80);
  EXPECT_EQ(seen.height_um, as_seen(with_lip(80.4)).height_um);
  for (const float height_um : seen.height_um) EXPECT_EQ(std::fmod(height_um, 2.0F), 0);
}

TEST(WhatIsSeenOfAFace, OfNoPointsIsNothing) { EXPECT_TRUE(as_seen({}).height_um.empty()); }

}  // namespace
}  // namespace brakewright::shop
