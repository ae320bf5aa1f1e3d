#include "core/thickness/thickness.hpp"

#include <algorithm>
#include <cmath>

#include "core/thickness/advice.hpp"
#include "core/thickness/reduced.hpp"
#include "core/thickness/thickness_study.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kDrawsForFlat = 2000;
constexpr int kMostOrders = 12;

/// Streams of the seed: what one micrometer is off by is drawn alike for all parts.
constexpr std::uint64_t kCommonStream = 1000;
constexpr std::uint64_t kFlatStream = 1001;
constexpr std::uint64_t kStreamsOfPart = 10;

double mean_variance_um2(const Reduced& reduced, std::size_t circle) {
  const double reading = reduced.noise.repeatability_um * reduced.noise.repeatability_um +
                         reduced.noise.resolution_um * reduced.noise.resolution_um / 12;
  double sum = 0;
  double count = 0;
  for (std::size_t i = 0; i < reduced.points.size(); ++i) {
    if (reduced.curve.circles[i] != circle) continue;
    sum += reading / static_cast<double>(reduced.points[i].count);
    ++count;
  }
  return sum / count;
}

CircleOfThickness circle_figures(const Reduced& reduced, std::size_t circle) {
  CircleOfThickness figures{.radius_mm = reduced.radii_mm[circle],
                            .mean_mm = 0,
                            .min_mm = 1e300,
                            .max_mm = -1e300,
                            .variation_mm = 0,
                            .harmonics = {},
                            .blind_orders = {}};
  Trace trace;
  for (std::size_t i = 0; i < reduced.points.size(); ++i) {
    if (reduced.curve.circles[i] != circle) continue;
    const double mean = reduced.points[i].mean_mm;
    figures.mean_mm += mean;
    figures.min_mm = std::min(figures.min_mm, mean);
    figures.max_mm = std::max(figures.max_mm, mean);
    trace.angles_deg.push_back(reduced.points[i].angle_deg);
    trace.values_um.push_back((mean - reduced.centre_mm) * 1000);
  }
  figures.mean_mm /= static_cast<double>(trace.angles_deg.size());
  figures.variation_mm = figures.max_mm - figures.min_mm;
  const CircleFit fit = fit_circle(trace, kMostOrders, std::sqrt(mean_variance_um2(reduced, circle)));
  figures.harmonics = fit.harmonics;
  figures.blind_orders = fit.blind_orders;
  return figures;
}

/// The trade's figures over all circles.
void put_figures(const Reduced& reduced, Thickness& thickness) {
  thickness.points = reduced.points;
  thickness.mean_mm = reduced.centre_mm;
  thickness.temperature_shift_mm = reduced.shift_mm;
  const auto by_mean = [](const PointMean& a, const PointMean& b) { return a.mean_mm < b.mean_mm; };
  const auto [low, high] = std::minmax_element(reduced.points.begin(), reduced.points.end(), by_mean);
  thickness.min_mm = low->mean_mm;
  thickness.min_angle_deg = low->angle_deg;
  thickness.min_radius_mm = low->radius_mm;
  thickness.max_mm = high->mean_mm;
  thickness.max_angle_deg = high->angle_deg;
  for (std::size_t c = 0; c < reduced.radii_mm.size(); ++c) thickness.circles.push_back(circle_figures(reduced, c));
  const auto worst = std::max_element(thickness.circles.begin(), thickness.circles.end(),
                                      [](const auto& a, const auto& b) { return a.variation_mm < b.variation_mm; });
  thickness.variation_mm = worst->variation_mm;
  thickness.variation_radius_mm = worst->radius_mm;
  thickness.harmonics = worst->harmonics;
  thickness.blind_orders = worst->blind_orders;
  thickness.taper_mm = thickness.circles.back().mean_mm - thickness.circles.front().mean_mm;
}

/// For each draw the variation of its worst circle, and its thinnest spot.
struct Spread {
  std::vector<float> variation_um;
  std::vector<float> lowest_um;
};

void put(Spread& spread, std::span<const Extremes> circles) {
  Lanes variation = circles[0].highest - circles[0].lowest;
  Lanes lowest = circles[0].lowest;
  for (const Extremes& ends : circles.subspan(1)) {
    variation = larger(variation, ends.highest - ends.lowest);
    lowest = smaller(lowest, ends.lowest);
  }
  append(spread.variation_um, variation);
  append(spread.lowest_um, lowest);
}

double share_at_most(const std::vector<float>& values, double limit) {
  const auto count =
      std::count_if(values.begin(), values.end(), [&](float v) { return static_cast<double>(v) <= limit; });
  return static_cast<double>(count) / static_cast<double>(values.size());
}

double share_above(const Spread& spread, const std::vector<float>& common_um, double limit_um) {
  std::size_t above = 0;
  for (std::size_t i = 0; i < spread.lowest_um.size(); ++i) {
    if (static_cast<double>(spread.lowest_um[i] + common_um[i]) > limit_um) ++above;
  }
  return static_cast<double>(above) / static_cast<double>(spread.lowest_um.size());
}

Posterior in_mm(std::vector<float> values_um) {
  const Middle95 middle = middle95(values_um);
  return {.median = middle.median / 1000, .low95 = middle.low95 / 1000, .high95 = middle.high95 / 1000};
}

double p_if_flat(const ThicknessInput& input, const Reduced& reduced) {
  CurvePoints flat = reduced.curve;
  for (auto& readings : flat.readings_um) std::fill(readings.begin(), readings.end(), 0.0);
  Random random(input.seed, kFlatStream);
  const ReadingNoise stated{.repeatability_um = input.micrometer.repeatability_mm * 1000,
                            .resolution_um = input.micrometer.resolution_mm * 1000};
  const TrueCurve curve(flat, stated);
  CurveStream stream(curve, kDrawsForFlat, random);
  Spread spread;
  std::vector<Extremes> ends(curve.circles());
  for (std::size_t b = 0; b < stream.blocks(); ++b) {
    const auto circles = stream.next();
    for (std::size_t c = 0; c < circles.size(); ++c) ends[c] = extremes(on_grid(circles[c]));
    put(spread, ends);
  }
  return share_at_most(spread.variation_um, *input.variation_limit_mm * 1000);
}

Standing standing_of(double p, const ThicknessInput& input) {
  if (p <= 1 - input.confidence) return Standing::outside;
  const bool fine_enough = input.micrometer.resolution_mm < *input.variation_limit_mm;
  return p >= input.confidence && fine_enough ? Standing::within : Standing::cannot_tell;
}

double u_min_mm(const ThicknessInput& input, const Reduced& reduced, const Thickness& thickness) {
  std::size_t count = 1;
  for (const PointMean& point : thickness.points) {
    if (point.mean_mm == thickness.min_mm) count = point.count;
  }
  const double rounding = input.micrometer.resolution_mm / std::sqrt(12.0);
  const double scatter = reduced.noise.repeatability_um / 1000 / std::sqrt(static_cast<double>(count));
  return std::hypot(common_u_mm(input.micrometer, thickness.min_mm), rounding, scatter);
}

}  // namespace

struct ThicknessStudy::State {
  State(const ThicknessInput& given, std::uint64_t stream)
      : input(given),
        reduced(reduce(given)),
        random(given.seed, stream * kStreamsOfPart),
        shared(given.seed, kCommonStream),
        curve(reduced.curve, reduced.noise),
        curves(curve, given.draws, random) {}

  ThicknessInput input;
  Reduced reduced;
  Random random;
  Random shared;  ///< alike for all parts of a job: one micrometer is off by one amount
  TrueCurve curve;
  CurveStream curves;
  Lanes common_um;
  std::vector<float> all_common_um;
  Spread spread;
};

namespace {

const ThicknessInput& checked(const ThicknessInput& input) {
  check(input);
  return input;
}

}  // namespace

ThicknessStudy::ThicknessStudy(const ThicknessInput& input, std::uint64_t stream)
    : state_(std::make_unique<State>(checked(input), stream)) {}
ThicknessStudy::~ThicknessStudy() = default;

std::size_t ThicknessStudy::blocks() const { return state_->curves.blocks(); }

double ThicknessStudy::centre_mm() const { return state_->reduced.centre_mm; }

const Lanes& ThicknessStudy::common_um() const { return state_->common_um; }

std::span<const CurveBlock> ThicknessStudy::next() {
  const double permissible_um = state_->input.micrometer.mpe_mm * 1000;
  const double warmth_um = kGreyIronPerKelvin * kTemperatureUncertaintyK * state_->reduced.centre_mm * 1000;
  std::array<float, kLanes> errors;
  for (float& error : errors) {
    const double off = permissible_um * (2 * state_->shared.uniform() - 1);
    error = static_cast<float>(off + warmth_um * state_->random.normal());
  }
  state_->common_um = Lanes::from(errors);
  return state_->curves.next();
}

double ThicknessStudy::expected_mm(double angle_deg, std::size_t circle) const {
  const std::vector<double> angles = {angle_deg};
  return state_->reduced.centre_mm + state_->curve.mean_at(angles, circle)[0] / 1000;
}

void ThicknessStudy::take(std::span<const Extremes> ends) {
  put(state_->spread, ends);
  append(state_->all_common_um, state_->common_um);
}

Thickness ThicknessStudy::finish() {
  const ThicknessInput& input = state_->input;
  const Reduced& reduced = state_->reduced;
  const Spread& spread = state_->spread;
  Thickness thickness;
  put_figures(reduced, thickness);
  thickness.u_min_mm = u_min_mm(input, reduced, thickness);
  thickness.true_variation_mm = in_mm(spread.variation_um);
  std::optional<double> flat;
  if (input.variation_limit_mm) {
    const double p = share_at_most(spread.variation_um, *input.variation_limit_mm * 1000);
    thickness.p_variation_within = p;
    thickness.variation_verdict = standing_of(p, input);
    if (thickness.variation_verdict == Standing::cannot_tell) flat = p_if_flat(input, reduced);
  }
  const auto above = [&](double limit_mm) {
    return share_above(spread, state_->all_common_um, (limit_mm - reduced.centre_mm) * 1000);
  };
  if (input.discard_mm) thickness.p_min_above_discard = above(*input.discard_mm);
  if (input.machine_to_mm) thickness.p_min_above_machine_to = above(*input.machine_to_mm);
  thickness.advice = advise(input, reduced, thickness, flat);
  return thickness;
}

Thickness reduce_thickness(const ThicknessInput& input) {
  ThicknessStudy study(input);
  std::vector<Extremes> ends;
  for (std::size_t b = 0; b < study.blocks(); ++b) {
    const auto circles = study.next();
    ends.resize(circles.size());
    for (std::size_t c = 0; c < circles.size(); ++c) ends[c] = extremes(on_grid(circles[c]));
    study.take(ends);
  }
  return study.finish();
}

}  // namespace brakewright
