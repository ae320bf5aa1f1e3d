#include "shop/refit_advice.hpp"

#include "tests/shop/on_car_scene.hpp"

namespace brakewright::shop {
namespace {

class RefitAdviceTest : public OnCarScene {
 protected:
  const Waves hub{{1, 40, 20}};
  const Waves part{{1, 30, 75}, {2, 5, 10}};

  NewRefit fit(const JobFile& file, std::int64_t position, const std::string& reason = "") {
    return {.id = id(), .part_id = file.parts[0].id, .position = position, .reason = reason};
  }

  TaperPlate plate(const std::string& name, double taper_um, double diameter_mm, std::int64_t studs) {
    return shop.put_taper_plate(
        {.id = id(), .name = name, .taper_um = taper_um, .diameter = of_mm(diameter_mm), .studs = studs}, teacher);
  }
};

TEST_F(RefitAdviceTest, TwoPositionsLeadToTheStudsThatTryingAllFinds) {
  const JobFile file = with_studs();
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 1);
  const RefitAdvice known = advice(file);
  EXPECT_EQ(known.evidence, RefitEvidence::positions);
  EXPECT_EQ(known.stage, Stage::on_car);
  ASSERT_TRUE(known.refit);
  EXPECT_EQ(known.refit->best.position, best_by_trying_all(hub, part, 5));
  EXPECT_EQ(known.refit->best.position, known.refit->best_without_plate.position);
  ASSERT_EQ(known.refit->all.size(), 5u);
  for (const RefitFitting& fitting : known.refit->all) {
    const double truth = swing_um(hub, part, fitting.turn_deg);
    EXPECT_LE(fitting.low95_um, truth + 1) << fitting.position;
    EXPECT_GE(fitting.high95_um, truth - 1) << fitting.position;
    EXPECT_LE(fitting.low95_um, fitting.runout_um);
    EXPECT_LE(fitting.runout_um, fitting.high95_um);
    EXPECT_EQ(fitting.read, fitting.position < 2);
  }
}

TEST_F(RefitAdviceTest, HubAndPartAreToldApartInTheirOwnFrames) {
  const JobFile file = with_studs();
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 2);
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.separation);
  EXPECT_NEAR(known.separation->carrier.at(0).amplitude_um, 40, 1);
  EXPECT_NEAR(known.separation->carrier.at(0).phase_deg, 20, 2);
  EXPECT_NEAR(known.separation->part.at(0).amplitude_um, 30, 1);
  EXPECT_NEAR(known.separation->part.at(0).phase_deg, 75, 2);
}

TEST_F(RefitAdviceTest, WhatCannotBeToldApartIsSaidInWords) {
  const JobFile file = with_studs(4);
  read_fitted(file, Stage::on_car, hub, part, 0, 4);
  read_fitted(file, Stage::on_car, hub, part, 2, 4);
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.separation);
  EXPECT_EQ(known.separation->not_separable, std::vector<int>{2});  // half a turn separates odd orders alone
  EXPECT_TRUE(says(known.separation->advice, "not_separable"));
  ASSERT_TRUE(known.refit);
  EXPECT_EQ(known.refit->best.position, best_by_trying_all(hub, part, 4));
}

TEST_F(RefitAdviceTest, OneTraceKeepsItsPositionAndSaysThatNothingTellsWhoseItIs) {
  const JobFile file = with_studs();
  read_fitted(file, Stage::on_car, hub, part, 3);
  const RefitAdvice known = advice(file);
  EXPECT_EQ(known.evidence, RefitEvidence::part_alone);
  ASSERT_TRUE(known.refit);
  EXPECT_EQ(known.refit->known_position, 3);
  EXPECT_EQ(known.refit->best.position, 3);
  const double truth = swing_um(hub, part, 3 * 72);
  EXPECT_NEAR(known.refit->best.runout_um, truth, 4);
  const auto width = [&](std::size_t n) { return known.refit->all[n].high95_um - known.refit->all[n].low95_um; };
  for (const std::size_t other : {0u, 1u, 2u, 4u}) EXPECT_GT(width(other), 2 * width(3)) << other;
  EXPECT_TRUE(says(known.next, "turn_and_read") || says(known.next, "enough"));
}

TEST_F(RefitAdviceTest, OneTraceOverTheLimitAsksForASecondPositionAndOneWellWithinIsEnough) {
  const JobFile over = with_studs();
  read_fitted(over, Stage::on_car, {{1, 60, 20}}, {}, 0);  // 120 um against 50
  const RefitAdvice bad = advice(over);
  ASSERT_TRUE(bad.refit);
  EXPECT_LT(*bad.refit->best.p_within, 0.01);
  EXPECT_TRUE(says(bad.next, "turn_and_read"));
  const JobFile within = with_studs();
  read_fitted(within, Stage::on_car, {{1, 10, 20}}, {}, 0);  // 20 um against 50
  const RefitAdvice good = advice(within);
  ASSERT_TRUE(good.refit);
  EXPECT_GT(*good.refit->best.p_within, 0.99);
  EXPECT_TRUE(says(good.next, "enough"));
}

TEST_F(RefitAdviceTest, FourPointsByEyeAreEnoughForATiltAndSayWhatTheyAreBlindTo) {
  const JobFile file = with_studs();
  const Waves tilt{{1, 30, 75}};
  for (const std::int64_t turned : {0, 1}) {
    const double turn = 72.0 * static_cast<double>(turned);
    for (const std::int64_t point : {0, 2, 4, 6}) {
      const double um = at(hub, 45.0 * static_cast<double>(point)) + at(tilt, 45.0 * static_cast<double>(point) - turn);
      NewReading reading = turn_of(file, Stage::on_car, Quantity::runout_outboard, turned, point, um);
      reading.text = format_number({std::llround(um / 10) * 10'000}, Unit::mm, 10'000);  // by eye, to 0.01 mm
      reading.instrument_id.reset();
      add(file, reading);
    }
  }
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.refit);
  EXPECT_TRUE(says(known.advice, "few_angles"));
  EXPECT_NEAR(*known.noise_um, std::hypot(5, 10 / std::sqrt(12.0)), 1e-9);  // the last place typed stands in
  const double truth = swing_um(hub, tilt, known.refit->best.turn_deg);
  EXPECT_LE(known.refit->best.low95_um, truth);
  EXPECT_GE(known.refit->best.high95_um, truth);
}

TEST_F(RefitAdviceTest, ABareFlangesTiltGrowsWithTheRadius) {
  // Read 65 mm out, it lifts the disc's circle 130 mm out by twice as much.
  const JobFile file = with_studs();
  read_round(file, Stage::on_car, Quantity::hub_runout, 0, [&](double t) { return at(hub, t) / 2; });
  const Waves tilt{{1, 30, 75}};
  read_fitted(file, Stage::on_car, hub, tilt, 0);
  const RefitAdvice known = advice(file);
  EXPECT_EQ(known.evidence, RefitEvidence::hub_and_part);
  ASSERT_TRUE(known.refit);
  EXPECT_DOUBLE_EQ(*known.radius_mm, 130);
  EXPECT_EQ(known.refit->best.position, best_by_trying_all(hub, tilt, 5));
  const double truth = swing_um(hub, tilt, known.refit->best.turn_deg);
  EXPECT_LE(known.refit->best.low95_um, truth + 1);
  EXPECT_GE(known.refit->best.high95_um, truth - 1);
  ASSERT_EQ(known.traces.size(), 2u);
  EXPECT_FALSE(known.traces[1].turned);
}

TEST_F(RefitAdviceTest, WithoutItsCircleABareFlangeIsNotCountedWith) {
  const JobFile file = with_studs();
  Part present = file.parts[0];
  present.hub_reading_diameter.reset();
  shop.change_part(present, teacher);
  read_round(file, Stage::on_car, Quantity::hub_runout, 0, [&](double t) { return at(hub, t) / 2; });
  read_fitted(file, Stage::on_car, hub, part, 0);
  const RefitAdvice known = advice(file);
  EXPECT_EQ(known.evidence, RefitEvidence::part_alone);
  EXPECT_TRUE(lacks(known.missing, "part.hub_reading_diameter"));
}

TEST_F(RefitAdviceTest, AfterACutTheHubIsThatOfBeforeAndThePartThatOfTheArbor) {
  const JobFile file = with_studs();
  look_over(file);
  measure(file, 21.5, 0.04);
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 1);
  shop.decide(id(), file.job.id, Action::cut, "as taught", teacher);
  clock += std::chrono::minutes(30);
  cut(file, 4, 4);
  const RefitAdvice before = advice(file);
  EXPECT_EQ(before.evidence, RefitEvidence::hub_alone);
  EXPECT_FALSE(before.refit);
  auto plan = *plan_of(shop.job_file(file.job.id), file.parts[0].id, Stage::after);
  plan.runout_place = RunoutPlace::on_arbor;
  shop.put_plan(plan, teacher);
  const Waves turned{{1, 20, 200}};
  read_round(file, Stage::after, Quantity::runout_outboard, 0, [&](double t) { return at(turned, t); });
  const RefitAdvice known = advice(file);
  EXPECT_EQ(known.evidence, RefitEvidence::hub_and_bench);
  EXPECT_EQ(known.stage, Stage::refit);
  ASSERT_TRUE(known.refit);
  EXPECT_EQ(known.refit->best.position, best_by_trying_all(hub, turned, 5));
  EXPECT_TRUE(says(known.advice, "arbor_wobble"));
  // The arbor's wobble is in the range: rms 12 um peak to valley is 4.2 um on each coordinate of the tilt.
  EXPECT_GT(known.refit->best.high95_um - known.refit->best.low95_um, 2 * 4.2);
}

TEST_F(RefitAdviceTest, OnceBackOnTheCarOnlyWhatIsReadThereCounts) {
  const JobFile file = with_studs();
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 1);
  const Waves cleaned{{1, 12, 300}};
  read_fitted(file, Stage::refit, cleaned, part, 0);
  read_fitted(file, Stage::refit, cleaned, part, 2);
  const RefitAdvice known = advice(file);
  EXPECT_EQ(known.stage, Stage::refit);
  ASSERT_TRUE(known.separation);
  EXPECT_NEAR(known.separation->carrier.at(0).amplitude_um, 12, 1);
}

TEST_F(RefitAdviceTest, AnglesThatCountTheOtherWayRoundAreTurnedAbout) {
  const JobFile file = with_studs();
  look_over(file);
  measure(file, 21.5, 0.04);
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 1);
  shop.decide(id(), file.job.id, Action::cut, "as taught", teacher);
  cut(file, 4, 4);
  auto plan = *plan_of(shop.job_file(file.job.id), file.parts[0].id, Stage::after);
  plan.runout_place = RunoutPlace::on_arbor;
  plan.turning = Turning::anticlockwise;
  shop.put_plan(plan, teacher);
  const Waves turned{{1, 20, 200}};
  read_round(file, Stage::after, Quantity::runout_outboard, 0, [&](double t) { return at(turned, 360 - t); });
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.refit);
  EXPECT_EQ(known.refit->best.position, best_by_trying_all(hub, turned, 5));
}

TEST_F(RefitAdviceTest, APlateIsTakenOnlyWhereNoPositionKeepsTheLimit) {
  const JobFile file = with_studs(4);
  // Hub 40 um high at stud 0, part true: 80 um in every position. A taper of 40 um over the circle's own diameter of
  // 260 mm tilts by 20 um there; thickest at stud 2 it leaves 2 (40 - 20) = 40 um of 50.
  const TaperPlate fits = plate("wedge", 40, 260, 4);
  plate("for five studs", 80, 260, 5);
  read_fitted(file, Stage::on_car, {{1, 40, 0}}, {}, 0, 4);
  read_fitted(file, Stage::on_car, {{1, 40, 0}}, {}, 1, 4);
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.refit);
  ASSERT_EQ(known.refit->all.size(), 5u);
  EXPECT_NEAR(known.refit->best_without_plate.runout_um, 80, 3);
  EXPECT_EQ(known.refit->best.plate_id, fits.id);
  EXPECT_EQ(known.refit->best.plate_name, "wedge");
  EXPECT_EQ(known.refit->best.plate_position, 2);
  EXPECT_NEAR(known.refit->best.runout_um, 40, 3);
}

TEST_F(RefitAdviceTest, OneTraceCanStillBeHelpedByAPlateInItsOwnPosition) {
  const JobFile file = with_studs(4);
  const TaperPlate fits = plate("wedge", 40, 260, 4);
  read_fitted(file, Stage::on_car, {{1, 40, 90}}, {}, 0, 4);
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.refit);
  EXPECT_EQ(known.refit->best.plate_id, fits.id);
  EXPECT_EQ(known.refit->best.position, 0);
  EXPECT_EQ(known.refit->best.plate_position, 3);  // high at stud 1: thickest across from it
}

TEST_F(RefitAdviceTest, NothingReadOneReadingAndNoStudsAreAnsweredWithWhatIsMissing) {
  const JobFile file = open();
  const RefitAdvice nothing = advice(file);
  EXPECT_EQ(nothing.evidence, RefitEvidence::nothing);
  EXPECT_TRUE(lacks(nothing.missing, "part.studs"));
  EXPECT_TRUE(lacks(nothing.missing, "part.limits.runout"));
  EXPECT_FALSE(nothing.noise_um);
  EXPECT_TRUE(says(nothing.next, "count_studs"));
  EXPECT_TRUE(says(nothing.next, "read_part"));
  add(file, turn_of(file, Stage::on_car, Quantity::runout_outboard, 0, 0, 30));
  EXPECT_EQ(advice(file).evidence, RefitEvidence::nothing);
  read_fitted(file, Stage::on_car, hub, part, 1);
  const RefitAdvice unknown_studs = advice(file);
  EXPECT_EQ(unknown_studs.evidence, RefitEvidence::part_alone);
  EXPECT_FALSE(unknown_studs.refit);
  EXPECT_FALSE(unknown_studs.separation);
}

TEST_F(RefitAdviceTest, AllReadingsAlikeLeaveNoMoreThanTheIndicatorsStep) {
  const JobFile file = with_studs();
  for (const std::int64_t turned : {0, 1}) {
    read_round(file, Stage::on_car, Quantity::runout_outboard, turned, [](double) { return 30.0; });
  }
  const RefitAdvice known = advice(file);
  ASSERT_TRUE(known.refit);
  EXPECT_LT(known.refit->best.high95_um, 8);
  EXPECT_GT(*known.refit->best.p_within, 0.999);
}

TEST_F(RefitAdviceTest, PlayOfTheBearingComesBeforeAnyRunout) {
  const JobFile file = with_studs();
  EXPECT_TRUE(says(advice(file).next, "read_bearing_play"));
  read_fitted(file, Stage::on_car, hub, part, 0);
  EXPECT_TRUE(says(advice(file).advice, "bearing_play_unread"));
  add(file, turn_of(file, Stage::on_car, Quantity::bearing_play, 0, 0, 150));
  const RefitAdvice known = advice(file);
  EXPECT_DOUBLE_EQ(*known.bearing_play_um, 150);
  EXPECT_TRUE(says(known.advice, "bearing_play_large"));
  EXPECT_TRUE(says(known.advice, "bearing_play_after"));
  EXPECT_FALSE(says(known.next, "read_bearing_play"));
  for (const Advice& one : known.advice) {
    if (one.code != "bearing_play_large") continue;
    EXPECT_NE(one.text.find("from memory"), std::string::npos);
  }
}

TEST_F(RefitAdviceTest, TheSameReadingsGiveTheSameAnswer) {
  const JobFile file = with_studs();
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 1);
  const RefitAdvice one = advice(file), other = advice(file);
  EXPECT_EQ(one.refit->best.runout_um, other.refit->best.runout_um);
  EXPECT_EQ(one.refit->best.p_within, other.refit->best.p_within);
}

TEST_F(RefitAdviceTest, ARefitKeepsWhatWasForeseenAndAnotherPositionNeedsItsReason) {
  const JobFile file = with_studs();
  read_fitted(file, Stage::on_car, hub, part, 0);
  read_fitted(file, Stage::on_car, hub, part, 1);
  const RefitAdvice known = advice(file);
  const std::int64_t best = known.refit->best.position, other = (best + 1) % 5;
  const Refit stored = shop.record_refit(file.job.id, fit(file, best), teacher);
  EXPECT_EQ(stored.foreseen_runout_um, known.refit->best.runout_um);
  EXPECT_EQ(stored.p_within, known.refit->best.p_within);
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, fit(file, other, " "), teacher); }), "reason_needed");
  const Refit overruled = shop.record_refit(file.job.id, fit(file, other, "the best stud is broken"), teacher);
  EXPECT_EQ(overruled.foreseen_runout_um, known.refit->all[static_cast<std::size_t>(other)].runout_um);
}

}  // namespace
}  // namespace brakewright::shop
