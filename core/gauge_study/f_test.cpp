#include "core/gauge_study/f_test.hpp"

#include <boost/math/distributions/fisher_f.hpp>
#include <cmath>

namespace brakewright::gauge_study {

FTest f_test(double mean_square, int df, double denominator, int df_denominator) {
  const double f = mean_square / denominator;
  if (!std::isfinite(f)) return mean_square > 0.0 ? FTest{.p = 0.0} : FTest{};
  const boost::math::fisher_f_distribution<double> fisher(df, df_denominator);
  return {.f = f, .p = boost::math::cdf(boost::math::complement(fisher, f))};
}

}  // namespace brakewright::gauge_study
