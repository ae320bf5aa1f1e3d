#include <gtest/gtest.h>

#include "tests/core/practice/by_hand.hpp"

/// Mistakes that a hand makes in a run: each leaves the trade's sign in what the bench shows, and the mark names it.
namespace brakewright::practice {
namespace {

TEST(PracticeMistakes, HeldByTheThimbleAMicrometerScattersMoreAndReadsLow) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    AtBench at(with(seed, {Fault::wobble}));
    double mean[2] = {}, sd[2] = {};
    for (int hand = 0; hand < 2; ++hand) {
      double sum = 0, squares = 0;
      const double about = read_at(at, at.middle_mm(), 0);
      for (int k = 0; k < 30; ++k) {
        const double off = read_at(at, at.middle_mm(), 0, "micrometer_fine", hand == 0) - about;
        sum += off;
        squares += off * off;
      }
      mean[hand] = about + sum / 30;
      sd[hand] = std::sqrt((squares - sum * sum / 30) / 29);
    }
    EXPECT_GT(sd[1], 1.7 * sd[0]) << "seed " << seed;
    EXPECT_LT(mean[1], mean[0] - 0.001) << "seed " << seed;
    EXPECT_GT(mean[1], mean[0] - 0.008) << "seed " << seed;
  }
}

TEST(PracticeMistakes, TheMarkNamesTheThimbleAndDoesNotCountItsReadings) {
  const Exercise exercise = with(12, {Fault::wobble});
  const Mark good = worked(exercise, {}), bad = worked(exercise, {.ratchet = false});
  EXPECT_TRUE(names(bad, "measuring", "12 readings by the thimble"));
  EXPECT_FALSE(names(good, "measuring", "thimble"));
  EXPECT_LT(marked(bad, "measuring").points, marked(good, "measuring").points - 2);
}

TEST(PracticeMistakes, OneReadingIsAWholeThimbleTurnFromItsNeighboursAndRightWhenReadAgain) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const Exercise exercise = with(seed, {Fault::wobble, Fault::misread_turn});
    AtBench at(exercise);
    const auto read = read_round(at, 8);
    auto sorted = read;
    std::sort(sorted.begin(), sorted.end());
    int odd = -1, far = 0;
    for (int k = 0; k < 8; ++k) {
      const double off = std::abs(read[static_cast<std::size_t>(k)] - sorted[4]);
      if (off < 0.1) continue;
      EXPECT_NEAR(off, 0.5, 0.02) << "seed " << seed;
      odd = k;
      ++far;
    }
    EXPECT_EQ(far, 1) << "seed " << seed;
    EXPECT_NEAR(read_at(at, at.middle_mm(), 45.0 * odd), sorted[4], 0.02);
    EXPECT_FALSE(names(left(at), "measuring", "whole turn of the thimble"));
    AtBench hasty(exercise);
    read_round(hasty, 8);
    EXPECT_TRUE(names(left(hasty), "measuring", "whole turn of the thimble"));
  }
}

TEST(PracticeMistakes, APlaceThatWasReadRightlyTooIsNotNamedWhicheverReadingCameFirst) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    AtBench twice(with(seed, {Fault::misread_turn}));
    for (int k = 0; k < 8; ++k) {
      read_at(twice, twice.middle_mm(), 45.0 * k);
      read_at(twice, twice.middle_mm(), 45.0 * k);
    }
    EXPECT_FALSE(names(left(twice), "measuring", "half a millimetre")) << "seed " << seed;
    AtBench by_both(with(seed, {}));
    read_at(by_both, by_both.middle_mm(), 0, "micrometer_fine", false);
    read_round(by_both, 8);
    EXPECT_FALSE(names(left(by_both), "measuring", "by the thimble")) << "seed " << seed;
  }
}

TEST(PracticeMistakes, ASpeckIsASpikeAtOnePlaceThatGoesWhenItIsWiped) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const Exercise exercise = with(seed, {Fault::speck});
    const double at_deg = truth_of(exercise).speck->angle_deg;
    AtBench at(exercise);
    const auto lifted = [&](double angle_deg) {
      return read_at(at, at.middle_mm(), at_deg + angle_deg) - read_at(at, at.middle_mm(), at_deg + 30);
    };
    EXPECT_GT(lifted(0), 0.03) << "seed " << seed;
    EXPECT_LT(std::abs(lifted(-30)), 0.015) << "seed " << seed;
    at.run.apply(Wipe{});
    EXPECT_LT(std::abs(lifted(0)), 0.015) << "seed " << seed;
    EXPECT_FALSE(names(left(at), "measuring", "speck"));
    AtBench hasty(exercise);
    read_round(hasty, 8);
    EXPECT_TRUE(names(left(hasty), "measuring", "on a speck"));
  }
}

TEST(PracticeMistakes, ASpeckUnderTheIndicatorIsAJumpBetweenItsNeighbours) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const Exercise exercise = with(seed, {Fault::speck});
    const auto jump_um = [&](bool wipes) {
      AtBench at(exercise);
      if (wipes) at.run.apply(Wipe{});
      at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
      const Outcome read = at.run.apply(ReadRunout{.radius_mm = at.middle_mm(), .points = 24});
      double most = 0;
      for (std::size_t k = 0; k < 24; ++k) {
        const double beside = (read.shown_um[(k + 23) % 24] + read.shown_um[(k + 1) % 24]) / 2;
        most = std::max(most, std::abs(read.shown_um[k] - beside));
      }
      EXPECT_NEAR(read.shown_um.front(), read.shown_um.back(), 4);
      return most;
    };
    EXPECT_GT(jump_um(false), 30) << "seed " << seed;
    EXPECT_LT(jump_um(true), 10) << "seed " << seed;
  }
}

TEST(PracticeMistakes, NutsNotDrawnAcrossTheStarAddRunoutOnTheCarAndAnotherDrawingTakesItAway) {
  int larger = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    AtBench at(with(seed, {}));
    at.run.apply(Decide{Action::leave});
    const auto on_car = [&](bool star) {
      return *at.run.apply(Refit{.position = 0, .nuts_in_star = star}).hub_runout_um;
    };
    const double star = on_car(true), pulled = on_car(false);
    larger += pulled > star + 5;
    EXPECT_EQ(on_car(true), star);
    EXPECT_LE(pulled, star + 62) << "seed " << seed;
  }
  EXPECT_GE(larger, 24);
}

TEST(PracticeMistakes, TheMarkNamesNutsAndWhatARunoutLeftInComesTo) {
  int over = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const Exercise exercise = with(seed, {Fault::thin});
    const auto fitted = [&](bool star) {
      AtBench at(exercise);
      at.run.apply(Decide{Action::leave});
      at.run.apply(Refit{.position = 0, .hub_cleaned = star, .nuts_in_star = star});
      at.run.apply(Finish{});
      return at.run.mark();
    };
    const Mark good = fitted(true), bad = fitted(false);
    EXPECT_TRUE(names(bad, "runout", "across the star"));
    EXPECT_FALSE(names(good, "runout", "across the star"));
    over += names(bad, "runout", "pulsates again");
    EXPECT_FALSE(marked(bad, "runout").points > marked(good, "runout").points);
  }
  EXPECT_GE(over, 2);
}

TEST(PracticeMistakes, HandedOverUnwashedItLosesPointsOfTheFinishAndTheExpertWashes) {
  const Exercise exercise = with(12, {Fault::wobble});
  const Mark good = worked(exercise, {}), bad = worked(exercise, {.washes = false});
  EXPECT_TRUE(names(bad, "finish", "unwashed"));
  EXPECT_FALSE(names(good, "finish", "unwashed"));
  EXPECT_LT(marked(bad, "finish").points, marked(good, "finish").points - 1);
  EXPECT_TRUE(std::any_of(good.expert.begin(), good.expert.end(),
                          [](const std::string& told) { return told.find("wash it with soap") != std::string::npos; }));
}

TEST(PracticeMistakes, AWashBeforeTheLastCutIsNone) {
  AtBench at(with(12, {Fault::wobble}));
  at.run.apply(Wash{});
  cut_faces(at, 6, 6);
  at.run.apply(Finish{});
  EXPECT_TRUE(names(at.run.mark(), "finish", "unwashed"));
}

TEST(PracticeMistakes, ThePartIsWashedOffTheLatheAndComesOffTheCarForIt) {
  AtBench at(with(12, {Fault::wobble}));
  at.run.apply(Decide{Action::leave});
  at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
  EXPECT_EQ(at.refusal(Wash{}), "not_now do");
  at.run.apply(Unmount{});
  at.run.apply(Refit{.position = 0});
  EXPECT_TRUE(at.run.view().refitted);
  at.run.apply(Wash{});
  EXPECT_FALSE(at.run.view().refitted);
}

TEST(PracticeMistakes, FourReadingsMissAPatternOfTwoToATurnThatEightSee) {
  int missed = 0;
  for (std::uint64_t seed = 1; seed <= 60 && missed < 3; ++seed) {
    const Exercise exercise = with(seed, {Fault::thickness_waves});
    const auto limit_mm = bench_of(exercise).make.limits.variation_um / 1000;
    AtBench four(exercise), sixteen(exercise);
    if (range_of(read_round(four, 4)) > limit_mm || range_of(read_round(sixteen, 16)) <= limit_mm) continue;
    ++missed;
    const Mark mark = left(four);
    EXPECT_TRUE(names(mark, "measuring", "4 angles read"));
    EXPECT_TRUE(names(mark, "measuring", "8 evenly round see what there is"));
  }
  EXPECT_EQ(missed, 3);
}

TEST(PracticeMistakes, ReadingsOnOtherRingsShowATaperAsVariationAndAreNamed) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Exercise exercise = with(seed, {Fault::taper});
    AtBench one_ring(exercise), mixed(exercise);
    const auto& shape = one_ring.run.bench().make.shape;
    const double on_ring = range_of(read_round(one_ring, 8));
    std::vector<double> read;
    for (int k = 0; k < 8; ++k) {
      const double radius = k % 2 == 0 ? shape.band_inner_radius_mm + 5 : shape.band_outer_radius_mm - 5;
      read.push_back(read_at(mixed, radius, 45.0 * k));
    }
    EXPECT_GT(range_of(read), on_ring + 0.008) << "seed " << seed;
    EXPECT_TRUE(names(left(mixed), "measuring", "8 readings away from the middle"));
    EXPECT_FALSE(names(left(one_ring), "measuring", "away from the middle"));
  }
}

TEST(PracticeMistakes, FlatAnvilsReadTooMuchAcrossAGrooveAndThePointDoesNot) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const Exercise exercise = with(seed, {Fault::grooves});
    const auto grooves = *truth_of(exercise).part.grooves;
    const auto deepest = std::max_element(grooves.begin(), grooves.end(),
                                          [](const auto& a, const auto& b) { return a.depth_um < b.depth_um; });
    AtBench at(exercise);
    const double flat = read_at(at, deepest->radius_mm, 10),
                 point = read_at(at, deepest->radius_mm, 10, "micrometer_point");
    EXPECT_GT(flat - point, 0.2) << "seed " << seed;
    EXPECT_TRUE(names(left(at), "measuring", "1 reading across a groove"));
  }
}

TEST(PracticeMistakes, ACaliperCannotTellAVariationAndTheMarkSaysSo) {
  AtBench at(with(7, {Fault::thickness_waves}));
  const auto read = read_round(at, 8, "caliper_coarse");
  for (double value : read) EXPECT_NEAR(100 * value, std::round(100 * value), 1e-6);
  EXPECT_TRUE(names(left(at), "measuring", "cannot tell such a variation"));
}

TEST(PracticeMistakes, APartThatIsNotHeldDoesNotComeBackToTheFirstReading) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const auto closing_um = [&](bool tight) {
      AtBench at(with(seed, {Fault::wobble}));
      at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces, .nut_tight = tight});
      const Outcome read = at.run.apply(ReadRunout{.radius_mm = at.middle_mm()});
      EXPECT_EQ(read.angles_deg.front(), read.angles_deg.back());
      return std::abs(read.shown_um.back() - read.shown_um.front());
    };
    EXPECT_GT(closing_um(false), 8) << "seed " << seed;
    EXPECT_LT(closing_um(true), 5) << "seed " << seed;
  }
}

/// Of a vented part, or of a solid one, with enough iron on it.
Exercise part_with(bool vent) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Exercise exercise = with(seed, {Fault::thickness_waves});
    if ((truth_of(exercise).make.shape.vent_mm > 0) == vent) return exercise;
  }
  throw std::runtime_error("no such part");
}

TEST(PracticeMistakes, AllIronTakenFromOneFaceLeavesUnevenWallsThatAreSeenAndNamed) {
  const Exercise exercise = part_with(true);
  AtBench one(exercise), both(exercise);
  const int marks = static_cast<int>(std::ceil(560 / one.run.bench().lathe.dial_um_per_mark));
  EXPECT_FALSE(sees(one, "uneven_cheeks"));
  cut_faces(one, marks, 0);
  cut_faces(both, marks / 2, marks / 2);
  EXPECT_TRUE(sees(one, "uneven_cheeks"));
  EXPECT_FALSE(sees(both, "uneven_cheeks"));
  for (AtBench* at : {&one, &both}) at->run.apply(Finish{});
  EXPECT_TRUE(names(one.run.mark(), "metal", "that wall of the vented part is now the thinner one"));
  EXPECT_FALSE(names(both.run.mark(), "metal", "thinner one"));
}

TEST(PracticeMistakes, EachToolsDepthComesOffTheThicknessAndTooMuchOfBothIsUnderMachineTo) {
  const Exercise exercise = part_with(false);
  AtBench at(exercise);
  const double before = read_at(at, at.middle_mm(), 0), over_mm = before - at.run.bench().make.limits.machine_to_mm;
  const double mark_mm = at.run.bench().lathe.dial_um_per_mark / 1000;
  // each face alone would have left enough
  const int marks = static_cast<int>(std::ceil(0.75 * over_mm / mark_mm));
  cut_faces(at, marks, marks);
  EXPECT_LT(read_at(at, at.middle_mm(), 0), before - over_mm);
  at.run.apply(Finish{});
  const Mark mark = at.run.mark();
  EXPECT_EQ(marked(mark, "metal").points, 0);
  EXPECT_TRUE(names(mark, "metal", "both come off the thickness"));
}

TEST(PracticeMistakes, AFaceThatDidNotCleanUpIsSeenOnItsOwnSide) {
  AtBench at(with(12, {Fault::wobble}));
  EXPECT_FALSE(sees(at, "old_face_outboard"));
  const int deep = static_cast<int>(std::ceil(260 / at.run.bench().lathe.dial_um_per_mark));
  cut_faces(at, deep, 1);
  EXPECT_FALSE(sees(at, "old_face_outboard"));
  EXPECT_TRUE(sees(at, "old_face_inboard"));
}

TEST(PracticeMistakes, LikeStockOfBothFacesIsNotNamedThoughOnlyOneOfThemIsScored) {
  int scored = 0;
  for (std::uint64_t seed = 1; seed <= 60 && scored < 2; ++seed) {
    const Exercise exercise = with(seed, {Fault::grooves});
    const Truth truth = truth_of(exercise);
    double deepest_um[2] = {0, 0};
    for (const auto& groove : *truth.part.grooves) {
      double& of_side = deepest_um[index(groove.side)];
      of_side = std::max(of_side, groove.depth_um);
    }
    if (truth.make.shape.vent_mm == 0 || std::abs(deepest_um[0] - deepest_um[1]) < 300) continue;
    ++scored;
    AtBench at(exercise);
    cut_faces(at, 6, 6);
    at.run.apply(Finish{});
    EXPECT_FALSE(names(at.run.mark(), "metal", "thinner one")) << "seed " << seed;
  }
  EXPECT_EQ(scored, 2);
}

TEST(PracticeMistakes, ANarrowGrooveIsSeenAsLongAsItsFloorIsThere) {
  int narrow = 0;
  for (std::uint64_t seed = 1; seed <= 200 && narrow < 3; ++seed) {
    const Exercise exercise = with(seed, {Fault::grooves});
    const auto grooves = *truth_of(exercise).part.grooves;
    const auto deepest = std::max_element(grooves.begin(), grooves.end(),
                                          [](const auto& a, const auto& b) { return a.depth_um < b.depth_um; });
    if (deepest->width_mm > 0.8) continue;
    ++narrow;
    AtBench at(exercise);
    const double mark_um = at.run.bench().lathe.dial_um_per_mark;
    const int marks = static_cast<int>(0.6 * deepest->depth_um / mark_um);
    const bool outboard = deepest->side == Side::outboard;
    cut_faces(at, outboard ? marks : 1, outboard ? 1 : marks);
    EXPECT_TRUE(sees(at, outboard ? "grooves_outboard" : "grooves_inboard")) << "seed " << seed;
  }
  EXPECT_EQ(narrow, 3);
}

TEST(PracticeMistakes, GroovesAreSeenUntilTheirOwnFaceIsCutToTheirFloor) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const Exercise exercise = with(seed, {Fault::grooves});
    const auto grooves = *truth_of(exercise).part.grooves;
    const bool outboard = std::any_of(grooves.begin(), grooves.end(),
                                      [](const auto& one) { return one.side == Side::outboard && one.depth_um > 100; });
    if (!outboard) continue;
    AtBench at(exercise);
    cut_faces(at, 2, 2);
    EXPECT_TRUE(sees(at, "grooves_outboard")) << "seed " << seed;
    return;
  }
  FAIL();
}

}  // namespace
}  // namespace brakewright::practice
