#pragma once

#include <optional>

namespace brakewright::gauge_study {

struct FTest {
  std::optional<double> f = {};  ///< nothing when the denominator is 0
  std::optional<double> p = {};  ///< chance of such an F or a larger one; 0 for an infinite F, nothing for 0/0
};

/// The ratio of two mean squares, >= 0, held against Fisher's distribution with their degrees of freedom, >= 1.
FTest f_test(double mean_square, int df, double denominator, int df_denominator);

}  // namespace brakewright::gauge_study
