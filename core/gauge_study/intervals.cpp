#include "core/gauge_study/intervals.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <limits>

#include "core/uncertainty/random.hpp"

namespace brakewright::gauge_study {
namespace {

constexpr double kTail = 0.025;
constexpr double kNdc = 1.41;              // methods of the trade cut the square root of 2 so
constexpr double kTolerancePercent = 600;  // 100 times six standard deviations

double root(double variance) { return std::sqrt(std::max(0.0, variance)); }

/// Draws of what a mean square estimates: itself times df over a chi-squared draw.
std::vector<double> expected_draws(const Effect& effect, const Draws& draws, std::uint64_t stream) {
  Random random(draws.seed, stream);
  std::vector<double> drawn(draws.count);
  for (double& value : drawn) value = effect.ms * effect.df / random.chi_squared(effect.df);
  return drawn;
}

Interval interval_of(std::vector<double>& values) {
  const auto count = static_cast<double>(values.size());
  const auto at = [&](double share) {
    const auto nth = values.begin() + std::lround(share * (count - 1));
    std::nth_element(values.begin(), nth, values.end());
    return *nth;
  };
  const double low = at(kTail);
  return {.low95 = low, .high95 = at(1 - kTail)};
}

Interval times(const Interval& interval, double factor) { return {interval.low95 * factor, interval.high95 * factor}; }

/// Components drawn with their signs.
struct Drawn {
  double repeatability, interaction, operators, part;
  double reproducibility() const { return operators + interaction; }
  double grr() const { return std::max(0.0, repeatability + reproducibility()); }
  double total() const { return std::max(grr(), grr() + part); }
};

std::vector<Drawn> draw_components(const Table& table, const Layout& layout, const Draws& draws) {
  const auto part = expected_draws(table.part, draws, 0), error = expected_draws(table.repeatability, draws, 1);
  const auto base = table.interaction ? expected_draws(*table.interaction, draws, 2) : error;
  const auto operators = table.operators ? expected_draws(*table.operators, draws, 3) : std::vector<double>();
  const auto parts = static_cast<double>(layout.parts), levels = static_cast<double>(layout.levels),
             repeats = static_cast<double>(layout.repeats);
  std::vector<Drawn> drawn;
  drawn.reserve(draws.count);
  for (std::size_t i = 0; i < draws.count; ++i) {
    drawn.push_back({.repeatability = error[i],
                     .interaction = (base[i] - error[i]) / repeats,
                     .operators = operators.empty() ? 0 : (operators[i] - base[i]) / (parts * repeats),
                     .part = (part[i] - base[i]) / (levels * repeats)});
  }
  return drawn;
}

template <class Quantity>
Interval over(const std::vector<Drawn>& drawn, const Quantity& quantity) {
  std::vector<double> values;
  values.reserve(drawn.size());
  for (const Drawn& one : drawn) values.push_back(quantity(one));
  return interval_of(values);
}

}  // namespace

Interval sd_interval(const MeanSquare& mean_square) {
  const boost::math::chi_squared chi(mean_square.df);
  const double ss = mean_square.value * mean_square.df;
  return {.low95 = std::sqrt(ss / boost::math::quantile(boost::math::complement(chi, kTail))),
          .high95 = std::sqrt(ss / boost::math::quantile(chi, kTail))};
}

Figures figures_of(const Components& components, std::optional<double> tolerance) {
  const auto sd = [](const std::optional<double>& variance) {
    return variance ? std::optional(root(*variance)) : std::nullopt;
  };
  Figures figures{.repeatability_sd = root(components.repeatability),
                  .operator_sd = sd(components.operators),
                  .interaction_sd = sd(components.interaction),
                  .reproducibility_sd = sd(components.reproducibility),
                  .grr_sd = root(components.grr),
                  .part_sd = root(components.part),
                  .total_sd = root(components.total)};
  if (figures.total_sd > 0) figures.percent_grr = 100 * figures.grr_sd / figures.total_sd;
  if (tolerance) figures.percent_tolerance = kTolerancePercent * figures.grr_sd / *tolerance;
  if (figures.grr_sd > 0) figures.ndc_uncut = kNdc * figures.part_sd / figures.grr_sd;
  return figures;
}

Intervals intervals_of(const Table& table, const Layout& layout, std::optional<double> tolerance, const Draws& draws) {
  const auto drawn = draw_components(table, layout, draws);
  Intervals found{.repeatability_sd = sd_interval({table.repeatability.ms, table.repeatability.df})};
  if (table.operators) {
    found.operator_sd = over(drawn, [](const Drawn& one) { return root(one.operators); });
    found.reproducibility_sd = over(drawn, [](const Drawn& one) { return root(one.reproducibility()); });
    const auto larger = std::count_if(drawn.begin(), drawn.end(),
                                      [](const Drawn& one) { return one.repeatability > one.reproducibility(); });
    found.p_repeatability_larger = static_cast<double>(larger) / static_cast<double>(drawn.size());
  }
  if (table.interaction) {
    found.interaction_sd = over(drawn, [](const Drawn& one) { return root(one.interaction); });
  }
  found.grr_sd =
      table.operators ? over(drawn, [](const Drawn& one) { return root(one.grr()); }) : found.repeatability_sd;
  found.part_sd = over(drawn, [](const Drawn& one) { return root(one.part); });
  found.total_sd = over(drawn, [](const Drawn& one) { return root(one.total()); });
  if (tolerance) found.percent_tolerance = times(found.grr_sd, kTolerancePercent / *tolerance);
  if (found.total_sd.high95 > 0) {
    found.percent_grr = over(drawn, [](const Drawn& one) { return 100 * std::sqrt(one.grr() / one.total()); });
  }
  if (found.grr_sd.high95 > 0) {
    found.ndc_uncut =
        over(drawn, [](const Drawn& one) { return kNdc * std::sqrt(std::max(0.0, one.part) / one.grr()); });
  }
  return found;
}

Figures unscaled(Figures figures, double scale) {
  for (double* sd : {&figures.repeatability_sd, &figures.grr_sd, &figures.part_sd, &figures.total_sd}) *sd *= scale;
  for (auto* sd : {&figures.operator_sd, &figures.interaction_sd, &figures.reproducibility_sd}) {
    if (*sd) **sd *= scale;
  }
  return figures;
}

Intervals unscaled(Intervals intervals, double scale) {
  for (auto* sd : {&intervals.repeatability_sd, &intervals.grr_sd, &intervals.part_sd, &intervals.total_sd}) {
    *sd = times(*sd, scale);
  }
  for (auto* sd : {&intervals.operator_sd, &intervals.interaction_sd, &intervals.reproducibility_sd}) {
    if (*sd) *sd = times(**sd, scale);
  }
  return intervals;
}

}  // namespace brakewright::gauge_study
