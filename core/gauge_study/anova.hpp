#pragma once

#include <optional>
#include <vector>

namespace brakewright {

/// One-way analysis of variance; squares are in the values' unit squared.
struct Anova {
  double ss_between = 0.0;
  double ss_within = 0.0;
  int df_between = 0;
  int df_within = 0;
  double ms_between = 0.0;
  double ms_within = 0.0;
  std::optional<double> f = {};          ///< nothing when no scatter is left within the groups
  std::optional<double> p = {};          ///< chance of such an F or a larger one if all groups had one mean
  std::optional<double> r_squared = {};  ///< nothing when all values are equal
  double residual_sd = 0.0;              ///< sqrt(ms_within)
  std::vector<double> group_means = {};
};

/// Splits the scatter of grouped values into that between and that within the groups.
/// @param groups  two or more, none empty, and more values than groups; sizes may differ
/// @throws InputError "missing", "not_finite", "out_of_range" with paths such as "groups[1][4]"
/// Degenerate cases: no scatter within the groups makes F infinite, so f is absent and p is 0 when the means differ;
/// when they do not, p is absent too.
/// Sums run over differences from one of the values, in two passes with compensation (Neumaier 1974), so that a large
/// common offset costs no digits that the doubles still hold.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3; checked on NIST StRD.
Anova one_way_anova(const std::vector<std::vector<double>>& groups);

}  // namespace brakewright
