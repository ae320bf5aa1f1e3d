#include "shop/progress.hpp"
#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

class RefitWork : public Classroom {
 protected:
  NewReading on_car(const JobFile& file, Quantity quantity, std::int64_t turned, std::int64_t point,
                    const std::string& text) {
    NewReading reading = figure(file, point, text, Stage::on_car);
    reading.quantity = quantity;
    reading.circle = turned;
    return reading;
  }

  Part with_studs(const JobFile& file, std::int64_t studs) {
    Part part = file.parts.at(0);
    part.studs = studs;
    return shop.change_part(part, teacher);
  }

  NewRefit refit(const JobFile& file, std::int64_t position) {
    return {.id = id(), .part_id = file.parts.at(0).id, .position = position};
  }

  JobFile decided(Action action) {
    const JobFile file = open();
    look_over(file);
    measure(file, 21.5, 0.004);
    shop.decide(id(), file.job.id, action, "as taught", teacher);
    return file;
  }
};

TEST_F(RefitWork, HubAndPartAreReadOnTheCarAtThePointsOfTheBench) {
  const JobFile file = open();
  with_studs(file, 5);
  EXPECT_DOUBLE_EQ(add(file, on_car(file, Quantity::hub_runout, 0, 2, "0.03")).angle_deg, 90);
  EXPECT_EQ(add(file, on_car(file, Quantity::runout_outboard, 4, 3, "0.05")).circle, 4);
  EXPECT_EQ(add(file, on_car(file, Quantity::bearing_play, 0, 0, "0.02")).value.value.nm, 20'000);
  const auto plan = plan_of(shop.job_file(file.job.id), file.parts[0].id, Stage::on_car);
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->points, 8);
  EXPECT_EQ(plan->runout_place, RunoutPlace::on_car);
}

TEST_F(RefitWork, APartTurnsOnItsHubByNoMoreStudsThanThereAre) {
  const JobFile file = open();
  with_studs(file, 4);
  EXPECT_EQ(refusal([&] { add(file, on_car(file, Quantity::runout_outboard, 3, 0, "0.05")); }), "done");
  EXPECT_EQ(refusal([&] { add(file, on_car(file, Quantity::runout_outboard, 4, 0, "0.05")); }), "out_of_range");
  EXPECT_EQ(refusal([&] { add(file, on_car(file, Quantity::hub_runout, 1, 0, "0.05")); }), "out_of_range");
}

TEST_F(RefitWork, ThicknessIsNotReadOnTheCarAndTheHubNotAtTheBench) {
  const JobFile file = open();
  EXPECT_EQ(refusal([&] { add(file, on_car(file, Quantity::thickness, 0, 0, "21.5")); }), "out_of_range");
  NewReading hub = figure(file, 0, "0.03");
  hub.quantity = Quantity::hub_runout;
  EXPECT_EQ(refusal([&] { add(file, hub); }), "out_of_range");
}

TEST_F(RefitWork, AnIndicatorMayReadBelowZeroButABearingHasNoNegativePlay) {
  const JobFile file = open();
  EXPECT_TRUE(doubted(file, on_car(file, Quantity::hub_runout, 0, 0, "-0.03")).empty());
  EXPECT_EQ(doubted(file, on_car(file, Quantity::bearing_play, 0, 0, "-0.03")), std::vector<std::string>{"below_zero"});
}

TEST_F(RefitWork, APartThatWasReadOnTheCarWaitsToGoBackOnIt) {
  const JobFile file = decided(Action::leave);
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::seal);
  const Reading read = add(file, on_car(file, Quantity::runout_outboard, 0, 0, "0.05"));
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::refit);
  shop.withdraw_reading(file.job.id, read.id, teacher);
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::seal);
  add(file, on_car(file, Quantity::hub_runout, 0, 0, "0.05"));
  with_studs(file, 5);
  shop.record_refit(file.job.id, refit(file, 2), teacher);
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::seal);
}

TEST_F(RefitWork, ARefitIsStoredOnceAndSaysWhoAndWhen) {
  const JobFile file = open();
  with_studs(file, 5);
  NewRefit wanted = refit(file, 3);
  wanted.nut_torque_nm = 110;
  wanted.torque_source = "the vehicle's handbook";
  const Refit stored = shop.record_refit(file.job.id, wanted, teacher);
  EXPECT_EQ(stored.studs, 5);
  EXPECT_EQ(stored.by_person_id, teacher);
  EXPECT_EQ(stored.at, clock);
  const auto seq = shop.last_seq();
  EXPECT_EQ(shop.record_refit(file.job.id, wanted, teacher), stored);
  EXPECT_EQ(shop.last_seq(), seq);
  wanted.position = 1;
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, wanted, teacher); }), "id_taken");
  EXPECT_EQ(shop.job_file(file.job.id).refits, std::vector{stored});
}

TEST_F(RefitWork, ARefitNeedsTheStudsAndNamesOneOfThem) {
  const JobFile file = open();
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, refit(file, 0), teacher); }), "studs_unknown");
  with_studs(file, 4);
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, refit(file, 4), teacher); }), "out_of_range");
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, refit(file, 3), teacher); }), "done");
}

TEST_F(RefitWork, ATaperedPlateGoesWithTheStudOfItsThickestPlace) {
  const JobFile file = open();
  with_studs(file, 5);
  const TaperPlate plate = shop.put_taper_plate({.id = id(), .name = "thin wedge"}, teacher);
  NewRefit wanted = refit(file, 0);
  wanted.plate_id = plate.id;
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, wanted, teacher); }), "missing");
  wanted.plate_position = 5;
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, wanted, teacher); }), "out_of_range");
  wanted.plate_position = 2;
  EXPECT_EQ(shop.record_refit(file.job.id, wanted, teacher).plate_id, plate.id);
  wanted.id = id();
  wanted.plate_id = id();
  EXPECT_EQ(refusal([&] { shop.record_refit(file.job.id, wanted, teacher); }), "unknown_plate");
}

}  // namespace
}  // namespace brakewright::shop
