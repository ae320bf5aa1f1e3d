#include "core/runout/scratch.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

/// The mark that a wobble leaves: half arc acos(1 - d/A) round the high spot.
ScratchMark mark_of(double amplitude_um, double high_deg, double infeed_um) {
  return {
      .centre_deg = high_deg, .arc_deg = 2 * std::acos(1 - infeed_um / amplitude_um) / kDegree, .infeed_um = infeed_um};
}

TEST(Scratch, AQuarterTurnMarkOfAKnownInfeedGivesTheRunoutByHand) {
  // arc 90: A = d/(1 - cos 45) = 10/0.292893 = 34.142 um
  const auto reading = read_scratches({{.centre_deg = 30, .arc_deg = 90, .infeed_um = 10}});
  ASSERT_EQ(reading.marks.size(), 1U);
  EXPECT_NEAR(reading.marks[0].amplitude_um, 34.14214, 1e-5);
  EXPECT_NEAR(reading.marks[0].runout_um, 68.28427, 1e-5);
  EXPECT_FALSE(reading.part.has_value());
}

TEST(Scratch, AMarkAllTheWayRoundSaysOnlyThatTheRunoutIsNoMoreThanTheInfeed) {
  const auto reading = read_scratches(
      {{.centre_deg = 0, .arc_deg = 360, .infeed_um = 40}, {.centre_deg = 90, .arc_deg = 90, .infeed_um = 10}});
  EXPECT_TRUE(reading.marks[0].upper_bound);
  EXPECT_NEAR(reading.marks[0].runout_um, 40, 1e-12);
  EXPECT_FALSE(reading.part.has_value());
}

TEST(Scratch, AMarkAtTheSamePlaceOfThePartIsThePartsOwnWobble) {
  const auto mark = mark_of(50, 120, 12);
  const auto reading = read_scratches({mark, mark});
  EXPECT_NEAR(reading.part->runout_um, 100, 1e-9);
  EXPECT_NEAR(reading.part->high_deg, 120, 1e-9);
  EXPECT_NEAR(reading.mount->runout_um, 0, 1e-9);
  EXPECT_EQ(reading.mount->high_deg, 0);
}

TEST(Scratch, AMarkHalfATurnOnIsTheMountsWobble) {
  const auto reading = read_scratches({mark_of(50, 120, 12), mark_of(50, 300, 12)});
  EXPECT_NEAR(reading.part->runout_um, 0, 1e-9);
  EXPECT_NEAR(reading.mount->runout_um, 100, 1e-9);
  EXPECT_NEAR(reading.mount->high_deg, 120, 1e-9);
}

TEST(Scratch, PartAndMountComeBackFromTheMarksThatTheyWouldLeave) {
  for (int trial = 0; trial < 200; ++trial) {
    const double part = 20 + trial % 7 * 9, part_high = trial * 37 % 360;
    const double mount = 15 + trial % 5 * 11, mount_high = trial * 53 % 360;
    const auto wobble = [&](double sign) {
      const double x = part * std::cos(part_high * kDegree) + sign * mount * std::cos(mount_high * kDegree);
      const double y = part * std::sin(part_high * kDegree) + sign * mount * std::sin(mount_high * kDegree);
      double high = std::atan2(y, x) / kDegree;
      if (high < 0) high += 360;
      const double amplitude = std::hypot(x, y);
      return mark_of(amplitude, high, 0.2 * amplitude);
    };
    const auto reading = read_scratches({wobble(1), wobble(-1)});
    EXPECT_NEAR(reading.part->runout_um, 2 * part, 1e-6);
    EXPECT_NEAR(std::cos((reading.part->high_deg - part_high) * kDegree), 1, 1e-9);
    EXPECT_NEAR(reading.mount->runout_um, 2 * mount, 1e-6);
    EXPECT_NEAR(std::cos((reading.mount->high_deg - mount_high) * kDegree), 1, 1e-9);
  }
}

TEST(Scratch, NonsenseIsRefusedByTheNameOfItsField) {
  const auto field = [](const std::vector<ScratchMark>& marks) {
    try {
      read_scratches(marks);
    } catch (const InputError& error) {
      return error.field();
    }
    return std::string("accepted");
  };
  EXPECT_EQ(field({}), "marks");
  EXPECT_EQ(field({{}, {}, {}}), "marks");
  EXPECT_EQ(field({{.centre_deg = 0, .arc_deg = 0, .infeed_um = 1}}), "marks[0].arc_deg");
  EXPECT_EQ(field({{.centre_deg = 0, .arc_deg = 361, .infeed_um = 1}}), "marks[0].arc_deg");
  EXPECT_EQ(field({{.centre_deg = 360, .arc_deg = 10, .infeed_um = 1}}), "marks[0].centre_deg");
  EXPECT_EQ(field({{.centre_deg = 0, .arc_deg = 10, .infeed_um = -1}}), "marks[0].infeed_um");
}

}  // namespace
}  // namespace brakewright
