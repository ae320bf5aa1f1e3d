#include "core/circle/angle_groups.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::circle {
namespace {

constexpr double kSameAngleDeg = 1e-6;
constexpr double kEvenToDeg = 1e-10;
constexpr double kMostAngleDeg = 36000.0;
constexpr double kMostValueUm = 1e9;

[[noreturn]] void refuse(double value, const std::string& path, double most, const char* unit) {
  if (!std::isfinite(value)) throw InputError("not_finite", path, "a finite number is needed here");
  const std::string end = std::to_string(std::llround(most));
  throw InputError("out_of_range", path, "must be from -" + end + " to " + end + " " + unit);
}

void check_each(std::span<const double> values, double most, const char* name, const char* unit) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    // False for NaN as well.
    if (std::abs(values[i]) <= most) continue;
    refuse(values[i], std::string(name) + "[" + std::to_string(i) + "]", most, unit);
  }
}

void check_angles(std::span<const double> angles_deg) {
  if (angles_deg.empty()) throw InputError("missing", "angles_deg", "at least one reading is needed");
  check_each(angles_deg, kMostAngleDeg, "angles_deg", "degrees");
}

bool distinct_and_ascending(std::span<const double> wrapped) {
  for (std::size_t i = 1; i < wrapped.size(); ++i) {
    if (!(wrapped[i] - wrapped[i - 1] > kSameAngleDeg)) return false;
  }
  return wrapped.size() == 1 || wrapped.front() + 360.0 - wrapped.back() > kSameAngleDeg;
}

std::vector<double> all_wrapped(std::span<const double> angles_deg) {
  std::vector<double> wrapped(angles_deg.size());
  std::transform(angles_deg.begin(), angles_deg.end(), wrapped.begin(), wrapped_deg);
  return wrapped;
}

/// Group number of each reading; fills the groups' angles.
std::vector<std::size_t> assign(const std::vector<double>& wrapped, std::vector<double>& angles_deg) {
  std::vector<std::size_t> in_order(wrapped.size());
  std::iota(in_order.begin(), in_order.end(), std::size_t{0});
  std::sort(in_order.begin(), in_order.end(), [&](std::size_t a, std::size_t b) { return wrapped[a] < wrapped[b]; });
  std::vector<std::size_t> group(wrapped.size());
  for (const std::size_t i : in_order) {
    if (angles_deg.empty() || wrapped[i] - angles_deg.back() > kSameAngleDeg) angles_deg.push_back(wrapped[i]);
    group[i] = angles_deg.size() - 1;
  }
  if (angles_deg.size() > 1 && angles_deg.front() + 360.0 - angles_deg.back() <= kSameAngleDeg) {
    const std::size_t last = angles_deg.size() - 1;
    std::replace(group.begin(), group.end(), last, std::size_t{0});
    angles_deg.pop_back();
  }
  return group;
}

void average(const Trace& trace, const std::vector<std::size_t>& group, AngleGroups& groups) {
  groups.means_um.assign(groups.angles_deg.size(), 0.0);
  groups.counts.assign(groups.angles_deg.size(), 0.0);
  // Sums of differences from one reading, so that a thickness of 22000 um does not drown its last nanometre.
  const double origin = trace.values_um.front();
  for (std::size_t i = 0; i < group.size(); ++i) {
    groups.means_um[group[i]] += trace.values_um[i] - origin;
    groups.counts[group[i]] += 1.0;
  }
  for (std::size_t j = 0; j < groups.counts.size(); ++j) {
    groups.means_um[j] = origin + groups.means_um[j] / groups.counts[j];
  }
  for (std::size_t i = 0; i < group.size(); ++i) {
    const double deviation = trace.values_um[i] - groups.means_um[group[i]];
    groups.within_ss_um2 += deviation * deviation;
  }
}

}  // namespace

double wrapped_deg(double angle_deg) {
  if (angle_deg >= 0.0 && angle_deg < 360.0) return angle_deg;
  double wrapped = std::fmod(angle_deg, 360.0);
  if (wrapped < 0.0) wrapped += 360.0;
  return wrapped < 360.0 ? wrapped : 0.0;
}

bool evenly_spaced(std::span<const double> ascending_deg) {
  const double step = 360.0 / static_cast<double>(ascending_deg.size());
  for (std::size_t j = 0; j < ascending_deg.size(); ++j) {
    if (std::abs(ascending_deg[j] - ascending_deg[0] - static_cast<double>(j) * step) > kEvenToDeg) return false;
  }
  return true;
}

std::vector<double> distinct_angles(std::span<const double> angles_deg) {
  check_angles(angles_deg);
  std::vector<double> wrapped = all_wrapped(angles_deg);
  if (distinct_and_ascending(wrapped)) return wrapped;
  std::vector<double> distinct;
  assign(wrapped, distinct);
  return distinct;
}

AngleGroups gather(const Trace& trace) {
  check_angles(trace.angles_deg);
  if (trace.values_um.size() != trace.angles_deg.size()) {
    throw InputError("sizes_differ", "values_um",
                     "there are " + std::to_string(trace.values_um.size()) + " values for " +
                         std::to_string(trace.angles_deg.size()) + " angles; one value for each angle is needed");
  }
  check_each(trace.values_um, kMostValueUm, "values_um", "um");

  AngleGroups groups;
  groups.readings = static_cast<double>(trace.values_um.size());
  std::vector<double> wrapped = all_wrapped(trace.angles_deg);
  if (distinct_and_ascending(wrapped)) {
    groups.angles_deg = std::move(wrapped);
    groups.means_um = trace.values_um;
    groups.counts.assign(groups.means_um.size(), 1.0);
  } else {
    const auto group = assign(wrapped, groups.angles_deg);
    average(trace, group, groups);
  }
  const bool equal_counts = std::all_of(groups.counts.begin(), groups.counts.end(),
                                        [&](double count) { return count == groups.counts.front(); });
  groups.even = equal_counts && evenly_spaced(groups.angles_deg);
  return groups;
}

}  // namespace brakewright::circle
