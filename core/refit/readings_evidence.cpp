#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "core/circle/true_curve.hpp"
#include "core/degree.hpp"
#include "core/refit/belief.hpp"

namespace brakewright::refit {
namespace {

using Eigen::Index;
using Eigen::Matrix2d;
using Eigen::MatrixXd;
using Eigen::Vector2d;
using Eigen::VectorXd;

constexpr Index kOrders = static_cast<Index>(kDrawnOrders);
constexpr Index kSize = 4 * kOrders;
constexpr double kNegligible = 1e-9;

/// Inverse covariance of the coefficients and what it weighs, for noise of variance 1.
struct Sums {
  MatrixXd information = MatrixXd::Zero(kSize, kSize);
  VectorXd weighted = VectorXd::Zero(kSize);

  void add(const MatrixXd& more_information, const VectorXd& more_weighted) {
    information += more_information;
    weighted += more_weighted;
  }
};

struct Bodies {
  bool hub = true, part = true;
};

/// Rows of one turn, and its values, both without their means: the indicator's zero is free.
struct Rows {
  MatrixXd design;
  VectorXd values;
};

Rows rows_of(const Trace& trace, double turn_deg, Bodies bodies) {
  const auto count = static_cast<Index>(trace.angles_deg.size());
  Rows rows{.design = MatrixXd::Zero(count, kSize), .values = VectorXd(count)};
  for (Index row = 0; row < count; ++row) {
    const double angle = trace.angles_deg[static_cast<std::size_t>(row)] * kRadPerDeg;
    rows.values[row] = trace.values_um[static_cast<std::size_t>(row)];
    for (Index k = 1; k <= kOrders; ++k) {
      const double here = static_cast<double>(k) * angle;
      const double own = here - static_cast<double>(k) * turn_deg * kRadPerDeg;
      if (bodies.hub) rows.design.row(row).segment(4 * (k - 1), 2) << std::cos(here), std::sin(here);
      if (bodies.part) rows.design.row(row).segment(4 * (k - 1) + 2, 2) << std::cos(own), std::sin(own);
    }
  }
  rows.design.rowwise() -= rows.design.colwise().mean().eval();
  rows.values.array() -= rows.values.mean();
  return rows;
}

Sums of_positions(const std::vector<PositionTrace>& positions) {
  Sums sums;
  for (const PositionTrace& position : positions) {
    const Rows rows = rows_of(position.trace, position.turn_deg, {});
    sums.add(rows.design.transpose() * rows.design, rows.design.transpose() * rows.values);
  }
  return sums;
}

/// Highest order that the angles of every position carry and that is not easily mistaken: of n even angles order k
/// looks like order n - k, which is small against it where k is a quarter of n or less.
Index trusted_order(const std::vector<PositionTrace>& positions) {
  int order = static_cast<int>(kOrders);
  for (const PositionTrace& position : positions) {
    const CircleFit fit = fit_circle(position.trace, order);
    order = std::min({order, fit.order_used, std::max(1, fit.distinct_angles / 4)});
  }
  return order;
}

/// What positions say of the hub when nothing is known of the part on it: the Schur complement. Of higher orders
/// nothing is said: what looks like them could be anything.
Sums hub_alone(const std::vector<PositionTrace>& positions) {
  const Sums both = of_positions(positions);
  const Index half = 2 * trusted_order(positions);
  if (half == 0) return {};
  const auto hub_at = [](Index i) { return 4 * (i / 2) + i % 2; };
  MatrixXd hub(half, half), part(half, half), tie(half, half);
  VectorXd hub_weighted(half), part_weighted(half);
  for (Index i = 0; i < half; ++i) {
    hub_weighted[i] = both.weighted[hub_at(i)];
    part_weighted[i] = both.weighted[hub_at(i) + 2];
    for (Index j = 0; j < half; ++j) {
      hub(i, j) = both.information(hub_at(i), hub_at(j));
      part(i, j) = both.information(hub_at(i) + 2, hub_at(j) + 2);
      tie(i, j) = both.information(hub_at(i), hub_at(j) + 2);
    }
  }
  // A part of ever so large waves: what is as good as no knowledge of it, and keeps the matrix from being singular.
  part.diagonal().array() += 1e-12 * std::max(1.0, part.diagonal().maxCoeff());
  const Eigen::LDLT<MatrixXd> solved(part);
  const MatrixXd own = hub - tie * solved.solve(tie.transpose());
  const VectorXd own_weighted = hub_weighted - tie * solved.solve(part_weighted);
  // What is left of rounding only, is nothing.
  const double least = 1e-6 * std::max(1.0, hub.diagonal().maxCoeff());
  Sums sums;
  for (Index i = 0; i < half; ++i) {
    if (own(i, i) < least) continue;
    sums.weighted[hub_at(i)] = own_weighted[i];
    for (Index j = 0; j < half; ++j) {
      if (own(j, j) >= least) sums.information(hub_at(i), hub_at(j)) = own(i, j);
    }
  }
  return sums;
}

/// The flange's tilt, carried to the radius of reading. How its higher waves seat a part is not known: each reaches the
/// disc by about as much as it was read, in any phase, grown as a tilt would be where it is.
Sums of_flange(const FlangeTrace& flange, double noise_sd_um) {
  constexpr int kFinest = 6;
  Sums sums;
  const CircleCoefficients fit = circle_coefficients(flange.trace, kFinest);
  if (fit.order < 1) return sums;
  const auto size = static_cast<std::size_t>(2 * fit.order + 1);
  const auto covariance_at = [&](std::size_t i, std::size_t j) { return fit.unit_covariance[i * size + j]; };
  Matrix2d covariance;
  covariance << covariance_at(1, 1), covariance_at(1, 2), covariance_at(2, 1), covariance_at(2, 2);
  const Matrix2d information = (covariance * flange.lift * flange.lift).inverse();
  sums.information.topLeftCorner(2, 2) = information;
  sums.weighted.head(2) = information * Vector2d(fit.values_um[1], fit.values_um[2]) * flange.lift;
  const double grown = std::max(1.0, flange.lift);
  for (Index k = 2; k <= fit.order; ++k) {
    const auto at = static_cast<std::size_t>(2 * k - 1);
    const double seen = std::hypot(fit.values_um[at], fit.values_um[at + 1]) / noise_sd_um;
    const double variance = seen * seen + (covariance_at(at, at) + covariance_at(at + 1, at + 1)) / 2;
    const Index hub = 4 * (k - 1);
    sums.information(hub, hub) = sums.information(hub + 1, hub + 1) = 1 / (grown * grown * variance);
  }
  return sums;
}

/// The part alone, the bench's own tilt being unknown within its spread (matrix inversion lemma).
Sums of_bench(const BenchTrace& bench, double noise_sd_um) {
  const Rows rows = rows_of(bench.trace, 0, {.hub = false});
  Sums sums;
  sums.add(rows.design.transpose() * rows.design, rows.design.transpose() * rows.values);
  const double ratio = bench.u_tilt_um / noise_sd_um;
  if (ratio <= 0) return sums;
  const MatrixXd tilt = rows.design.middleCols(2, 2);
  const Matrix2d inner = Matrix2d::Identity() / (ratio * ratio) + tilt.transpose() * tilt;
  const MatrixXd tie = rows.design.transpose() * tilt * inner.inverse();
  sums.information -= tie * (tilt.transpose() * rows.design);
  sums.weighted -= tie * (tilt.transpose() * rows.values);
  return sums;
}

Evidence evidence_from(const Sums& sums, double noise_sd_um) {
  Evidence evidence{.orders = {}, .information = {}, .weighted = {}, .absent = {}};
  for (int k = 1; k <= kOrders; ++k) evidence.orders.push_back(k);
  evidence.absent.assign(kSize, false);
  const double precision = 1 / (noise_sd_um * noise_sd_um);
  const double negligible = kNegligible * sums.information.diagonal().maxCoeff();
  for (Index i = 0; i < kSize; ++i) {
    for (Index j = 0; j < kSize; ++j) {
      const double entry = sums.information(i, j);
      evidence.information.push_back(std::abs(entry) < negligible ? 0 : entry * precision);
    }
    evidence.weighted.push_back(sums.weighted[i] * precision);
  }
  return evidence;
}

}  // namespace

Evidence evidence_of(const RefitReadings& readings, double noise_sd_um) {
  Sums sums = of_positions(readings.positions);
  const auto add = [&](const Sums& more) { sums.add(more.information, more.weighted); };
  if (!readings.other_part.empty()) add(hub_alone(readings.other_part));
  for (const FlangeTrace& flange : readings.flange) add(of_flange(flange, noise_sd_um));
  for (const BenchTrace& bench : readings.bench) add(of_bench(bench, noise_sd_um));
  return evidence_from(sums, noise_sd_um);
}

}  // namespace brakewright::refit
