#include "core/uncertainty/budget.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kRounding = 1e-9;  // keeps 17.9999999999, an 18 but for rounding, from being cut to 17

void check_finite(double number, const std::string& path) {
  if (!std::isfinite(number)) throw InputError("not_finite", path, "a finite number is needed here");
}

void check_component(const Component& component, const std::string& path) {
  check_finite(component.u, path + ".u");
  check_finite(component.sensitivity, path + ".sensitivity");
  if (component.u < 0.0) throw InputError("out_of_range", path + ".u", "must be 0 or more");
  if (component.dof && !(*component.dof >= 1.0)) {
    throw InputError("out_of_range", path + ".dof", "must be 1 or more, or left out for infinitely many");
  }
}

std::vector<Contribution> contributions_of(std::span<const Component> components) {
  std::vector<Contribution> contributions;
  contributions.reserve(components.size());
  for (const Component& component : components) {
    const std::string path = "components[" + std::to_string(contributions.size()) + "]";
    check_component(component, path);
    const double u = std::abs(component.sensitivity) * component.u;
    if (!std::isfinite(u)) throw InputError("out_of_range", path, "sensitivity times u is too large a number");
    contributions.push_back({.u = u});
  }
  return contributions;
}

/// Welch-Satterthwaite from shares of the variance; nothing when no component limits it.
std::optional<double> effective_dof(std::span<const Component> components, std::span<const Contribution> shares) {
  double inverse = 0.0;
  for (std::size_t i = 0; i < components.size(); ++i) {
    if (components[i].dof) inverse += shares[i].share * shares[i].share / *components[i].dof;
  }
  const double dof = 1.0 / inverse;
  if (!std::isfinite(dof)) return std::nullopt;
  return dof;
}

}  // namespace

double standard_uncertainty(double half_width, Distribution distribution) {
  if (!(std::isfinite(half_width) && half_width >= 0.0)) {
    throw InputError("out_of_range", "half_width", "must be a finite number of 0 or more");
  }
  switch (distribution) {
    case Distribution::rectangular:
      return half_width / std::sqrt(3.0);
    case Distribution::triangular:
      return half_width / std::sqrt(6.0);
    case Distribution::u_shaped:
      return half_width / std::sqrt(2.0);
    case Distribution::normal:
      break;
  }
  throw InputError("out_of_range", "half_width", "a normal distribution has no ends: give its u instead");
}

double coverage_factor(std::optional<double> dof, double confidence) {
  if (!(confidence > 0.0 && confidence < 1.0)) {
    throw InputError("out_of_range", "confidence", "must lie between 0 and 1, ends excluded");
  }
  const double tail = (1.0 - confidence) / 2.0;
  if (!dof) return boost::math::quantile(boost::math::complement(boost::math::normal_distribution<double>(), tail));
  if (!(*dof >= 1.0 - kRounding)) throw InputError("out_of_range", "dof", "must be 1 or more");
  const double whole = std::max(1.0, std::floor(*dof * (1.0 + kRounding)));
  return boost::math::quantile(boost::math::complement(boost::math::students_t_distribution<double>(whole), tail));
}

Budget combine(std::span<const Component> components, double confidence) {
  if (components.empty()) throw InputError("missing", "components", "at least one component is needed");
  Budget budget;
  budget.contributions = contributions_of(components);
  const auto largest = std::max_element(budget.contributions.begin(), budget.contributions.end(),
                                        [](const auto& a, const auto& b) { return a.u < b.u; });
  // Squares are taken of ratios to the largest, so that neither huge nor tiny units overflow.
  const double scale = largest->u > 0.0 ? largest->u : 1.0;
  double sum = 0.0;
  for (const Contribution& one : budget.contributions) sum += one.u / scale * (one.u / scale);
  if (sum > 0.0) {
    for (Contribution& one : budget.contributions) one.share = one.u / scale * (one.u / scale) / sum;
  }
  budget.u = scale * std::sqrt(sum);
  budget.dof_effective = effective_dof(components, budget.contributions);
  budget.k = coverage_factor(budget.dof_effective, confidence);
  budget.expanded = budget.k * budget.u;
  if (!std::isfinite(budget.expanded)) {
    throw InputError("out_of_range", "components", "the expanded uncertainty is too large a number");
  }
  return budget;
}

}  // namespace brakewright
