#include "core/circle/circle.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/circle/angle_groups.hpp"
#include "core/circle/solve.hpp"
#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kDegPerRad = 180.0 / std::numbers::pi;
constexpr std::size_t kHighestOrder = 500;
constexpr std::size_t kMostWork = 100'000'000;  // angles times order: a second or two

int order_for(std::size_t distinct, int max_order) {
  if (max_order < 0) throw InputError("out_of_range", "max_order", "must be 0 or more");
  const std::size_t carried = std::min({(distinct - 1) / 2, kHighestOrder, kMostWork / distinct});
  return std::min(max_order, static_cast<int>(carried));
}

Harmonic harmonic_of(int order, double a, double b) {
  return {.order = order,
          .amplitude_um = std::hypot(a, b),
          .phase_deg = a == 0.0 && b == 0.0 ? 0.0 : circle::wrapped_deg(std::atan2(b, a) * kDegPerRad)};
}

/// JCGM 100:2008, 5.1.2 and 5.2.2 for sqrt(a^2 + b^2), for readings of unit variance.
double unit_u_amplitude(const circle::Solution& solution, const Harmonic& harmonic) {
  const auto at = static_cast<std::size_t>(2 * harmonic.order - 1);
  const double var_a = solution.covariance_at(at, at);
  const double var_b = solution.covariance_at(at + 1, at + 1);
  if (harmonic.amplitude_um == 0.0) return std::sqrt((var_a + var_b) / 2.0);
  const double along_a = solution.coefficients[at] / harmonic.amplitude_um;
  const double along_b = solution.coefficients[at + 1] / harmonic.amplitude_um;
  const double variance = along_a * along_a * var_a + along_b * along_b * var_b +
                          2.0 * along_a * along_b * solution.covariance_at(at, at + 1);
  return std::sqrt(std::max(variance, 0.0));
}

void check_noise(std::optional<double> noise_sd_um) {
  if (noise_sd_um && !(std::isfinite(*noise_sd_um) && *noise_sd_um >= 0.0)) {
    throw InputError("out_of_range", "noise_sd_um", "must be a finite number of 0 or more");
  }
}

}  // namespace

CircleFit fit_circle(const Trace& trace, int max_order, std::optional<double> noise_sd_um) {
  check_noise(noise_sd_um);
  const circle::AngleGroups groups = circle::gather(trace);
  const auto solution = circle::solve(groups, order_for(groups.angles_deg.size(), max_order));
  const auto [lowest, highest] = std::minmax_element(groups.means_um.begin(), groups.means_um.end());
  CircleFit fit{.mean_um = solution.coefficients[0],
                .range_um = *highest - *lowest,
                .order_asked = max_order,
                .order_used = solution.order,
                .distinct_angles = static_cast<int>(groups.angles_deg.size()),
                .harmonics = harmonics_of(solution.coefficients),
                .dof = static_cast<int>(trace.values_um.size() - solution.coefficients.size())};
  if (fit.dof > 0) fit.residual_sd_um = std::sqrt(solution.residual_ss / fit.dof);
  if (const auto noise = noise_sd_um ? noise_sd_um : fit.residual_sd_um) {
    for (Harmonic& harmonic : fit.harmonics) harmonic.u_amplitude_um = *noise * unit_u_amplitude(solution, harmonic);
  }
  fit.fitted_range_um = peak_to_valley_um(fit.harmonics);
  fit.blind_orders = blind_orders(groups.angles_deg);
  return fit;
}

double value_at(const CircleFit& fit, double angle_deg) {
  double value = fit.mean_um;
  for (const Harmonic& harmonic : fit.harmonics) {
    value += harmonic.amplitude_um * std::cos((harmonic.order * angle_deg - harmonic.phase_deg) / kDegPerRad);
  }
  return value;
}

CircleCoefficients circle_coefficients(const Trace& trace, int max_order) {
  const circle::AngleGroups groups = circle::gather(trace);
  const auto solution = circle::solve(groups, order_for(groups.angles_deg.size(), max_order));
  const std::size_t count = solution.coefficients.size();
  CircleCoefficients coefficients{.order = solution.order,
                                  .values_um = solution.coefficients,
                                  .unit_covariance = std::vector<double>(count * count),
                                  .residual_ss_um2 = solution.residual_ss,
                                  .dof = static_cast<int>(trace.values_um.size() - count)};
  for (std::size_t row = 0; row < count; ++row) {
    for (std::size_t column = 0; column < count; ++column) {
      coefficients.unit_covariance[row * count + column] = solution.covariance_at(row, column);
    }
  }
  return coefficients;
}

std::vector<Harmonic> harmonics_of(std::span<const double> coefficients_um) {
  std::vector<Harmonic> harmonics;
  for (std::size_t at = 1; at + 1 < coefficients_um.size(); at += 2) {
    harmonics.push_back(harmonic_of(static_cast<int>(at / 2) + 1, coefficients_um[at], coefficients_um[at + 1]));
  }
  return harmonics;
}

}  // namespace brakewright
