#include "core/bench_sim/cut/finish.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

#include "core/bench_sim/cut/tool.hpp"
#include "core/input_error.hpp"
#include "core/roughness/heights.hpp"
#include "core/spectrum/lines.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr std::size_t kLeastRings = 8;
constexpr int kShapeHarmonics = 4;
constexpr double kLeastWaves = 6, kLeastAngles = 3;
constexpr double kMostRate_hz = 1900;  // that is not thinned out before its lines are sought

std::vector<double> heights_between(const FaceGrid& grid, const Face& face, int angle, double from_mm, double to_mm) {
  std::vector<double> heights;
  for (int ring = 0; ring < grid.rings; ++ring) {
    const double radius = grid.radius_mm(ring);
    if (radius >= from_mm && radius <= to_mm)
      heights.push_back(static_cast<double>(face.height_um[grid.at(ring, angle)]));
  }
  return heights;
}

/// Takes the straight line of least squares out of evenly spaced values.
void take_out_line(std::vector<double>& values) {
  const auto count = static_cast<double>(values.size());
  const double middle = (count - 1) / 2;
  double mean = 0, slope = 0, spread = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double place = static_cast<double>(i) - middle;
    mean += values[i] / count;
    slope += place * values[i];
    spread += place * place;
  }
  slope /= spread;
  for (std::size_t i = 0; i < values.size(); ++i) values[i] -= mean + slope * (static_cast<double>(i) - middle);
}

/// Sum of values times weight times e^(-i order angle), the weight Hann's or one.
std::complex<double> projection(const std::vector<double>& values, double order, bool windowed) {
  const auto count = static_cast<double>(values.size());
  std::complex<double> sum = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double turn = 2 * std::numbers::pi * static_cast<double>(i) / count;
    const double weight = windowed ? 1 - std::cos(turn) : 1;
    sum += weight * values[i] * std::polar(1.0, -order * turn);
  }
  return sum / count;
}

void take_out_shape(std::vector<double>& values) {
  for (int order = 0; order <= kShapeHarmonics; ++order) {
    const auto part = projection(values, order, false);
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double turn = 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(values.size());
      values[i] -= (order == 0 ? 1 : 2) * (part * std::polar(1.0, order * turn)).real();
    }
  }
}

}  // namespace

RadialFinish radial_finish(const FaceGrid& grid, const Face& face, int angle, double from_radius_mm,
                           double to_radius_mm) {
  want(angle, 0, grid.angles - 1, "angle", "must be one of the grid's angles");
  std::vector<double> heights = heights_between(grid, face, angle, from_radius_mm, to_radius_mm);
  if (heights.size() < kLeastRings) {
    throw InputError("out_of_range", "to_radius_mm", "must leave eight rings at least between the two radii");
  }
  take_out_line(heights);
  const auto about_line = roughness::heights_of(heights);
  return {.ra_um = about_line.ra, .rt_um = about_line.rt};
}

std::optional<FaceMarks> face_marks(const FaceGrid& grid, const Face& face, double radius_mm) {
  want(grid.angles, 100, 3600, "grid.angles", "must be 100 at least to tell waves");
  const int ring = ring_near(grid, radius_mm);
  std::vector<double> values;
  for (int angle = 0; angle < grid.angles; ++angle) {
    values.push_back(static_cast<double>(face.height_um[grid.at(ring, angle)]));
  }
  take_out_shape(values);
  double most = 0;
  for (const double value : values) most = std::max(most, std::abs(value));
  if (!(most > 0)) return {};
  for (double& value : values) value /= most;
  std::optional<FaceMarks> highest;
  // as sound of so many seconds to a turn that all of it is looked at
  const double turn_s = std::ceil(grid.angles / kMostRate_hz), rate_hz = grid.angles / turn_s;
  for (const SpectralLine& line :
       clear_lines(values, rate_hz, {.low_hz = kLeastWaves / turn_s, .high_hz = rate_hz / kLeastAngles})) {
    if (line.kind != LineKind::tone) continue;
    const double per_turn = line.hz * turn_s;
    const double height_um = 4 * most * std::abs(projection(values, per_turn, true));
    if (highest && highest->height_um >= height_um) continue;
    highest = {
        .per_turn = per_turn, .u_per_turn = line.u_hz * turn_s, .height_um = height_um, .p_chance = line.p_chance};
  }
  return highest;
}

}  // namespace brakewright::bench_sim
