#include <gtest/gtest.h>

#include <cmath>

#include "core/regression/least_squares.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::regression {
namespace {

using outside::matching_digits;
using outside::Table;

struct Dataset {
  const char* name;
  const char* file;
  bool constant;
  int powers;   ///< of x, for the polynomials; 0 where the columns x1, x2, ... are taken as they stand
  int columns;  ///< x1 to x<columns>; 0: x alone
  double digits_coefficients, digits_errors;
};

Design design_of(const Dataset& set, const Table& table) {
  Design design;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (set.constant) design.values.push_back(1);
    if (set.columns > 0) {
      for (int k = 1; k <= set.columns; ++k) design.values.push_back(table.number(row, "x" + std::to_string(k)));
    } else {
      for (int power = 1; power <= std::max(1, set.powers); ++power) {
        design.values.push_back(std::pow(table.number(row, "x"), power));
      }
    }
  }
  design.columns = design.values.size() / table.size();
  return design;
}

// NIST StRD, linear least squares: Norris (a line), NoInt1 (through the origin), Longley (six regressors that are
// nearly dependent), Wampler1, 2 and 4 (fifth degree polynomials); certified values to 15 digits.
TEST(OutsideLeastSquares, TheReferenceSetsOfNistComeOut) {
  const Table certified("strd_lls_certified.csv");
  const Dataset sets[] = {
      {"Norris", "strd_lls_norris.csv", true, 0, 0, 11, 11},   {"NoInt1", "strd_lls_noint1.csv", false, 0, 0, 13, 13},
      {"Longley", "strd_lls_longley.csv", true, 0, 6, 9, 9},   {"Wampler1", "strd_lls_wampler1.csv", true, 5, 0, 8, 0},
      {"Wampler2", "strd_lls_wampler2.csv", true, 5, 0, 9, 0}, {"Wampler4", "strd_lls_wampler4.csv", true, 5, 0, 7, 9}};
  for (const auto& set : sets) {
    SCOPED_TRACE(set.name);
    const Table table(set.file);
    std::vector<double> observed;
    for (std::size_t row = 0; row < table.size(); ++row) observed.push_back(table.number(row, "y"));
    const auto fit = least_squares(design_of(set, table), observed);
    ASSERT_TRUE(fit.has_value());
    EXPECT_EQ(static_cast<double>(fit->dof), certified.certified(set.name, "df_residual", "certified"));
    for (std::size_t k = 0; k < fit->coefficients.size(); ++k) {
      const std::string index = std::to_string(set.constant ? k : k + 1);
      const double b = certified.certified(set.name, "b" + index, "certified");
      EXPECT_GE(matching_digits(fit->coefficients[k], b), set.digits_coefficients) << "b" << index;
      const double se = certified.certified(set.name, "se_b" + index, "certified");
      if (se > 0) {
        EXPECT_GE(matching_digits(fit->standard_errors[k], se), set.digits_errors) << "se_b" << index;
      } else {
        EXPECT_LT(fit->standard_errors[k], 1e-6) << "se_b" << index;
      }
    }
    const double sd = certified.certified(set.name, "residual_sd", "certified");
    if (sd > 0) {
      EXPECT_GE(matching_digits(fit->residual_sd, sd), set.digits_errors);
      EXPECT_GE(matching_digits(fit->ss_residual, certified.certified(set.name, "ss_residual", "certified")),
                set.digits_errors);
    } else {
      EXPECT_LT(fit->residual_sd, 1e-6);
    }
  }
}

}  // namespace
}  // namespace brakewright::regression
