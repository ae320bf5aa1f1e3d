#include "shop/road_advice.hpp"

#include "tests/shop/on_car_scene.hpp"

namespace brakewright::shop {
namespace {

class RoadAdviceTest : public OnCarScene {
 protected:
  /// 1500 kg on 205/55 R16, left part 280/160 mm, 22 mm new, 20 mm discard, solid.
  JobFile driven(bool vented = false) {
    JobFile file = with_studs();
    Job job = file.job;
    job.vehicle_mass_kg = 1500;
    job.tyre = "205/55 R16";
    shop.change_job(job, teacher);
    Part part = file.parts[0];
    part.vented = vented;
    shop.change_part(part, teacher);
    return shop.job_file(file.job.id);
  }

  void wears(double mm_per_10000_km) {
    Settings settings = shop.settings();
    settings.wear_mm_per_10000_km = mm_per_10000_km;
    shop.change_settings(settings, teacher);
  }

  RoadAdvice road(const JobFile& file, const RoadWish& wish = {}) { return shop.road(file.job.id, wish); }

  void cut_to(const JobFile& file, double mean_mm) {
    shop.decide(id(), file.job.id, Action::cut, "as taught", teacher);
    cut(file, 8, 8);
    measure(file, mean_mm, 0, Stage::after);
  }
};

TEST_F(RoadAdviceTest, TheWholeDiscWarmsByItsHeatOverItsHeatCapacity) {
  const JobFile file = driven();
  measure(file, 21.0, 0);
  const RoadAdvice known = road(file, {.speed_km_per_h = 90, .t_stop_s = 5, .axle_share = 0.6});
  ASSERT_TRUE(known.parts.at(0).before);
  const RoadDisc& disc = *known.parts[0].before;
  // By hand: 1500 kg * (25 m/s)^2 / 2 * 0.3 * 0.93 = 130 781 J; ring pi (0.140^2 - 0.080^2) m2 * 21 mm * 7200 kg/m3
  // = 6.2701 kg; 460 J/kgK: 45.34 K.
  EXPECT_NEAR(disc.energy_j, 130'781, 1);
  EXPECT_NEAR(disc.mass_kg, 6.2701, 1e-3);
  EXPECT_NEAR(disc.stop.rise_bulk_end_k, 130'781.25 / (6.27006 * 460), 0.01);
  EXPECT_DOUBLE_EQ(disc.stop.depth_mm, 10.5);
  EXPECT_GT(disc.stop.rise_surface_max_k, disc.stop.rise_bulk_end_k);
  ASSERT_TRUE(disc.stop.rise_surface_max_band_k);
  EXPECT_LT(disc.stop.rise_surface_max_band_k->low, disc.stop.rise_surface_max_k);
  EXPECT_GT(disc.stop.rise_surface_max_band_k->high, disc.stop.rise_surface_max_k);
}

TEST_F(RoadAdviceTest, AThinnerDiscWarmsInProportionAndStandsBesideThatBeforeTheCut) {
  const JobFile file = driven();
  look_over(file);
  measure(file, 21.5, 0.04);
  cut_to(file, 20.8);
  const RoadPart part = road(file).parts.at(0);
  ASSERT_TRUE(part.before && part.after && part.at_discard && part.as_new);
  EXPECT_NEAR(part.before->thickness_mm, 21.5, 1e-3);
  EXPECT_NEAR(part.after->thickness_mm, 20.8, 1e-3);
  EXPECT_NEAR(part.after->stop.rise_bulk_end_k / part.before->stop.rise_bulk_end_k, 21.5 / 20.8, 1e-4);
  EXPECT_NEAR(part.at_discard->stop.rise_bulk_end_k / part.as_new->stop.rise_bulk_end_k, 22.0 / 20.0, 1e-9);
  EXPECT_TRUE(part.after->u_thickness_mm);
  EXPECT_FALSE(part.at_discard->u_thickness_mm);
}

TEST_F(RoadAdviceTest, RepeatedStopsBeginWhereTheOneBeforeLeftOffLessItsCooling) {
  const JobFile file = driven();
  measure(file, 21.0, 0);
  const RoadAdvice known = road(file, {.t_stop_s = 5, .stops = 3, .interval_s = 60});
  const auto& repeats = known.parts.at(0).before->repeats;
  ASSERT_EQ(repeats.stops.size(), 3u);
  EXPECT_DOUBLE_EQ(repeats.stops[0].start_c.low, 20);
  EXPECT_DOUBLE_EQ(repeats.stops[0].start_c.high, 20);
  // Hot end: 5 W/m2K, 46 W/mK, 7150 kg/m3, 450 J/kgK, a depth of 10.5 mm, 55 s of cooling, heat share 0.95.
  const double speed = 100 / 3.6, energy = 1500 * speed * speed / 2 * 0.35 * 0.95;
  const double area = std::numbers::pi * (0.14 * 0.14 - 0.08 * 0.08);
  const double rise = energy / (area * 0.021 * 7150 * 450);
  const double kept = std::exp(-5.0 * 55 / (7150 * 450 * 0.0105));
  EXPECT_NEAR(repeats.stops[0].end_c.high, 20 + rise, 0.01);
  EXPECT_NEAR(repeats.stops[1].start_c.high, 20 + rise * kept, 0.5);
  EXPECT_NEAR(repeats.stops[2].start_c.high, 20 + (rise * kept + rise) * kept, 1);
}

TEST_F(RoadAdviceTest, AVentedDiscCountsByItsCheeksAndNeedsThemSaid) {
  const JobFile file = driven(true);
  measure(file, 21.0, 0);
  EXPECT_TRUE(lacks(road(file).parts.at(0).missing, "readings.cheek_outboard"));
  EXPECT_FALSE(road(file).parts.at(0).before);
  const RoadPart told = road(file, {.cheek_thickness_mm = 6}).parts.at(0);
  ASSERT_TRUE(told.before);
  EXPECT_DOUBLE_EQ(told.before->stop.depth_mm, 6);
  ASSERT_TRUE(told.at_discard);
  EXPECT_NEAR(told.at_discard->stop.depth_mm, 5.5, 1e-9);  // half of the millimetre less on each cheek
  NewReading cheek = figure(file, 0, "7.00");
  cheek.quantity = Quantity::cheek_outboard;
  cheek.confirmed = true;
  add(file, cheek);
  EXPECT_DOUBLE_EQ(road(file, {.cheek_thickness_mm = 6}).parts.at(0).before->stop.depth_mm, 7);
}

TEST_F(RoadAdviceTest, WhatNobodyGaveIsNamedAndWhatWasTakenInItsPlaceIsSaid) {
  const JobFile file = open();
  const RoadAdvice known = road(file);
  for (const char* field : {"job.vehicle_mass_kg", "job.tyre"}) EXPECT_TRUE(lacks(known.missing, field)) << field;
  for (const char* field : {"part.outer_diameter", "part.seat.ring_inner", "readings.thickness", "part.limits.runout",
                            "readings.runout_outboard", "settings.wear_mm_per_10000_km"}) {
    EXPECT_TRUE(lacks(known.parts.at(0).missing, field)) << field;
  }
  EXPECT_TRUE(known.felt.empty());
  ASSERT_EQ(known.assumed.size(), 5u);
  for (const RoadAssumed& one : known.assumed) EXPECT_NE(one.basis.find("no source"), std::string::npos) << one.field;
  EXPECT_EQ(
      road(file, {.speed_km_per_h = 80, .t_stop_s = 4, .stops = 2, .interval_s = 30, .axle_share = 0.5}).assumed.size(),
      0u);
}

TEST_F(RoadAdviceTest, AVehicleOfNoMassIsOneWhoseMassIsMissing) {
  JobFile file = driven();
  measure(file, 21.0, 0);
  file = shop.job_file(file.job.id);
  file.job.vehicle_mass_kg = 0;
  const Settings settings;
  const RoadAdvice known =
      advise_road(file, {}, {}, {.settings = settings, .instruments = {}, .zero_checks = {}, .lathes = {}});
  EXPECT_TRUE(lacks(known.missing, "job.vehicle_mass_kg"));
  EXPECT_FALSE(known.parts.at(0).before);
}

TEST_F(RoadAdviceTest, WearRoomIsWhatIsLeftOverTheRateBeforeAndAfterTheCut) {
  wears(0.5);
  const JobFile file = driven();
  look_over(file);
  measure(file, 21.5, 0);
  cut_to(file, 20.8);
  const RoadPart part = road(file).parts.at(0);
  ASSERT_EQ(part.wear.size(), 1u);
  ASSERT_TRUE(part.wear[0].uncut && part.wear[0].cut);
  EXPECT_NEAR(part.wear[0].uncut->median, 1.5 / 0.5, 0.06);  // 1.5 mm at 0.5 mm for each 10 000 km
  EXPECT_NEAR(part.wear[0].cut->median, 0.8 / 0.5, 0.05);
  // A lognormal rate of 30 %: log sd sqrt(log 1.09) = 0.2936, so that 95 % lie within a factor of 1.778.
  EXPECT_NEAR(part.wear[0].uncut->high95 / part.wear[0].uncut->median, 1.778, 0.1);
  EXPECT_NEAR(part.wear[0].uncut->median / part.wear[0].uncut->low95, 1.778, 0.1);
  EXPECT_FALSE(part.wear[0].source.empty());
}

TEST_F(RoadAdviceTest, ThePartsOwnRateIsWhatItLostOverWhatTheCarRan) {
  JobFile file = driven();
  Job job = file.job;
  job.odometer = 50'000;
  shop.change_job(job, teacher);
  measure(file, 21.0, 0);
  const RoadPart part = road(file).parts.at(0);
  ASSERT_EQ(part.wear.size(), 1u);
  EXPECT_NEAR(part.wear[0].rate.mm_per_unit, 0.2, 1e-3);  // 1 mm in 50 000 km
  EXPECT_NE(part.wear[0].source.find("never cut"), std::string::npos);
  EXPECT_NEAR(part.wear[0].uncut->median, 5, 0.2);
}

TEST_F(RoadAdviceTest, AtItsDiscardThicknessAPartHasNoRoom) {
  wears(0.5);
  const JobFile file = driven();
  measure(file, 19.5, 0);
  const RoadPart part = road(file).parts.at(0);
  ASSERT_TRUE(part.wear.at(0).uncut);
  EXPECT_EQ(part.wear[0].uncut->high95, 0);
}

TEST_F(RoadAdviceTest, AWheelOrderBeatsWithSpeedOverCircumference) {
  const RoadAdvice known = road(driven());
  ASSERT_TRUE(known.wheel);
  // 16 in and two walls of 55 % of 205 mm: pi (406.4 + 225.5) = 1985.2 mm; 94.5 to 98.5 % of it roll.
  EXPECT_NEAR(known.wheel->tyre.free_circumference_mm, 1985.2, 0.1);
  bool met = false;
  for (const auto& row : known.felt) {
    if (row.speed_km_per_h != 90 || row.order != 2) continue;
    met = true;
    EXPECT_NEAR(row.low_hz, 2 * 25 / (1.9852 * 0.985), 0.01);
    EXPECT_NEAR(row.high_hz, 2 * 25 / (1.9852 * 0.945), 0.01);
    EXPECT_NEAR(row.hz, 2 * 25 / (1.9852 * 0.965), 0.01);
  }
  EXPECT_TRUE(met);
}

TEST_F(RoadAdviceTest, ATyreThatNobodyCanReadIsMissingAndSaid) {
  JobFile file = driven();
  file.job.tyre = "round and black";  // as an older record may have it
  const Settings settings;
  const RoadAdvice known =
      advise_road(file, {}, {}, {.settings = settings, .instruments = {}, .zero_checks = {}, .lathes = {}});
  EXPECT_TRUE(lacks(known.missing, "job.tyre"));
  EXPECT_TRUE(says(known.advice, "not_a_tyre"));
  EXPECT_FALSE(known.wheel);
}

TEST_F(RoadAdviceTest, RunoutLeftOverItsLimitGrowsWithinARangeThatHasASource) {
  const JobFile file = driven();
  measure(file, 21.0, 0.004);
  read_fitted(file, Stage::on_car, {{1, 50, 20}}, {}, 0);  // 100 um against 50
  const RoadPart part = road(file).parts.at(0);
  ASSERT_TRUE(part.growth);
  EXPECT_TRUE(part.growth->over);
  EXPECT_EQ(part.growth->felt_from_km, 3000);
  EXPECT_EQ(part.growth->felt_to_km, 9656);  // 6000 miles
  EXPECT_NE(part.growth->source.find("no source"), std::string::npos);
  EXPECT_NEAR(part.growth->curve.front().low_um, 4, 1.1);  // the variation that is there already
  const JobFile within = driven();
  measure(within, 21.0, 0.004);
  read_fitted(within, Stage::on_car, {{1, 10, 20}}, {}, 0);
  const RoadPart good = road(within).parts.at(0);
  ASSERT_TRUE(good.growth);
  EXPECT_FALSE(good.growth->over);
  EXPECT_TRUE(good.growth->curve.empty());
}

TEST_F(RoadAdviceTest, GrowthIsNotToldFromAThicknessThatTheCutTookAway) {
  const JobFile file = driven();
  look_over(file);
  measure(file, 21.5, 0.04);
  shop.decide(id(), file.job.id, Action::cut, "as taught", teacher);
  cut(file, 8, 8);
  read_fitted(file, Stage::refit, {{1, 50, 20}}, {}, 0);
  const RoadPart unread = road(file).parts.at(0);
  EXPECT_FALSE(unread.growth);
  EXPECT_TRUE(lacks(unread.missing, "readings.thickness_after"));
  measure(file, 21.1, 0.004, Stage::after);
  const RoadPart read = road(file).parts.at(0);
  ASSERT_TRUE(read.growth);
  EXPECT_FALSE(lacks(read.missing, "readings.thickness_after"));
}

TEST_F(RoadAdviceTest, APartWithAPlateIsJudgedByWhatWasReadOfItSo) {
  const JobFile file = driven();
  measure(file, 21.0, 0.004);
  read_fitted(file, Stage::on_car, {{1, 50, 20}}, {}, 0);
  const TaperPlate wedge = shop.put_taper_plate({.id = id(), .name = "thin wedge"}, teacher);
  NewRefit fitted{.id = id(), .part_id = file.parts[0].id, .position = 0};
  fitted.plate_id = wedge.id;
  fitted.plate_position = 2;
  fitted.reason = "tried";
  shop.record_refit(file.job.id, fitted, teacher);
  clock += std::chrono::minutes(5);
  read_fitted(file, Stage::refit, {{1, 8, 20}}, {}, 0);
  const RoadPart part = road(file).parts.at(0);
  ASSERT_TRUE(part.growth);
  EXPECT_FALSE(part.growth->over);  // 16 um against 50, where the bare hub has 100
  EXPECT_NE(part.growth_basis.find("as it was fitted"), std::string::npos);
  const RefitAdvice known = advice(file);
  for (const CarTrace& trace : known.traces) EXPECT_NEAR(trace.runout_um, 100, 8);
  EXPECT_TRUE(says(known.next, "enough"));
}

TEST_F(RoadAdviceTest, TheHottestStopAndTheLongestDiscAreAnsweredInWordsNotByAFailure) {
  const JobFile file = driven();
  measure(file, 21.0, 0);
  const RoadAdvice fast = road(file, {.speed_km_per_h = 300, .t_stop_s = 2, .stops = 200, .interval_s = 2});
  ASSERT_TRUE(fast.parts.at(0).before);
  EXPECT_TRUE(says(fast.parts[0].advice, "very_hot"));
  EXPECT_FALSE(fast.parts[0].before->repeats.settles_at_c);
}

}  // namespace
}  // namespace brakewright::shop
