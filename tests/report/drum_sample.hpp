#pragma once

#include "tests/report/job_sample.hpp"

/// A job of drums. All invented.
namespace brakewright::report::sample {

/// Four diameters over half a turn at both edges: oval by so much, wider at the open edge by so much.
inline void read_drum(WholeJob& whole, const shop::Part& part, shop::Stage stage, double mean_mm, double oval_mm,
                      double bell_mm) {
  shop::MeasuringPlan plan{.part_id = part.id, .stage = stage, .points = 4};
  plan.circles_from_edge = {{10'000'000}, {28'000'000}};
  plan.runout_place = shop::RunoutPlace::on_arbor;
  plan.thickness_instrument_id = id_of(3, 1);
  whole.file.plans.push_back(plan);
  for (int depth = 0; depth < 2; ++depth) {
    for (int point = 0; point < 4; ++point) {
      const double t = 2 * std::numbers::pi * point / 4;
      const double mm = mean_mm + oval_mm / 2 * std::cos(t) + (depth == 0 ? bell_mm : 0);
      add_reading(whole.file, part, stage, shop::Quantity::diameter, depth, point, 8, mm_text(mm));
      whole.file.readings.back().instrument_id = id_of(3, 1);
    }
  }
}

inline WholeJob drum_job(bool cut, int drums = 2) {
  WholeJob whole = bare_job(drums);
  whole.file.job.axle = shop::Axle::rear;
  whole.file.job.number = 42;
  whole.file.job.id = id_of(1, 42);
  for (shop::Part& part : whole.file.parts) {
    part.job_id = whole.file.job.id;
    part.kind = shop::PartKind::drum;
    part.vented = false;
    part.outer_diameter.reset();
    part.band_width = typed("38 mm");
    part.limits = {};
    part.limits.nominal = limit("203 mm", shop::LimitSource::service_information);
    part.limits.machine_to = limit("204 mm", shop::LimitSource::service_information);
    part.limits.discard = limit("204.5", shop::LimitSource::cast_on_part);
    part.limits.out_of_round = limit("0.1 mm", shop::LimitSource::service_information);
    part.limits.taper = limit("0.08 mm", shop::LimitSource::house_rule);
  }
  for (const shop::Part& part : whole.file.parts) {
    read_drum(whole, part, shop::Stage::before, 203.4, 0.12, 0.06);
    add_reading(whole.file, part, shop::Stage::before, shop::Quantity::scoring_outboard, 0, 0, 1, "0.11");
    if (!cut) continue;
    whole.file.cuts.push_back({.id = id_of(9, static_cast<int>(whole.file.cuts.size())),
                               .job_id = whole.file.job.id,
                               .part_id = part.id,
                               .outboard_marks = 10,
                               .dial_um_per_mark = 25.4,
                               .by_person_id = id_of(2, 1),
                               .at = at_minute(100)});
    read_drum(whole, part, shop::Stage::after, 203.85, 0.01, 0);
  }
  whole.assess();
  return whole;
}

}  // namespace brakewright::report::sample
