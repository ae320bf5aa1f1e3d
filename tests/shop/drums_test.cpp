#include "shop/places.hpp"
#include "shop/progress.hpp"
#include "tests/shop/drum_scene.hpp"

namespace brakewright::shop {
namespace {

class Drums : public DrumScene {
 protected:
  /// The refusal of opening such a drum: its code and its field.
  std::pair<std::string, std::string> refused(const Part& part) {
    try {
      open_with({part});
    } catch (const InputError& error) {
      said = error.what();
      return {error.code(), error.field()};
    }
    return {"done", ""};
  }

  std::string said;
};

using Refused = std::pair<std::string, std::string>;

// TM 9-2330-384-14&P, 5-5: four diameters, 45 degrees apart, at the open and the closed edge.
TEST_F(Drums, IsFirstGoneRoundAtFourDiametersOverHalfATurnAtBothEdges) {
  const JobFile file = open_drums();
  const MeasuringPlan& plan = file.plans.at(0);
  EXPECT_EQ(plan.points, 4);
  EXPECT_EQ(plan.circles_from_edge, (std::vector<Length>{of_mm(10), of_mm(50)}));
  EXPECT_EQ(plan.runout_place, RunoutPlace::on_arbor);
  EXPECT_DOUBLE_EQ(add(file, diameter(file, 1, 3, "284.0")).angle_deg, 135);
  NewReading inside = diameter(file, 0, 7, "0.02");
  inside.quantity = Quantity::runout_outboard;
  EXPECT_DOUBLE_EQ(add(file, inside).angle_deg, 315);
  EXPECT_EQ(refusal([&] { add(file, diameter(file, 2, 0, "284.0")); }), "out_of_range");
  EXPECT_EQ(refusal([&] { add(file, diameter(file, 0, 4, "284.0")); }), "out_of_range");
}

TEST_F(Drums, AnIndicatorInsideGoesTheWholeTurnAtTheStepsOfTheDiametersUpToTwentyFour) {
  const auto kind = std::optional(PartKind::drum);
  for (const auto& [points, round] : {std::pair{4, 8}, std::pair{12, 24}, std::pair{20, 24}}) {
    const MeasuringPlan plan{.points = points};
    EXPECT_EQ(spread_of(Quantity::runout_outboard, plan, kind).points, round);
    EXPECT_EQ(spread_of(Quantity::diameter, plan, kind).over_deg, 180);
    EXPECT_EQ(spread_of(Quantity::thickness, plan, {}).points, points);
  }
}

TEST_F(Drums, ANarrowBandIsReadAQuarterInFromItsEdges) {
  Part part = drum();
  part.band_width = mm("24");
  EXPECT_EQ(first_plan(part, 8).circles_from_edge, (std::vector<Length>{of_mm(6), of_mm(18)}));
  part.band_width.reset();
  EXPECT_EQ(first_plan(part, 16).circles_from_edge, (std::vector<Length>{of_mm(10), of_mm(40)}));
  EXPECT_EQ(first_plan(part, 16).points, 8);
}

TEST_F(Drums, DepthsThatNobodyChoseFollowTheBandUntilTheyAreReadAt) {
  JobFile file = open_drums();
  const auto widened = [&](const std::string& width) {
    Part part = shop.job_file(file.job.id).parts[0];
    part.band_width = mm(width);
    shop.change_part(part, teacher);
    return shop.job_file(file.job.id).plans[0].circles_from_edge;
  };
  EXPECT_EQ(widened("24"), (std::vector<Length>{of_mm(6), of_mm(18)}));
  EXPECT_EQ(widened("40"), (std::vector<Length>{of_mm(10), of_mm(30)}));
  add(file, diameter(file, 0, 0, "284.0"));
  EXPECT_EQ(widened("80"), (std::vector<Length>{of_mm(10), of_mm(30)}));
  file = open_drums();
  MeasuringPlan chosen = file.plans.at(0);
  chosen.circles_from_edge = {of_mm(8), of_mm(30), of_mm(52)};
  shop.put_plan(chosen, teacher);
  EXPECT_EQ(widened("70"), chosen.circles_from_edge);
}

TEST_F(Drums, DepthsStayOnTheBandAndTheIndicatorOnTheLathe) {
  const JobFile file = open_drums();
  MeasuringPlan plan = file.plans.at(0);
  plan.circles_from_edge = {of_mm(5), of_mm(60.1)};
  EXPECT_EQ(refusal([&] { shop.put_plan(plan, teacher); }), "out_of_range");
  plan.circles_from_edge = {of_mm(5), of_mm(30), of_mm(60)};
  plan.runout_place = RunoutPlace::on_car;
  EXPECT_EQ(refusal([&] { shop.put_plan(plan, teacher); }), "other_kind");
  plan.runout_place = RunoutPlace::on_arbor;
  EXPECT_EQ(shop.put_plan(plan, teacher).circles_from_edge.size(), 3U);
}

TEST_F(Drums, WaitsForDiametersAtEveryDepth) {
  const JobFile file = open_drums();
  const auto waits = [&] { return waits_for(shop.job_file(file.job.id)); };
  EXPECT_EQ(waits(), WaitsFor::findings);
  look_over(file);
  EXPECT_EQ(waits(), WaitsFor::readings);
  for (std::int64_t depth = 0; depth < 2; ++depth) {
    for (std::int64_t point = 0; point < 4; ++point) {
      EXPECT_EQ(waits(), WaitsFor::readings);
      add(file, diameter(file, depth, point, "284.0" + std::to_string(point)));
    }
  }
  EXPECT_EQ(waits(), WaitsFor::decision);
  const Progress progress = progress_of(shop.job_file(file.job.id), file.parts[0].id, Stage::before);
  EXPECT_EQ(progress.diameter_done, 8);
  EXPECT_EQ(progress.diameter_wanted, 8);
  EXPECT_EQ(progress.thickness_wanted, 0);
  EXPECT_EQ(progress.runout_wanted, 8);
}

TEST_F(Drums, LimitsAreDiametersInTheirOrder) {
  Part part = drum();
  EXPECT_EQ(refused(part), Refused("done", ""));
  part.id = id();
  std::swap(part.limits.machine_to, part.limits.discard);
  EXPECT_EQ(refused(part), Refused("limits_disagree", "parts[0].limits.machine_to.value.text"));
  part = drum();
  part.limits.nominal = limit("284.9");
  EXPECT_EQ(refused(part), Refused("limits_disagree", "parts[0].limits.nominal.value.text"));
  part = drum();
  part.limits.discard = limit("385.5");
  EXPECT_EQ(refused(part), Refused("limits_disagree", "parts[0].limits.discard.value.text"));
}

TEST_F(Drums, ASlippedUnitIsNamed) {
  Part part = drum();
  part.limits.discard = limit("11.24");  // inches on a page that was set to millimetres
  EXPECT_EQ(refused(part), Refused("out_of_range", "parts[0].limits.discard.value.text"));
  EXPECT_NE(said.find("was it typed in inches"), std::string::npos) << said;
  part.limits.discard = Limit{parse_length("285.496", Unit::in).typed, LimitSource::cast_on_part, ""};
  EXPECT_EQ(refused(part), Refused("out_of_range", "parts[0].limits.discard.value.text"));
  EXPECT_NE(said.find("was it typed in millimetres"), std::string::npos) << said;
  part = drum();
  part.lining_radius = mm("283");
  EXPECT_EQ(refused(part), Refused("out_of_range", "parts[0].lining_radius.text"));
  EXPECT_NE(said.find("was a diameter typed"), std::string::npos) << said;
}

TEST_F(Drums, WhatIsAskedOfTheOtherKindIsRefused) {
  Part part = drum();
  part.limits.discard = limit("20");  // a disc's
  EXPECT_EQ(refused(part).first, "out_of_range");
  EXPECT_NE(said.find("the limits of a drum are diameters"), std::string::npos) << said;
  part = drum();
  part.limits.variation = limit("0.015");
  EXPECT_EQ(refused(part), Refused("other_kind", "parts[0].limits.variation"));
  part = drum();
  part.kind.reset();
  EXPECT_EQ(refused(part).first, "out_of_range");
  EXPECT_NE(said.find("the limits of a disc are thicknesses"), std::string::npos) << said;
  part.limits = {};
  EXPECT_EQ(refused(part), Refused("other_kind", "parts[0].band_width"));
  part.band_width.reset();
  part.limits.taper = limit("0.1");
  EXPECT_EQ(refused(part), Refused("other_kind", "parts[0].limits.taper"));
  KnownPart known{.id = id(), .name = "utility rear drum"};
  known.limits = drum().limits;
  EXPECT_EQ(refusal([&] { shop.put_known_part(known, teacher); }), "out_of_range");
  known.kind = PartKind::drum;
  known.band_width = mm("60");
  EXPECT_EQ(shop.put_known_part(known, teacher).kind, PartKind::drum);
}

TEST_F(Drums, AJobIsOfOneKindAndAPartStaysWhatItIs) {
  Part disc{.id = id(), .side = Side::right};
  EXPECT_EQ(refusal([&] { open_with({drum(), disc}); }), "other_kind");
  Part in_hat = drum(Side::right);
  in_hat.kind = PartKind::drum_in_hat;
  EXPECT_EQ(refusal([&] { open_with({drum(), in_hat}); }), "other_kind");
  const JobFile file = open_drums();
  Part wanted = file.parts[0];
  wanted.kind = PartKind::disc;
  wanted.limits = {};
  wanted.band_width.reset();
  EXPECT_EQ(refusal([&] { shop.change_part(wanted, teacher); }), "other_kind");
}

TEST_F(Drums, AJobThatIsOpenedBesideAnotherIsFoundByTheVehicle) {
  const JobFile front = open(2);
  Job rear{.id = id(), .vehicle = "blue estate, 2.0 diesel"};
  rear.beside_job_id = front.job.id;
  const JobFile drums = shop.open_job(rear, {drum()}, teacher);
  Job third{.id = id(), .vehicle = "blue estate, 2.0 diesel"};
  third.beside_job_id = drums.job.id;
  EXPECT_EQ(shop.open_job(third, {drum()}, teacher).job.beside_job_id, front.job.id);
  open(1);
  for (const Uuid& asked : {front.job.id, drums.job.id, third.id}) {
    const JobPage page = shop.jobs({.vehicle_of = asked});
    ASSERT_EQ(page.total, 3);
    EXPECT_EQ(page.lines.back().job.id, front.job.id);
  }
  Job lost{.id = id(), .vehicle = "lost"};
  lost.beside_job_id = id();
  EXPECT_EQ(refusal([&] { shop.open_job(lost, {drum()}, teacher); }), "unknown_job");
  lost.beside_job_id = lost.id;
  EXPECT_EQ(refusal([&] { shop.open_job(lost, {drum()}, teacher); }), "out_of_range");
}

TEST_F(Drums, EachKindIsReadByItsOwnQuantities) {
  const JobFile drums = open_drums();
  const JobFile discs = open();
  EXPECT_EQ(refusal([&] { add(drums, figure(drums, 0, "22")); }), "other_kind");
  EXPECT_EQ(refusal([&] { add(discs, diameter(discs, 0, 0, "284.0")); }), "other_kind");
  for (const Quantity of_a_disc : {Quantity::runout_inboard, Quantity::scoring_inboard, Quantity::cheek_outboard}) {
    NewReading reading = diameter(drums, 0, 0, "0.1");
    reading.quantity = of_a_disc;
    EXPECT_EQ(refusal([&] { add(drums, reading); }), "other_kind");
  }
  NewReading groove = diameter(drums, 0, 0, "0.12");
  groove.quantity = Quantity::scoring_outboard;
  EXPECT_EQ(refusal([&] { add(drums, groove); }), "done");
}

TEST_F(Drums, OddDiametersAreQuestioned) {
  const JobFile file = open_drums();
  using Codes = std::vector<std::string>;
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "2840")), Codes{"ten_times"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "28.4")), Codes{"ten_times"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "11.18")), Codes{"other_unit"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "0.79")), Codes{"far_from_others"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "282.8")), Codes{"smaller_than_new"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "285.6")), Codes{"over_discard"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "284.05")), Codes{});
  EXPECT_EQ(doubted(file, diameter(file, 0, 1, "283.02")), Codes{"far_from_others"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 1, "284.01")), Codes{});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "283.90", Stage::after)), Codes{"smaller_than_before"});
  EXPECT_EQ(doubted(file, diameter(file, 1, 2, "283.90", Stage::after)), Codes{"smaller_than_before"});
  EXPECT_EQ(doubted(file, diameter(file, 0, 0, "284.2", Stage::after)), Codes{});
}

TEST_F(Drums, OnceADrumIsOverDiscardItsOtherDiametersAreNotAskedAbout) {
  const JobFile file = open_drums();
  NewReading first = diameter(file, 0, 0, "285.6");
  first.confirmed = true;
  EXPECT_EQ(add(file, first).confirmed_doubts, std::vector<std::string>{"over_discard"});
  EXPECT_TRUE(doubted(file, diameter(file, 0, 1, "285.62")).empty());
}

}  // namespace
}  // namespace brakewright::shop
