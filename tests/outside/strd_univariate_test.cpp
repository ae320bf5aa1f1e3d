#include <gtest/gtest.h>

#include <cstdio>

#include "core/circle/circle.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

struct Set {
  const char* file;
  const char* dataset;
  double least_digits;  // of the standard deviation
};

class StrdUnivariate : public testing::TestWithParam<Set> {};

// Source: NIST Statistical Reference Datasets, univariate summary statistics. NumAcc3 is 1000000.2 +- 0.1: the nearest
// doubles alone cost about 6 of the 15 digits of its standard deviation.
TEST_P(StrdUnivariate, MeanAndScatterOfReadingsRoundACircleAreThoseCertified) {
  const Table certified("strd_univ_certified.csv");
  const Table data(GetParam().file);
  Trace spread;
  Trace at_one_angle;
  for (std::size_t row = 0; row < data.size(); ++row) {
    spread.angles_deg.push_back(360.0 * static_cast<double>(row) / static_cast<double>(data.size()));
    spread.values_um.push_back(data.number(row, "y"));
  }
  at_one_angle.values_um = spread.values_um;
  at_one_angle.angles_deg.assign(data.size(), 45.0);
  for (const Trace& trace : {spread, at_one_angle}) {
    const CircleFit fit = fit_circle(trace, 0);
    const double mean = matching_digits(fit.mean_um, certified.certified(GetParam().dataset, "mean", "certified"));
    const double sd =
        matching_digits(fit.residual_sd_um.value(), certified.certified(GetParam().dataset, "sd", "certified"));
    std::printf("%-8s matching digits: mean %.1f, standard deviation %.1f\n", GetParam().dataset, mean, sd);
    EXPECT_GE(mean, 14.0);
    EXPECT_GE(sd, GetParam().least_digits);
  }
}

INSTANTIATE_TEST_SUITE_P(
    Sets, StrdUnivariate,
    testing::Values(Set{"strd_univ_pidigits.csv", "PiDigits", 14.0}, Set{"strd_univ_lottery.csv", "Lottery", 14.0},
                    Set{"strd_univ_lew.csv", "Lew", 14.0}, Set{"strd_univ_numacc1.csv", "NumAcc1", 14.0},
                    Set{"strd_univ_numacc2.csv", "NumAcc2", 13.5}, Set{"strd_univ_numacc3.csv", "NumAcc3", 9.0}),
    [](const auto& set) { return std::string(set.param.dataset); });

}  // namespace
}  // namespace brakewright::outside
