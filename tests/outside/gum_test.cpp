#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include "core/uncertainty/budget.hpp"
#include "core/uncertainty/monte_carlo.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

class EndGauge : public testing::Test {
 protected:
  double published(const char* quantity) const { return expected.number(expected.row_of(quantity), "published"); }
  double computed(const char* quantity) const { return expected.number(expected.row_of(quantity), "computed"); }
  double input(const char* quantity, const char* column) const {
    return inputs.number(inputs.row_of(quantity), column);
  }

  Table inputs{"gum_h1_inputs.csv"};
  Table expected{"gum_h1_expected.csv"};
};

// Source: JCGM 100:2008, H.1.3.2: the comparator's 5.8 (24), 3.9 (5) and 6.7 nm (8 degrees of freedom).
TEST_F(EndGauge, TheDifferenceHasItsCombinedUncertaintyAndDegreesOfFreedom) {
  const Budget difference =
      combine(std::vector<Component>{{.u = 5.8, .dof = 24.0}, {.u = 3.9, .dof = 5.0}, {.u = 6.7, .dof = 8.0}}, 0.95);
  EXPECT_NEAR(difference.u, computed("u_d_nm"), 1e-8);
  // The Guide puts the rounded 9.7 nm into Welch-Satterthwaite; with all digits it is 25.4.
  EXPECT_NEAR(difference.dof_effective.value() * std::pow(9.7 / difference.u, 4), computed("dof_d"), 1e-7);
}

// Source: JCGM 100:2008, H.1.3.4: 0.2 degree and a cyclic 0.5 degree.
TEST_F(EndGauge, TheTemperatureTakesTheCyclesHalfWidth) {
  const Budget theta =
      combine(std::vector<Component>{{.u = 0.2}, {.u = standard_uncertainty(0.5, Distribution::u_shaped)}}, 0.95);
  EXPECT_NEAR(theta.u, published("u_theta_degC"), 0.01);
  EXPECT_NEAR(standard_uncertainty(2e-6, Distribution::rectangular), input("alpha_s", "std_uncertainty"), 5e-8);
  EXPECT_NEAR(standard_uncertainty(1e-6, Distribution::rectangular), input("delta_alpha", "std_uncertainty"), 5e-9);
  EXPECT_NEAR(standard_uncertainty(0.05, Distribution::rectangular), input("delta_theta", "std_uncertainty"), 5e-4);
}

// Source: JCGM 100:2008, H.1.4 to H.1.6, of l = l_s + d - l_s (delta_alpha theta + alpha_s delta_theta).
TEST_F(EndGauge, CombinesToThirtyTwoNanometresAndNinetyThree) {
  const double length = input("l_s", "value");
  const auto u = [&](const char* quantity) { return input(quantity, "std_uncertainty"); };
  const std::vector<Component> components{{.name = "l_s", .u = u("l_s"), .dof = input("l_s", "dof")},
                                          {.name = "d", .u = computed("u_d_nm"), .dof = computed("dof_d")},
                                          {.name = "alpha_s", .u = u("alpha_s"), .sensitivity = 0.0},
                                          {.name = "theta", .u = u("theta"), .sensitivity = 0.0},
                                          {.name = "delta_alpha",
                                           .u = u("delta_alpha"),
                                           .sensitivity = -length * input("theta", "value"),
                                           .dof = input("delta_alpha", "dof")},
                                          {.name = "delta_theta",
                                           .u = u("delta_theta"),
                                           .sensitivity = -length * input("alpha_s", "value"),
                                           .dof = input("delta_theta", "dof")}};
  const Budget budget = combine(components, 0.99);
  EXPECT_NEAR(budget.contributions[4].u, computed("contrib_delta_alpha_nm"), 1e-8);
  EXPECT_NEAR(budget.contributions[5].u, computed("contrib_delta_theta_nm"), 1e-4);
  EXPECT_NEAR(budget.u, computed("u_combined_nm"), 1e-2);
  EXPECT_NEAR(budget.u, published("u_combined_nm"), 0.5);
  EXPECT_NEAR(budget.dof_effective.value(), computed("dof_eff"), 0.1);
  EXPECT_EQ(std::floor(*budget.dof_effective), published("dof_eff"));
  EXPECT_NEAR(budget.k, computed("k99_dof16"), 1e-8);
  EXPECT_NEAR(budget.expanded, published("U99_nm"), 0.5);
}

// Source: Student factors in the layout of JCGM 100:2008, Table G.2, 6 decimals.
TEST(CoverageFactors, AreThoseOfTheTable) {
  const Table factors("gum_g2_t_factors.csv");
  const std::pair<const char*, double> columns[] = {{"p68.27", 0.6827}, {"p90.00", 0.90}, {"p95.00", 0.95},
                                                    {"p95.45", 0.9545}, {"p99.00", 0.99}, {"p99.73", 0.9973}};
  int checked = 0;
  for (std::size_t row = 0; row < factors.size(); ++row) {
    const std::string& dof = factors.text(row, "dof");
    const bool finite = !dof.empty() && dof.find_first_not_of("0123456789") == std::string::npos;
    for (const auto& [column, confidence] : columns) {
      const double k = coverage_factor(finite ? std::optional(std::stod(dof)) : std::nullopt, confidence);
      EXPECT_NEAR(k, factors.number(row, column), 5.1e-7) << dof << " " << column;
      ++checked;
    }
  }
  EXPECT_GE(checked, 6 * 28);
}

// Source: JCGM 100:2008, H.3 (thermometer line). About the mean temperature intercept and slope are uncorrelated
// (H.3.5), so that the correction at 30 C is a budget of the two.
TEST(ThermometerLine, TheCorrectionAtThirtyDegreesIsABudgetOfMeanAndSlope) {
  const Table data("gum_h3_data.csv");
  const Table expected("gum_h3_expected.csv");
  const auto published = [&](const char* key) { return expected.text(expected.row_of(key), "published"); };
  const auto computed = [&](const char* key) { return expected.number(expected.row_of(key), "computed"); };
  const double n = static_cast<double>(data.size());
  double mean_t = 0.0;
  double mean_b = 0.0;
  for (std::size_t row = 0; row < data.size(); ++row) {
    mean_t += data.number(row, "reading_degC") / n;
    mean_b += data.number(row, "correction_degC") / n;
  }
  double tt = 0.0;
  double tb = 0.0;
  for (std::size_t row = 0; row < data.size(); ++row) {
    tt += std::pow(data.number(row, "reading_degC") - mean_t, 2);
    tb += (data.number(row, "reading_degC") - mean_t) * (data.number(row, "correction_degC") - mean_b);
  }
  const double slope = tb / tt;
  double rest = 0.0;
  for (std::size_t row = 0; row < data.size(); ++row) {
    const double line = mean_b + slope * (data.number(row, "reading_degC") - mean_t);
    rest += std::pow(data.number(row, "correction_degC") - line, 2);
  }
  const double s = std::sqrt(rest / (n - 2.0));
  EXPECT_NEAR(s, computed("residual_s"), 1e-12);

  const auto at = [&](double t_degC) {
    return combine(
        std::vector<Component>{
            {.name = "mean", .u = s / std::sqrt(n), .dof = n - 2.0},
            {.name = "slope", .u = s / std::sqrt(tt), .sensitivity = t_degC - mean_t, .dof = n - 2.0}},
        0.95);
  };
  EXPECT_NEAR(at(30.0).u, computed("u_b_at_30"), 1e-12);
  EXPECT_NEAR(at(30.0).u, std::stod(published("u_b_at_30")), half_last_place(published("u_b_at_30")));
  EXPECT_NEAR(at(20.0).u, computed("u_y1"), 1e-12);
  EXPECT_NEAR(mean_b + slope * (30.0 - mean_t), computed("b_at_30"), 1e-10);
}

double sum_of(std::span<const double> inputs) {
  double sum = 0.0;
  for (const double input : inputs) sum += input;
  return sum;
}

// Source: JCGM 101:2008, 9.2.2 and 9.2.3: four normal, then four rectangular quantities of unit uncertainty.
TEST(AdditiveModel, HalfWidthsAreThoseOfTheSupplement) {
  const Table expected("jcgm101_additive.csv");
  const Distribution shapes[] = {Distribution::normal, Distribution::rectangular};
  for (std::size_t row = 0; row < expected.size(); ++row) {
    const std::vector<Quantity> inputs(4, Quantity{.mean = 0.0, .u = 1.0, .distribution = shapes[row]});
    const Propagated answer = propagate(inputs, sum_of, 1000000, 0.95, 20261125 + row);
    EXPECT_NEAR(answer.mean, expected.number(row, "mean"), 0.01);
    EXPECT_NEAR(answer.u, expected.number(row, "std_uncertainty"), 0.006);
    const double half_width = (answer.symmetric.high - answer.symmetric.low) / 2.0;
    EXPECT_NEAR(half_width, expected.number(row, "half_width_95_exact"), 0.012);
    EXPECT_NEAR((answer.shortest.high - answer.shortest.low) / 2.0, expected.number(row, "half_width_95_exact"), 0.015);
  }
  const Budget budget = combine(std::vector<Component>(4, Component{.u = 1.0}), 0.95);
  EXPECT_NEAR(budget.expanded, expected.number(0, "half_width_95_exact"), 1e-8);
}

// Source: NPL report DEM-ES-011, 9.2, Table 9.2: y = ln x, x rectangular on [0.1, 1.1].
TEST(LogOfARectangle, IsSkewAsPublished) {
  const Table expected("mc_log_rectangular.csv");
  const auto exact = [&](const char* key) { return expected.number(expected.row_of(key), "exact"); };
  const std::vector<Quantity> inputs{
      {.mean = 0.6, .u = 0.5 / std::sqrt(3.0), .distribution = Distribution::rectangular}};
  const Propagated answer = propagate(
      inputs, [](std::span<const double> x) { return std::log(x[0]); }, 1000000, 0.95, 3);
  EXPECT_NEAR(answer.mean, exact("mc_mean"), 0.003);
  EXPECT_NEAR(answer.u, exact("mc_std_uncertainty"), 0.002);
  EXPECT_NEAR(answer.shortest.low, exact("mc_shortest95_low"), 0.01);
  EXPECT_NEAR(answer.shortest.high, exact("mc_shortest95_high"), 0.001);
}

}  // namespace
}  // namespace brakewright::outside
