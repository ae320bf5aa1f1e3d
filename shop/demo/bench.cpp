#include "shop/demo/bench.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright::shop::demo {
namespace {

constexpr std::int64_t kUnnamedStepNm = 10'000;

std::int64_t step_nm(const Gauge& gauge) { return gauge.instrument ? gauge.instrument->resolution.nm : kUnnamedStepNm; }

}  // namespace

std::string Gauge::shows(double true_mm, Random& random) const {
  const double repeatability_mm = instrument ? instrument->repeatability.mm() : 0.003;
  const std::int64_t step = step_nm(*this);
  const double shown_nm = (true_mm + bias_mm + zero_mm + repeatability_mm * random.normal()) * 1e6;
  const std::int64_t steps = std::llround(shown_nm / static_cast<double>(step));
  return format_number({steps * step}, unit(), step);
}

Gauge take_up(const std::optional<Instrument>& instrument, Random& random) {
  Gauge gauge{.instrument = instrument};
  if (instrument) {
    gauge.bias_mm = instrument->mpe.mm() * (random.uniform() - 0.5);
    const auto steps = static_cast<double>(random.below(3)) - 1;
    gauge.zero_mm = steps * instrument->resolution.mm();
  }
  return gauge;
}

Bench::Bench(Shop& shop, Clock& clock, Random& random, const JobFile& file, const Uuid& worker)
    : shop_(shop), clock_(clock), random_(random), job_id_(file.job.id), worker_(worker) {}

Reading Bench::add(NewReading reading) {
  clock_.pass(6 + 6 * random_.uniform());
  reading.id = shop_.new_id();
  reading.taken_at = clock_.now - std::chrono::milliseconds(random_.below(300));
  try {
    return shop_.add_reading(job_id_, reading, worker_);
  } catch (const DoubtfulReading&) {
    clock_.pass(9);
    reading.taken_at = clock_.now;
    reading.confirmed = true;
    return shop_.add_reading(job_id_, reading, worker_);
  }
}

NewReading Bench::spot(const Uuid& part_id, Stage stage, Quantity quantity, const Gauge& gauge) {
  NewReading reading;
  reading.part_id = part_id;
  reading.stage = stage;
  reading.quantity = quantity;
  reading.default_unit = gauge.unit();
  if (gauge.instrument) reading.instrument_id = gauge.instrument->id;
  return reading;
}

void Bench::zero(const Gauge& gauge) {
  if (!gauge.instrument) return;
  clock_.pass(35);
  const std::string shown = format_number({std::llround(gauge.zero_mm * 1e6)}, gauge.unit(), step_nm(gauge));
  shop_.add_zero_check(shop_.new_id(), gauge.instrument->id, shown, gauge.unit(), job_id_, worker_);
}

void Bench::plan(const Uuid& part_id, const Gauge& micrometer, const std::optional<Instrument>& indicator,
                 std::int64_t points, bool two_circles) {
  MeasuringPlan plan = *plan_of(shop_.job_file(job_id_), part_id, Stage::before);
  plan.points = points;
  if (two_circles) plan.circles_from_edge = {Length{10'000'000}, Length{35'000'000}};
  plan.part_temperature_c = std::round(19 + 4 * random_.uniform());
  if (micrometer.instrument) plan.thickness_instrument_id = micrometer.instrument->id;
  if (indicator) plan.runout_instrument_id = indicator->id;
  clock_.pass(25);
  shop_.put_plan(plan, worker_);
}

void Bench::thickness(const Uuid& part_id, const Rotor& rotor, Stage stage, const Gauge& gauge, std::int64_t points,
                      int repeats) {
  const MeasuringPlan plan = *plan_of(shop_.job_file(job_id_), part_id, stage);
  const std::int64_t count = points < 0 ? plan.points : std::min(points, plan.points);
  for (std::size_t circle = 0; circle < plan.circles_from_edge.size(); ++circle) {
    for (std::int64_t point = 0; point < count; ++point) {
      for (int repeat = 0; repeat < repeats; ++repeat) {
        NewReading reading = spot(part_id, stage, Quantity::thickness, gauge);
        reading.circle = static_cast<std::int64_t>(circle);
        reading.point = point;
        const double angle_deg = 360.0 * static_cast<double>(point) / static_cast<double>(plan.points);
        reading.text = gauge.shows(rotor.thickness_at(angle_deg, plan.circles_from_edge[circle].mm()), random_);
        add(reading);
      }
    }
  }
}

void Bench::runout(const Uuid& part_id, const Rotor& rotor, Stage stage, const Gauge& gauge) {
  const MeasuringPlan plan = *plan_of(shop_.job_file(job_id_), part_id, stage);
  for (std::int64_t point = 0; point < plan.points; ++point) {
    NewReading reading = spot(part_id, stage, Quantity::runout_outboard, gauge);
    reading.point = point;
    const double angle_deg = 360.0 * static_cast<double>(point) / static_cast<double>(plan.points);
    reading.text = gauge.shows((rotor.runout_um_at(angle_deg) - rotor.runout_um_at(0)) / 1000, random_);
    add(reading);
  }
}

void Bench::scoring(const Uuid& part_id, const Rotor& rotor, const Gauge& gauge) {
  for (const auto& [face, depth_um] : {std::pair{Quantity::scoring_outboard, rotor.score_outboard_um},
                                       std::pair{Quantity::scoring_inboard, rotor.score_inboard_um}}) {
    NewReading reading = spot(part_id, Stage::before, face, gauge);
    const std::int64_t step = step_nm(gauge);
    const std::int64_t steps = std::max<std::int64_t>(std::llround(depth_um * 1000 / static_cast<double>(step)), 0);
    reading.text = format_number({steps * step}, gauge.unit(), step);
    add(reading);
  }
}

void Bench::cheeks(const Uuid& part_id, const Rotor& rotor, Stage stage, const Gauge& gauge) {
  for (const auto& [face, true_mm] : {std::pair{Quantity::cheek_outboard, rotor.cheek_outboard_mm},
                                      std::pair{Quantity::cheek_inboard, rotor.cheek_inboard_mm}}) {
    for (int repeat = 0; repeat < 3; ++repeat) {
      NewReading reading = spot(part_id, stage, face, gauge);
      reading.text = gauge.shows(true_mm, random_);
      add(reading);
    }
  }
}

void Bench::roughness(const Uuid& part_id, const Gauge& tester) {
  for (const Quantity face : {Quantity::roughness_outboard, Quantity::roughness_inboard}) {
    NewReading reading = spot(part_id, Stage::after, face, tester);
    const std::int64_t hundredths = 110 + static_cast<std::int64_t>(90 * random_.uniform());
    reading.text = std::to_string(hundredths / 100) + "." + std::to_string(hundredths % 100 / 10) +
                   std::to_string(hundredths % 10) + " um";
    add(reading);
  }
}

void Bench::finding(const Uuid& part_id, FindingKind kind, Judgement judgement, const std::string& note) {
  Finding finding;
  finding.id = shop_.new_id();
  finding.job_id = job_id_;
  finding.part_id = part_id;
  finding.kind = kind;
  finding.judgement = judgement;
  finding.note = note;
  clock_.pass(30);
  shop_.add_finding(finding, worker_);
}

void Bench::mistype_and_correct(const Uuid& part_id, const Rotor& rotor, const Gauge& gauge, std::int64_t point) {
  const MeasuringPlan plan = *plan_of(shop_.job_file(job_id_), part_id, Stage::before);
  const double angle_deg = 360.0 * static_cast<double>(point) / static_cast<double>(plan.points);
  const double true_mm = rotor.thickness_at(angle_deg, plan.circles_from_edge[0].mm());
  NewReading wrong = spot(part_id, Stage::before, Quantity::thickness, gauge);
  wrong.point = point;
  wrong.text = gauge.shows(true_mm + 0.09, random_);
  NewReading right = wrong;
  right.supersedes_id = add(wrong).id;
  right.text = gauge.shows(true_mm, random_);
  add(right);
}

void Bench::read_and_take_back(const Uuid& part_id, const Rotor& rotor, const Gauge& gauge, std::int64_t point) {
  NewReading extra = spot(part_id, Stage::before, Quantity::thickness, gauge);
  extra.point = point;
  extra.text = gauge.shows(rotor.thickness_at(0, 10) - 0.06, random_);
  const Uuid id = add(extra).id;
  clock_.pass(12);
  shop_.withdraw_reading(job_id_, id, worker_);
}

}  // namespace brakewright::shop::demo
