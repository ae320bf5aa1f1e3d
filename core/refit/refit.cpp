#include "core/refit/refit.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/circle/true_curve.hpp"
#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/refit/belief.hpp"
#include "core/refit/check.hpp"
#include "core/refit/fitted_curves.hpp"
#include "core/verdict/decide.hpp"

namespace brakewright {
namespace {

using Eigen::Index;

constexpr int kLeastSpareReadings = 3;

/// Noise of one reading: as stated, else what the positions' own residuals show.
double noise_of(const RefitReadings& readings) {
  constexpr double kLeastNoise_um = 1e-3;
  if (readings.noise_sd_um) return std::max(*readings.noise_sd_um, kLeastNoise_um);
  if (readings.positions.empty()) {
    throw InputError("missing", "readings.noise_sd_um", "the standard deviation of one reading is needed");
  }
  const Separation found = separate({.positions = readings.positions, .max_order = static_cast<int>(kDrawnOrders)});
  if (found.dof < kLeastSpareReadings) {
    throw InputError("missing", "readings.noise_sd_um",
                     "there are too few readings to tell their own noise: the standard deviation of one is needed");
  }
  return std::max(*found.residual_sd_um, kLeastNoise_um);
}

bool uncertain(const RefitInput& input) {
  if (input.readings || input.refit_u_um > 0 || input.u_um.value_or(0) > 0) return true;
  const auto has_u = [](const Harmonic& wave) { return wave.u_amplitude_um.value_or(0) > 0; };
  return std::any_of(input.hub.begin(), input.hub.end(), has_u) ||
         std::any_of(input.part.begin(), input.part.end(), has_u);
}

/// The means of the belief as harmonics.
void put_means(const refit::Belief& belief, const refit::Evidence& evidence, RefitInput& input) {
  const auto means = belief.mean();
  std::vector<double> hub{0}, part{0};
  for (std::size_t n = 0; n < evidence.orders.size(); ++n) {
    hub.insert(hub.end(), {means[4 * n], means[4 * n + 1]});
    part.insert(part.end(), {means[4 * n + 2], means[4 * n + 3]});
  }
  input.hub = harmonics_of(hub);
  input.part = harmonics_of(part);
}

/// Drawn hubs and parts, and the runout of each in any fitting.
class DrawnFittings {
 public:
  DrawnFittings(const RefitInput& input, const refit::Belief& belief, const refit::Evidence& evidence)
      : input_(input), orders_(evidence.orders) {
    Random random(input.seed);
    drawn_ = belief.draw(input.draws, random);
    remount_.resize(2 * input.draws, 0);
    for (float& tilt : remount_) tilt = static_cast<float>(input.refit_u_um * random.normal());
    const int highest = orders_.empty() ? 1 : std::max(1, orders_.back());
    const auto points = static_cast<Index>(std::max(64, 8 * highest));
    basis_.resize(points, 2 * static_cast<Index>(orders_.size()) + 2);
    for (Index i = 0; i < points; ++i) {
      const double angle = 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(points);
      put_basis(i, 0, angle);
      for (std::size_t n = 0; n < orders_.size(); ++n) put_basis(i, static_cast<Index>(n) + 1, orders_[n] * angle);
    }
  }

  std::vector<float> runouts_um(const refit::Fitting& fitting) const {
    std::vector<float> runouts;
    runouts.reserve(input_.draws);
    for (std::size_t from = 0; from < input_.draws; from += kAtOnce) {
      append_spreads(basis_ * coefficients(fitting, from, std::min(kAtOnce, input_.draws - from)), runouts);
    }
    return runouts;
  }

 private:
  static constexpr std::size_t kAtOnce = 1000;

  /// Coefficients of the summed waves of some draws, one column for each.
  Eigen::MatrixXf coefficients(const refit::Fitting& fitting, std::size_t from, std::size_t count) const {
    const std::size_t size = 4 * orders_.size();
    const double step = 360.0 / input_.positions * kRadPerDeg;
    const double tilt = refit::tilt_um(input_, fitting.plate), thick = step * fitting.plate_position;
    Eigen::MatrixXf sums(basis_.cols(), static_cast<Index>(count));
    for (std::size_t d = 0; d < count; ++d) {
      const auto column = static_cast<Index>(d);
      sums(0, column) = remount_[2 * (from + d)] + static_cast<float>(tilt * std::cos(thick));
      sums(1, column) = remount_[2 * (from + d) + 1] + static_cast<float>(tilt * std::sin(thick));
    }
    for (std::size_t n = 0; n < orders_.size(); ++n) {
      const double turn = step * fitting.position * orders_[n];
      const auto c = static_cast<float>(std::cos(turn)), s = static_cast<float>(std::sin(turn));
      const auto row = 2 * static_cast<Index>(n) + 2;
      for (std::size_t d = 0; d < count; ++d) {
        const float* wave = &drawn_[(from + d) * size + 4 * n];
        sums(row, static_cast<Index>(d)) = wave[0] + c * wave[2] - s * wave[3];
        sums(row + 1, static_cast<Index>(d)) = wave[1] + s * wave[2] + c * wave[3];
      }
    }
    return sums;
  }

  void put_basis(Index row, Index wave, double angle) {
    basis_(row, 2 * wave) = static_cast<float>(std::cos(angle));
    basis_(row, 2 * wave + 1) = static_cast<float>(std::sin(angle));
  }

  /// Height of the parabola through a highest point and its neighbours, above that point.
  static float above(const Eigen::MatrixXf& values, Index at, Index column, float sign) {
    const Index count = values.rows();
    const float middle = sign * values(at, column);
    const float before = sign * values((at + count - 1) % count, column);
    const float after = sign * values((at + 1) % count, column);
    const float bend = 2 * middle - before - after;
    return bend > 0 ? (before - after) * (before - after) / (8 * bend) : 0;
  }

  static void append_spreads(const Eigen::MatrixXf& values, std::vector<float>& spreads) {
    for (Index column = 0; column < values.cols(); ++column) {
      Index high = 0, low = 0;
      const float most = values.col(column).maxCoeff(&high), least = values.col(column).minCoeff(&low);
      spreads.push_back(most - least + above(values, high, column, 1) + above(values, low, column, -1));
    }
  }

  const RefitInput& input_;
  std::vector<int> orders_;
  std::vector<float> drawn_, remount_;
  Eigen::MatrixXf basis_;
};

FittedRunout fitted(const RefitInput& input, const refit::Fitting& fitting) {
  const auto waves = refit::waves_of(input, fitting);
  FittedRunout runout{.position = fitting.position,
                      .turn_deg = 360.0 / input.positions * fitting.position,
                      .runout_um = refit::runout_of(waves),
                      .high_deg = refit::high_of(waves),
                      .plate = fitting.plate};
  if (fitting.plate) runout.plate_position = fitting.plate_position;
  return runout;
}

void put_probability(const RefitInput& input, const DrawnFittings& drawn, FittedRunout& runout) {
  auto values = drawn.runouts_um(
      {.position = runout.position, .plate = runout.plate, .plate_position = runout.plate_position.value_or(0)});
  if (input.limit_um) {
    const auto within = std::count_if(values.begin(), values.end(),
                                      [&](float value) { return static_cast<double>(value) <= *input.limit_um; });
    runout.p_within = static_cast<double>(within) / static_cast<double>(values.size());
    runout.verdict = standing_of(*runout.p_within, input.confidence);
  }
  const Middle95 middle = middle95(values);
  runout.true_runout_um = Posterior{.median = middle.median, .low95 = middle.low95, .high95 = middle.high95};
}

/// What a fitting is weighed by.
double weighed_um(const RefitInput& input, const FittedRunout& runout) {
  return input.by_likely && runout.true_runout_um ? runout.true_runout_um->median : runout.runout_um;
}

/// Index in `all` of what is best by the rules of `best_refit`.
std::size_t best_of(const RefitInput& input, const Refit& refit) {
  const auto um = [&](std::size_t i) { return weighed_um(input, refit.all[i]); };
  double size = 0;
  for (const auto* waves : {&input.hub, &input.part}) {
    for (const Harmonic& wave : *waves) size += wave.amplitude_um;
  }
  const auto positions = static_cast<std::size_t>(input.positions);
  auto best = static_cast<std::size_t>(input.keep_position.value_or(0));
  for (std::size_t i = 0; i < positions && !input.keep_position; ++i) {
    if (um(i) < um(best) - 1e-9 * size) best = i;
  }
  if (!input.limit_um || um(best) <= *input.limit_um) return best;
  std::vector<std::size_t> by_tilt;
  for (std::size_t n = 0; n < input.plates.size(); ++n) by_tilt.push_back(n);
  std::stable_sort(by_tilt.begin(), by_tilt.end(),
                   [&](std::size_t a, std::size_t b) { return refit::tilt_um(input, a) < refit::tilt_um(input, b); });
  for (const std::size_t n : by_tilt) {
    if (um(positions + n) < um(best) - 1e-9 * size) best = positions + n;
  }
  return best;
}

void advise(const RefitInput& input, Refit& refit) {
  const FittedRunout& best = refit.best;
  if (input.limit_um && weighed_um(input, best) > *input.limit_um) {
    refit.advice.push_back({"still_over",
                            "No position on the studs and no plate on hand brings the runout within the limit: clean "
                            "both faces and read again before anything else, then look at the hub."});
  } else if (best.plate) {
    refit.advice.push_back({"plate", "No position keeps the limit without a plate; this plate does."});
  }
  if (best.verdict == Standing::cannot_tell) {
    refit.advice.push_back({"read_after_fitting",
                            "What is left lies too near the limit for these readings: fit the part so and read its "
                            "runout on the car with all nuts at torque."});
  }
  if (input.positions > 1 && refit.worst_um - refit.all[0].runout_um < 1e-6 * refit.worst_um &&
      refit.worst_um - best.runout_um < 1e-6 * refit.worst_um && !best.plate && refit.worst_um > 0) {
    refit.advice.push_back({"all_alike", "All positions leave the same runout: turning the part brings nothing."});
  }
}

}  // namespace

Refit best_refit(const RefitInput& given) {
  refit::check(given);
  RefitInput input = given;
  Refit refit;
  refit.from_readings = given.readings.has_value();
  std::optional<refit::Evidence> evidence;
  std::optional<refit::Belief> belief;
  if (uncertain(given)) {
    evidence =
        given.readings ? refit::evidence_of(*given.readings, noise_of(*given.readings)) : refit::evidence_of(given);
    belief.emplace(*evidence);
    if (given.readings && given.hub.empty() && given.part.empty()) put_means(*belief, *evidence, input);
  }
  for (int position = 0; position < input.positions; ++position) {
    refit.all.push_back(fitted(input, {.position = position}));
    refit.worst_um = std::max(refit.worst_um, refit.all.back().runout_um);
  }
  for (std::size_t n = 0; n < input.plates.size(); ++n) {
    refit.all.push_back(fitted(input, refit::best_with_plate(input, n)));
  }
  std::size_t best = best_of(input, refit);
  if (belief) {
    const DrawnFittings drawn(input, *belief, *evidence);
    for (std::size_t i = 0; i < refit.all.size(); ++i) {
      if (!refit.all[i].plate || input.by_likely || i == best) put_probability(input, drawn, refit.all[i]);
    }
    if (input.by_likely) best = best_of(input, refit);
  }
  refit.best = refit.all[best];
  refit.hub = input.hub;
  refit.part = input.part;
  advise(input, refit);
  return refit;
}

}  // namespace brakewright
