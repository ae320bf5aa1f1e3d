#include "shop/pulsation_advice.hpp"

#include "tests/shop/drum_scene.hpp"
#include "tests/shop/on_car_scene.hpp"

namespace brakewright::shop {
namespace {

/// 205/55 R16 rolls 0.965 of pi (406.4 + 225.5) mm in a turn.
constexpr double kRolls_m = 0.965 * 1.98517;

class PulsationAdviceTest : public OnCarScene {
 protected:
  JobFile complained(std::optional<double> hz, std::optional<double> km_per_h = 100, std::size_t parts = 2) {
    const JobFile file = open(parts);
    Job job = file.job;
    job.tyre = "205/55 R16";
    job.felt_in = FeltIn::pedal;
    job.felt_speed_km_per_h = km_per_h;
    job.felt_frequency_hz = hz;
    shop.change_job(job, teacher);
    return shop.job_file(file.job.id);
  }

  /// Thickness with one wave of that order on one part.
  void wavy(const JobFile& file, std::size_t part, int order, double peak_to_valley_mm) {
    for (std::int64_t point = 0; point < 8; ++point) {
      const double mm =
          21.5 + peak_to_valley_mm / 2 * std::cos(order * static_cast<double>(point) * std::numbers::pi / 4);
      NewReading reading = figure(file, point, format_number({std::llround(mm * 1e3) * 1000}, Unit::mm, 1000));
      reading.part_id = file.parts.at(part).id;
      reading.confirmed = true;
      add(file, reading);
    }
  }

  PulsationAdvice advice(const JobFile& file) { return shop.pulsation(file.job.id); }

  /// The speedometer shows 3 % too much.
  static double beat_hz(int order, double shown_km_per_h) { return order * shown_km_per_h * 0.97 / 3.6 / kRolls_m; }
};

TEST_F(PulsationAdviceTest, AFrequencyIsToldByTheWheelOrderThatBeatsSo) {
  for (const int order : {1, 2, 3}) {
    const PulsationAdvice known = advice(complained(beat_hz(order, 100)));
    ASSERT_FALSE(known.orders.empty());
    EXPECT_EQ(known.orders.front().order, order);
    EXPECT_GT(known.orders.front().probability, 0.8);
    EXPECT_NEAR(*known.orders.front().expected_hz, beat_hz(order, 100), 0.01);
    EXPECT_NEAR(*known.orders.front().off_percent, 0, 0.1);
    EXPECT_NEAR(*known.u_frequency_hz, 0.05 * beat_hz(order, 100), 1e-9);
  }
}

TEST_F(PulsationAdviceTest, TheCornerWithVariationAtThatOrderFits) {
  const JobFile file = complained(beat_hz(2, 100));
  wavy(file, 0, 1, 0.03);
  wavy(file, 1, 2, 0.02);
  const PulsationAdvice known = advice(file);
  ASSERT_EQ(known.corners.size(), 2u);
  EXPECT_EQ(known.corners[0].name, "front right");
  EXPECT_EQ(known.corners[0].part_id, file.parts[1].id);
  EXPECT_EQ(known.corners[0].order, 2);
  EXPECT_NEAR(*known.corners[0].amplitude_um, 10, 1);
  double sum = known.p_other_corner;
  for (const PulsationCorner& corner : known.corners) sum += *corner.probability;
  EXPECT_NEAR(sum, 1, 1e-9);
  EXPECT_TRUE(says(known.next, "this_corner"));
}

TEST_F(PulsationAdviceTest, WithNoFrequencyTheCornersAreWeighedAndItIsAskedFor) {
  const JobFile file = complained({}, {});
  wavy(file, 0, 1, 0.03);
  const PulsationAdvice known = advice(file);
  EXPECT_TRUE(known.orders.empty());
  EXPECT_EQ(known.corners.at(0).name, "front left");
  EXPECT_GT(*known.corners[0].probability, 0.5);
  EXPECT_FALSE(known.corners.at(1).probability);
  EXPECT_FALSE(known.corners[1].read);
  for (const char* field : {"job.felt_speed_km_per_h", "job.felt_frequency_hz"}) {
    EXPECT_TRUE(lacks(known.missing, field)) << field;
  }
  EXPECT_TRUE(says(known.next, "find_frequency"));
  EXPECT_TRUE(says(known.next, "read_corner"));
}

TEST_F(PulsationAdviceTest, AFrequencyWithoutATyreOrASpeedAsksForThoseAndNotForItself) {
  JobFile file = complained(12, {});
  const PulsationAdvice no_speed = advice(file);
  EXPECT_TRUE(no_speed.orders.empty());
  EXPECT_TRUE(says(no_speed.next, "ask_speed"));
  EXPECT_FALSE(says(no_speed.next, "find_frequency"));
  Job job = file.job;
  job.tyre.reset();
  job.felt_speed_km_per_h = 100;
  shop.change_job(job, teacher);
  const PulsationAdvice no_tyre = advice(file);
  EXPECT_TRUE(no_tyre.orders.empty());
  EXPECT_TRUE(no_tyre.table.empty());
  EXPECT_TRUE(lacks(no_tyre.missing, "job.tyre"));
  EXPECT_TRUE(says(no_tyre.next, "read_tyre"));
}

TEST_F(PulsationAdviceTest, SpeedsAndFrequenciesThatNoCarHasAreSaidAndNotCountedWith) {
  const PulsationAdvice fast = advice(complained(12, 400));
  EXPECT_TRUE(says(fast.advice, "out_of_range"));
  EXPECT_TRUE(fast.orders.empty());
  EXPECT_TRUE(lacks(fast.missing, "job.felt_speed_km_per_h"));
  EXPECT_TRUE(says(advice(complained(400, 100)).advice, "out_of_range"));
}

TEST_F(PulsationAdviceTest, AFrequencyThatNoWheelOrderBeatsIsNotTheWheels) {
  const PulsationAdvice known = advice(complained(beat_hz(1, 100) * 0.55));
  EXPECT_EQ(known.orders.front().order, 0);
  EXPECT_TRUE(says(known.next, "not_the_wheel"));
}

TEST_F(PulsationAdviceTest, RunoutOnTheCarStandsBesideItsCorner) {
  const JobFile file = complained(beat_hz(1, 100));
  for (std::int64_t point = 0; point < 8; ++point) {
    add(file, turn_of(file, Stage::on_car, Quantity::runout_outboard, 0, point,
                      at({{1, 40, 0}}, 45.0 * static_cast<double>(point))));
  }
  const PulsationAdvice known = advice(file);
  EXPECT_EQ(known.corners.at(0).runout_um, 80);
  EXPECT_TRUE(says(known.next, "whose_runout"));
}

TEST_F(PulsationAdviceTest, JobsOfTheSameVehicleCountAsItsOtherCorners) {
  const JobFile front = complained(beat_hz(1, 100));
  wavy(front, 0, 1, 0.002);
  wavy(front, 1, 1, 0.002);
  JobFile rear = complained({}, {}, 1);
  wavy(rear, 0, 1, 0.05);
  rear = shop.job_file(rear.job.id);
  rear.job.axle = Axle::rear;
  const Settings settings = shop.settings();
  const auto instruments = shop.instruments();
  const AssessContext context{.settings = settings, .instruments = instruments, .zero_checks = {}, .lathes = {}};
  const PulsationAdvice known = advise_pulsation(shop.job_file(front.job.id), {rear}, context);
  ASSERT_EQ(known.corners.size(), 3u);
  EXPECT_EQ(known.corners[0].name, "rear left");
  EXPECT_EQ(known.corners[0].job_id, rear.job.id);
  rear.job.axle = Axle::front;  // a drum in the hat: two parts at one corner
  const PulsationAdvice shared = advise_pulsation(shop.job_file(front.job.id), {rear}, context);
  EXPECT_NE(shared.corners[0].name.find("job " + std::to_string(rear.job.number)), std::string::npos);
}

using PulsationOfDrums = DrumScene;

TEST_F(PulsationOfDrums, AnOvalDrumBeatsTwiceATurnAndItsOddOrdersAreNotSeen) {
  const JobFile file = open_drums();
  gauge_drums(file, 284, 0.04);
  const PulsationAdvice known = shop.pulsation(file.job.id);
  ASSERT_EQ(known.corners.size(), 1u);
  EXPECT_EQ(known.corners[0].name, "rear left");
  EXPECT_EQ(known.corners[0].order, 2);
  EXPECT_NEAR(*known.corners[0].amplitude_um, 20, 0.5);  // 40 um from the longest to the shortest diameter
  const auto said = std::any_of(known.advice.begin(), known.advice.end(),
                                [](const Advice& one) { return one.code == "drum_even_orders"; });
  EXPECT_TRUE(said);
}

TEST_F(PulsationOfDrums, EachDrumIsHeldAgainstItsOwnLimitAndADriverFeelsBothAlike) {
  Part left = drum(), right = drum(Side::right);
  left.limits.out_of_round = limit("0.3");
  right.limits.out_of_round = limit("0.02");
  const JobFile file = open_with({left, right});
  gauge_drums(file, 284, 0.06);
  const PulsationAdvice known = shop.pulsation(file.job.id);
  ASSERT_EQ(known.corners.size(), 2u);
  EXPECT_NEAR(*known.corners[0].probability, *known.corners[1].probability, 1e-9);
  for (const PulsationCorner& corner : known.corners) {
    const char* own = corner.side == Side::left ? "within 300 um" : "over 20 um";
    EXPECT_NE(corner.why.find(own), std::string::npos) << corner.why;
  }
}

TEST_F(PulsationOfDrums, AJobOpenedBesideAnotherBringsItsCorners) {
  const JobFile discs = open(2);
  measure(discs, 21.5, 0.002);
  Job job{.id = id(), .brought_by = "Staff car pool", .vehicle = "green utility"};
  job.axle = Axle::rear;
  job.beside_job_id = discs.job.id;
  const JobFile drums = shop.open_job(job, {drum()}, teacher);
  gauge_drums(drums, 284, 0.08);
  const PulsationAdvice known = shop.pulsation(discs.job.id);
  ASSERT_EQ(known.corners.size(), 3u);
  EXPECT_EQ(known.corners[0].name, "rear left");
  EXPECT_EQ(known.corners[0].job_id, drums.job.id);
  EXPECT_EQ(shop.pulsation(drums.job.id).corners.size(), 3u);
}

TEST_F(PulsationOfDrums, ADrumHasNoFaceToReadOnTheCarAndNoHeatOfADisc) {
  const JobFile file = open_drums();
  gauge_drums(file, 284, 0.04);
  const RefitAdvice refit = shop.refit_advice(file.job.id, file.parts[0].id);
  EXPECT_FALSE(refit.refit);
  EXPECT_EQ(refit.advice.at(0).code, "drum");
  const RoadAdvice road = shop.road(file.job.id, {});
  EXPECT_FALSE(road.parts.at(0).before);
  EXPECT_EQ(road.parts.at(0).advice.at(0).code, "drum");
}

}  // namespace
}  // namespace brakewright::shop
