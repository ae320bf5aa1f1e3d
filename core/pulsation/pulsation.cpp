#include "core/pulsation/pulsation.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/pulsation/check.hpp"
#include "core/pulsation/next.hpp"
#include "core/thickness/figures.hpp"
#include "core/uncertainty/random.hpp"
#include "core/verdict/wear.hpp"

namespace brakewright::pulsation {
namespace {

/// How often each order is met before anything is known, from order 0 ("none"). Common practice, no source.
constexpr std::array<double, kOrders + 1> kPrior{0.10, 0.40, 0.25, 0.10, 0.08, 0.04, 0.03};
constexpr double kLowestOther_hz = 0.5, kHighestOther_hz = 100;
/// Variation that no part lacks: a corner with this little explains nothing.
constexpr double kQuiet_um = 2;
constexpr double kMile_km = 1.609344;
constexpr double kGrowthFrom_km = 3000, kGrowthTo_km = 6000 * kMile_km;

double wheel_hz(double speed_km_per_h, double rolling_mm) { return speed_km_per_h / 3.6 * 1000 / rolling_mm; }

double expected_hz(const PulsationInput& input, const Observation& seen, int order) {
  return order * wheel_hz(seen.speed_km_per_h * seen.speed_factor, input.rolling.mm);
}

/// Standard uncertainty of the logarithm of the circumference: rectangular between its ends.
double u_rolling(const PulsationInput& input) {
  return std::max(1e-4, std::log(input.rolling.high_mm / input.rolling.low_mm) / std::sqrt(12.0));
}

double u_of(const Observation& seen) {
  return std::max(1e-4, std::hypot(seen.u_frequency_hz / *seen.frequency_hz, seen.u_speed_relative));
}

/// Log likelihood of all frequencies under one order, the tyre's share being common to all.
double log_likelihood(const PulsationInput& input, int order) {
  double weight = 0, first = 0, second = 0, constant = 0;
  for (const Observation& seen : input.observations) {
    if (!seen.frequency_hz) continue;
    if (order == 0) {
      constant -= std::log(std::log(kHighestOther_hz / kLowestOther_hz));
      continue;
    }
    const double u = u_of(seen), off = std::log(*seen.frequency_hz / expected_hz(input, seen, order));
    weight += 1 / (u * u);
    first += off / (u * u);
    second += off * off / (u * u);
    constant -= std::log(u * std::sqrt(2 * std::numbers::pi));
  }
  if (order == 0) return constant;
  const double common = u_rolling(input), precision = 1 / (common * common);
  return constant - std::log1p(weight / precision) / 2 - (second - first * first / (weight + precision)) / 2;
}

OrderFit fit_of(const PulsationInput& input, int order) {
  OrderFit fit{.order = order};
  for (const Observation& seen : input.observations) {
    if (order == 0 || !seen.frequency_hz) continue;
    const double expected = expected_hz(input, seen, order);
    const double off = std::log(*seen.frequency_hz / expected), z = off / std::hypot(u_of(seen), u_rolling(input));
    if (!fit.expected_hz) {
      fit.expected_hz = expected;
      fit.off_percent = 100 * (*seen.frequency_hz / expected - 1);
    }
    if (!fit.z || std::abs(z) > std::abs(*fit.z)) fit.z = z;
  }
  return fit;
}

void put_orders(const PulsationInput& input, Pulsation& found) {
  const bool any = std::any_of(input.observations.begin(), input.observations.end(),
                               [](const Observation& seen) { return seen.frequency_hz.has_value(); });
  if (!any) return;
  std::array<double, kOrders + 1> logs{};
  for (int k = 0; k <= kOrders; ++k) {
    const auto at = static_cast<std::size_t>(k);
    logs[at] = std::log(kPrior[at]) + log_likelihood(input, k);
  }
  const double best = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (double& log : logs) sum += log = std::exp(log - best);
  for (int k = 0; k <= kOrders; ++k) {
    OrderFit fit = fit_of(input, k);
    fit.probability = logs[static_cast<std::size_t>(k)] / sum;
    found.orders.push_back(fit);
  }
  std::stable_sort(found.orders.begin(), found.orders.end(),
                   [](const OrderFit& a, const OrderFit& b) { return a.probability > b.probability; });
}

/// How much each order counts: as found, or as it is usually met.
double weight_of(const Pulsation& found, int order) {
  if (order > kOrders) return 0;
  if (found.orders.empty()) return kPrior[static_cast<std::size_t>(order)];
  for (const OrderFit& fit : found.orders) {
    if (fit.order == order) return fit.probability;
  }
  return 0;
}

double place_factor(Felt felt, bool front) {
  if (felt == Felt::wheel) return front ? 2 : 1;
  if (felt == Felt::seat) return front ? 1 : 2;
  return 1;
}

std::string against(const std::optional<double>& limit_um, double value_um) {
  if (!limit_um) return "";
  return (value_um > *limit_um ? ", over " : ", within ") + um_text(*limit_um) + " um";
}

void put_corners(const PulsationInput& input, Pulsation& found) {
  double none = kQuiet_um * kQuiet_um, sum = none;
  for (const Corner& corner : input.corners) {
    if (!corner.read) continue;
    CornerFit fit{.name = corner.name, .why = {}};
    double most = 0;
    for (const Harmonic& wave : corner.variation) {
      const double power = weight_of(found, wave.order) * wave.amplitude_um * wave.amplitude_um;
      fit.probability += power;
      if (power > most || fit.order == 0) most = power, fit.order = wave.order, fit.amplitude_um = wave.amplitude_um;
    }
    fit.probability *= place_factor(input.felt, corner.front);
    fit.why = "its variation of order " + std::to_string(fit.order) + " is " + um_text(2 * fit.amplitude_um) +
              " um peak to valley" + against(corner.variation_limit_um, 2 * fit.amplitude_um) + ".";
    sum += fit.probability;
    found.corners.push_back(fit);
  }
  for (CornerFit& fit : found.corners) fit.probability /= sum;
  found.p_other_corner = none / sum;
  std::stable_sort(found.corners.begin(), found.corners.end(),
                   [](const CornerFit& a, const CornerFit& b) { return a.probability > b.probability; });
}

void put_table(const PulsationInput& input, Pulsation& found) {
  for (const double speed : input.speeds_km_per_h) {
    for (int order = 1; order <= 4; ++order) {
      found.table.push_back({.speed_km_per_h = speed,
                             .order = order,
                             .low_hz = order * wheel_hz(speed, input.rolling.high_mm),
                             .hz = order * wheel_hz(speed, input.rolling.mm),
                             .high_hz = order * wheel_hz(speed, input.rolling.low_mm)});
    }
  }
}

}  // namespace

Growth growth_of(const GrowthInput& input) {
  Growth growth;
  growth.source =
      "3000 to 6000 miles after a fit with too much runout, another text 3000 to 4000 km: common practice, no source; "
      "the straight line is an assumption";
  growth.over = input.runout_um > input.runout_limit_um;
  if (!growth.over) {
    growth.text = "The runout is within its limit: nothing on hand says how fast variation grows from it.";
    return growth;
  }
  growth.felt_from_km = kGrowthFrom_km;
  growth.felt_to_km = std::round(kGrowthTo_km);
  growth.text =
      "Runout over its limit is hardly felt by itself, but pads that touch it once a turn wear the disc uneven: "
      "pulsation is commonly felt after " +
      um_text(*growth.felt_from_km) + " to " + um_text(*growth.felt_to_km) + " km.";
  const double to_grow = std::max(0.0, input.variation_limit_um - input.variation_um);
  for (int i = 0; i <= 10; ++i) {
    const double km = 1000.0 * i;
    growth.curve.push_back({.km = km,
                            .low_um = input.variation_um + to_grow * km / *growth.felt_to_km,
                            .high_um = input.variation_um + to_grow * km / *growth.felt_from_km});
  }
  return growth;
}

Counted counted(double beats, double seconds) {
  const double hz = beats / seconds;
  return {.hz = hz, .u_hz = std::hypot(1 / std::sqrt(3.0), 0.2 * hz) / seconds};
}

Pulsation find_pulsation(const PulsationInput& input) {
  check(input);
  Pulsation found;
  put_orders(input, found);
  put_corners(input, found);
  put_table(input, found);
  if (input.growth) found.growth = growth_of(*input.growth);
  if (input.wear)
    found.wear =
        wear_room(input.wear->thickness_mm - input.wear->discard_mm, input.wear->u_mm, input.wear->rate, input.seed);
  found.next = next_steps(input, found);
  return found;
}

}  // namespace brakewright::pulsation
