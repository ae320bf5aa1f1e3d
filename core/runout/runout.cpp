#include "core/runout/runout.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/input_error.hpp"
#include "core/runout/face_draws.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kMostReadings = 1000;
constexpr int kMostOrders = 12;
constexpr double kSameAngleDeg = 1e-6;

void check_number(double value, double low, double high, const std::string& field, const char* accepted) {
  if (!std::isfinite(value)) throw InputError("not_finite", field, "a finite number is needed here");
  if (value < low || value > high) throw InputError("out_of_range", field, accepted);
}

std::string indexed(const char* name, std::size_t index) {
  return std::string(name) + "[" + std::to_string(index) + "]";
}

void check_trace(const RunoutTrace& trace) {
  if (trace.angles_deg.size() != trace.values_um.size()) {
    throw InputError("sizes_differ", "trace.values_um", "one value for each of angles_deg");
  }
  if (trace.values_um.size() > kMostReadings) {
    throw InputError("out_of_range", "trace.values_um", "at most 1000 readings");
  }
  for (std::size_t i = 0; i < trace.values_um.size(); ++i) {
    check_number(trace.angles_deg[i], 0, std::nextafter(360.0, 0), indexed("trace.angles_deg", i),
                 "an angle of 0 or more, under 360");
    check_number(trace.values_um[i], -1e5, 1e5, indexed("trace.values_um", i), "from -100000 to 100000 um");
  }
}

void check(const RunoutInput& input) {
  check_trace(input.trace);
  check_number(input.indicator.resolution_um, 1e-3, 1000, "indicator.resolution_um", "from 0.001 to 1000 um");
  check_number(input.indicator.repeatability_um, 0, 1000, "indicator.repeatability_um", "from 0 to 1000 um");
  if (input.limit_um) check_number(*input.limit_um, 1e-3, 1e5, "limit_um", "from 0.001 to 100000 um");
  check_number(input.confidence, 0.5, 0.9999, "confidence", "from 0.5 to 0.9999");
  if (input.draws < 100 || input.draws > 200000) throw InputError("out_of_range", "draws", "from 100 to 200000");
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// Readings gathered by angle, less their mean.
CurvePoints points_of(const RunoutTrace& trace) {
  CurvePoints points;
  const double centre = mean_of(trace.values_um);
  for (std::size_t i = 0; i < trace.values_um.size(); ++i) {
    std::size_t spot = 0;
    while (spot < points.angles_deg.size() &&
           std::abs(points.angles_deg[spot] - trace.angles_deg[i]) >= kSameAngleDeg) {
      ++spot;
    }
    if (spot == points.angles_deg.size()) {
      points.angles_deg.push_back(trace.angles_deg[i]);
      points.readings_um.emplace_back();
      points.circles.push_back(0);
    }
    points.readings_um[spot].push_back(trace.values_um[i] - centre);
  }
  if (points.angles_deg.size() < 3) {
    throw InputError("too_few", "trace.angles_deg", "three different angles or more are needed");
  }
  return points;
}

void put_figures(const RunoutInput& input, const CurvePoints& points, Runout& runout) {
  std::vector<double> means;
  for (const auto& readings : points.readings_um) means.push_back(mean_of(readings));
  const auto [low, high] = std::minmax_element(means.begin(), means.end());
  runout.runout_um = *high - *low;
  runout.low_deg = points.angles_deg[static_cast<std::size_t>(low - means.begin())];
  runout.high_deg = points.angles_deg[static_cast<std::size_t>(high - means.begin())];
  const double noise = std::hypot(input.indicator.repeatability_um, input.indicator.resolution_um / std::sqrt(12.0));
  const CircleFit fit = fit_circle({input.trace.angles_deg, input.trace.values_um}, kMostOrders, noise);
  runout.harmonics = fit.harmonics;
  runout.blind_orders = fit.blind_orders;
}

}  // namespace

FaceDraws draw_face(const RunoutInput& input, std::uint64_t stream) {
  check(input);
  const CurvePoints points = points_of(input.trace);
  FaceDraws drawn;
  put_figures(input, points, drawn.runout);
  const ReadingNoise noise{.repeatability_um = input.indicator.repeatability_um,
                           .resolution_um = input.indicator.resolution_um};
  Random random(input.seed, stream);
  drawn.curves = TrueCurve(points, noise).sample(input.draws, random)[0];

  std::vector<float> runouts;
  runouts.reserve(drawn.curves.size() * kLanes);
  for (const CurveBlock& block : drawn.curves) {
    const Extremes ends = extremes(on_grid(block));
    for (std::size_t l = 0; l < kLanes; ++l) runouts.push_back(ends.highest[l] - ends.lowest[l]);
  }
  if (input.limit_um) {
    const auto within = std::count_if(runouts.begin(), runouts.end(),
                                      [&](float value) { return static_cast<double>(value) <= *input.limit_um; });
    const double p = static_cast<double>(within) / static_cast<double>(runouts.size());
    drawn.runout.p_within = p;
    drawn.runout.verdict = p >= input.confidence       ? Standing::within
                           : p <= 1 - input.confidence ? Standing::outside
                                                       : Standing::cannot_tell;
  }
  drawn.runout.true_runout_um = {
      .median = quantile(runouts, 0.5), .low95 = quantile(runouts, 0.025), .high95 = quantile(runouts, 0.975)};
  return drawn;
}

Runout reduce_runout(const RunoutInput& input) { return draw_face(input, 0).runout; }

}  // namespace brakewright
