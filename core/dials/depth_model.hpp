#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/dials/lathe_study.hpp"
#include "core/regression/least_squares.hpp"

/// Depths of jobs as a linear model of the marks, with the dials' own scatter in the weights.
namespace brakewright::dials {

/// How one unit of each coefficient shows in a job: on the outboard face and on the inboard one.
struct JobRow {
  const LatheJob* job = nullptr;
  std::vector<double> outboard = {};  ///< one for each coefficient
  std::vector<double> inboard = {};

  /// On the sum.
  std::vector<double> sum() const;
};

/// Variance of a job's depth at a variance of one setting: measurement and settings.
double depth_variance(const LatheJob& job, double setting_variance);

/// A fit with the scatter that it needed.
struct DepthFit {
  regression::LeastSquares fit;
  double setting_variance_um2 = 0;

  std::size_t dof() const { return fit.dof; }
};

/// @returns nothing where the rows do not determine the coefficients or leave no degree of freedom
std::optional<DepthFit> fit_depths(const std::vector<JobRow>& rows);

/// The variance of one setting at which the weighted sum of squares falls to `target`; 0 where it is below already.
double setting_variance_for(const std::vector<JobRow>& rows, double target);

}  // namespace brakewright::dials
