#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <numeric>

#include "core/circle/angle_groups.hpp"
#include "core/circle/circle.hpp"
#include "core/degree.hpp"
#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kSamePhaseDeg = 1e-6;

/// Half the least width of a regular polygon in the unit circle: flush with a side, held by the corner or side
/// opposite.
double seen_by_even(std::size_t corners) {
  if (corners < 3) return 0.0;
  const double side = std::cos(std::numbers::pi / static_cast<double>(corners));
  return corners % 2 == 0 ? side : (1.0 + side) / 2.0;
}

/// The width of a convex polygon is least flush with one of its sides. Between neighbours on the circle the side lies
/// at cos(gap/2) from the centre along their middle direction; the corner farthest from it is the one nearest to the
/// direction opposite.
double seen_by_phases(const std::vector<double>& phases_deg) {
  const std::size_t count = phases_deg.size();
  double least = 1.0;
  for (std::size_t i = 0; i < count; ++i) {
    const double from = phases_deg[i];
    const double to = i + 1 < count ? phases_deg[i + 1] : phases_deg[0] + 360.0;
    if (to - from < kSamePhaseDeg && count > 1) continue;
    const double middle = (from + to) / 2.0;
    const double opposite = circle::wrapped_deg(middle + 180.0);
    const auto above = std::lower_bound(phases_deg.begin(), phases_deg.end(), opposite);
    const double next = above == phases_deg.end() ? phases_deg.front() : *above;
    const double previous = above == phases_deg.begin() ? phases_deg.back() : *(above - 1);
    const double farthest =
        std::min(std::cos((next - middle) * kRadPerDeg), std::cos((previous - middle) * kRadPerDeg));
    least = std::min(least, (std::cos((to - from) / 2.0 * kRadPerDeg) - farthest) / 2.0);
  }
  return std::max(least, 0.0);
}

std::vector<double> sorted(std::vector<double> phases_deg) {
  std::sort(phases_deg.begin(), phases_deg.end());
  return phases_deg;
}

std::vector<double> phases_of(const std::vector<double>& distinct_deg, int order) {
  std::vector<double> phases(distinct_deg.size());
  std::transform(distinct_deg.begin(), distinct_deg.end(), phases.begin(), [order](double angle_deg) {
    const double turns = angle_deg * order / 360.0;
    return 360.0 * (turns - std::floor(turns));
  });
  return phases;
}

/// Phases in each of 64 equal sectors leave no gap of more than 11.25 degrees, so that far more than half is seen.
bool in_every_sector(const std::vector<double>& phases_deg) {
  std::uint64_t filled = 0;
  for (const double phase : phases_deg) {
    filled |= std::uint64_t{1} << std::min(static_cast<unsigned>(phase * (64.0 / 360.0)), 63U);
  }
  return filled == ~std::uint64_t{0};
}

/// A gap of g leaves every side, and every corner opposite, at cos(g/2) from the centre or farther.
bool gaps_under_119_deg(const std::vector<double>& sorted_deg) {
  double widest = sorted_deg.front() + 360.0 - sorted_deg.back();
  for (std::size_t i = 1; i < sorted_deg.size(); ++i) widest = std::max(widest, sorted_deg[i] - sorted_deg[i - 1]);
  return widest < 119.0;
}

bool blind_to(const std::vector<double>& distinct_deg, int order) {
  std::vector<double> phases = phases_of(distinct_deg, order);
  if (distinct_deg.size() > 64 && in_every_sector(phases)) return false;
  phases = sorted(std::move(phases));
  return !gaps_under_119_deg(phases) && seen_by_phases(phases) < 0.5;
}

double seen_by_even_order(std::size_t points, int order) {
  return seen_by_even(points / std::gcd(points, static_cast<std::size_t>(order)));
}

}  // namespace

double seen_fraction(std::span<const double> angles_deg, int order) {
  if (order < 1) throw InputError("out_of_range", "order", "must be 1 or more");
  const auto distinct = circle::distinct_angles(angles_deg);
  if (circle::evenly_spaced(distinct)) return seen_by_even_order(distinct.size(), order);
  return seen_by_phases(sorted(phases_of(distinct, order)));
}

std::vector<int> blind_orders(std::span<const double> angles_deg, int up_to) {
  const auto distinct = circle::distinct_angles(angles_deg);
  const bool even = circle::evenly_spaced(distinct);
  std::vector<int> blind;
  for (int order = 1; order <= up_to; ++order) {
    const bool is_blind = even ? seen_by_even_order(distinct.size(), order) < 0.5 : blind_to(distinct, order);
    if (is_blind) blind.push_back(order);
  }
  return blind;
}

}  // namespace brakewright
