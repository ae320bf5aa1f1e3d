#include "core/runout/runout.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/input_error.hpp"
#include "core/runout/face_study.hpp"
#include "core/want.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kMostReadings = 1000;
constexpr int kMostOrders = 12;
constexpr double kSameAngleDeg = 1e-6;

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
    want(trace.angles_deg[i], 0, std::nextafter(360.0, 0), indexed("trace.angles_deg", i),
         "an angle of 0 or more, under 360");
    want(trace.values_um[i], -1e5, 1e5, indexed("trace.values_um", i), "from -100000 to 100000 um");
  }
}

void check(const RunoutInput& input) {
  check_trace(input.trace);
  want(input.indicator.resolution_um, 1e-3, 1000, "indicator.resolution_um", "from 0.001 to 1000 um");
  want(input.indicator.repeatability_um, 0, 1000, "indicator.repeatability_um", "from 0 to 1000 um");
  if (input.limit_um) want(*input.limit_um, 1e-3, 1e5, "limit_um", "from 0.001 to 100000 um");
  want(input.confidence, 0.5, 0.9999, "confidence", "from 0.5 to 0.9999");
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

CurvePoints checked_points(const RunoutInput& input) {
  check(input);
  return points_of(input.trace);
}

Standing standing_of(double p, double confidence) {
  if (p >= confidence) return Standing::within;
  return p <= 1 - confidence ? Standing::outside : Standing::cannot_tell;
}

}  // namespace

struct FaceStudy::State {
  State(const RunoutInput& given, std::uint64_t stream)
      : input(given),
        points(checked_points(given)),
        random(given.seed, stream),
        curve(points,
              {.repeatability_um = given.indicator.repeatability_um, .resolution_um = given.indicator.resolution_um}),
        curves(curve, given.draws, random) {}

  RunoutInput input;
  CurvePoints points;
  Random random;
  TrueCurve curve;
  CurveStream curves;
  std::vector<float> runouts_um;
};

FaceStudy::FaceStudy(const RunoutInput& input, std::uint64_t stream) : state_(std::make_unique<State>(input, stream)) {}
FaceStudy::~FaceStudy() = default;

std::size_t FaceStudy::blocks() const { return state_->curves.blocks(); }

const CurveBlock& FaceStudy::next() { return state_->curves.next()[0]; }

void FaceStudy::take(const Extremes& ends) { append(state_->runouts_um, ends.highest - ends.lowest); }

Runout FaceStudy::finish() {
  const RunoutInput& input = state_->input;
  std::vector<float>& runouts = state_->runouts_um;
  Runout runout;
  put_figures(input, state_->points, runout);
  if (input.limit_um) {
    const auto within = std::count_if(runouts.begin(), runouts.end(),
                                      [&](float value) { return static_cast<double>(value) <= *input.limit_um; });
    runout.p_within = static_cast<double>(within) / static_cast<double>(runouts.size());
    runout.verdict = standing_of(*runout.p_within, input.confidence);
  }
  const Middle95 middle = middle95(runouts);
  runout.true_runout_um = {.median = middle.median, .low95 = middle.low95, .high95 = middle.high95};
  return runout;
}

Runout reduce_runout(const RunoutInput& input) {
  FaceStudy study(input, 0);
  for (std::size_t b = 0; b < study.blocks(); ++b) study.take(extremes(on_grid(study.next())));
  return study.finish();
}

}  // namespace brakewright
