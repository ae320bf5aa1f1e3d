#include "core/mount/mount.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/outside/table.hpp"

namespace brakewright::mount {
namespace {

using outside::Table;

/// Lip that a cup has left at the wide end of its race. None of the sources gives race diameters: our own judgement.
constexpr double kLip_mm = 1.5;

/// The race narrows from the wide end by the half angle, over the cup's width.
double small_end_mm(const Table& cups, std::size_t row) {
  const double half_angle = cups.number(row, "cup_half_angle_deg") * std::numbers::pi / 180;
  return cups.number(row, "cup_od_mm") - 2 * kLip_mm - 2 * cups.number(row, "cup_width_mm") * std::tan(half_angle);
}

/// Tapers in steps of 15 %, each 30 % wider at its large end, two of each size; and a nut.
std::vector<Piece> tapers(int steps) {
  std::vector<Piece> pieces{{.id = "nut", .kind = PieceKind::nut, .bore_mm = 25.4}};
  for (int k = 0; k < steps; ++k) {
    const double small = 28 * std::pow(1.15, k);
    for (const char* copy : {"a", "b"}) {
      Piece taper{.id = "T" + std::to_string(k) + copy, .kind = PieceKind::taper, .bore_mm = 25.4};
      taper.length_mm = 30;
      taper.small_mm = small;
      taper.large_mm = 1.3 * small;
      pieces.push_back(taper);
    }
  }
  return pieces;
}

/// What sits nearest to the middle of a race, of all tapers.
double best_q(double race_mm, int steps) {
  double best = -10;
  for (int k = 0; k < steps; ++k) {
    const double small = 28 * std::pow(1.15, k), q = (race_mm - small) / (0.3 * small);
    if (std::abs(q - 0.5) < std::abs(best - 0.5)) best = q;
  }
  return best;
}

const Arbor kArbor{.diameter_mm = 25.4, .thread_start_mm = 60, .tip_mm = 250, .nut_engagement_mm = 15};

PartSeat hub(double inner_race_mm, double outer_race_mm) {
  PartSeat part{.kind = PartKind::hubbed};
  part.hub_length_mm = 80;
  part.inner_race_mm = inner_race_mm;
  part.outer_race_mm = outer_race_mm;
  return part;
}

// taper_cups.csv: outer diameter, width and half angle of 20 bearing cups. One pair (L68149/L68110) was checked in full
// against a published data page; of the others bore and diameter come from public lists or from memory, as each row's
// basis says, and width and angle from memory. Every hub made of two of these cups must be carried, at the q that
// (race - small)/(large - small) gives for the taper nearest to half way.
TEST(OutsideMount, EveryHubOfTwoListedCupsIsCarriedByTheTapersNearestToHalfWay) {
  const Table cups("taper_cups.csv");
  ASSERT_EQ(cups.size(), 20U);
  const auto pieces = tapers(9);
  for (std::size_t inner = 0; inner < cups.size(); ++inner) {
    for (std::size_t outer = 0; outer < cups.size(); ++outer) {
      SCOPED_TRACE(cups.text(inner, "cup") + " and " + cups.text(outer, "cup"));
      const double inner_race = small_end_mm(cups, inner), outer_race = small_end_mm(cups, outer);
      const auto stacks = find_stacks(kArbor, hub(inner_race, outer_race), pieces, 1).stacks;
      ASSERT_EQ(stacks.size(), 1U);
      ASSERT_EQ(stacks[0].q.size(), 2U);
      EXPECT_NEAR(stacks[0].q[0], best_q(inner_race, 9), 1e-6);
      EXPECT_NEAR(stacks[0].q[1], best_q(outer_race, 9), 1e-6);
      for (const double q : stacks[0].q) {
        EXPECT_GE(q, 0.2);
        EXPECT_LE(q, 0.8);
      }
      const double outside = 30 * (1 - stacks[0].q[0]) + 30 * (1 - stacks[0].q[1]);
      EXPECT_NEAR(stacks[0].length_mm, 80 + outside, 1e-4);
    }
  }
}

// taper_cups.csv: L68110 and L68111 look alike and differ by 0.844 mm in outer diameter (one checked against a
// published page, the other's diameter against two public lists); on one taper the second sits higher by that over its
// span.
TEST(OutsideMount, TwoCupsThatLookAlikeSitApartByTheirDifferenceOverTheTapersSpan) {
  const Table cups("taper_cups.csv");
  std::size_t first = 0, second = 0;
  for (std::size_t row = 0; row < cups.size(); ++row) {
    if (cups.text(row, "cup") == "L68110") first = row;
    if (cups.text(row, "cup") == "L68111") second = row;
  }
  ASSERT_NEAR(cups.number(second, "cup_od_mm") - cups.number(first, "cup_od_mm"), 0.844, 1e-9);
  const auto pieces = tapers(9);
  const auto q = [&](std::size_t row) {
    const double race = small_end_mm(cups, row);
    return find_stacks(kArbor, hub(race, race), pieces, 1).stacks.at(0).q[0];
  };
  // both sit on the taper of 42.58 mm, the fourth of the set; width and angle are the same
  EXPECT_NEAR(q(second) - q(first), 0.844 / (0.3 * 28 * std::pow(1.15, 3)), 1e-6);
}

// taper_cups.csv, the largest cup (382A, from memory): tapers that end too small name the race and what is wanting.
TEST(OutsideMount, ARaceThatNoTaperReachesIsNamedWithWhatIsWanting) {
  const Table cups("taper_cups.csv");
  const std::size_t largest = cups.size() - 1;
  ASSERT_EQ(cups.text(largest, "cup"), "382A");
  const double race = small_end_mm(cups, largest), small_race = 45;
  const auto answer = find_stacks(kArbor, hub(race, small_race), tapers(6), 1);
  EXPECT_TRUE(answer.stacks.empty());
  ASSERT_FALSE(answer.nearest.empty());
  EXPECT_EQ(answer.nearest[0].rule, "taper_inner");
  const double small = 28 * std::pow(1.15, 5);
  EXPECT_NEAR(answer.nearest[0].miss_mm, race - (small + 0.8 * 0.3 * small), 1e-3);
}

}  // namespace
}  // namespace brakewright::mount
