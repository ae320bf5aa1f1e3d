#include <gtest/gtest.h>

#include "core/bench_sim/cut/finish.hpp"
#include "tests/core/practice/by_hand.hpp"

/// What a hand meets in a run, or brings about by leaving a step out: the sign that the trade knows it by.
namespace brakewright::practice {
namespace {

/// Runout on the car, and how far thickness varies, after a cut on seats that were wiped or not.
struct AfterDirt {
  double runout_um = 0;
  double variation_um = 0;
};
AfterDirt cut_on_dirt(const Exercise& exercise, bool wipes) {
  AtBench at(exercise);
  at.run.apply(ZeroMicrometer{"micrometer_fine"});
  if (wipes) at.run.apply(Wipe{});
  const int marks = static_cast<int>(std::ceil(220 / at.run.bench().lathe.dial_um_per_mark));
  cut_faces(at, marks, marks, {.wipes = false});
  AfterDirt after;
  after.variation_um = 1000 * range_of(read_round(at, 12));
  after.runout_um = *at.run.apply(Refit{.position = 0}).hub_runout_um;
  return after;
}

TEST(PracticeMet, DirtUnderThePartLeavesThicknessGoodAndRunoutOnTheCar) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Exercise exercise = with(seed, {Fault::dirty_seat});
    const AfterDirt dirty = cut_on_dirt(exercise, false), clean = cut_on_dirt(exercise, true);
    EXPECT_GT(dirty.runout_um, clean.runout_um + 20) << "seed " << seed;
    EXPECT_LT(dirty.variation_um, 15) << "seed " << seed;
  }
}

TEST(PracticeMet, ABentClampsRunoutStaysWithTheSpindleWhenThePartIsTurnedHalfRound) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    AtBench at(with(seed, {Fault::bent_arbor}));
    std::complex<double> read[2];
    for (int k = 0; k < 2; ++k) {
      at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces, .turn_deg = 180.0 * k});
      read[k] = once_round(at.run.apply(ReadRunout{.radius_mm = at.middle_mm(), .points = 24}));
      at.run.apply(Unmount{});
    }
    // in the part's frame the mount's share changes its sign, the part's stays
    EXPECT_GT(std::abs(read[0] - read[1]), 4 * std::abs(read[0] + read[1])) << "seed " << seed;
  }
}

TEST(PracticeMet, AWarmPartReadsThickAndLessAsItCools) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const Exercise exercise = with(seed, {Fault::warm_part});
    AtBench at(exercise);
    std::vector<double> read;
    for (int k = 0; k < 4; ++k) {
      double sum = 0;
      for (int n = 0; n < 5; ++n) sum += read_at(at, at.middle_mm(), 30);
      read.push_back(sum / 5);
      at.run.apply(Wait{30});
    }
    // 11e-6 per K; four half hours are six times the part's own time
    const double grown_mm = read[3] * 11e-6 * (truth_of(exercise).part_start_c - 20);
    EXPECT_NEAR(read[0] - read[3], grown_mm, 0.0025) << "seed " << seed;
    EXPECT_GT(read[0] + 0.001, read[1]) << "seed " << seed;
    EXPECT_TRUE(names(left(at), "measuring", "wait until it is at the room's 20 C"));
  }
}

TEST(PracticeMet, ACoarseLastPassLeavesGroovesOfItsFeed) {
  const auto ra_um = [](double feed_mm_per_rev) {
    AtBench at(with(8, {Fault::thickness_waves, Fault::coarse_feed}));
    const int marks = static_cast<int>(std::ceil(150 / at.run.bench().lathe.dial_um_per_mark));
    cut_faces(at, marks, marks, {.feed_mm_per_rev = feed_mm_per_rev});
    at.run.apply(Finish{});
    const Mark mark = at.run.mark();
    const std::string& why = marked(mark, "finish").why;
    return std::stod(why.substr(why.find("Ra is ") + 6));
  };
  const double fine = ra_um(0.1), coarse = ra_um(0.4);
  EXPECT_GT(coarse, 2);
  EXPECT_GT(coarse, 4 * fine);
}

TEST(PracticeMet, AWornEdgeIsSeenAndLeavesTheFaceRougher) {
  const Exercise exercise = with(7, {Fault::wobble, Fault::worn_edge});
  AtBench at(exercise);
  EXPECT_TRUE(sees(at, "edge_worn"));
  at.run.apply(ChangeEdge{});
  EXPECT_FALSE(sees(at, "edge_worn"));
  const auto finish_points = [&](bool changes) {
    return marked(worked(exercise, {.changes_edges = changes}), "finish").points;
  };
  EXPECT_LE(finish_points(false), finish_points(true));
}

TEST(PracticeMet, ALipIsSeenUntilItIsFacedAndLiftsFlatAnvilsThatReachIt) {
  const Exercise exercise = with(5, {Fault::lip, Fault::wobble});
  AtBench at(exercise);
  const auto& shape = at.run.bench().make.shape;
  EXPECT_TRUE(sees(at, "lip"));
  const double flat = read_at(at, shape.band_outer_radius_mm - 1, 30),
               point = read_at(at, shape.band_outer_radius_mm - 1, 30, "micrometer_point");
  EXPECT_GT(flat, point + 0.05);
  const int marks = static_cast<int>(std::ceil(220 / at.run.bench().lathe.dial_um_per_mark));
  cut_faces(at, marks, marks);
  EXPECT_FALSE(sees(at, "old_face_outboard"));
}

TEST(PracticeMet, HardSpotsStayBlueAndStandProudAfterTheCut) {
  const Exercise exercise = with(4, {Fault::hard_spots});
  const auto spots = *truth_of(exercise).part.hard_spots;
  AtBench at(exercise);
  EXPECT_TRUE(sees(at, "blue_spots"));
  const int marks = static_cast<int>(std::ceil(220 / at.run.bench().lathe.dial_um_per_mark));
  cut_faces(at, marks, marks);
  EXPECT_TRUE(sees(at, "blue_spots"));
  double proud_mm = 0;
  for (int k = 0; k < 5; ++k) {
    proud_mm += (read_at(at, spots[0].radius_mm, spots[0].angle_deg) -
                 (read_at(at, spots[0].radius_mm, spots[0].angle_deg - 25) +
                  read_at(at, spots[0].radius_mm, spots[0].angle_deg + 25)) /
                     2) /
                5;
  }
  EXPECT_GT(proud_mm, 0.001);
}

TEST(PracticeMet, ThePositionOnTheHubDecidesWhatRunoutIsLeft) {
  int differ = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    AtBench at(with(seed, {Fault::wobble}));
    if (at.run.bench().hubbed()) continue;
    at.run.apply(Decide{Action::leave});
    std::vector<double> left_um;
    for (int position = 0; position < 5; ++position) {
      left_um.push_back(*at.run.apply(Refit{.position = position}).hub_runout_um);
    }
    // hub and part add at one position and nearly cancel at another
    EXPECT_NEAR(range_of(left_um), 1.8 * at.run.bench().hub_runout_um, 0.6 * at.run.bench().hub_runout_um) << seed;
    ++differ;
  }
  EXPECT_GE(differ, 5);
}

TEST(PracticeMet, AHubThatWasNotCleanedAddsRunoutOnTheCar) {
  int larger = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    AtBench at(with(seed, {}));
    at.run.apply(Decide{Action::leave});
    const double clean = *at.run.apply(Refit{.position = 0}).hub_runout_um;
    larger += *at.run.apply(Refit{.position = 0, .hub_cleaned = false}).hub_runout_um > clean + 20;
  }
  EXPECT_GE(larger, 18);
}

}  // namespace
}  // namespace brakewright::practice
