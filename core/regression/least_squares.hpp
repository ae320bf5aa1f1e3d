#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

/// Linear regression.
namespace brakewright::regression {

/// One row for each observation, row after row.
struct Design {
  std::size_t columns = 0;
  std::vector<double> values = {};  ///< rows * columns

  std::size_t rows() const { return columns == 0 ? 0 : values.size() / columns; }
  double at(std::size_t row, std::size_t column) const { return values[row * columns + column]; }
};

struct LeastSquares {
  std::vector<double> coefficients = {};     ///< one for each column
  std::vector<double> standard_errors = {};  ///< of them, from the residuals' own spread; 0 without degrees of freedom
  std::vector<double> covariance = {};       ///< columns * columns: standard error squared on the diagonal
  std::vector<double> unit_covariance = {};  ///< the same for observations whose variance at weight 1 is known to be 1
  std::vector<double> residuals = {};        ///< observed less fitted, in the observations' unit
  double ss_residual = 0;                    ///< weighted sum of squares
  std::size_t dof = 0;                       ///< rows less columns
  double residual_sd = 0;                    ///< of an observation of weight 1; 0 without degrees of freedom

  /// Standard error of sum_k combination[k] * coefficient[k].
  double standard_error_of(std::span<const double> combination) const;
};

/// Fits observations = design * coefficients so that the weighted sum of squared residuals is least.
///
/// Householder QR with column pivoting of the rows times the square root of their weights, columns scaled to length 1,
/// and two steps of iterative refinement.
/// @param observations  one for each row
/// @param weights       one for each row, > 0, in proportion to 1/variance; empty: all 1
/// @returns nothing when the columns do not determine every coefficient (one is a combination of the others to
///          1e-10 of its length)
/// @throws InputError "sizes_differ" (`observations`, `weights`), "too_few" (`design`: fewer rows than columns, or no
///         column), "not_finite", "out_of_range" (a weight that is not above 0), naming the entry
/// Source: Golub and Van Loan, Matrix Computations, 5.3 and 5.5; held against NIST StRD linear least squares sets.
std::optional<LeastSquares> least_squares(const Design& design, std::span<const double> observations,
                                          std::span<const double> weights = {});

}  // namespace brakewright::regression
