#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/practice/state.hpp"
#include "tests/core/practice/by_hand.hpp"
#include "tests/core/practice/prints.hpp"

namespace brakewright::practice {
namespace {

constexpr auto kHub = mount::PartKind::hubbed;

Exercise exercise_with(std::vector<Fault> faults, std::uint64_t seed = seed_of(kHub)) {
  std::sort(faults.begin(), faults.end());
  return {.seed = seed, .difficulty = 2, .faults = std::move(faults)};
}

/// Root mean square of how far the once-round runout of some mountings lies from their mean.
double scatter_um(AtBench& at, const std::vector<std::string>& pieces) {
  constexpr int kMountings = 12;
  std::vector<std::complex<double>> read;
  std::complex<double> mean = 0;
  for (int k = 0; k < kMountings; ++k) {
    at.run.apply(MountPart{.pieces = pieces});
    read.push_back(2.0 * once_round(at.run.apply(ReadRunout{.radius_mm = at.middle_mm(), .points = 24})));
    mean += read.back() / static_cast<double>(kMountings);
    at.run.apply(Unmount{});
  }
  double squares = 0;
  for (const auto& one : read) squares += std::norm(one - mean) / kMountings;
  return std::sqrt(squares);
}

const mount::Piece& taper_with(const AtBench& at, double small_mm) {
  const auto& pieces = at.run.bench().pieces;
  return *std::find_if(pieces.begin(), pieces.end(), [&](const mount::Piece& piece) {
    return piece.kind == mount::PieceKind::taper && piece.small_mm == small_mm;
  });
}

TEST(PracticeHub, OneSeedInThreeDrawsAPartWithItsHubAndPittedRacesAreDrawnForNoOther) {
  int hubbed = 0, pitted = 0;
  constexpr int kDrawn = 900;
  for (std::uint64_t seed = 1; seed <= kDrawn; ++seed) {
    const Truth truth = truth_of({.seed = seed, .difficulty = 5});
    const bool has_hub = truth.make.shape.seat.kind == kHub;
    hubbed += has_hub;
    pitted += truth.has(Fault::pitted_races);
    EXPECT_TRUE(has_hub || !truth.has(Fault::pitted_races)) << "seed " << seed;
    EXPECT_EQ(truth.bearing_play_um > 0, has_hub);
  }
  EXPECT_NEAR(hubbed, kDrawn / 3.0, 4 * std::sqrt(kDrawn * 2.0 / 9));
  EXPECT_GT(pitted, 40);
}

TEST(PracticeHub, AChosenPittedRaceMakesThePartOneWithItsHubWithOrWithoutAVent) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Bench bench = bench_of(exercise_with({Fault::pitted_races, Fault::uneven_cheeks}, seed));
    EXPECT_TRUE(bench.hubbed());
    EXPECT_GT(bench.make.shape.vent_mm, 0);
    EXPECT_EQ(bench.stud_positions_deg, std::vector<double>{0});
    EXPECT_EQ(bench.hub_runout_um, 0);
  }
}

TEST(PracticeHub, PittedRacesSeatAnewAtEachMountingAndSoundOnesRepeatAsTheGaugeDoes) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    AtBench pitted(exercise_with({Fault::pitted_races}, seed));
    const auto pieces = pitted.stacks(1)[0].pieces;
    EXPECT_TRUE(sees(pitted, "pits_in_races"));
    EXPECT_GT(scatter_um(pitted, pieces), 12) << "seed " << seed;
    pitted.run.apply(RenewRaces{});
    EXPECT_FALSE(sees(pitted, "pits_in_races"));
    EXPECT_LT(scatter_um(pitted, pieces), 6) << "seed " << seed;
    AtBench sound(exercise_with({}, seed_of(kHub, 10 * seed)));
    EXPECT_FALSE(sees(sound, "pits_in_races"));
    EXPECT_LT(scatter_um(sound, sound.stacks(1)[0].pieces), 6) << "seed " << seed;
  }
}

TEST(PracticeHub, ATaperThatRidesOnTheBoreOrFallsThroughTheRaceSeatsAnewAndOffCentre) {
  AtBench at(exercise_with({Fault::wrong_cone}));
  const mount::PartSeat& seat = at.run.bench().make.shape.seat;
  const auto good = at.stacks(1)[0].pieces;
  auto on_bore = good;
  on_bore[0] = taper_with(at, seat.inner_race_mm - 1.5).id;
  const std::vector<std::string> loose = {
      good[0], taper_with(at, seat.outer_race_mm - 12).id, "spacer_1", "spacer_2", "spacer_3", "nut_1"};
  for (const auto& pieces : {on_bore, loose}) {
    at.run.apply(MountPart{.pieces = pieces});
    EXPECT_TRUE(sees(at, "rim_orbits"));
    at.run.apply(Unmount{});
    EXPECT_GT(scatter_um(at, pieces), 25);
  }
  at.run.apply(MountPart{.pieces = good});
  EXPECT_FALSE(sees(at, "rim_orbits"));
}

TEST(PracticeHub, PiecesForAHatAreRefusedOnAHub) {
  AtBench at(exercise_with({}));
  auto pieces = at.stacks(1)[0].pieces;
  pieces[0] = "clamp_1";
  EXPECT_EQ(at.refusal(MountPart{.pieces = pieces}), "not_now pieces");
}

TEST(PracticeHub, GreaseInTheRacesTiltsThePartUntilItIsWipedOff) {
  for (std::uint64_t seed = 1; seed <= 30; seed += 3) {
    AtBench at(exercise_with({Fault::dirty_seat}, seed_of(kHub, seed)));
    EXPECT_TRUE(sees(at, "grease_in_races"));
    const auto read = [&] {
      at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
      const double runout = 2 * std::abs(once_round(at.run.apply(ReadRunout{.radius_mm = at.middle_mm()})));
      at.run.apply(Unmount{});
      return runout;
    };
    EXPECT_GT(read(), 25) << "seed " << seed;
    at.run.apply(Wipe{});
    EXPECT_LT(read(), 12) << "seed " << seed;
    EXPECT_FALSE(sees(at, "grease_in_races"));
  }
}

TEST(PracticeHub, NewRacesGoIntoAHubThatIsOnNeitherLatheNorCar) {
  AtBench hat({.seed = seed_of(mount::PartKind::hubless)});
  EXPECT_EQ(hat.refusal(RenewRaces{}), "not_now do");
  AtBench at(exercise_with({Fault::wobble}));
  at.run.apply(Decide{Action::leave});
  at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
  EXPECT_EQ(at.refusal(RenewRaces{}), "not_now do");
  at.run.apply(Unmount{});
  EXPECT_EQ(at.run.apply(RenewRaces{}).took_s, 900);
  at.run.apply(Refit{});
  EXPECT_EQ(at.refusal(RenewRaces{}), "not_now do");
}

TEST(PracticeHub, OnTheCarItRunsAsItIsWithThePlayOfItsBearingsAndInNoOtherPosition) {
  for (std::uint64_t seed = 1; seed <= 30; seed += 3) {
    const Exercise exercise = exercise_with({Fault::wobble}, seed_of(kHub, seed));
    const Truth truth = truth_of(exercise);
    AtBench at(exercise);
    at.run.apply(Decide{Action::leave});
    EXPECT_EQ(at.refusal(Refit{.position = 1}), "out_of_range position");
    const double clean = *at.run.apply(Refit{}).hub_runout_um;
    EXPECT_NEAR(clean, truth.part.wobble->runout_um + truth.bearing_play_um, 1) << "seed " << seed;
    EXPECT_EQ(*at.run.apply(Refit{}).hub_runout_um, clean);
    EXPECT_NE(*at.run.apply(Refit{.hub_cleaned = false}).hub_runout_um, clean);
  }
}

TEST(PracticeHub, OnPittedRacesItRunsOtherwiseOnTheCarEachTime) {
  AtBench at(exercise_with({Fault::pitted_races}));
  at.run.apply(Decide{Action::leave});
  const double once = *at.run.apply(Refit{}).hub_runout_um, again = *at.run.apply(Refit{}).hub_runout_um;
  EXPECT_NE(once, again);
}

TEST(PracticeHub, TheSameActsGiveTheSameBitsWithNewRacesAndARefitAmongThem) {
  const Exercise exercise = exercise_with({Fault::wobble, Fault::pitted_races, Fault::dirty_seat}, 5);
  AtBench a(exercise), b(exercise);
  ExpertHand(a).work();
  ExpertHand(b).work();
  EXPECT_EQ(print_of(a.run), print_of(b.run));
  EXPECT_EQ(a.run.mark().points, b.run.mark().points);
}

double verdict_share(const Mark& mark) {
  const auto part =
      std::find_if(mark.parts.begin(), mark.parts.end(), [](const MarkedPart& one) { return one.code == "verdict"; });
  return part->points / part->of;
}

TEST(PracticeHub, OnPittedRacesNothingIsCutBeforeNewOnesAreInAndRefusingTheCutIsRightToo) {
  int cut = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const Exercise exercise = exercise_with({Fault::wobble, Fault::pitted_races}, seed);
    AtBench renews(exercise), cuts(exercise), refuses(exercise), leaves(exercise);
    ExpertHand hand(renews);
    hand.work();
    EXPECT_GE(renews.run.mark().points, 85) << "seed " << seed;
    ExpertHand(cuts, {.renews_races = false}).work();
    if (hand.chosen() == Action::cut) {
      ++cut;
      EXPECT_EQ(verdict_share(renews.run.mark()), 1);
    }
    for (AtBench* at : {&refuses, &leaves}) {
      at->run.apply(Look{});
      at->run.apply(Decide{at == &refuses ? Action::replace : Action::leave});
      at->run.apply(Finish{});
    }
    const Mark refused = refuses.run.mark();
    EXPECT_EQ(verdict_share(refused), 1);
    for (const MarkedPart& part : refused.parts) {
      EXPECT_NE(part.code, "metal");
      if (part.code != "verdict") continue;
      EXPECT_NE(part.why.find("races are pitted"), std::string::npos);
    }
    EXPECT_EQ(verdict_share(leaves.run.mark()), 0);
    if (*cuts.run.view().decided != Action::replace) {
      EXPECT_EQ(verdict_share(cuts.run.mark()), 0) << "seed " << seed;
    }
  }
  EXPECT_GE(cut, 4);
}

}  // namespace
}  // namespace brakewright::practice
