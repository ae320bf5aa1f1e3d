#include "core/gauge_study/anova.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/gauge_study/f_test.hpp"
#include "core/gauge_study/sums.hpp"
#include "core/input_error.hpp"

namespace brakewright {
namespace {

using Groups = std::vector<std::vector<double>>;
using gauge_study::mean_of;
using gauge_study::Sum;

void check(const Groups& groups) {
  if (groups.size() < 2) throw InputError("missing", "groups", "at least two groups are needed");
  std::size_t values = 0;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const std::string path = "groups[" + std::to_string(g) + "]";
    if (groups[g].empty()) throw InputError("missing", path, "at least one value is needed in each group");
    for (std::size_t i = 0; i < groups[g].size(); ++i) {
      if (!std::isfinite(groups[g][i])) {
        throw InputError("not_finite", path + "[" + std::to_string(i) + "]", "a finite number is needed here");
      }
    }
    values += groups[g].size();
  }
  if (values <= groups.size()) {
    throw InputError("missing", "groups", "at least one group needs two values or more, to show the scatter within");
  }
}

double largest_deviation(const Groups& groups, double origin) {
  double largest = 0.0;
  for (const auto& group : groups) {
    for (const double value : group) largest = std::max(largest, std::abs(value - origin));
  }
  if (!std::isfinite(largest)) throw InputError("out_of_range", "groups", "the values lie too far apart");
  return largest;
}

struct Scaled {
  Groups groups;  // (value - origin) / scale
  double origin;
  double scale;
};

Scaled scaled(const Groups& groups) {
  const double origin = groups.front().front();
  const double largest = largest_deviation(groups, origin);
  const double scale = gauge_study::power_of_two_for(largest);
  Scaled result{groups, origin, scale};
  for (auto& group : result.groups) {
    for (double& value : group) value = (value - origin) / scale;
  }
  return result;
}

double grand_mean_of(const Groups& groups) {
  Sum sum;
  double count = 0.0;
  for (const auto& group : groups) {
    for (const double value : group) sum.add(value);
    count += static_cast<double>(group.size());
  }
  return sum.value() / count;
}

double within_of(const Groups& groups, const std::vector<double>& means) {
  Sum squares;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    for (const double value : groups[g]) squares.add((value - means[g]) * (value - means[g]));
  }
  return squares.value();
}

double between_of(const Groups& groups, const std::vector<double>& means) {
  const double grand = grand_mean_of(groups);
  Sum squares;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    squares.add(static_cast<double>(groups[g].size()) * (means[g] - grand) * (means[g] - grand));
  }
  return squares.value();
}

}  // namespace

Anova one_way_anova(const Groups& groups) {
  check(groups);
  const Scaled data = scaled(groups);
  std::vector<double> means;
  std::size_t values = 0;
  for (const auto& group : data.groups) {
    means.push_back(mean_of(group));
    values += group.size();
  }
  const double between = between_of(data.groups, means);
  const double within = within_of(data.groups, means);

  Anova table{.ss_between = between * data.scale * data.scale,
              .ss_within = within * data.scale * data.scale,
              .df_between = static_cast<int>(groups.size() - 1),
              .df_within = static_cast<int>(values - groups.size())};
  if (!std::isfinite(table.ss_between + table.ss_within)) {
    throw InputError("out_of_range", "groups", "the values lie too far apart");
  }
  table.ms_between = table.ss_between / table.df_between;
  table.ms_within = table.ss_within / table.df_within;
  table.residual_sd = data.scale * std::sqrt(within / table.df_within);
  const auto test =
      gauge_study::f_test(between / table.df_between, table.df_between, within / table.df_within, table.df_within);
  table.f = test.f;
  table.p = test.p;
  if (between + within > 0.0) table.r_squared = between / (between + within);
  for (const double mean : means) table.group_means.push_back(data.origin + data.scale * mean);
  return table;
}

}  // namespace brakewright
