#include "core/bench_sim/part/faces.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr std::size_t kMostCells = 8'000'000;

}  // namespace

void check(const FaceGrid& grid) {
  want(grid.angles >= 36 && grid.angles <= 3600, "grid.angles", "must be from 36 to 3600");
  want(grid.rings >= 2 && grid.rings <= 4000 && grid.cells() <= kMostCells, "grid.rings",
       "must be from 2 to 4000, and no more than 8 million cells in all");
  want(grid.inner_radius_mm >= 1 && grid.inner_radius_mm <= 1000, "grid.inner_radius_mm", "must be from 1 to 1000");
  want(grid.ring_step_mm >= 0.001 && grid.ring_step_mm <= 50, "grid.ring_step_mm", "must be from 0.001 to 50");
}

void check(const SimPart& part) {
  check(part.grid);
  const auto fits = [&](const std::vector<float>& map, const char* field) {
    if (map.size() != part.grid.cells()) {
      throw InputError("sizes_differ", field, "must hold one value for each ring and angle of the grid");
    }
  };
  fits(part.outboard.height_um, "outboard");
  fits(part.inboard.height_um, "inboard");
  fits(part.hardness, "hardness");
}

double seat_reach_mm(const PartShape& shape) {
  const mount::PartSeat& seat = shape.seat;
  return seat.kind == mount::PartKind::hubbed ? seat.hub_length_mm : seat.flat_outer_mm / 2;
}

float stored_um(double height_um) {
  const double steps = height_um * 1024;
  return static_cast<float>(static_cast<std::int32_t>(steps < 0 ? steps - 0.5 : steps + 0.5)) / 1024.0f;
}

int ring_near(const FaceGrid& grid, double radius_mm) {
  const double ring = std::floor((radius_mm - grid.inner_radius_mm) / grid.ring_step_mm + 0.5);
  want(ring >= 0 && ring < grid.rings, "radius_mm", "must lie on the face");
  return static_cast<int>(ring);
}

double height_um_at(const FaceGrid& grid, const Face& face, double radius_mm, double angle_deg) {
  want(std::isfinite(angle_deg), "angle_deg", "must be a number");
  const double ring = (radius_mm - grid.inner_radius_mm) / grid.ring_step_mm;
  want(ring >= -1e-9 && ring <= grid.rings - 1 + 1e-9, "radius_mm", "must lie on the face");
  const int inner = std::clamp(static_cast<int>(ring), 0, grid.rings - 2);
  const double across = std::clamp(ring - inner, 0.0, 1.0);
  const double turns = angle_deg / 360;
  const double step = (turns - std::floor(turns)) * grid.angles;
  const int before = static_cast<int>(step) % grid.angles;
  const int after = (before + 1) % grid.angles;
  const double along = step - std::floor(step);
  const auto on_ring = [&](int at) {
    const double first = face.height_um[grid.at(at, before)];
    return first + along * (static_cast<double>(face.height_um[grid.at(at, after)]) - first);
  };
  const double low = on_ring(inner);
  return low + across * (on_ring(inner + 1) - low);
}

double tilt_um(const Tilt& tilt, double radius_mm, double angle_deg) {
  const double angle = angle_deg * kRadPerDeg;
  return radius_mm * (tilt.x_um_per_mm * std::cos(angle) + tilt.y_um_per_mm * std::sin(angle));
}

double raise_um(const Motion& motion, Side side, double radius_mm, double angle_deg) {
  return sign_of(side) * (motion.axial_um + tilt_um(motion.tilt, radius_mm, angle_deg));
}

Tilt operator+(const Tilt& a, const Tilt& b) {
  return {.x_um_per_mm = a.x_um_per_mm + b.x_um_per_mm, .y_um_per_mm = a.y_um_per_mm + b.y_um_per_mm};
}

Tilt operator-(const Tilt& tilt) { return {.x_um_per_mm = -tilt.x_um_per_mm, .y_um_per_mm = -tilt.y_um_per_mm}; }

Tilt turned(const Tilt& tilt, double by_deg) {
  const double c = std::cos(by_deg * kRadPerDeg), s = std::sin(by_deg * kRadPerDeg);
  return {.x_um_per_mm = c * tilt.x_um_per_mm - s * tilt.y_um_per_mm,
          .y_um_per_mm = s * tilt.x_um_per_mm + c * tilt.y_um_per_mm};
}

double runout_um_of(const Tilt& tilt, double radius_mm) {
  return 2 * radius_mm * std::hypot(tilt.x_um_per_mm, tilt.y_um_per_mm);
}

double high_deg_of(const Tilt& tilt) {
  if (tilt.x_um_per_mm == 0 && tilt.y_um_per_mm == 0) return 0;
  const double high = std::atan2(tilt.y_um_per_mm, tilt.x_um_per_mm) / kRadPerDeg;
  const double positive = high < 0 ? high + 360 : high;
  return positive >= 360 ? 0 : positive;
}

Tilt tilt_of(double runout_um, double radius_mm, double high_deg) {
  const double slope = runout_um / (2 * radius_mm);
  return {.x_um_per_mm = slope * std::cos(high_deg * kRadPerDeg),
          .y_um_per_mm = slope * std::sin(high_deg * kRadPerDeg)};
}

double thickness_mm(const SimPart& part, int ring, int angle) {
  const std::size_t at = part.grid.at(ring, angle);
  const double both_um =
      static_cast<double>(part.outboard.height_um[at]) + static_cast<double>(part.inboard.height_um[at]);
  return part.nominal_thickness_mm + both_um / 1000;
}

std::vector<double> thickness_map_mm(const SimPart& part) {
  std::vector<double> map(part.grid.cells());
  for (std::size_t i = 0; i < map.size(); ++i) {
    const double both_um =
        static_cast<double>(part.outboard.height_um[i]) + static_cast<double>(part.inboard.height_um[i]);
    map[i] = part.nominal_thickness_mm + both_um / 1000;
  }
  return map;
}

ThicknessTruth ring_thickness(const SimPart& part, double radius_mm) {
  const int ring = ring_near(part.grid, radius_mm);
  double sum = 0, low = thickness_mm(part, ring, 0), high = low;
  for (int a = 0; a < part.grid.angles; ++a) {
    const double here = thickness_mm(part, ring, a);
    sum += here;
    low = std::min(low, here);
    high = std::max(high, here);
  }
  return {.mean_mm = sum / part.grid.angles, .min_mm = low, .max_mm = high, .variation_um = 1000 * (high - low)};
}

double face_runout_um(const SimPart& part, Side side, double radius_mm) {
  const auto first =
      part.face(side).height_um.begin() + static_cast<std::ptrdiff_t>(part.grid.at(ring_near(part.grid, radius_mm), 0));
  const auto [low, high] = std::minmax_element(first, first + part.grid.angles);
  return static_cast<double>(*high) - static_cast<double>(*low);
}

}  // namespace brakewright::bench_sim
