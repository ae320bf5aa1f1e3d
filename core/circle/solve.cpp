#include "core/circle/solve.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "core/degree.hpp"

namespace brakewright::circle {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kMostQrWork = 5e7;           // rows * columns^2; about a tenth of a second
constexpr std::size_t kMostInTable = 131072;  // 2 MB
constexpr double kLeastRcond = 1e-12;         // of the normal equations

/// cos and sin of 2 pi j / count for all j. Products of a coarse and a fine table for long ones: two sines per 64.
std::vector<std::complex<double>> roots_of_unity(std::size_t count) {
  constexpr std::size_t kFine = 64;
  const double step = 2.0 * std::numbers::pi / static_cast<double>(count);
  const auto root = [step](std::size_t j) { return std::polar(1.0, step * static_cast<double>(j)); };
  std::vector<std::complex<double>> roots(count);
  for (std::size_t j = 0; j < std::min(count, kFine); ++j) roots[j] = root(j);
  for (std::size_t start = kFine; start < count; start += kFine) {
    const auto coarse = root(start);
    for (std::size_t j = 0; j < std::min(kFine, count - start); ++j) {
      const auto fine = roots[j];
      roots[start + j] = {coarse.real() * fine.real() - coarse.imag() * fine.imag(),
                          coarse.real() * fine.imag() + coarse.imag() * fine.real()};
    }
  }
  return roots;
}

Solution solve_even(const AngleGroups& groups, int order) {
  const std::size_t count = groups.means_um.size();
  const double size = static_cast<double>(count);
  const auto roots = roots_of_unity(count);
  Solution solution{.order = order, .diagonal = true};
  const double origin = groups.means_um.front();
  double sum = 0.0;
  for (const double value : groups.means_um) sum += value - origin;
  const double mean = origin + sum / size;
  solution.coefficients.push_back(mean);
  solution.covariance.push_back(1.0 / groups.readings);
  std::vector<double> rest(groups.means_um);
  for (double& value : rest) value -= mean;

  for (std::size_t k = 1; k <= static_cast<std::size_t>(order); ++k) {
    double a = 0.0;
    double b = 0.0;
    for (std::size_t j = 0, at = 0; j < count; ++j, at = at + k < count ? at + k : at + k - count) {
      a += rest[j] * roots[at].real();
      b += rest[j] * roots[at].imag();
    }
    a *= 2.0 / size;
    b *= 2.0 / size;
    for (std::size_t j = 0, at = 0; j < count; ++j, at = at + k < count ? at + k : at + k - count) {
      rest[j] -= a * roots[at].real() + b * roots[at].imag();
    }
    const auto turned =
        std::complex(a, b) * std::polar(1.0, static_cast<double>(k) * groups.angles_deg[0] * kRadPerDeg);
    solution.coefficients.insert(solution.coefficients.end(), {turned.real(), turned.imag()});
    solution.covariance.insert(solution.covariance.end(), 2, 2.0 / groups.readings);
  }
  double rest_ss = 0.0;
  for (const double value : rest) rest_ss += value * value;
  solution.residual_ss = groups.within_ss_um2 + groups.counts.front() * rest_ss;
  return solution;
}

constexpr Index columns_of(int order) { return 2 * static_cast<Index>(order) + 1; }

VectorXd weights_of(const AngleGroups& groups) {
  return Eigen::Map<const VectorXd>(groups.counts.data(), static_cast<Index>(groups.counts.size()));
}

/// Columns 1, cos t, sin t, cos 2t, ... at the groups' angles.
MatrixXd design_of(const AngleGroups& groups, int order) {
  MatrixXd design(static_cast<Index>(groups.angles_deg.size()), columns_of(order));
  for (Index row = 0; row < design.rows(); ++row) {
    const double angle = groups.angles_deg[static_cast<std::size_t>(row)] * kRadPerDeg;
    design(row, 0) = 1.0;
    for (int k = 1; k <= order; ++k) {
      design(row, 2 * k - 1) = std::cos(k * angle);
      design(row, 2 * k) = std::sin(k * angle);
    }
  }
  return design;
}

void keep(Solution& solution, const VectorXd& coefficients, const MatrixXd& covariance, double origin) {
  solution.coefficients.assign(coefficients.data(), coefficients.data() + coefficients.size());
  solution.coefficients[0] += origin;
  solution.covariance.assign(covariance.data(), covariance.data() + covariance.size());
}

VectorXd values_less(const AngleGroups& groups, double origin) {
  return Eigen::Map<const VectorXd>(groups.means_um.data(), static_cast<Index>(groups.means_um.size())).array() -
         origin;
}

Solution solve_qr(const AngleGroups& groups, int order) {
  const double origin = groups.means_um.front();
  const VectorXd values = values_less(groups, origin);
  const VectorXd root_weights = weights_of(groups).cwiseSqrt();
  for (;; --order) {
    const MatrixXd design = design_of(groups, order);
    const Eigen::ColPivHouseholderQR<MatrixXd> qr(root_weights.asDiagonal() * design);
    if (qr.rank() < design.cols()) continue;
    Solution solution{.order = order};
    const VectorXd coefficients = qr.solve(VectorXd(root_weights.cwiseProduct(values)));
    const MatrixXd upper = qr.matrixR().topRows(design.cols()).template triangularView<Eigen::Upper>();
    const MatrixXd inverse =
        upper.triangularView<Eigen::Upper>().solve(MatrixXd::Identity(design.cols(), design.cols()));
    const MatrixXd unpermuted = qr.colsPermutation() * inverse;
    keep(solution, coefficients, unpermuted * unpermuted.transpose(), origin);
    const VectorXd rest = values - design * coefficients;
    solution.residual_ss = groups.within_ss_um2 + rest.cwiseAbs2().dot(weights_of(groups));
    return solution;
  }
}

/// Blocks of angles whose cos kt and sin kt are walked up in k together, so that the compiler can use wide registers.
constexpr std::size_t kBlock = 64;
using BlockArray = Eigen::Array<double, kBlock, 1>;

struct Wave {
  BlockArray cosine;
  BlockArray sine;

  Wave next(const Wave& first) const {
    return {cosine * first.cosine - sine * first.sine, cosine * first.sine + sine * first.cosine};
  }
};

/// Calls `work(start, size, first wave)` for each block of angles; the unused tail of the last block is angle 0.
template <typename Work>
void for_each_block(const AngleGroups& groups, Work work) {
  for (std::size_t start = 0; start < groups.angles_deg.size(); start += kBlock) {
    const std::size_t size = std::min(kBlock, groups.angles_deg.size() - start);
    BlockArray angles = BlockArray::Zero();
    for (std::size_t j = 0; j < size; ++j) {
      angles[static_cast<Index>(j)] = groups.angles_deg[start + j] * kRadPerDeg;
    }
    work(start, size, Wave{angles.cos(), angles.sin()});
  }
}

BlockArray block_of(const double* values, std::size_t start, std::size_t size) {
  BlockArray block = BlockArray::Zero();
  for (std::size_t j = 0; j < size; ++j) block[static_cast<Index>(j)] = values[start + j];
  return block;
}

/// Sums of weight * cos jt and weight * sin jt for j = 0 .. last.
std::vector<std::complex<double>> wave_sums(const AngleGroups& groups, const double* weights, int last) {
  std::vector<std::complex<double>> sums(static_cast<std::size_t>(last) + 1);
  for_each_block(groups, [&](std::size_t start, std::size_t size, const Wave& first) {
    const BlockArray weight = block_of(weights, start, size);
    Wave wave{BlockArray::Ones(), BlockArray::Zero()};
    for (auto& sum : sums) {
      sum += std::complex((weight * wave.cosine).sum(), (weight * wave.sine).sum());
      wave = wave.next(first);
    }
  });
  return sums;
}

/// cos k cos l = (cos(k-l) + cos(k+l))/2 and its kin turn the normal matrix into sums of single waves.
MatrixXd normal_matrix(const std::vector<std::complex<double>>& sums, int order) {
  MatrixXd normal(columns_of(order), columns_of(order));
  const auto cosine = [&](int j) { return sums[static_cast<std::size_t>(std::abs(j))].real(); };
  const auto sine = [&](int j) { return (j < 0 ? -1.0 : 1.0) * sums[static_cast<std::size_t>(std::abs(j))].imag(); };
  normal(0, 0) = cosine(0);
  for (int k = 1; k <= order; ++k) {
    normal(2 * k - 1, 0) = normal(0, 2 * k - 1) = cosine(k);
    normal(2 * k, 0) = normal(0, 2 * k) = sine(k);
    for (int l = 1; l <= order; ++l) {
      normal(2 * k - 1, 2 * l - 1) = (cosine(k - l) + cosine(k + l)) / 2.0;
      normal(2 * k, 2 * l) = (cosine(k - l) - cosine(k + l)) / 2.0;
      normal(2 * k - 1, 2 * l) = normal(2 * l, 2 * k - 1) = (sine(k + l) - sine(k - l)) / 2.0;
    }
  }
  return normal;
}

void subtract_curve(const AngleGroups& groups, const VectorXd& coefficients, VectorXd& values) {
  for_each_block(groups, [&](std::size_t start, std::size_t size, const Wave& first) {
    BlockArray curve = BlockArray::Constant(coefficients[0]);
    Wave wave = first;
    for (Index k = 1; 2 * k < coefficients.size(); ++k) {
      curve += coefficients[2 * k - 1] * wave.cosine + coefficients[2 * k] * wave.sine;
      wave = wave.next(first);
    }
    for (std::size_t j = 0; j < size; ++j) values[static_cast<Index>(start + j)] -= curve[static_cast<Index>(j)];
  });
}

VectorXd projected(const AngleGroups& groups, const VectorXd& values, int order) {
  const VectorXd weighted = values.cwiseProduct(weights_of(groups));
  const auto sums = wave_sums(groups, weighted.data(), order);
  VectorXd projection(columns_of(order));
  projection[0] = sums[0].real();
  for (Index k = 1; k <= order; ++k) {
    projection[2 * k - 1] = sums[static_cast<std::size_t>(k)].real();
    projection[2 * k] = sums[static_cast<std::size_t>(k)].imag();
  }
  return projection;
}

Solution solve_seminormal(const AngleGroups& groups, int order) {
  const double origin = groups.means_um.front();
  const auto sums = wave_sums(groups, groups.counts.data(), 2 * order);
  Eigen::LLT<MatrixXd> factor(normal_matrix(sums, order));
  while (factor.info() != Eigen::Success || factor.rcond() < kLeastRcond) {
    order /= 2;
    factor.compute(normal_matrix(sums, order));
  }
  VectorXd coefficients = VectorXd::Zero(columns_of(order));
  VectorXd rest = values_less(groups, origin);
  for (int round = 0; round < 3; ++round) {
    const VectorXd correction = factor.solve(projected(groups, rest, order));
    coefficients += correction;
    subtract_curve(groups, correction, rest);
  }
  Solution solution{.order = order};
  keep(solution, coefficients, factor.solve(MatrixXd::Identity(columns_of(order), columns_of(order))), origin);
  solution.residual_ss = groups.within_ss_um2 + rest.cwiseAbs2().dot(weights_of(groups));
  return solution;
}

/// An even spacing too long for a table of its waves to stay in the processor's cache.
Solution solve_even_long(const AngleGroups& groups, int order) {
  const double origin = groups.means_um.front();
  VectorXd rest = values_less(groups, origin);
  VectorXd inverse_normal = VectorXd::Constant(columns_of(order), 2.0 / groups.readings);
  inverse_normal[0] = 1.0 / groups.readings;
  const VectorXd coefficients = inverse_normal.cwiseProduct(projected(groups, rest, order));
  subtract_curve(groups, coefficients, rest);
  Solution solution{.order = order, .diagonal = true};
  keep(solution, coefficients, inverse_normal, origin);
  solution.residual_ss = groups.within_ss_um2 + groups.counts.front() * rest.squaredNorm();
  return solution;
}

}  // namespace

Solution solve(const AngleGroups& groups, int order) {
  if (groups.even) {
    return groups.angles_deg.size() <= kMostInTable ? solve_even(groups, order) : solve_even_long(groups, order);
  }
  const auto columns = static_cast<double>(columns_of(order));
  const bool small = static_cast<double>(groups.angles_deg.size()) * columns * columns <= kMostQrWork;
  return small ? solve_qr(groups, order) : solve_seminormal(groups, order);
}

}  // namespace brakewright::circle
