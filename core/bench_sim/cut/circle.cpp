#include "core/bench_sim/cut/circle.hpp"

#include <numbers>

namespace brakewright::bench_sim {
namespace {

/// Of an angle up to an eighth of a turn.
UnitVector by_series(double turn) {
  UnitVector sum{0, 0};
  double term = 1;
  for (int k = 0; k < 20; k += 2) {
    sum.x += term;
    term *= turn / (k + 1);
    sum.y += term;
    term *= -turn / (k + 2);
  }
  return sum;
}

}  // namespace

std::vector<UnitVector> unit_circle(int angles) {
  std::vector<UnitVector> circle;
  circle.reserve(static_cast<std::size_t>(angles));
  for (int i = 0; i < angles; ++i) {
    // quarter and what is left of it, in whole numbers: 4 i/angles
    const int quarter = 4 * i / angles, left = 4 * i - quarter * angles;
    const bool past_eighth = 2 * left > angles;
    const double share = static_cast<double>(past_eighth ? angles - left : left) / angles;
    UnitVector v = by_series(share * std::numbers::pi / 2);
    if (past_eighth) v = {v.y, v.x};
    for (int q = 0; q < quarter; ++q) v = {-v.y, v.x};
    circle.push_back(v);
  }
  return circle;
}

}  // namespace brakewright::bench_sim
