#include "shop/exchange/readings_csv.hpp"

#include <tuple>

#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

/// One part on a hub with five studs, and its readings as a table.
class OnCarTable : public Classroom {
 protected:
  OnCarTable() {
    Part part = file.parts.at(0);
    part.studs = 5;
    shop.change_part(part, teacher);
  }

  ImportReport import(const std::string& csv) { return import_readings(shop, file.job.id, csv, {}, teacher); }

  std::string table() { return readings_csv(shop.job_file(file.job.id), shop.people(), shop.instruments()); }

  using Place = std::tuple<Stage, Quantity, std::int64_t, std::int64_t, std::int64_t>;
  std::vector<Place> places() {
    std::vector<Place> all;
    for (const Reading& one : shop.job_file(file.job.id).readings) {
      all.emplace_back(one.stage, one.quantity, one.circle, one.point, one.value.value.nm);
    }
    return all;
  }

  JobFile file = open();
};

TEST_F(OnCarTable, BearingPlayHubAndPartInEachPositionComeInFromATable) {
  const ImportReport report = import(
      "stage,quantity,studs_turned,point_number,value\n"
      "on the car,bearing play,,,0.02\n"
      "on_car,hub_runout,,3,0.01\n"
      "on_car,outboard runout,0,1,0.05\n"
      "on_car,outboard runout,2,8,0.04\n"
      "refitted,outboard runout,4,2,0.03\n");
  EXPECT_TRUE(report.refused.empty());
  using enum Quantity;
  EXPECT_EQ(places(), (std::vector<Place>{{Stage::on_car, bearing_play, 0, 0, 20'000},
                                          {Stage::on_car, hub_runout, 0, 2, 10'000},
                                          {Stage::on_car, runout_outboard, 0, 0, 50'000},
                                          {Stage::on_car, runout_outboard, 2, 7, 40'000},
                                          {Stage::refit, runout_outboard, 4, 1, 30'000}}));
}

TEST_F(OnCarTable, AnAngleFindsItsPointOnTheCarBeforeAnythingWasReadThere) {
  const ImportReport report = import("stage;quantity;angle_deg;value\non_car;hub_runout;135;0,02\n");
  ASSERT_TRUE(report.refused.empty());
  EXPECT_EQ(places(), (std::vector<Place>{{Stage::on_car, Quantity::hub_runout, 0, 3, 20'000}}));
}

TEST_F(OnCarTable, ATurnThatTheHubDoesNotHaveIsRefusedInItsLine) {
  const ImportReport report = import(
      "stage,quantity,studs_turned,point_number,value\n"
      "on_car,runout_outboard,5,1,0.05\n"
      "on_car,runout_outboard,x,1,0.05\n"
      "on_jack,runout_outboard,1,1,0.05\n");
  ASSERT_EQ(report.refused.size(), 3U);
  EXPECT_EQ(report.added, 0);
  EXPECT_EQ(report.refused[1].field, "studs_turned");
  EXPECT_EQ(report.refused[1].message, "a whole number is needed here, counted from 0");
  EXPECT_EQ(report.refused[2].message, "accepted here: before, after, on_car, refit");
}

TEST_F(OnCarTable, GoesOutSayingHowFarThePartWasTurnedAndComesIntoAnotherJobTheSame) {
  import(
      "stage,quantity,studs_turned,point_number,value\n"
      "on_car,bearing_play,,,0.02\non_car,hub_runout,,3,0.01\non_car,runout_outboard,2,8,0.04\n"
      "before,thickness,,4,21.5\n");
  const std::string out = table();
  EXPECT_NE(out.find(",on_car,runout_outboard,1,2,8,315,"), std::string::npos) << out;
  EXPECT_NE(out.find(",on_car,hub_runout,1,,3,90,"), std::string::npos) << out;
  EXPECT_NE(out.find(",before,thickness,1,,4,135,"), std::string::npos) << out;
  EXPECT_EQ(import(out).known, 4);
  const auto before = places();
  file = open();
  Part part = file.parts.at(0);
  part.studs = 5;
  shop.change_part(part, teacher);
  // The same table without its ids is a table of new readings.
  std::string renewed = out;
  renewed.replace(renewed.find(",id\r\n"), 3, ",mark");
  const ImportReport report = import(renewed);
  EXPECT_TRUE(report.refused.empty());
  EXPECT_EQ(places(), before);
}

}  // namespace
}  // namespace brakewright::shop
