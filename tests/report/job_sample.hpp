#pragma once

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "report/record.hpp"
#include "shop/assess.hpp"

/// A whole job as a shop keeps it. All invented.
namespace brakewright::report::sample {

inline shop::Uuid id_of(int kind, int number) {
  shop::Uuid id;
  id.bytes[0] = static_cast<std::uint8_t>(kind);
  id.bytes[14] = static_cast<std::uint8_t>(number / 256);
  id.bytes[15] = static_cast<std::uint8_t>(number % 256);
  return id;
}

inline shop::UtcTime at_minute(int minutes) {
  return shop::UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)) + std::chrono::hours(9) +
         std::chrono::minutes(minutes);
}

inline TypedLength typed(const std::string& text, Unit unit = Unit::mm) { return parse_length(text, unit).typed; }

inline shop::Limit limit(const std::string& text, shop::LimitSource source, const std::string& note = "") {
  return {typed(text), source, note};
}

struct WholeJob {
  shop::JobFile file;
  std::vector<shop::Person> people;
  std::vector<shop::Instrument> instruments;
  std::vector<shop::Lathe> lathes;
  std::vector<shop::ZeroCheck> zero_checks;
  std::vector<shop::Piece> pieces = {};
  std::vector<shop::Insert> inserts = {};
  std::vector<shop::TaperPlate> taper_plates = {};
  shop::Settings settings;
  shop::Assessment assessment;
  std::string job_url = "http://192.168.4.20:8520/jobs/41";

  void assess() { assessment = shop::assess(file, {settings, instruments, zero_checks, lathes}); }
  RecordInput input() const {
    return {.file = file,
            .assessment = assessment,
            .people = people,
            .instruments = instruments,
            .lathes = lathes,
            .zero_checks = zero_checks,
            .settings = settings,
            .job_url = job_url,
            .printed_at = at_minute(162),
            .pieces = pieces,
            .inserts = inserts,
            .taper_plates = taper_plates};
  }
};

inline void add_reading(shop::JobFile& file, const shop::Part& part, shop::Stage stage, shop::Quantity quantity,
                        int circle, int point, int points, const std::string& text) {
  shop::Reading reading;
  reading.id = id_of(7, static_cast<int>(file.readings.size()));
  reading.job_id = file.job.id;
  reading.part_id = part.id;
  reading.stage = stage;
  reading.quantity = quantity;
  reading.circle = circle;
  reading.point = point;
  reading.angle_deg = 360.0 * point / points;
  reading.value = typed(text);
  const bool thickness = quantity == shop::Quantity::thickness;
  reading.instrument_id = id_of(3, thickness ? 1 : 2);
  reading.zero_check_id = id_of(4, thickness ? 1 : 2);
  reading.by_person_id = id_of(2, 1);
  reading.taken_at = reading.received_at = at_minute(stage == shop::Stage::before ? 30 : 120);
  file.readings.push_back(reading);
}

inline std::string mm_text(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3f", mm);
  return text;
}

inline void measure(shop::JobFile& file, const shop::Part& part, shop::Stage stage, int points, int circles,
                    double mean_mm, double amplitude_mm) {
  shop::MeasuringPlan plan{.part_id = part.id, .stage = stage, .points = points};
  for (int circle = 0; circle < circles; ++circle)
    plan.circles_from_edge.push_back({10'000'000 + 12'000'000L * circle});
  plan.thickness_instrument_id = id_of(3, 1);
  plan.runout_instrument_id = id_of(3, 2);
  plan.runout_place = stage == shop::Stage::before ? shop::RunoutPlace::on_car : shop::RunoutPlace::on_arbor;
  file.plans.push_back(plan);
  for (int point = 0; point < points; ++point) {
    const double t = 2 * std::numbers::pi * point / points;
    for (int circle = 0; circle < circles; ++circle) {
      const double mm = mean_mm + amplitude_mm * std::cos(t - 1.2) - 0.001 * circle;
      add_reading(file, part, stage, shop::Quantity::thickness, circle, point, points, mm_text(mm));
    }
    const double runout_mm = 3 * amplitude_mm * (1 + std::cos(t - 0.4)) / 2;
    add_reading(file, part, stage, shop::Quantity::runout_outboard, 0, point, points, mm_text(runout_mm));
    add_reading(file, part, stage, shop::Quantity::runout_inboard, 0, point, points, mm_text(runout_mm * 0.8));
  }
}

inline shop::Part part_of(const shop::Job& job, shop::Side side) {
  shop::Part part;
  part.id = id_of(6, side == shop::Side::left ? 1 : 2);
  part.job_id = job.id;
  part.side = side;
  part.outer_diameter = typed("280 mm");
  part.limits.nominal = limit("24 mm", shop::LimitSource::service_information);
  part.limits.machine_to = limit("0.874 in", shop::LimitSource::service_information, "sheet 4");
  part.limits.discard = limit("21.8", shop::LimitSource::cast_on_part);
  part.limits.variation = limit(".0005 in", shop::LimitSource::service_information);
  part.limits.runout = limit("0.05 mm", shop::LimitSource::house_rule);
  return part;
}

inline WholeJob bare_job(int rotors = 2) {
  WholeJob whole;
  whole.people = {
      {.id = id_of(2, 1), .name = "Ida Sandvik", .role = shop::Role::student, .created_at = at_minute(0)},
      {.id = id_of(2, 2), .name = "Tomasz Brandt", .role = shop::Role::teacher, .created_at = at_minute(0)}};
  shop::Instrument micrometer;
  micrometer.id = id_of(3, 1);
  micrometer.name = "Disc micrometer 3";
  micrometer.serial = "118";
  micrometer.resolution = {1'000};
  micrometer.mpe = {2'000};
  micrometer.repeatability = {1'000};
  micrometer.calibrated_on = std::chrono::year(2025) / 11 / 3;
  micrometer.calibration_due_on = std::chrono::year(2026) / 11 / 3;
  shop::Instrument indicator = micrometer;
  indicator.id = id_of(3, 2);
  indicator.name = "Dial indicator 7";
  indicator.serial = "";
  indicator.kind = shop::InstrumentKind::dial_indicator;
  indicator.calibration_due_on = std::chrono::year(2026) / 2 / 1;
  whole.instruments = {micrometer, indicator};
  whole.zero_checks = {{.id = id_of(4, 1),
                        .instrument_id = id_of(3, 1),
                        .error = typed("0.002 mm"),
                        .by_person_id = id_of(2, 1),
                        .at = at_minute(20)},
                       {.id = id_of(4, 2),
                        .instrument_id = id_of(3, 2),
                        .error = typed("0.000 mm"),
                        .by_person_id = id_of(2, 1),
                        .at = at_minute(21)}};
  shop::Lathe lathe;
  lathe.id = id_of(5, 1);
  lathe.name = "Lathe 2";
  whole.lathes = {lathe};
  whole.settings.shop_name = "Lindenhof Training Workshop";
  shop::Job& job = whole.file.job;
  job.id = id_of(1, 41);
  job.number = 41;
  job.brought_by = "M. Okonkwo-Reyes";
  job.vehicle = "blue estate, 2016";
  job.complaint_note = "felt in the pedal";
  job.odometer = 118'400;
  job.worker_person_id = id_of(2, 1);
  job.lathe_id = lathe.id;
  job.opened_by_person_id = id_of(2, 1);
  job.opened_at = job.changed_at = at_minute(15);
  whole.file.parts = {part_of(job, shop::Side::right)};
  if (rotors > 1) whole.file.parts.push_back(part_of(job, shop::Side::left));
  return whole;
}

inline WholeJob measured_job(int points, int circles, int rotors, bool cut) {
  WholeJob whole = bare_job(rotors);
  for (const shop::Part& part : whole.file.parts) {
    measure(whole.file, part, shop::Stage::before, points, circles, 22.850, 0.014);
    if (!cut) continue;
    whole.file.cuts.push_back({.id = id_of(9, static_cast<int>(whole.file.cuts.size())),
                               .job_id = whole.file.job.id,
                               .part_id = part.id,
                               .outboard_marks = 5,
                               .inboard_marks = 6,
                               .dial_um_per_mark = 25.4,
                               .by_person_id = id_of(2, 1),
                               .at = at_minute(100)});
    measure(whole.file, part, shop::Stage::after, points, circles, 22.585, 0.001);
  }
  return whole;
}

inline void decide(WholeJob& whole, shop::Action computed, shop::Action action, const std::string& reason) {
  shop::Decision decision;
  decision.id = id_of(8, static_cast<int>(whole.file.decisions.size()));
  decision.job_id = whole.file.job.id;
  decision.computed_action = computed;
  decision.computed_p = 0.87;
  decision.action = action;
  decision.reason = reason;
  decision.by_person_id = id_of(2, 2);
  decision.at = at_minute(62);
  whole.file.decisions.push_back(decision);
}

}  // namespace brakewright::report::sample
