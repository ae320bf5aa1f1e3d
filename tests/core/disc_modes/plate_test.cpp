#include "core/disc_modes/plate.hpp"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "core/input_error.hpp"

namespace brakewright::disc_modes {
namespace {

const Plate kDisc{.outer_radius_mm = 140, .inner_radius_mm = 70, .thickness_mm = 12};

/// Rayleigh's quotient of a shape w(r) cos(n t): an upper bound of lambda2 for any shape that the edges allow.
template <class Shape>
double rayleigh(double b_over_a, double nu, int n, const Shape& shape) {
  boost::math::quadrature::gauss<double, 30> rule;
  const double n2 = n * n, h = 1e-4;
  const auto bending = [&](double r) {
    const double w = shape(r), slope = (shape(r + h) - shape(r - h)) / (2 * h);
    const double bend = (shape(r + h) - 2 * w + shape(r - h)) / (h * h);
    const double round = slope / r - n2 * w / (r * r), twist = n * (slope / r - w / (r * r));
    return (bend * bend + round * round + 2 * nu * bend * round + 2 * (1 - nu) * twist * twist) * r;
  };
  const auto moving = [&](double r) { return shape(r) * shape(r) * r; };
  return std::sqrt(rule.integrate(bending, b_over_a, 1.0) / rule.integrate(moving, b_over_a, 1.0));
}

TEST(PlateModes, LieUnderEveryShapeThatTheEdgesAllowAndNearAGoodOne) {
  for (const double b : {0.3, 0.5, 0.7}) {
    for (int n = 0; n <= 4; ++n) {
      const double clamped = frequency_parameters(b, 0.26, InnerEdge::clamped, n, 1).front();
      double best = INFINITY;
      for (double c = -0.6; c <= 0.6; c += 0.02) {
        best = std::min(best, rayleigh(b, 0.26, n, [&](double r) {
                          const double x = (r - b) / (1 - b);
                          return x * x * (1 + c * x);
                        }));
      }
      EXPECT_LE(clamped, best * 1.00001) << b << ' ' << n;
      EXPECT_GE(clamped, best * 0.94) << b << ' ' << n;
    }
  }
}

TEST(PlateModes, AFreeRingLiesUnderEveryShape) {
  for (const double b : {0.3, 0.5, 0.7}) {
    for (int n = 2; n <= 4; ++n) {
      const double found = frequency_parameters(b, 0.26, InnerEdge::free, n, 1).front();
      double best = INFINITY;
      for (double c = -2; c <= 2; c += 0.02) {
        best = std::min(best, rayleigh(b, 0.26, n, [&](double r) { return r * r + c * r; }));
      }
      EXPECT_LE(found, best * 1.00001) << b << ' ' << n;
      EXPECT_GE(found, best * 0.97) << b << ' ' << n;
    }
  }
}

TEST(PlateModes, FrequencyGoesWithThicknessOverTheSquareOfTheSize) {
  const auto base = plate_modes(kDisc, 4, 1);
  Plate other = kDisc;
  other.thickness_mm *= 2;
  other.outer_radius_mm *= 3;
  other.inner_radius_mm *= 3;
  other.e_gpa *= 4;
  const auto scaled = plate_modes(other, 4, 1);
  ASSERT_EQ(base.size(), 10U);
  for (std::size_t i = 0; i < base.size(); ++i) EXPECT_NEAR(scaled[i].hz / base[i].hz, 2.0 * 2 / 9, 1e-12);
}

TEST(PlateModes, AHatRaisesEveryToneAndItsUncertaintyAlike) {
  Plate plain = kDisc, hat = kDisc;
  plain.u_thickness_mm = hat.u_thickness_mm = 0.1;
  hat.hat = true;
  const auto low = plate_modes(plain, 4, 1), high = plate_modes(hat, 4, 1);
  ASSERT_EQ(high.size(), low.size());
  for (std::size_t i = 0; i < low.size(); ++i) {
    EXPECT_NEAR(high[i].hz / low[i].hz, kHatRaises, 1e-12);
    EXPECT_NEAR(high[i].u_hz / low[i].u_hz, kHatRaises, 1e-12);
    EXPECT_EQ(high[i].lambda2, low[i].lambda2);
  }
}

// The stiffness of 110 GPa, nu 0.26 and 12 mm is 16990 N m: worked by hand.
TEST(PlateModes, TheUmbrellaOfADiscOf140MillimetresRingsAtAKilohertzAndAHalf) {
  const auto modes = plate_modes(kDisc, 0, 0);
  ASSERT_EQ(modes.size(), 1U);
  EXPECT_NEAR(modes[0].hz, 12.9444189 / (2 * 3.14159265 * 0.14 * 0.14) * std::sqrt(16990 / (7200 * 0.012)), 0.1);
  EXPECT_NEAR(modes[0].hz, 1474, 1);
}

TEST(PlateModes, LowestComeFirstAndTheOneDiameterModeUnderTheUmbrellaInAWideRing) {
  Plate wide = kDisc;
  wide.inner_radius_mm = 0.2 * wide.outer_radius_mm;
  const auto modes = plate_modes(wide, 3, 1);
  EXPECT_EQ(modes.front().diameters, 1);
  for (std::size_t i = 1; i < modes.size(); ++i) EXPECT_GE(modes[i].hz, modes[i - 1].hz);
  EXPECT_EQ(plate_modes(kDisc, 3, 1).front().diameters, 0);
}

TEST(PlateModes, AFreeRingHasNoModeWithoutACircleUnderTwoDiameters) {
  Plate free = kDisc;
  free.inner_edge = InnerEdge::free;
  for (const PlateMode& mode : plate_modes(free, 5, 1)) EXPECT_TRUE(mode.diameters >= 2 || mode.circles >= 1);
  EXPECT_EQ(plate_modes(free, 5, 0).size(), 4U);
}

TEST(PlateModes, TheUncertaintyIsThatOfMaterialAndThicknessInQuadrature) {
  Plate doubtful = kDisc;
  doubtful.u_e_gpa = 4.4;
  doubtful.u_thickness_mm = 0.12;
  const auto mode = plate_modes(doubtful, 0, 0).front();
  EXPECT_NEAR(mode.u_hz / mode.hz, std::hypot(0.02, 0.01), 1e-12);
}

TEST(PlateModes, RefusalsNameTheField) {
  const auto refused = [](const Plate& plate, int diameters = 3) {
    try {
      plate_modes(plate, diameters, 1);
    } catch (const InputError& error) {
      return error.field();
    }
    return std::string("accepted");
  };
  Plate bad = kDisc;
  bad.inner_radius_mm = 140;
  EXPECT_EQ(refused(bad), "inner_radius_mm");
  bad = kDisc;
  bad.nu = 0.7;
  EXPECT_EQ(refused(bad), "nu");
  bad = kDisc;
  bad.thickness_mm = NAN;
  EXPECT_EQ(refused(bad), "thickness_mm");
  EXPECT_EQ(refused(kDisc, 21), "max_diameters");
}

TEST(PlateModes, EveryModeOfEveryRingIsFoundOnce) {
  for (double b = 0.05; b <= 0.951; b += 0.05) {
    for (const InnerEdge edge : {InnerEdge::clamped, InnerEdge::free}) {
      for (int n = 0; n <= 12; ++n) {
        const auto found = frequency_parameters(std::min(b, 0.95), 0.26, edge, n, 4);
        for (std::size_t i = 1; i < found.size(); ++i) {
          const double apart = (std::sqrt(found[i]) - std::sqrt(found[i - 1])) * (1 - b);
          EXPECT_GT(apart, 0.5) << b << ' ' << n << ' ' << i;
          EXPECT_LT(apart, 4.9) << b << ' ' << n << ' ' << i;
        }
      }
    }
  }
}

}  // namespace
}  // namespace brakewright::disc_modes
