#include "core/separation/separation.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <string>

#include "core/circle/angle_groups.hpp"
#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/regression/least_squares.hpp"
#include "core/separation/advice.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kMostPositions = 64, kMostReadings = 1000, kMostInAll = 4000;

std::string at(std::size_t index) { return "positions[" + std::to_string(index) + "]"; }

void check(const SeparationInput& input) {
  if (input.positions.empty()) throw InputError("too_few", "positions", "one position or more");
  if (input.positions.size() > kMostPositions) throw InputError("out_of_range", "positions", "at most 64 positions");
  if (input.max_order < 1 || input.max_order > 100) throw InputError("out_of_range", "max_order", "from 1 to 100");
  std::size_t readings = 0;
  for (std::size_t j = 0; j < input.positions.size(); ++j) {
    const PositionTrace& position = input.positions[j];
    if (!(std::abs(position.turn_deg) <= 36000)) {
      throw InputError("out_of_range", at(j) + ".turn_deg", "from -36000 to 36000 degrees");
    }
    if (position.trace.values_um.size() > kMostReadings) {
      throw InputError("out_of_range", at(j) + ".values_um", "at most 1000 readings in one position");
    }
    readings += position.trace.values_um.size();
  }
  if (readings > kMostInAll) throw InputError("out_of_range", "positions", "at most 4000 readings in all");
  if (input.noise_sd_um && !(*input.noise_sd_um >= 0 && *input.noise_sd_um <= 1e9)) {
    throw InputError("out_of_range", "noise_sd_um", "from 0 to 1e9 um");
  }
  if (input.studs && (*input.studs < 2 || *input.studs > 24)) {
    throw InputError("out_of_range", "studs", "from 2 to 24");
  }
}

void put_positions(const SeparationInput& input, Separation& found) {
  for (std::size_t j = 0; j < input.positions.size(); ++j) {
    try {
      const CircleFit fit = fit_circle(input.positions[j].trace, input.max_order);
      found.positions.push_back({.turn_deg = circle::wrapped_deg(input.positions[j].turn_deg),
                                 .runout_um = fit.range_um,
                                 .distinct_angles = fit.distinct_angles,
                                 .order_used = fit.order_used,
                                 .residual_sd_um = 0,
                                 .blind_orders = fit.blind_orders});
      found.order_used = std::max(found.order_used, fit.order_used);
    } catch (const InputError& error) {
      throw error.within(at(j));
    }
  }
}

std::vector<double> turns_that_carry(const Separation& found, int order) {
  std::vector<double> turns;
  for (const PositionFigures& position : found.positions) {
    if (position.order_used >= order) turns.push_back(position.turn_deg);
  }
  return turns;
}

void put_orders(Separation& found) {
  found.orders.clear();
  found.not_separable.clear();
  for (int k = 1; k <= found.order_used; ++k) {
    const auto turns = turns_that_carry(found, k);
    OrderSeparation order{.order = k, .positions = static_cast<int>(turns.size()), .separable = false, .gain = {}};
    const double gain = separation::gain_of(turns, k);
    if (gain < separation::kHopelessGain) order.separable = true, order.gain = gain;
    if (!order.separable) found.not_separable.push_back(k);
    found.orders.push_back(order);
  }
}

/// Columns of the model: a level for each position, then for each order two of the carrier (or of both together) and,
/// where the order comes apart, two of the part in its own frame.
struct Columns {
  std::vector<std::size_t> first;  ///< of each order
  std::size_t count = 0;
};

Columns columns_of(const Separation& found) {
  Columns columns{.first = {}, .count = found.positions.size()};
  for (const OrderSeparation& order : found.orders) {
    columns.first.push_back(columns.count);
    columns.count += order.separable ? 4 : 2;
  }
  return columns;
}

regression::Design design_of(const SeparationInput& input, const Separation& found, const Columns& columns) {
  regression::Design design{.columns = columns.count};
  for (std::size_t j = 0; j < input.positions.size(); ++j) {
    for (const double angle_deg : input.positions[j].trace.angles_deg) {
      std::vector<double> row(columns.count, 0);
      row[j] = 1;
      for (std::size_t n = 0; n < found.orders.size(); ++n) {
        const int k = found.orders[n].order;
        if (k > found.positions[j].order_used) continue;
        const double angle = k * circle::wrapped_deg(angle_deg) * kRadPerDeg;
        row[columns.first[n]] = std::cos(angle);
        row[columns.first[n] + 1] = std::sin(angle);
        if (!found.orders[n].separable) continue;
        const double own = angle - k * found.positions[j].turn_deg * kRadPerDeg;
        row[columns.first[n] + 2] = std::cos(own);
        row[columns.first[n] + 3] = std::sin(own);
      }
      design.values.insert(design.values.end(), row.begin(), row.end());
    }
  }
  return design;
}

std::vector<double> readings_of(const SeparationInput& input) {
  std::vector<double> readings;
  for (const PositionTrace& position : input.positions) {
    readings.insert(readings.end(), position.trace.values_um.begin(), position.trace.values_um.end());
  }
  return readings;
}

/// Weights of the coefficients that make up one wave's cosine and sine.
struct Mix {
  std::size_t column = 0;  ///< of the cosine; the sine's follows
  double turn = 0;         ///< radians by which the wave's phase is carried on
};

/// The wave that is the sum of these, with the uncertainty of its amplitude (JCGM 100:2008, 5.1.2).
Harmonic wave_of(int order, const regression::LeastSquares& fit, std::optional<double> noise_um,
                 const std::vector<Mix>& mixes) {
  double a = 0, b = 0;
  for (const Mix& mix : mixes) {
    const double c = fit.coefficients[mix.column], s = fit.coefficients[mix.column + 1];
    a += c * std::cos(mix.turn) - s * std::sin(mix.turn);
    b += c * std::sin(mix.turn) + s * std::cos(mix.turn);
  }
  Harmonic wave{.order = order,
                .amplitude_um = std::hypot(a, b),
                .phase_deg = a == 0 && b == 0 ? 0 : circle::wrapped_deg(std::atan2(b, a) / kRadPerDeg),
                .u_amplitude_um = {}};
  if (!noise_um) return wave;
  const auto variance_along = [&](double along_a, double along_b) {
    const std::size_t columns = fit.coefficients.size();
    std::vector<double> weights(columns, 0);
    for (const Mix& mix : mixes) {
      weights[mix.column] += along_a * std::cos(mix.turn) + along_b * std::sin(mix.turn);
      weights[mix.column + 1] += -along_a * std::sin(mix.turn) + along_b * std::cos(mix.turn);
    }
    double variance = 0;
    for (std::size_t i = 0; i < columns; ++i) {
      if (weights[i] == 0) continue;
      for (std::size_t j = 0; j < columns; ++j) {
        variance += weights[i] * weights[j] * fit.unit_covariance[i * columns + j];
      }
    }
    return std::max(variance, 0.0);
  };
  const double size = wave.amplitude_um;
  wave.u_amplitude_um = *noise_um * std::sqrt(size > 0 ? variance_along(a / size, b / size)
                                                       : (variance_along(1, 0) + variance_along(0, 1)) / 2);
  return wave;
}

void put_waves(const regression::LeastSquares& fit, const Columns& columns, std::optional<double> noise_um,
               Separation& found) {
  for (std::size_t n = 0; n < found.orders.size(); ++n) {
    const int k = found.orders[n].order;
    const std::size_t first = columns.first[n];
    std::vector<Mix> together{{.column = first, .turn = 0}};
    if (found.orders[n].separable) {
      found.carrier.push_back(wave_of(k, fit, noise_um, together));
      found.part.push_back(wave_of(k, fit, noise_um, {{.column = first + 2, .turn = 0}}));
      together.push_back({.column = first + 2, .turn = k * turns_that_carry(found, k)[0] * kRadPerDeg});
    }
    found.together.push_back(wave_of(k, fit, noise_um, together));
  }
  found.carrier_runout_um = peak_to_valley_um(found.carrier);
  found.part_runout_um = peak_to_valley_um(found.part);
}

void put_residuals(const SeparationInput& input, const regression::LeastSquares& fit, Separation& found) {
  std::size_t row = 0;
  for (std::size_t j = 0; j < input.positions.size(); ++j) {
    const std::size_t count = input.positions[j].trace.values_um.size();
    double squares = 0;
    for (std::size_t i = 0; i < count; ++i, ++row) squares += fit.residuals[row] * fit.residuals[row];
    found.positions[j].residual_sd_um = std::sqrt(squares / static_cast<double>(count));
  }
  found.dof = static_cast<int>(fit.dof);
  if (fit.dof == 0) return;
  found.residual_sd_um = fit.residual_sd;
  if (!input.noise_sd_um || *input.noise_sd_um < 1e-9) return;
  const double ratio = fit.residual_sd / *input.noise_sd_um;
  const double scaled = std::min(ratio * ratio * static_cast<double>(fit.dof), 1e12);
  found.p_repeats =
      boost::math::cdf(boost::math::complement(boost::math::chi_squared(static_cast<double>(fit.dof)), scaled));
}

}  // namespace

Separation separate(const SeparationInput& input) {
  check(input);
  Separation found;
  found.order_asked = input.max_order;
  put_positions(input, found);
  const auto readings = readings_of(input);
  for (;; --found.order_used) {
    for (PositionFigures& position : found.positions)
      position.order_used = std::min(position.order_used, found.order_used);
    put_orders(found);
    const Columns columns = columns_of(found);
    const auto fit = regression::least_squares(design_of(input, found, columns), readings);
    if (!fit) continue;  // the angles are bunched too tightly for the highest order
    std::optional<double> noise_um = input.noise_sd_um;
    if (!noise_um && fit->dof > 0) noise_um.emplace(fit->residual_sd);
    put_waves(*fit, columns, noise_um, found);
    put_residuals(input, *fit, found);
    break;
  }
  found.next_turn_deg = separation::next_turn_deg(input, found);
  found.advice = separation::advise(input, found);
  return found;
}

}  // namespace brakewright
