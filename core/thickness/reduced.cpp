#include "core/thickness/reduced.hpp"

#include <cmath>

namespace brakewright {
namespace {

/// Which distinct spot a reading belongs to; a new one is appended.
std::size_t spot_of(Reduced& reduced, double angle_deg, std::size_t circle) {
  auto& curve = reduced.curve;
  for (std::size_t i = 0; i < curve.angles_deg.size(); ++i) {
    if (curve.circles[i] == circle && std::abs(curve.angles_deg[i] - angle_deg) < kSameAngleDeg) return i;
  }
  curve.angles_deg.push_back(angle_deg);
  curve.circles.push_back(circle);
  curve.readings_um.emplace_back();
  reduced.points.push_back({.angle_deg = angle_deg, .radius_mm = reduced.radii_mm[circle]});
  return curve.angles_deg.size() - 1;
}

/// Largest ratio of pooled to stated variance that 999 of 1000 sets of repeats stay under, by the cube-root
/// approximation of chi-squared (Wilson and Hilferty 1931).
double usual_ratio(std::size_t dof) {
  const double part = 2.0 / (9.0 * static_cast<double>(dof));
  const double root = 1 - part + 3.0902 * std::sqrt(part);
  return root * root * root;
}

void judge_scatter(Reduced& reduced, const Micrometer& micrometer) {
  reduced.noise = {.repeatability_um = micrometer.repeatability_mm * 1000,
                   .resolution_um = micrometer.resolution_mm * 1000};
  double sum = 0;
  for (const auto& readings : reduced.curve.readings_um) {
    double mean = 0;
    for (const double reading : readings) mean += reading / static_cast<double>(readings.size());
    for (const double reading : readings) sum += (reading - mean) * (reading - mean);
    reduced.scatter_dof += readings.size() - 1;
  }
  if (reduced.scatter_dof == 0) return;
  const double pooled_um2 = sum / static_cast<double>(reduced.scatter_dof);
  reduced.scatter_mm = std::sqrt(pooled_um2) / 1000;
  const double rounding_um2 = reduced.noise.resolution_um * reduced.noise.resolution_um / 12;
  const double stated_um2 = reduced.noise.repeatability_um * reduced.noise.repeatability_um + rounding_um2;
  if (pooled_um2 > stated_um2 * usual_ratio(reduced.scatter_dof)) {
    reduced.scatters_more = true;
    reduced.noise.repeatability_um = std::sqrt(pooled_um2 - rounding_um2);
  }
}

}  // namespace

Reduced reduce(const ThicknessInput& input) {
  const Circles circles = circles_of(input.readings);
  Reduced reduced;
  reduced.radii_mm = circles.radii_mm;
  const double to_20c = 1 / (1 + kGreyIronPerKelvin * (input.part_temperature_c - 20));
  double warm_sum = 0;
  std::size_t warm_count = 0;
  for (std::size_t i = 0; i < input.readings.size(); ++i) {
    const std::size_t spot = spot_of(reduced, input.readings[i].angle_deg, circles.of_reading[i]);
    for (const double value : input.readings[i].values_mm) {
      const double warm = value - input.micrometer.zero_error_mm;
      reduced.curve.readings_um[spot].push_back(warm * to_20c);
      warm_sum += warm;
      ++warm_count;
    }
  }
  reduced.shift_mm = warm_sum / static_cast<double>(warm_count) * (to_20c - 1);
  for (std::size_t i = 0; i < reduced.points.size(); ++i) {
    PointMean& point = reduced.points[i];
    point.count = reduced.curve.readings_um[i].size();
    double sum = 0;
    for (const double value : reduced.curve.readings_um[i]) sum += value;
    point.mean_mm = sum / static_cast<double>(point.count);
    reduced.centre_mm += point.mean_mm / static_cast<double>(reduced.points.size());
  }
  for (auto& readings : reduced.curve.readings_um) {
    for (double& reading : readings) reading = (reading - reduced.centre_mm) * 1000;
  }
  judge_scatter(reduced, input.micrometer);
  return reduced;
}

double common_u_mm(const Micrometer& micrometer, double thickness_mm) {
  const double permissible = micrometer.mpe_mm / std::sqrt(3.0);
  const double warmth = kGreyIronPerKelvin * kTemperatureUncertaintyK * thickness_mm;
  return std::sqrt(permissible * permissible + warmth * warmth);
}

}  // namespace brakewright
