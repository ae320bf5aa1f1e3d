#include "core/bench_sim/cut/chip.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "core/bench_sim/cut/circle.hpp"
#include "core/bench_sim/cut/power.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::bench_sim {
namespace {

TEST(CutPower, IsWithinTwoInAHundredThousandOverAllChips) {
  Random random(41);
  for (int trial = 0; trial < 20000; ++trial) {
    const float p = static_cast<float>(random.uniform());
    Wide<4>::Floats y = {};
    for (int i = 0; i < 4; ++i) y[i] = static_cast<float>(std::pow(10, -9 + 10 * random.uniform()));
    const Wide<4>::Floats before = y;
    raise<4>(y, power_of(p));
    for (int i = 0; i < 4; ++i) {
      const double want = std::pow(static_cast<double>(before[i]), static_cast<double>(p));
      EXPECT_NEAR(static_cast<double>(y[i]) / want, 1, 2e-5) << before[i] << ' ' << p;
    }
  }
}

/// The angle itself is rounded here by up to 9e-16.
TEST(CutCircle, IsCosineAndSineOfEachAngle) {
  for (const int angles : {36, 37, 360, 1000, 3600}) {
    const auto circle = unit_circle(angles);
    ASSERT_EQ(circle.size(), static_cast<std::size_t>(angles));
    for (int i = 0; i < angles; ++i) {
      const double turn = 2 * std::numbers::pi * i / angles;
      EXPECT_NEAR(circle[static_cast<std::size_t>(i)].x, std::cos(turn), 2e-15);
      EXPECT_NEAR(circle[static_cast<std::size_t>(i)].y, std::sin(turn), 2e-15);
    }
  }
}

/// Six blocks of rings, of which groups 4 to 8 are there.
struct Made {
  std::vector<float> height, hardness, top;
  NosePass pass;

  NoseRow row(bool with_hardness) {
    return {.height = height.data(),
            .hardness = with_hardness ? hardness.data() : nullptr,
            .top = top.data(),
            .next_height = kLanes,
            .next_top = kLanes,
            .blocks = 6};
  }
};

Made made(Random& random) {
  Made made;
  for (int i = 0; i < 6 * kLanes; ++i) {
    made.height.push_back(static_cast<float>(60 * random.normal()));
    made.hardness.push_back(static_cast<float>(1 + 0.5 * random.uniform()));
    made.top.push_back(static_cast<float>(60 * random.normal()));
  }
  made.pass = {.radius_um = static_cast<float>(200 + 600 * random.uniform()),
               .step_um = 20,
               .centre = 32 + 40 * random.uniform(),
               .tip_um = static_cast<float>(-100 * random.uniform()),
               .exponent = static_cast<float>(1 - 0.5 * random.uniform()),
               .least_chip_um = static_cast<float>(3 * random.uniform())};
  return made;
}

constexpr int kFrom = 4, kTo = 9;

TEST(CutChip, EightAtOnceGiveTheBitsOfThePlainWay) {
  Random random(42);
  for (int trial = 0; trial < 500; ++trial) {
    Made one = made(random), other = one;
    const bool with_hardness = trial % 2 == 0;
    const NoseTake a = take_row(one.row(with_hardness), kFrom, kTo, one.pass);
    const NoseTake b = take_row_plainly(other.row(with_hardness), kFrom, kTo, other.pass);
    EXPECT_EQ(a.pressure, b.pressure);
    EXPECT_EQ(a.taken_um, b.taken_um);
    EXPECT_EQ(a.moment_um2, b.moment_um2);
    EXPECT_EQ(a.thickest_um, b.thickest_um);
    EXPECT_EQ(one.height, other.height);
    EXPECT_EQ(one.top, other.top);
  }
}

TEST(CutChip, ARowIsWhatEachOfItsCellsGives) {
  Random random(43);
  for (int trial = 0; trial < 500; ++trial) {
    Made row = made(random);
    const Made before = row;
    const NoseTake take = take_row(row.row(true), kFrom, kTo, row.pass);
    const double r = static_cast<double>(row.pass.radius_um);
    double pressure = 0, taken = 0, moment = 0;
    for (int ring = kFrom * kLanes; ring < kTo * kLanes; ++ring) {
      const auto i = static_cast<std::size_t>(ring % (6 * kLanes));
      const double x = (ring - row.pass.centre) * 20, height = static_cast<double>(before.height[i]);
      EXPECT_GE(row.top[i], row.height[i]);
      if (std::abs(x) >= r) {
        EXPECT_EQ(row.height[i], before.height[i]);
        continue;
      }
      const double edge = static_cast<double>(row.pass.tip_um) + nose_rise_um(r, x);
      const double chip = (height - edge) * std::sqrt(1 - x * x / r / r);
      const bool cuts = chip > static_cast<double>(row.pass.least_chip_um);
      EXPECT_NEAR(static_cast<double>(row.height[i]), cuts ? edge : height, 2e-4);
      if (chip > 0) {
        pressure +=
            static_cast<double>(before.hardness[i]) * std::pow(chip * 1e-3, static_cast<double>(row.pass.exponent));
      }
      if (cuts) taken += height - edge;
      if (cuts) moment += (height - edge) * x;
    }
    EXPECT_NEAR(take.pressure, pressure, 1e-4 * pressure + 1e-6);
    EXPECT_NEAR(take.taken_um, taken, 1e-3);
    EXPECT_NEAR(take.moment_um2, moment, 0.5);
  }
}

TEST(CutChip, CellsOutOfReachAddExactlyNothing) {
  Random random(44);
  for (int trial = 0; trial < 500; ++trial) {
    Made one = made(random);
    one.pass.centre = 6 * kLanes;
    for (std::size_t i = 0; i < one.height.size(); ++i) {
      const int ring = static_cast<int>(i) + (i < 32 ? 48 : 0);  // blocks 0 to 3 hold groups 6 to 9
      const bool near = ring >= 5 * kLanes && ring < 7 * kLanes;
      if (!near) one.height[i] = -1000;
    }
    Made other = one;
    const NoseTake a = take_row(one.row(false), 4, 9, one.pass);
    const NoseTake b = take_row(other.row(false), 5, 7, other.pass);
    EXPECT_EQ(a.pressure, b.pressure);
    EXPECT_EQ(a.taken_um, b.taken_um);
    EXPECT_EQ(one.height, other.height);
  }
}

}  // namespace
}  // namespace brakewright::bench_sim
