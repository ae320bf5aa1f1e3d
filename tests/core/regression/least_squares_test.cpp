#include "core/regression/least_squares.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::regression {
namespace {

TEST(LeastSquares, ALineThroughThreePointsByHand) {
  // y = 1, 2, 2 at x = 0, 1, 2: slope 1/2, intercept 7/6, residuals -1/6, 1/3, -1/6
  const auto fit = least_squares({.columns = 2, .values = {1, 0, 1, 1, 1, 2}}, std::vector<double>{1, 2, 2});
  ASSERT_TRUE(fit.has_value());
  EXPECT_NEAR(fit->coefficients[0], 7.0 / 6, 1e-14);
  EXPECT_NEAR(fit->coefficients[1], 0.5, 1e-14);
  EXPECT_NEAR(fit->residuals[1], 1.0 / 3, 1e-14);
  EXPECT_NEAR(fit->ss_residual, 1.0 / 6, 1e-14);
  EXPECT_EQ(fit->dof, 1U);
  EXPECT_NEAR(fit->standard_errors[1], std::sqrt(1.0 / 6 / 2), 1e-14);
  const double at_one[] = {1, 1};  // in the middle the fit is surest: variance s^2/3
  EXPECT_NEAR(fit->standard_error_of(at_one), std::sqrt(1.0 / 6 / 3), 1e-14);
}

TEST(LeastSquares, AWeightOfThreeIsARowThatStandsThreeTimes) {
  Random random(1);
  Design once{.columns = 2}, thrice{.columns = 2};
  std::vector<double> y_once, y_thrice, weights;
  for (int i = 0; i < 8; ++i) {
    const double x = random.uniform(), y = random.normal();
    const int times = i % 2 == 0 ? 1 : 3;
    once.values.insert(once.values.end(), {1, x});
    y_once.push_back(y);
    weights.push_back(times);
    for (int k = 0; k < times; ++k) {
      thrice.values.insert(thrice.values.end(), {1, x});
      y_thrice.push_back(y);
    }
  }
  const auto a = least_squares(once, y_once, weights), b = least_squares(thrice, y_thrice);
  EXPECT_NEAR(a->coefficients[0], b->coefficients[0], 1e-13);
  EXPECT_NEAR(a->coefficients[1], b->coefficients[1], 1e-13);
  EXPECT_NEAR(a->ss_residual, b->ss_residual, 1e-13);
}

TEST(LeastSquares, TheResidualsAreSquareToEveryColumn) {
  Random random(2);
  for (int trial = 0; trial < 100; ++trial) {
    const std::size_t columns = 1 + random.below(4), rows = columns + random.below(20);
    Design design{.columns = columns};
    std::vector<double> observed, weights;
    for (std::size_t i = 0; i < rows; ++i) {
      for (std::size_t k = 0; k < columns; ++k) design.values.push_back(1e3 * random.normal());
      observed.push_back(random.normal());
      weights.push_back(0.1 + random.uniform());
    }
    const auto fit = least_squares(design, observed, weights);
    ASSERT_TRUE(fit.has_value());
    for (std::size_t k = 0; k < columns; ++k) {
      double product = 0;
      for (std::size_t i = 0; i < rows; ++i) product += weights[i] * fit->residuals[i] * design.at(i, k);
      EXPECT_NEAR(product, 0, 1e-9);
    }
  }
}

TEST(LeastSquares, AsManyRowsAsColumnsAreMetAndSayNothingOfTheirSpread) {
  const auto fit = least_squares({.columns = 2, .values = {1, 0, 1, 1}}, std::vector<double>{3, 5});
  EXPECT_NEAR(fit->coefficients[1], 2, 1e-14);
  EXPECT_EQ(fit->dof, 0U);
  EXPECT_EQ(fit->residual_sd, 0);
  EXPECT_EQ(fit->standard_errors[0], 0);
}

TEST(LeastSquares, DependentColumnsHaveNoAnswer) {
  const std::vector<double> observed{1, 2, 3};
  EXPECT_FALSE(least_squares({.columns = 2, .values = {1, 2, 2, 4, 3, 6}}, observed).has_value());
  EXPECT_FALSE(least_squares({.columns = 2, .values = {1, 0, 2, 0, 3, 0}}, observed).has_value());
}

TEST(LeastSquares, ColumnsOfAnySizeAreAsGood) {
  const auto fit =
      least_squares({.columns = 2, .values = {1e-150, 0, 1e-150, 1e150, 1e-150, 2e150}}, std::vector<double>{1, 2, 2});
  ASSERT_TRUE(fit.has_value());
  EXPECT_NEAR(fit->coefficients[0] / 1e150, 7.0 / 6, 1e-12);
  EXPECT_NEAR(fit->coefficients[1] * 1e150, 0.5, 1e-12);
}

std::string refusal(const Design& design, const std::vector<double>& observed,
                    const std::vector<double>& weights = {}) {
  try {
    least_squares(design, observed, weights);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(LeastSquares, NonsenseIsRefusedByTheNameOfItsEntry) {
  const Design line{.columns = 2, .values = {1, 0, 1, 1, 1, 2}};
  EXPECT_EQ(refusal(line, {1, 2}), "sizes_differ observations");
  EXPECT_EQ(refusal(line, {1, 2, 3}, {1, 1}), "sizes_differ weights");
  EXPECT_EQ(refusal(line, {1, 2, 3}, {1, 0, 1}), "out_of_range weights[1]");
  EXPECT_EQ(refusal(line, {1, std::nan(""), 3}), "not_finite observations[1]");
  EXPECT_EQ(refusal({.columns = 2, .values = {1, 0}}, {1}), "too_few design");
  EXPECT_EQ(refusal({.columns = 2, .values = {1, 0, 1}}, {1}), "too_few design");
  EXPECT_EQ(refusal({}, {}), "too_few design");
  EXPECT_EQ(refusal({.columns = 1, .values = {1, INFINITY}}, {1, 2}), "not_finite design[1]");
}

}  // namespace
}  // namespace brakewright::regression
