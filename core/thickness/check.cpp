#include "core/thickness/check.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kMostSpots = 96;
constexpr std::size_t kMostRepeats = 100;
constexpr double kSameRadiusMm = 0.01;

std::string reading_field(std::size_t index, const char* name) {
  return "readings[" + std::to_string(index) + "]." + name;
}

void check_reading(const ThicknessPoint& reading, std::size_t index) {
  const std::string angle = reading_field(index, "angle_deg");
  want(reading.angle_deg, 0, std::nextafter(360.0, 0), angle, "an angle of 0 or more, under 360");
  if (reading.radius_mm) {
    want(*reading.radius_mm, 1, 2000, reading_field(index, "radius_mm"), "a radius from 1 to 2000 mm");
  }
  const std::string values = reading_field(index, "values_mm");
  if (reading.values_mm.empty()) throw InputError("too_few", values, "one reading or more is needed");
  if (reading.values_mm.size() > kMostRepeats)
    throw InputError("out_of_range", values, "at most 100 repeats of a spot");
  for (std::size_t j = 0; j < reading.values_mm.size(); ++j) {
    want(reading.values_mm[j], 0.1, 1000, values + "[" + std::to_string(j) + "]", "a thickness from 0.1 to 1000 mm");
  }
}

void check_micrometer(const Micrometer& micrometer) {
  want(micrometer.resolution_mm, 1e-6, 1, "micrometer.resolution_mm", "from 0.000001 to 1 mm");
  want(micrometer.mpe_mm, 0, 1, "micrometer.mpe_mm", "from 0 to 1 mm");
  want(micrometer.repeatability_mm, 0, 1, "micrometer.repeatability_mm", "from 0 to 1 mm");
  want(micrometer.zero_error_mm, -10, 10, "micrometer.zero_error_mm", "from -10 to 10 mm");
}

void check_distinct_angles(const ThicknessInput& input) {
  const Circles circles = circles_of(input.readings);
  for (std::size_t c = 0; c < circles.radii_mm.size(); ++c) {
    std::vector<double> angles;
    for (std::size_t i = 0; i < input.readings.size(); ++i) {
      const double angle = input.readings[i].angle_deg;
      const bool known =
          std::any_of(angles.begin(), angles.end(), [&](double a) { return std::abs(a - angle) < kSameAngleDeg; });
      if (circles.of_reading[i] == c && !known) angles.push_back(angle);
    }
    if (angles.size() < 3) throw InputError("too_few", "readings", "three different angles or more on each circle");
  }
}

void check_limit(const std::optional<double>& limit, double high, const char* field, const char* accepted) {
  if (limit) want(*limit, 0, high, field, accepted);
}

}  // namespace

Circles circles_of(const std::vector<ThicknessPoint>& readings) {
  std::vector<double> radii;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].radius_mm.has_value() != readings[0].radius_mm.has_value()) {
      throw InputError("sizes_differ", reading_field(i, "radius_mm"),
                       "either all readings carry a radius or none does");
    }
    radii.push_back(readings[i].radius_mm.value_or(0));
  }
  Circles circles;
  std::vector<double> sorted = radii;
  std::sort(sorted.begin(), sorted.end());
  for (const double radius : sorted) {
    if (circles.radii_mm.empty() || radius > circles.radii_mm.back() + kSameRadiusMm)
      circles.radii_mm.push_back(radius);
  }
  for (const double radius : radii) {
    const auto above = std::upper_bound(circles.radii_mm.begin(), circles.radii_mm.end(), radius);
    circles.of_reading.push_back(static_cast<std::size_t>(above - circles.radii_mm.begin()) - 1);
  }
  return circles;
}

void check(const ThicknessInput& input) {
  if (input.readings.empty()) throw InputError("too_few", "readings", "three readings or more are needed");
  if (input.readings.size() > kMostSpots) throw InputError("out_of_range", "readings", "at most 96 spots");
  for (std::size_t i = 0; i < input.readings.size(); ++i) check_reading(input.readings[i], i);
  check_micrometer(input.micrometer);
  check_distinct_angles(input);
  want(input.part_temperature_c, -40, 200, "part_temperature_c", "from -40 to 200 degrees Celsius");
  if (input.variation_limit_mm) {
    want(*input.variation_limit_mm, 1e-6, 10, "variation_limit_mm", "from 0.000001 to 10 mm");
  }
  check_limit(input.discard_mm, 1000, "discard_mm", "from 0 to 1000 mm");
  check_limit(input.machine_to_mm, 1000, "machine_to_mm", "from 0 to 1000 mm");
  want(input.confidence, 0.5, 0.9999, "confidence", "from 0.5 to 0.9999");
  if (input.draws < 100 || input.draws > 200000) throw InputError("out_of_range", "draws", "from 100 to 200000");
}

}  // namespace brakewright
