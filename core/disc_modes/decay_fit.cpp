#include "core/disc_modes/decay_fit.hpp"

#include <Eigen/Dense>
#include <cmath>

namespace brakewright::disc_modes {
namespace {

using Complex = std::complex<double>;
using Matrix = Eigen::MatrixXcd;
using Vector = Eigen::VectorXcd;

constexpr int kMostRounds = 60;

Vector column_of(const std::vector<Complex>& signal) {
  return Eigen::Map<const Vector>(signal.data(), static_cast<Eigen::Index>(signal.size()));
}

/// First guess: each sample predicted from the `count` before it.
std::vector<Complex> predicted(const Vector& z, int count) {
  const Eigen::Index rows = z.size() - count;
  if (count == 1) return {std::log(z.head(rows).dot(z.tail(rows)) / z.head(rows).squaredNorm())};
  Matrix before(rows, 2);
  before << z.segment(1, rows), z.head(rows);
  const Vector c = before.colPivHouseholderQr().solve(z.tail(rows));
  const Complex root = std::sqrt(c[0] * c[0] + 4.0 * c[1]);
  return {std::log((c[0] + root) / 2.0), std::log((c[0] - root) / 2.0)};
}

/// e^(s k) in the first columns, k e^(s k) in those after.
Matrix shapes(const std::vector<Complex>& s, Eigen::Index size) {
  const auto count = static_cast<Eigen::Index>(s.size());
  Matrix columns(size, 2 * count);
  for (Eigen::Index j = 0; j < count; ++j) {
    for (Eigen::Index k = 0; k < size; ++k) {
      const Complex value = std::exp(s[static_cast<std::size_t>(j)] * static_cast<double>(k));
      columns(k, j) = value;
      columns(k, count + j) = static_cast<double>(k) * value;
    }
  }
  return columns;
}

struct Projected {
  Vector a, left;
  Matrix slopes;  ///< of the model with a and with s
};

/// The best amplitudes for given exponents, and what they leave.
Projected project(const std::vector<Complex>& s, const Vector& z) {
  const auto count = static_cast<Eigen::Index>(s.size());
  Projected at{.a = {}, .left = {}, .slopes = shapes(s, z.size())};
  const Matrix plain = at.slopes.leftCols(count);
  at.a = plain.colPivHouseholderQr().solve(z);
  at.left = z - plain * at.a;
  for (Eigen::Index j = 0; j < count; ++j) at.slopes.col(count + j) *= at.a[j];
  return at;
}

bool usable(const std::vector<Complex>& s, Eigen::Index size) {
  for (const Complex& one : s) {
    if (!std::isfinite(one.real()) || !std::isfinite(one.imag()) || std::abs(one.imag()) > 3.2 ||
        one.real() * static_cast<double>(size) > 40 || one.real() < -30) {
      return false;
    }
  }
  return true;
}

}  // namespace

DecayFit fit_decays(const std::vector<Complex>& signal, int count) {
  if (static_cast<int>(signal.size()) < 4 * count) return {};
  const Vector z = column_of(signal);
  const double whole = z.squaredNorm();
  if (!(whole > 0)) return {};
  std::vector<Complex> s = predicted(z, count);
  if (!usable(s, z.size())) return {};
  Projected at = project(s, z);
  for (int round = 0; round < kMostRounds; ++round) {
    const Vector step = at.slopes.colPivHouseholderQr().solve(at.left).tail(count);
    double part = 1;
    bool better = false;
    for (int halving = 0; halving < 12 && !better; ++halving, part /= 2) {
      std::vector<Complex> tried = s;
      for (int j = 0; j < count; ++j) tried[static_cast<std::size_t>(j)] += part * step[j];
      if (!usable(tried, z.size())) continue;
      Projected there = project(tried, z);
      better = there.left.squaredNorm() <= at.left.squaredNorm();
      if (better) {
        s = std::move(tried);
        at = std::move(there);
      }
    }
    if (!better || step.cwiseAbs().maxCoeff() < 1e-12) break;
  }
  DecayFit fit{.parts = {}, .squares = at.left.squaredNorm()};
  const double free = static_cast<double>(z.size() - 2 * count);
  const Matrix information = at.slopes.adjoint() * at.slopes;
  const Matrix spread = information.ldlt().solve(Matrix::Identity(2 * count, 2 * count)) * (fit.squares / free / 2);
  for (int j = 0; j < count; ++j) {
    const double variance = std::abs(spread(count + j, count + j).real());
    if (!std::isfinite(variance)) return {};
    fit.parts.push_back({.s = s[static_cast<std::size_t>(j)], .a = at.a[j], .u_s = std::sqrt(variance)});
  }
  return fit;
}

}  // namespace brakewright::disc_modes
