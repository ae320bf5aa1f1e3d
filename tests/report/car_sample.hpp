#pragma once

#include "tests/report/job_sample.hpp"

/// A job that was read on the car and went back on it. All invented.
namespace brakewright::report::sample {

/// Readings of one turn at eight points: hub and part as waves of order 1, the part turned by so many studs of five.
inline void read_turn(WholeJob& whole, const shop::Part& part, shop::Stage stage, std::int64_t turned, double hub_um,
                      double part_um, int minute) {
  for (int point = 0; point < 8; ++point) {
    const double t = 2 * std::numbers::pi * point / 8;
    const double turn = 2 * std::numbers::pi * static_cast<double>(turned) / 5;
    const double um = hub_um * std::cos(t) + part_um * std::cos(t - turn);
    char text[32];
    std::snprintf(text, sizeof text, "%.5f", um / 1000);
    add_reading(whole.file, part, stage, shop::Quantity::runout_outboard, static_cast<int>(turned), point, 8, text);
    whole.file.readings.back().received_at = at_minute(minute);
  }
}

inline shop::Refit refit_of(const WholeJob& whole, const shop::Part& part) {
  return {.id = id_of(30, static_cast<int>(whole.file.refits.size())),
          .job_id = whole.file.job.id,
          .part_id = part.id,
          .studs = 5,
          .position = 3,
          .foreseen_runout_um = 30,
          .p_within = 0.93,
          .nut_torque_nm = 120,
          .torque_source = "handbook, page 214",
          .reason = "Chosen from all five.",
          .by_person_id = id_of(2, 2),
          .at = at_minute(140)};
}

/// A pair that was cut; both were read on the car in two positions, the left one went back on and was read again.
inline WholeJob car_job(int rotors = 2) {
  WholeJob whole = measured_job(8, 1, rotors, true);
  whole.taper_plates = {{.id = id_of(31, 1), .name = "wedge 50", .taper_um = 50}};
  for (shop::Part& part : whole.file.parts) {
    part.studs = 5;
    add_reading(whole.file, part, shop::Stage::on_car, shop::Quantity::bearing_play, 0, 0, 1, "0.012");
    // Hub 20 um and part 30 um to each side, both highest at the mark: 100 um from lowest to highest as marked.
    read_turn(whole, part, shop::Stage::on_car, 0, 20, 30, 22);
    read_turn(whole, part, shop::Stage::on_car, 2, 20, 30, 25);
  }
  const shop::Part& left = whole.file.parts.back();
  whole.file.refits.push_back(refit_of(whole, left));
  read_turn(whole, left, shop::Stage::refit, 3, 20, 8, 145);
  whole.file.bench_steps.push_back({.id = id_of(32, 1),
                                    .job_id = whole.file.job.id,
                                    .part_id = left.id,
                                    .phase = shop::BenchPhase::refit,
                                    .step = "flange_clean",
                                    .by_person_id = id_of(2, 1),
                                    .taken_at = at_minute(130),
                                    .received_at = at_minute(130)});
  whole.assess();
  return whole;
}

}  // namespace brakewright::report::sample
