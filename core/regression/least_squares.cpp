#include "core/regression/least_squares.hpp"

#include <Eigen/Core>
#include <Eigen/QR>
#include <cmath>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::regression {
namespace {

constexpr double kDependent = 1e-10;
constexpr int kRefinements = 2;

void want_finite(double value, const char* list, std::size_t index) {
  if (!std::isfinite(value)) {
    throw InputError("not_finite", list + ("[" + std::to_string(index) + "]"), "a finite number is needed here");
  }
}

void check(const Design& design, std::span<const double> observations, std::span<const double> weights) {
  if (design.columns == 0 || design.rows() < design.columns || design.rows() * design.columns != design.values.size()) {
    throw InputError("too_few", "design", "at least one column, and at least as many whole rows as columns");
  }
  if (observations.size() != design.rows()) {
    throw InputError("sizes_differ", "observations", "one observation for each row is needed");
  }
  if (!weights.empty() && weights.size() != design.rows()) {
    throw InputError("sizes_differ", "weights", "one weight for each row, or none");
  }
  for (std::size_t i = 0; i < design.values.size(); ++i) want_finite(design.values[i], "design", i);
  for (std::size_t i = 0; i < observations.size(); ++i) want_finite(observations[i], "observations", i);
  for (std::size_t i = 0; i < weights.size(); ++i) {
    want_finite(weights[i], "weights", i);
    if (weights[i] <= 0) {
      throw InputError("out_of_range", "weights[" + std::to_string(i) + "]", "must be more than 0");
    }
  }
}

using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// The system with every row times the root of its weight and every column scaled to length 1.
struct Scaled {
  Eigen::MatrixXd matrix;
  Eigen::VectorXd observed, root_weight, column_length;
};

Scaled scaled(const Design& design, std::span<const double> observations, std::span<const double> weights) {
  const auto rows = static_cast<Eigen::Index>(design.rows()), columns = static_cast<Eigen::Index>(design.columns);
  Scaled system;
  system.root_weight = Eigen::VectorXd::Ones(rows);
  if (!weights.empty()) {
    system.root_weight = Eigen::Map<const Eigen::VectorXd>(weights.data(), rows).cwiseSqrt();
  }
  system.matrix = system.root_weight.asDiagonal() * Eigen::Map<const Rows>(design.values.data(), rows, columns);
  system.observed = system.root_weight.cwiseProduct(Eigen::Map<const Eigen::VectorXd>(observations.data(), rows));
  system.column_length = system.matrix.colwise().norm();
  for (Eigen::Index k = 0; k < columns; ++k) {
    if (system.column_length[k] > 0) system.matrix.col(k) /= system.column_length[k];
  }
  return system;
}

}  // namespace

double LeastSquares::standard_error_of(std::span<const double> combination) const {
  const std::size_t columns = coefficients.size();
  double variance = 0;
  for (std::size_t i = 0; i < columns; ++i) {
    for (std::size_t j = 0; j < columns; ++j) variance += combination[i] * combination[j] * covariance[i * columns + j];
  }
  return std::sqrt(std::max(0.0, variance));
}

std::optional<LeastSquares> least_squares(const Design& design, std::span<const double> observations,
                                          std::span<const double> weights) {
  check(design, observations, weights);
  const Scaled system = scaled(design, observations, weights);
  if (system.column_length.minCoeff() <= 0) return std::nullopt;
  Eigen::ColPivHouseholderQR<Eigen::MatrixXd> factor(system.matrix);
  factor.setThreshold(kDependent);
  const auto rows = system.matrix.rows(), columns = system.matrix.cols();
  if (factor.rank() < columns) return std::nullopt;

  Eigen::VectorXd solution = factor.solve(system.observed);
  for (int i = 0; i < kRefinements; ++i) solution += factor.solve(system.observed - system.matrix * solution);
  const Eigen::VectorXd off = system.observed - system.matrix * solution;

  LeastSquares fit;
  fit.ss_residual = off.squaredNorm();
  fit.dof = static_cast<std::size_t>(rows - columns);
  const double variance = fit.dof > 0 ? fit.ss_residual / static_cast<double>(fit.dof) : 0;
  fit.residual_sd = std::sqrt(variance);
  const Eigen::MatrixXd triangle = factor.matrixR().topLeftCorner(columns, columns);
  const Eigen::MatrixXd inverse = factor.colsPermutation() * triangle.triangularView<Eigen::Upper>().solve(
                                                                 Eigen::MatrixXd::Identity(columns, columns));
  const Eigen::MatrixXd unit = inverse * inverse.transpose();
  for (Eigen::Index i = 0; i < columns; ++i) {
    fit.coefficients.push_back(solution[i] / system.column_length[i]);
    fit.standard_errors.push_back(std::sqrt(variance * unit(i, i)) / system.column_length[i]);
    for (Eigen::Index j = 0; j < columns; ++j) {
      fit.unit_covariance.push_back(unit(i, j) / (system.column_length[i] * system.column_length[j]));
      fit.covariance.push_back(variance * fit.unit_covariance.back());
    }
  }
  for (Eigen::Index i = 0; i < rows; ++i) fit.residuals.push_back(off[i] / system.root_weight[i]);
  return fit;
}

}  // namespace brakewright::regression
