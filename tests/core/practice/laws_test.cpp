#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/practice/state.hpp"
#include "tests/core/practice/at_bench.hpp"
#include "tests/core/practice/hands.hpp"
#include "tests/core/practice/prints.hpp"

namespace brakewright::practice {
namespace {

TEST(PracticeLaws, EveryBenchHasAGoodStackAndPiecesThatNearlyFit) {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const Bench bench = bench_of({.seed = seed, .difficulty = static_cast<int>(seed % 6)});
    EXPECT_GE(bench.pieces.size(), 10U);
    EXPECT_LE(bench.pieces.size(), 16U);
    const auto stacks = mount::find_stacks(bench.lathe.arbor, bench.make.shape.seat, bench.pieces, 60).stacks;
    ASSERT_FALSE(stacks.empty()) << "seed " << seed;
    EXPECT_NEAR(stacks[0].q[0], 0.5, 0.1);
    // another clamp or taper at the shoulder, another cone or second taper, another nut can be had
    const std::size_t nut = stacks[0].pieces.size() - 1, second = bench.hubbed() ? 1 : 2;
    for (const std::size_t place : {std::size_t{0}, second, nut}) {
      EXPECT_TRUE(std::any_of(stacks.begin(), stacks.end(),
                              [&](const mount::Stack& stack) {
                                const auto& pieces = stack.pieces;
                                return pieces.size() == stacks[0].pieces.size() &&
                                       pieces[place] != stacks[0].pieces[place];
                              }))
          << "seed " << seed;
    }
    const auto used = [&](const mount::Piece& piece) {
      return std::any_of(stacks.begin(), stacks.end(), [&](const mount::Stack& stack) {
        return std::find(stack.pieces.begin(), stack.pieces.end(), piece.id) != stack.pieces.end();
      });
    };
    EXPECT_LE(std::count_if(bench.pieces.begin(), bench.pieces.end(), used), 12) << "seed " << seed;
    EXPECT_EQ(bench.instruments.size(), 3U);
  }
}

TEST(PracticeLaws, TheTruthOfFaultsIsTheExercises) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    std::vector<Fault> chosen;
    for (Fault fault : kFaults) {
      if ((seed * 2654435761U >> (static_cast<unsigned>(fault) % 13 + 3)) % 3 == 0) chosen.push_back(fault);
    }
    const Truth truth = truth_of({.seed = seed, .difficulty = 2, .faults = chosen});
    EXPECT_EQ(truth.faults, chosen) << "seed " << seed;
    const auto has = [&](Fault fault) { return truth.has(fault); };
    EXPECT_EQ(truth.part.wobble.has_value(), has(Fault::wobble));
    EXPECT_EQ(truth.part.variation.has_value(), has(Fault::thickness_waves));
    EXPECT_EQ(truth.part.grooves.has_value(), has(Fault::grooves));
    EXPECT_EQ(truth.part.cheek_difference_mm.has_value(), has(Fault::uneven_cheeks));
    EXPECT_EQ(!truth.dirt.empty(), has(Fault::dirty_seat));
    EXPECT_EQ(truth.part_start_c > 40, has(Fault::warm_part));
    EXPECT_EQ(truth.zero_error_mm != 0, has(Fault::micrometer_zero));
  }
}

TEST(PracticeLaws, TheSameExerciseAndActsGiveTheSameBits) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const Exercise exercise{.seed = seed, .difficulty = 3};
    AtBench a(exercise), b(exercise);
    ExpertHand(a).work();
    ExpertHand(b).work();
    EXPECT_EQ(print_of(a.run), print_of(b.run));
    EXPECT_EQ(faces_print(a.run), faces_print(b.run));
    EXPECT_EQ(a.run.mark().points, b.run.mark().points);
  }
}

TEST(PracticeLaws, TurnsCutIntoOtherNumbersOfActsGiveTheSameFaces) {
  const std::vector<Fault> faults = {Fault::wobble, Fault::hard_spots, Fault::loose_nut, Fault::warm_part};
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const auto cut = [&](const std::vector<double>& turns) {
      AtBench at({.seed = seed, .difficulty = 2, .faults = faults});
      at.start_turning();
      for (Side side : bench_sim::kSides) at.run.apply(TurnDial{side, 24});
      at.run.apply(Feed{0.2});
      for (double each : turns) {
        if (!at.run.view().ended) at.run.apply(Turns{each});
      }
      return faces_print(at.run);
    };
    const std::string whole = cut({60});
    EXPECT_EQ(cut({30, 30}), whole) << "seed " << seed;
    EXPECT_EQ(cut({0.5, 7.25, 0.25, 1, 11, 40}), whole) << "seed " << seed;
    EXPECT_EQ(cut({59.75, 0.25}), whole) << "seed " << seed;
  }
}

TEST(PracticeLaws, AWarmPartCoolsByNewtonsLawWhateverIsDoneMeanwhile) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const Exercise exercise{.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::warm_part}};
    const double start = truth_of(exercise).part_start_c;
    AtBench at(exercise);
    for (double minutes : {1.0, 10.0, 30.0, 60.0}) {
      at.run.apply(Wait{minutes});
      at.run.apply(Look{});
      const double after_s = at.run.view().clock_s;
      EXPECT_NEAR(at.run.view().part_temperature_c, 20 + (start - 20) * std::exp(-after_s / 1200), 0.06);
    }
  }
}

TEST(PracticeLaws, AMicrometerIsOffUntilItIsZeroed) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const Exercise exercise{.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::micrometer_zero}};
    AtBench at(exercise);
    const Measure measure{"micrometer_fine", at.middle_mm(), 10};
    const double before = *at.run.apply(measure).shown_mm;
    at.run.apply(ZeroMicrometer{"micrometer_fine"});
    EXPECT_GT(std::abs(before - *at.run.apply(measure).shown_mm), 0.012) << "seed " << seed;
  }
}

TEST(PracticeLaws, WhatWasWipedOffDoesNotTiltTheNextMount) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    AtBench at({.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::dirty_seat}});
    const auto read = [&] {
      at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
      const auto once = once_round(at.run.apply(ReadRunout{.radius_mm = at.middle_mm()}));
      at.run.apply(Unmount{});
      return 2 * std::abs(once);
    };
    EXPECT_GT(read(), 25) << "seed " << seed;
    at.run.apply(Wipe{});
    EXPECT_LT(read(), 12) << "seed " << seed;
  }
}

TEST(PracticeLaws, AStackThatCannotBeClosedIsRefusedAndAWrongConeMakesTheRimOrbit) {
  AtBench at(
      {.seed = seed_of(mount::PartKind::hubless, 5), .difficulty = 1, .faults = std::vector<Fault>{Fault::wrong_cone}});
  auto pieces = at.stacks(1)[0].pieces;
  const auto good = pieces;
  std::swap(pieces[0], pieces[1]);
  EXPECT_EQ(at.refusal(MountPart{.pieces = pieces}), "not_now pieces");
  const auto& all = at.run.bench().pieces;
  const auto wrong = std::find_if(all.begin(), all.end(), [&](const mount::Piece& piece) {
    const double q = (at.run.bench().make.shape.seat.bore_mm - piece.small_mm) / (piece.large_mm - piece.small_mm);
    return piece.kind == mount::PieceKind::cone && q > 0.75 && q < 1;
  });
  ASSERT_NE(wrong, all.end());
  pieces = good;
  pieces[2] = wrong->id;
  at.run.apply(MountPart{.pieces = pieces});
  const auto seen = at.run.apply(Look{}).seen;
  EXPECT_NE(std::find(seen.begin(), seen.end(), "rim_orbits"), seen.end());
}

TEST(PracticeLaws, ADiscWithoutItsBandSingsAndWithItIsQuiet) {
  for (const bool band : {false, true}) {
    AtBench at({.seed = 3, .difficulty = 1, .faults = std::vector<Fault>{Fault::no_band}});
    at.run.apply(Wear{});
    at.run.apply(Decide{Action::cut});
    at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
    if (band) at.run.apply(Band{true});
    at.run.apply(Spindle{150});
    at.run.apply(Place{at.middle_mm()});
    for (Side side : bench_sim::kSides) {
      while (at.run.view().outboard.contact_share == 0 || side == Side::inboard) {
        at.run.apply(TurnDial{side, 1});
        at.run.apply(Turns{1});
        if (side == Side::inboard && at.run.view().inboard.contact_share > 0) break;
      }
    }
    at.run.apply(Place{at.run.bench().start_radius_mm});
    for (Side side : bench_sim::kSides) at.run.apply(TurnDial{side, 7});
    at.run.apply(Feed{0.2});
    at.run.apply(Turns{60});
    EXPECT_NE(at.run.view().outboard.sings, band);
    EXPECT_EQ(at.run.sound(1, 22050).size(), 22050U);
  }
}

TEST(PracticeLaws, AnEdgeWearsWithTheWayItCutsAndFasterWithSpeed) {
  const auto wear_per_m = [](double rpm) {
    BenchState state({.seed = 8, .difficulty = 1, .faults = std::vector<Fault>{Fault::thickness_waves}});
    const auto pieces = mount::find_stacks(state.bench.lathe.arbor, state.truth.make.shape.seat, state.bench.pieces, 1)
                            .stacks[0]
                            .pieces;
    act_on(state, Wear{});
    act_on(state, Decide{Action::cut});
    act_on(state, MountPart{.pieces = pieces});
    act_on(state, Spindle{rpm});
    for (Side side : bench_sim::kSides) act_on(state, TurnDial{side, 36});
    act_on(state, Feed{0.2});
    act_on(state, Turns{120});
    const Tool& tool = state.tools[0];
    EXPECT_GT(tool.cut_length_m, 50);
    return (tool.wear_mm - state.truth.wear_mm) / tool.cut_length_m;
  };
  // Taylor (1907): life goes with speed to the power of -1/n, n = 0.25 for carbide from memory.
  EXPECT_NEAR(wear_per_m(200) / wear_per_m(100), 8, 0.05);
}

TEST(PracticeLaws, AToolThatIsNotLockedDriftsOutOfTheCut) {
  const auto left_um = [](bool locked) {
    AtBench at({.seed = 8, .difficulty = 1, .faults = std::vector<Fault>{Fault::thickness_waves}});
    at.start_turning();
    for (Side side : bench_sim::kSides) {
      at.run.apply(TurnDial{side, 36});
      at.run.apply(LockTool{side, locked});
    }
    at.run.apply(Feed{0.2});
    for (int k = 0; k < 6; ++k) at.run.apply(Turns{50});
    const Picture picture = at.run.picture(Side::outboard, 36, 128);
    return picture.height_um[36 * 110] - picture.height_um[36 * 20];
  };
  EXPECT_GT(left_um(false), left_um(true) + 2);
}

}  // namespace
}  // namespace brakewright::practice
