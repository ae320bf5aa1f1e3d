#include "core/bench_sim/mount/measure.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/bench_sim/part/streams.hpp"
#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/thickness/thickness.hpp"
#include "core/uncertainty/random.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kSameAngle_deg = 1e-6;

void want_number(std::uint64_t number) {
  if (number >> 40 != 0) throw InputError("out_of_range", "number", "must be below 2^40");
}

void check(const SimMicrometer& micrometer) {
  want(micrometer.resolution_mm, 1e-6, 1, "micrometer.resolution_mm", "must be from 0.000001 to 1");
  want(micrometer.zero_error_mm, -1, 1, "micrometer.zero_error_mm", "must be from -1 to 1");
  want(micrometer.error_mm, -1, 1, "micrometer.error_mm", "must be from -1 to 1");
  want(micrometer.repeatability_mm, 0, 1, "micrometer.repeatability_mm", "must be from 0 to 1");
  want(micrometer.misread_chance, 0, 1, "micrometer.misread_chance", "must be from 0 to 1");
  want(micrometer.thimble_turn_mm, 0.01, 2, "micrometer.thimble_turn_mm", "must be from 0.01 to 2");
}

void check(const SimIndicator& indicator) {
  want(indicator.resolution_um, 0.01, 100, "indicator.resolution_um", "must be from 0.01 to 100");
  want(indicator.repeatability_um, 0, 100, "indicator.repeatability_um", "must be from 0 to 100");
  want(indicator.play_um, 0, 500, "indicator.play_um", "must be from 0 to 500");
  want(indicator.creep_um_per_turn, -1000, 1000, "indicator.creep_um_per_turn", "must be from -1000 to 1000");
}

double rounded(double value, double step) { return std::round(value / step) * step; }

/// The lean of the middle between both faces, once per turn, at a radius.
Tilt shared_lean(const SimPart& part, double radius_mm) {
  constexpr int kPlaces = 72;
  double x = 0, y = 0;
  for (int i = 0; i < kPlaces; ++i) {
    const double angle = 360.0 * i / kPlaces;
    const double middle = (height_um_at(part.grid, part.outboard, radius_mm, angle) -
                           height_um_at(part.grid, part.inboard, radius_mm, angle)) /
                          2;
    x += middle * std::cos(angle * kRadPerDeg);
    y += middle * std::sin(angle * kRadPerDeg);
  }
  const double scale = 2.0 / kPlaces / radius_mm;
  return {.x_um_per_mm = x * scale, .y_um_per_mm = y * scale};
}

/// Highest of each face under an anvil, less the shared lean.
struct Highest {
  double outboard_um = 0, inboard_um = 0;
};

Highest highest_under(const SimPart& part, double reach_mm, const Spot& spot) {
  const FaceGrid& grid = part.grid;
  const Tilt lean = shared_lean(part, spot.radius_mm);
  const double lean_here = tilt_um(lean, spot.radius_mm, spot.angle_deg);
  Highest highest{.outboard_um = height_um_at(grid, part.outboard, spot.radius_mm, spot.angle_deg) - lean_here,
                  .inboard_um = height_um_at(grid, part.inboard, spot.radius_mm, spot.angle_deg) + lean_here};
  for (int r = 0; r < grid.rings; ++r) {
    const double radius = grid.radius_mm(r);
    if (std::abs(radius - spot.radius_mm) > reach_mm) continue;
    const double widest_deg = radius > reach_mm ? std::asin(reach_mm / radius) / kRadPerDeg : 180;
    const double turns = spot.angle_deg / 360 - std::floor(spot.angle_deg / 360);
    const int first = static_cast<int>(std::floor((turns - widest_deg / 360) * grid.angles));
    const int last = first + std::min(grid.angles - 1, static_cast<int>(widest_deg / 180 * grid.angles) + 2);
    for (int step = first; step <= last; ++step) {
      const int angle = (step + grid.angles) % grid.angles;
      const double at_deg = grid.angle_deg(angle), apart = (at_deg - spot.angle_deg) * kRadPerDeg;
      if (std::hypot(radius * std::cos(apart) - spot.radius_mm, radius * std::sin(apart)) > reach_mm) continue;
      const std::size_t at = grid.at(r, angle);
      const double leaning = tilt_um(lean, radius, at_deg);
      highest.outboard_um = std::max(highest.outboard_um, static_cast<double>(part.outboard.height_um[at]) - leaning);
      highest.inboard_um = std::max(highest.inboard_um, static_cast<double>(part.inboard.height_um[at]) + leaning);
    }
  }
  return highest;
}

}  // namespace

double thickness_between_anvils_mm(const SimPart& part, double anvil_diameter_mm, const Spot& spot) {
  want(anvil_diameter_mm, 0, 30, "micrometer.anvil_diameter_mm", "must be from 0 to 30");
  want(spot.radius_mm, part.grid.inner_radius_mm, part.grid.outer_radius_mm(), "spot.radius_mm",
       "must lie on the face");
  want(spot.angle_deg, -1e6, 1e6, "spot.angle_deg", "must be from -1000000 to 1000000");
  if (anvil_diameter_mm == 0) {
    return part.nominal_thickness_mm + (height_um_at(part.grid, part.outboard, spot.radius_mm, spot.angle_deg) +
                                        height_um_at(part.grid, part.inboard, spot.radius_mm, spot.angle_deg)) /
                                           1000;
  }
  const Highest highest = highest_under(part, anvil_diameter_mm / 2, spot);
  return part.nominal_thickness_mm + (highest.outboard_um + highest.inboard_um) / 1000;
}

double read_thickness_mm(const SimPart& part, const SimMicrometer& micrometer, const Spot& spot, double temperature_c,
                         std::uint64_t seed, std::uint64_t number) {
  check(micrometer);
  want(temperature_c, -40, 400, "temperature_c", "must be from -40 to 400");
  want_number(number);
  Random random(seed, stream_of(Purpose::micrometer, number));
  const double grown = 1 + kGreyIronPerKelvin * (temperature_c - 20);
  const double shown = thickness_between_anvils_mm(part, micrometer.anvil_diameter_mm, spot) * grown +
                       micrometer.zero_error_mm + micrometer.error_mm + micrometer.repeatability_mm * random.normal();
  const bool misread = random.uniform() < micrometer.misread_chance;
  const double turn = random.uniform() < 0.5 ? micrometer.thimble_turn_mm : -micrometer.thimble_turn_mm;
  return rounded(shown, micrometer.resolution_mm) + (misread ? turn : 0);
}

RunoutTrace read_face(const SimPart& part, const Motion& motion, Side side, double radius_mm,
                      const std::vector<double>& angles_deg, const SimIndicator& indicator, std::uint64_t seed,
                      std::uint64_t number) {
  check(indicator);
  want_number(number);
  if (angles_deg.empty()) throw InputError("too_few", "angles_deg", "one angle at least is needed");
  if (angles_deg.size() > 10'000) throw InputError("too_many", "angles_deg", "must be 10000 at most");
  for (std::size_t i = 0; i < angles_deg.size(); ++i) {
    want(angles_deg[i], 0, std::nextafter(360.0, 0.0), "angles_deg[" + std::to_string(i) + "]",
         "must be from 0 to below 360");
  }
  Random random(seed, stream_of(Purpose::indicator, number));
  const auto tip = [&](double turned_deg) {
    return bench_height_um(part, motion, side, radius_mm, turned_deg) + indicator.creep_um_per_turn * turned_deg / 360;
  };
  const double step_deg = 360.0 / part.grid.angles;
  double at = angles_deg.front();
  double hand = tip(at);
  const double zero = hand;
  const auto follow = [&](double to_deg) {
    const double height = tip(to_deg);
    hand = std::clamp(hand, height - indicator.play_um / 2, height + indicator.play_um / 2);
    at = to_deg;
  };
  RunoutTrace trace;
  for (const double angle : angles_deg) {
    const double forwards = angle - at - 360 * std::floor((angle - at) / 360);
    const double to = forwards < 360 - kSameAngle_deg ? at + forwards : at;
    while (indicator.play_um > 0 && at + step_deg < to) follow(at + step_deg);
    follow(to);
    trace.angles_deg.push_back(angle);
    const double shown = hand - zero + indicator.repeatability_um * random.normal();
    trace.values_um.push_back(rounded(shown, indicator.resolution_um));
  }
  return trace;
}

}  // namespace brakewright::bench_sim
