#include "core/gauge_study/groups.hpp"

#include <algorithm>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>
#include <tuple>
#include <unordered_map>

#include "core/gauge_study/findings.hpp"
#include "core/gauge_study/intervals.hpp"
#include "core/gauge_study/sums.hpp"
#include "core/uncertainty/budget.hpp"

namespace brakewright::gauge_study {
namespace {

constexpr double kConfidence = 0.95;

/// A sum of squares with its degrees of freedom.
struct Squares {
  double ss = 0;
  int df = 0;
  double variance() const { return df > 0 ? ss / df : 0.0; }
};

/// Readings of one group less the first reading of all.
struct Readings {
  std::map<std::string, std::vector<double>> by_part;
  std::map<std::tuple<std::string, std::string, std::string>, std::vector<double>> by_cell;
  std::vector<double> all;
};

Squares within(const Readings& readings) {
  Sum squares;
  int df = 0;
  for (const auto& [cell, values] : readings.by_cell) {
    const double mean = mean_of(values);
    for (const double value : values) squares.add((value - mean) * (value - mean));
    df += static_cast<int>(values.size()) - 1;
  }
  return {.ss = squares.value(), .df = df};
}

double two_sided(double t, double df) {
  const boost::math::students_t student(df);
  return 2 * boost::math::cdf(boost::math::complement(student, std::abs(t)));
}

/// Chance that |value| is so large though its expectation is 0; 0 when it is certain that it is not.
std::optional<double> p_of(double value, double u, double df) {
  if (u > 0) return two_sided(value / u, df);
  return value == 0 ? std::nullopt : std::optional(0.0);
}

/// Two-sided p of two variances, each by its degrees of freedom.
std::optional<double> spread_p(const Squares& own, const Squares& others) {
  if (others.variance() <= 0) return own.variance() > 0 ? std::optional(0.0) : std::nullopt;
  const boost::math::fisher_f_distribution<double> fisher(own.df, others.df);
  const double f = own.variance() / others.variance();
  return 2 * std::min(boost::math::cdf(fisher, f), boost::math::cdf(boost::math::complement(fisher, f)));
}

std::optional<double> bonferroni(std::optional<double> p, std::size_t tests) {
  if (p) p = std::min(1.0, *p * static_cast<double>(tests));
  return p;
}

using Members = std::vector<bool>;

/// Those left when whoever differs most from the rest, at the level of findings, is taken out one by one. Of two nobody
/// can say which of them is out.
/// @param p_of_one  how surprising this one is among the members; nothing or 1 where not at all
template <class P>
Members ordinary(std::size_t count, const P& p_of_one) {
  Members members(count, true);
  for (std::size_t left = count; left > 2; --left) {
    double least = kLevel;
    std::size_t odd = count;
    for (std::size_t i = 0; i < count; ++i) {
      if (!members[i]) continue;
      const double p = p_of_one(i, members).value_or(1.0);
      if (p <= least) {
        least = p;
        odd = i;
      }
    }
    if (odd == count) break;
    members[odd] = false;
  }
  return members;
}

class Own {
 public:
  Own(const Input& input, Factor factor, const Balanced* balanced, const StudyVariances& study)
      : input_(input), balanced_(balanced), study_(study), origin_(input.rows.front().value) {
    std::unordered_map<std::string, std::size_t> numbers;
    for (const Row& row : input.rows) {
      const std::string& name = level_of(row, factor);
      const auto [found, is_new] = numbers.try_emplace(name, names_.size());
      if (is_new) {
        names_.push_back(name);
        readings_.emplace_back();
      }
      put(readings_[found->second], row);
    }
    for (const auto& readings : readings_) squares_.push_back(within(readings));
    const auto spread = [this](std::size_t i, const Members& among) { return spread_of(i, among).p; };
    const auto offset = [this](std::size_t i, const Members& among) { return offset_of(i, among).p; };
    even_spread_ = ordinary(names_.size(), spread);
    even_offset_ = balanced_ != nullptr ? ordinary(names_.size(), offset) : Members(names_.size(), true);
  }

  std::vector<Group> groups() const {
    std::vector<Group> found;
    for (std::size_t i = 0; i < names_.size(); ++i) {
      Group group{.name = names_[i], .readings = readings_[i].all.size()};
      group.mean = origin_ + mean_of(readings_[i].all);
      put_spread(group, i);
      put_offset(group, i);
      put_bias(group, i);
      put_reading(group, i);
      found.push_back(std::move(group));
    }
    return found;
  }

 private:
  void put(Readings& readings, const Row& row) const {
    const double value = row.value - origin_;
    readings.all.push_back(value);
    readings.by_part[row.part].push_back(value);
    readings.by_cell[{row.part, row.operator_name, row.instrument.value_or("")}].push_back(value);
  }

  struct Compared {
    std::optional<double> value = {};
    double u = 0;
    std::optional<double> p = {};
  };

  /// Ratio of standard deviations, own to those of the other members together.
  Compared spread_of(std::size_t i, const Members& among) const {
    Squares others;
    for (std::size_t k = 0; k < squares_.size(); ++k) {
      if (k == i || !among[k]) continue;
      others.ss += squares_[k].ss;
      others.df += squares_[k].df;
    }
    const Squares& own = squares_[i];
    if (own.df == 0 || others.df == 0) return {};
    Compared found{.p = bonferroni(spread_p(own, others), names_.size())};
    if (others.variance() > 0) found.value = std::sqrt(own.variance() / others.variance());
    return found;
  }

  /// Own mean less that of the other members; of a full table.
  Compared offset_of(std::size_t i, const Members& among) const {
    const Crossed& data = *balanced_->data;
    std::vector<double> others;
    for (std::size_t k = 0; k < names_.size(); ++k) {
      if (k != i && among[k]) others.push_back(data.level_means[k]);
    }
    if (others.empty()) return {};
    const double offset = (data.level_means[i] - mean_of(others)) * data.scale;
    const auto readings = static_cast<double>(data.parts.size() * data.repeats);
    const double u = std::sqrt(balanced_->offsets.ms / readings * (1 + 1 / static_cast<double>(others.size())));
    return {.value = offset, .u = u, .p = bonferroni(p_of(offset, u, balanced_->offsets.df), names_.size())};
  }

  void put_spread(Group& group, std::size_t i) const {
    const Squares& own = squares_[i];
    group.dof = own.df;
    if (own.df == 0) return;
    group.repeatability_sd = std::sqrt(own.variance());
    group.repeatability_interval = sd_interval({own.variance(), own.df});
    const Compared found = spread_of(i, even_spread_);
    group.spread_ratio = found.value;
    group.spread_p = found.p;
  }

  void put_offset(Group& group, std::size_t i) const {
    if (balanced_ == nullptr || names_.size() < 2) return;
    const Compared found = offset_of(i, even_offset_);
    const double half = found.u * coverage_factor(balanced_->offsets.df, kConfidence);
    group.offset = found.value;
    group.offset_interval = Interval{*found.value - half, *found.value + half};
    group.offset_p = found.p;
  }

  double own_variance(std::size_t i) const {
    return squares_[i].df > 0 ? squares_[i].variance() : study_.repeatability;
  }

  void put_errors(Group& group, std::size_t i) const {
    for (const Reference& reference : input_.references) {
      const auto found = readings_[i].by_part.find(reference.part);
      if (found == readings_[i].by_part.end()) continue;
      const double mean = mean_of(found->second);
      const double u_mean_squared =
          own_variance(i) / static_cast<double>(found->second.size()) + input_.u_instrument * input_.u_instrument;
      PartError error{.part = reference.part,
                      .mean = origin_ + mean,
                      .reference = reference.value,
                      .u_reference = reference.u,
                      .difference = mean - (reference.value - origin_)};
      const double expanded = 2 * std::sqrt(u_mean_squared + reference.u * reference.u);
      if (expanded > 0) error.en = error.difference / expanded;
      group.errors.push_back(std::move(error));
    }
  }

  /// Standard uncertainty of the mean difference from its own scatter.
  /// @param part  of the first difference
  Component scatter_of(const std::vector<double>& differences, std::size_t i, const std::string& part) const {
    const auto count = static_cast<double>(differences.size());
    if (differences.size() > 1) {
      const double mean = mean_of(differences);
      Sum squares;
      for (const double d : differences) squares.add((d - mean) * (d - mean));
      return {.name = "scatter", .u = std::sqrt(squares.value() / (count - 1) / count), .dof = count - 1};
    }
    const Squares& own = squares_[i];
    return {.name = "repeatability",
            .u = std::sqrt(own_variance(i) / static_cast<double>(readings_[i].by_part.at(part).size())),
            .dof = own.df > 0 ? std::optional<double>(own.df) : std::nullopt};
  }

  void put_bias(Group& group, std::size_t i) const {
    put_errors(group, i);
    if (group.errors.empty()) return;
    std::vector<double> differences, reference_us;
    for (const PartError& error : group.errors) {
      differences.push_back(error.difference);
      reference_us.push_back(error.u_reference);
    }
    const std::vector<Component> components{scatter_of(differences, i, group.errors.front().part),
                                            {.name = "references", .u = mean_of(reference_us)}};
    const Budget budget = combine(components, kConfidence);
    const double bias = mean_of(differences);
    group.bias = bias;
    group.u_bias = budget.u;
    group.bias_interval = Interval{bias - budget.expanded, bias + budget.expanded};
    group.bias_p = bonferroni(p_of(bias, budget.u, budget.dof_effective.value_or(1e9)), names_.size());
  }

  void put_reading(Group& group, std::size_t i) const {
    double common = 0;
    if (!group.errors.empty()) {
      group.u_reading_basis = ReadingBasis::reference;
      std::vector<double> squares;
      for (const PartError& error : group.errors) {
        squares.push_back(error.u_reference * error.u_reference + error.difference * error.difference);
      }
      common = mean_of(squares);
    } else {
      common = input_.u_instrument * input_.u_instrument;
      if (study_.reproducibility) {
        group.u_reading_basis = ReadingBasis::reproducibility;
        common += *study_.reproducibility;
      }
    }
    group.u_common = std::sqrt(common);
    group.u_reading = std::sqrt(own_variance(i) + common);
  }

  const Input& input_;
  const Balanced* balanced_;
  const StudyVariances& study_;
  double origin_;
  std::vector<std::string> names_;
  std::vector<Readings> readings_;
  std::vector<Squares> squares_;
  Members even_spread_, even_offset_;  // those that the others are held against
};

}  // namespace

std::vector<Group> groups_of(const Input& input, Factor factor, const Balanced* balanced, const StudyVariances& study) {
  return Own(input, factor, balanced, study).groups();
}

}  // namespace brakewright::gauge_study
