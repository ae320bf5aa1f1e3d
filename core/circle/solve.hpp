#pragma once

#include <vector>

#include "core/circle/angle_groups.hpp"

namespace brakewright::circle {

/// Least squares of c0, a_1, b_1, ..., a_K, b_K on grouped readings.
struct Solution {
  int order = 0;                          ///< lower than asked where the columns cannot be told apart
  std::vector<double> coefficients = {};  ///< 2 order + 1
  /// Covariance for unit variance of one reading, (2 order + 1)^2 row by row; only its diagonal (2 order + 1) when
  /// `diagonal`, as the columns of an even spacing are orthogonal.
  std::vector<double> covariance = {};
  bool diagonal = false;
  double residual_ss = 0.0;  ///< of all readings: about the curve, their own angle's scatter included

  double covariance_at(std::size_t row, std::size_t column) const {
    if (diagonal) return row == column ? covariance[row] : 0.0;
    return covariance[row * coefficients.size() + column];
  }
};

/// @param order  at most floor((groups - 1)/2)
/// Even spacing: orthogonal sums. Otherwise Householder QR, and for large problems the normal equations from sums of
/// cos jt and sin jt with two corrections by the true residuals (corrected seminormal equations, Bjorck, Numerical
/// Methods for Least Squares Problems, 1996, 6.6.5).
Solution solve(const AngleGroups& groups, int order);

}  // namespace brakewright::circle
