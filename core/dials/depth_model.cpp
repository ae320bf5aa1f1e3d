#include "core/dials/depth_model.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace brakewright::dials {
namespace {

constexpr double kMostVariance = 1e18;

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 3, 3>;
using Column = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 3, 1>;
using Block = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 2, Eigen::Dynamic>;

/// Depths of a job with their measurement's covariance, and which turned faces each is made of.
struct Measured {
  Column depth;
  Matrix covariance;
  Matrix faces;
};

std::vector<int> turned_faces(const LatheJob& job) {
  std::vector<int> turned;
  if (job.outboard_marks > 0) turned.push_back(0);
  if (job.inboard_marks > 0) turned.push_back(1);
  return turned;
}

Measured as_measured(const LatheJob& job, const std::vector<int>& turned) {
  const std::optional<Estimate> readings[] = {job.depth, job.outboard_depth, job.inboard_depth};
  std::vector<std::size_t> used{0};
  for (const int face : turned) {
    if (readings[static_cast<std::size_t>(face) + 1]) used.push_back(static_cast<std::size_t>(face) + 1);
  }
  const auto rows = static_cast<Eigen::Index>(used.size()), columns = static_cast<Eigen::Index>(turned.size());
  Measured measured{
      .depth = Column(rows), .covariance = Matrix::Zero(rows, rows), .faces = Matrix::Ones(rows, columns)};
  for (Eigen::Index i = 0; i < rows; ++i) {
    const std::size_t reading = used[static_cast<std::size_t>(i)];
    measured.depth[i] = readings[reading]->um;
    measured.covariance(i, i) = readings[reading]->u_um * readings[reading]->u_um;
    for (Eigen::Index k = 0; reading > 0 && k < columns; ++k) {
      measured.faces(i, k) = turned[static_cast<std::size_t>(k)] + 1 == static_cast<int>(reading) ? 1 : 0;
    }
  }
  return measured;
}

/// Where there are more depths than turned faces: the best depth of each face, and no more.
Measured reduced(const Measured& measured) {
  if (measured.depth.size() <= measured.faces.cols()) return measured;
  const Matrix weight = measured.covariance.diagonal().cwiseInverse().asDiagonal();
  const Matrix normal = measured.faces.transpose() * weight * measured.faces;
  const Eigen::LLT<Matrix> factor(normal);
  const auto faces = measured.faces.cols();
  return {.depth = factor.solve(Column(measured.faces.transpose() * weight * measured.depth)),
          .covariance = factor.solve(Matrix(Matrix::Identity(faces, faces))),
          .faces = Matrix::Identity(faces, faces)};
}

/// The depths of a job, made independent and of variance 1.
void put_whitened(const JobRow& row, double setting_variance, regression::Design& design, std::vector<double>& depths) {
  const auto turned = turned_faces(*row.job);
  Measured job = reduced(as_measured(*row.job, turned));
  const auto columns = static_cast<Eigen::Index>(design.columns);
  Block faces(job.faces.cols(), columns);
  for (Eigen::Index k = 0; k < faces.rows(); ++k) {
    const auto& of_face = turned[static_cast<std::size_t>(k)] == 0 ? row.outboard : row.inboard;
    for (Eigen::Index c = 0; c < columns; ++c) faces(k, c) = of_face[static_cast<std::size_t>(c)];
  }
  Block block = job.faces * faces;
  job.covariance += row.job->settings * setting_variance * (job.faces * job.faces.transpose());
  const Eigen::LLT<Matrix> factor(job.covariance);
  factor.matrixL().solveInPlace(block);
  factor.matrixL().solveInPlace(job.depth);
  for (Eigen::Index i = 0; i < job.depth.size(); ++i) {
    for (Eigen::Index c = 0; c < columns; ++c) design.values.push_back(block(i, c));
    depths.push_back(job.depth[i]);
  }
}

std::optional<regression::LeastSquares> fit_at(const std::vector<JobRow>& rows, double setting_variance) {
  if (rows.empty()) return std::nullopt;
  regression::Design design{.columns = rows.front().outboard.size()};
  std::vector<double> depths;
  for (const JobRow& row : rows) put_whitened(row, setting_variance, design, depths);
  if (design.rows() <= design.columns) return std::nullopt;
  return regression::least_squares(design, depths);
}

}  // namespace

std::vector<double> JobRow::sum() const {
  std::vector<double> both = outboard;
  for (std::size_t i = 0; i < both.size(); ++i) both[i] += inboard[i];
  return both;
}

double depth_variance(const LatheJob& job, double setting_variance) {
  const auto settings = static_cast<double>(turned_faces(job).size()) * job.settings;
  return job.depth.u_um * job.depth.u_um + settings * setting_variance;
}

double setting_variance_for(const std::vector<JobRow>& rows, double target) {
  const auto over = [&](double variance) { return fit_at(rows, variance)->ss_residual - target; };
  const double at_none = over(0);
  if (at_none <= 0) return 0;
  double low = 0, at_low = at_none, high = 1, at_high = over(high);
  while (at_high > 0 && high < kMostVariance) {
    low = high;
    at_low = at_high;
    high *= 4;
    at_high = over(high);
  }
  if (at_high >= 0) return high;
  std::uintmax_t steps = 100;
  const boost::math::tools::eps_tolerance<double> near_enough(40);
  const auto [below, above] = boost::math::tools::toms748_solve(over, low, high, at_low, at_high, near_enough, steps);
  return (below + above) / 2;
}

std::optional<DepthFit> fit_depths(const std::vector<JobRow>& rows) {
  const auto plain = fit_at(rows, 0);
  if (!plain) return std::nullopt;
  DepthFit made;
  made.setting_variance_um2 = setting_variance_for(rows, static_cast<double>(plain->dof));
  made.fit = *fit_at(rows, made.setting_variance_um2);
  return made;
}

}  // namespace brakewright::dials
