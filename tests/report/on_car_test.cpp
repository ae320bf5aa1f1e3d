#include "report/content/on_car.hpp"

#include <gtest/gtest.h>

#include "report/content/build.hpp"
#include "report/content/lathe_work.hpp"
#include "report/sheet/sheet.hpp"
#include "shop/progress.hpp"
#include "tests/report/car_sample.hpp"
#include "tests/report/turned_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using namespace sample;
using shop::Paper;
using test::has;
using test::text_of_pdf;

OnCarContent left_on_car(const WholeJob& job) { return on_car_of(job.input(), job.file.parts.back()); }

std::string told_of(const OnCarContent& content) {
  std::string text;
  for (const ReasonContent& one : content.told) text += one.text + " [" + one.basis + "]\n";
  return text;
}

TEST(OnCar, MakesOneMoreSheetOnlyWhereSomethingWasReadOrDoneOnTheCar) {
  WholeJob job = measured_job(8, 1, 2, true);
  job.assess();
  EXPECT_EQ(sheets(job.input(), Paper::a4), 2);
  EXPECT_EQ(sheets(car_job().input(), Paper::a4), 3);
  WholeJob refitted = turned_job(1);
  refitted.file.parts[0].studs = 5;
  refitted.file.refits.push_back(refit_of(refitted, refitted.file.parts[0]));
  EXPECT_EQ(sheets(refitted.input(), Paper::letter), 4);
}

TEST(OnCar, SaysNothingOfAJobThatWasNotReadThere) {
  WholeJob job = measured_job(8, 1, 2, true);
  job.assess();
  EXPECT_FALSE(left_on_car(job).any);
  EXPECT_FALSE(driver_card_of(job.input()));
  EXPECT_FALSE(has(text_of_pdf(record_pdf(job.input(), Paper::a4)), "on the car:"));
}

TEST(OnCar, ListsPlayAndTheRunoutOfEachPositionInTheirOrder) {
  const OnCarContent content = left_on_car(car_job());
  // Turned by 144 degrees: 20 cos t + 30 cos(t - 144 deg) = 18.1 cos(t - 103.6 deg), which the points at 90 and 270
  // degrees show as 35.3. Back on by 216 degrees with 8 um left in the part: 13.5 at 0 and -13.5 at 180 degrees.
  EXPECT_EQ(content.readings.rows,
            (std::vector<std::vector<std::string>>{{"", "bearing play", "12", "–", "–"},
                                                   {"as it came", "rotor as marked", "100", "0°", "8 of 8"},
                                                   {"", "rotor turned by 2 studs", "35", "90°", "8 of 8"},
                                                   {"back on", "rotor turned by 3 studs", "27", "0°", "8 of 8"}}));
}

TEST(OnCar, TellsHubAndRotorApartFromTwoPositions) {
  // Truth of the sample: the hub 20 um and the rotor 30 um to each side.
  const std::string told = told_of(left_on_car(car_job()));
  EXPECT_TRUE(has(told, "Whose runout, as it came: the hub's 40 µm, the rotor's own 60 µm.")) << told;
  EXPECT_TRUE(has(told, "[least squares over 2 positions")) << told;
}

TEST(OnCar, NamesTheWavesThatLookAlikeInAllPositions) {
  WholeJob job = car_job(1);
  std::erase_if(job.file.readings, [](const shop::Reading& one) { return one.stage == shop::Stage::on_car; });
  job.file.parts[0].studs = 4;
  read_turn(job, job.file.parts[0], shop::Stage::on_car, 0, 20, 30, 22);
  read_turn(job, job.file.parts[0], shop::Stage::on_car, 2, 20, 30, 25);
  EXPECT_TRUE(
      has(told_of(left_on_car(job)), "The wave of order 2 looks alike in all positions: whose it is is not told."))
      << told_of(left_on_car(job));
}

TEST(OnCar, DoesNotSayWhoseItIsFromOnePositionAloneAndMissesThePlay) {
  WholeJob job = car_job();
  std::erase_if(job.file.readings, [](const shop::Reading& one) {
    return shop::is_on_car(one.stage) &&
           (one.quantity == shop::Quantity::bearing_play || one.circle != 0 || one.stage == shop::Stage::refit);
  });
  const std::string told = told_of(left_on_car(job));
  EXPECT_TRUE(has(told, "Read in one position: whose runout it is cannot be told."));
  EXPECT_TRUE(has(told, "Bearing play was not read"));
  EXPECT_FALSE(has(told, "the hub's"));
}

TEST(OnCar, SaysWhatWasForeseenAndWhatWasReadAfterItAgainstTheLimit) {
  const std::string told = told_of(left_on_car(car_job()));
  EXPECT_TRUE(has(told,
                  "Back on its hub turned by 3 studs of 5. Foreseen: 30 µm, within the limit with probability "
                  "0.930. Chosen from all five. [Tomasz Brandt, 2026-03-04 11:20 UTC]"))
      << told;
  EXPECT_TRUE(has(told, "Read again after it: 27 µm, within the limit of 50 µm as read; 3 µm less than foreseen."));
  EXPECT_TRUE(has(told, "Wheel nuts: 120 N·m. [from: handbook, page 214]"));
}

TEST(OnCar, ATrialBeforeTheRefitIsNotTakenForTheReadingAfterIt) {
  WholeJob job = car_job();
  for (shop::Reading& one : job.file.readings) {
    if (one.stage == shop::Stage::refit) one.received_at = at_minute(135);
  }
  const OnCarContent content = left_on_car(job);
  EXPECT_EQ(content.readings.rows.back()[0], "going back on");
  EXPECT_TRUE(has(told_of(content), "Not read again after it went back on."));
}

TEST(OnCar, APlateIsNamedWithWhereItsThickestPlaceLies) {
  WholeJob job = car_job();
  job.file.refits[0].plate_id = id_of(31, 1);
  job.file.refits[0].plate_position = 2;
  EXPECT_TRUE(
      has(told_of(left_on_car(job)), "with the tapered plate wedge 50, its thickest place 2 studs on from the"));
  job.taper_plates.clear();
  EXPECT_TRUE(has(told_of(left_on_car(job)), "with the tapered plate that is not on record"));
}

TEST(OnCar, AWithdrawnReadingDoesNotCount) {
  WholeJob job = car_job();
  for (shop::Reading& one : job.file.readings) {
    if (one.stage == shop::Stage::refit) one.withdrawn_at = at_minute(150);
  }
  EXPECT_EQ(left_on_car(job).readings.rows.size(), 3U);
}

TEST(OnCar, AnInchShopReadsItInThou) {
  WholeJob job = car_job();
  job.settings.default_unit = Unit::in;
  EXPECT_EQ(left_on_car(job).readings.rows[1][2], "3.9");
  EXPECT_TRUE(has(told_of(left_on_car(job)), "Foreseen: 1.2 thou"));
}

TEST(OnCar, StepsOfGoingBackOnAreNotAmongThoseAtTheLathe) {
  const WholeJob job = car_job();
  EXPECT_EQ(left_on_car(job).steps.rows.size(), 1U);
  EXPECT_FALSE(lathe_work_of(job.input(), job.file.parts.back()).any);
}

TEST(OnCar, IsOnThePaperOfBothSizesWithTheDriversCardAndNothingMeets) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = record_pdf(car_job().input(), paper);
    const std::string text = text_of_pdf(pdf);
    for (const char* words :
         {"sheet 3 of 3", "on the car", "Left rotor: on the car", "Right rotor: on the car", "rotor turned by 3 studs",
          "Wheel nuts: 120", "Back on the car: flange of the hub", "For the driver: the first kilometres",
          "blue estate, 2016, front brakes, job 41", "torque wrench: 120 N·m", "Common practice, no source."}) {
      EXPECT_TRUE(has(text, words)) << words;
    }
    EXPECT_FALSE(has(text.substr(text.find("sheet 3 of 3")), "see the job"));
    EXPECT_EQ(test::words_outside(pdf), 0);
    EXPECT_EQ(test::words_that_meet(pdf, 3), std::vector<std::string>{});
  }
}

TEST(OnCar, EveryPositionOfTwelveStudsStaysOnItsSheet) {
  WholeJob job = car_job();
  for (shop::Part& part : job.file.parts) {
    part.studs = 12;
    for (std::int64_t turned = 3; turned < 12; ++turned) {
      read_turn(job, part, shop::Stage::on_car, turned, 20, 30, 25);
      read_turn(job, part, shop::Stage::refit, turned, 20, 30, 135);
    }
  }
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = record_pdf(job.input(), paper);
    EXPECT_EQ(test::words_outside(pdf), 0);
    EXPECT_EQ(test::words_that_meet(pdf, 3), std::vector<std::string>{});
    EXPECT_TRUE(has(text_of_pdf(pdf), "more, see the job"));
  }
}

}  // namespace
}  // namespace brakewright::report
