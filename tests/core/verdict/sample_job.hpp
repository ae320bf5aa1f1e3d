#pragma once

#include <cmath>
#include <numbers>
#include <string>

#include "core/verdict/verdict.hpp"

namespace brakewright {

/// A part of 22 mm with a wave of that height once per turn, read at twelve spots; limits 20.6 machine-to, 20.0
/// discard, 0.020 variation, 0.080 runout.
inline PartReadings sample_part(const std::string& name, double mean_mm, double amplitude_um) {
  PartReadings part;
  part.name = name;
  part.limits.machine_to = LengthLimit{20.6, "service information"};
  part.limits.discard = LengthLimit{20.0, "cast on the part"};
  part.limits.variation = LengthLimit{0.020, "service information"};
  part.limits.runout = LengthLimit{0.080, "service information"};
  part.micrometer = {.resolution_mm = 0.001, .mpe_mm = 0.002, .repeatability_mm = 0.001, .zero_error_mm = 0};
  RunoutReadings face;
  for (int i = 0; i < 12; ++i) {
    const double wave = std::cos(i * std::numbers::pi / 6);
    part.readings.push_back({.angle_deg = 30.0 * i,
                             .radius_mm = std::nullopt,
                             .values_mm = {std::round(1000 * mean_mm + amplitude_um * wave) / 1000}});
    face.outboard.angles_deg.push_back(30.0 * i);
    face.outboard.values_um.push_back(std::round(15 * wave));
  }
  face.carrier = Carrier::car;
  part.car_runout = face;
  face.carrier = Carrier::arbor;
  part.arbor_runout = face;
  return part;
}

inline VerdictInput sample_job(const PartReadings& part) {
  VerdictInput job;
  job.parts = {part};
  job.draws = 4000;
  return job;
}

inline bool says(const std::vector<Reason>& reasons, const std::string& code) {
  for (const Reason& reason : reasons) {
    if (reason.code == code) return true;
  }
  return false;
}

}  // namespace brakewright
