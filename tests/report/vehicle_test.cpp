#include <gtest/gtest.h>

#include <algorithm>

#include "core/input_error.hpp"
#include "report/record.hpp"
#include "tests/report/car_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using namespace sample;
using shop::Paper;
using test::has;
using test::text_of_pdf;

/// With one blank where there are several.
std::string squeezed(std::string text) {
  const auto end = std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; });
  text.erase(end, text.end());
  return text;
}

WholeJob of_axle(shop::Axle axle, std::int64_t number) {
  WholeJob job = measured_job(8, 1, 2, false);
  job.file.job.axle = axle;
  job.file.job.number = number;
  job.assess();
  return job;
}

TEST(VehicleRecord, HoldsEveryJobOfTheVehicleWithItsOwnSheetsTheFrontAxleFirst) {
  const WholeJob rear = of_axle(shop::Axle::rear, 41);
  const WholeJob front = of_axle(shop::Axle::front, 42);
  RecordInput of_rear = rear.input();
  of_rear.beside = {front.file.job};
  const std::string text = squeezed(text_of_pdf(vehicle_pdf({of_rear, front.input()}, Paper::a4)));
  const std::size_t first = text.find("job 42 sheet 1 of 2");
  const std::size_t second = text.find("job 42 sheet 2 of 2");
  const std::size_t third = text.find("job 41 sheet 1 of 2");
  const std::size_t last = text.find("job 41 sheet 2 of 2");
  ASSERT_NE(last, std::string::npos) << text.substr(0, 300);
  EXPECT_LT(first, second);
  EXPECT_LT(second, third);
  EXPECT_LT(third, last);
  EXPECT_TRUE(has(text, "rear, left and right; front: job 42"));
}

TEST(VehicleRecord, OfOneJobIsItsRecord) {
  const WholeJob job = of_axle(shop::Axle::front, 41);
  EXPECT_EQ(vehicle_pdf({job.input()}, Paper::letter), record_pdf(job.input(), Paper::letter));
}

TEST(VehicleRecord, OfNoJobIsRefused) { EXPECT_THROW(vehicle_pdf({}, Paper::a4), InputError); }

}  // namespace
}  // namespace brakewright::report
