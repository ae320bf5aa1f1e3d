#include "core/chatter/interval_step.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"

namespace brakewright::chatter {
namespace {

using Eigen::Matrix2d;

constexpr int kTerms = 14;
constexpr double kMost = 10;  // of c dt^2: about two intervals for each wave

}  // namespace

void check_resolved(double damping, double stiffness, double delayed) {
  if (!(std::abs(damping) <= kMost && std::abs(stiffness) <= kMost && std::abs(delayed) <= kMost)) {
    throw InputError("out_of_range", "intervals",
                     "more are needed: two at least for each wave, twenty to say something");
  }
}

IntervalStep interval_step(double damping, double stiffness, double delayed) {
  Matrix2d motion;
  motion << 0, 1, -stiffness, -damping;
  const double size = 1 + std::abs(stiffness) + std::abs(damping);
  const int halvings = std::clamp(static_cast<int>(std::ceil(std::log2(size))) + 1, 1, 60);
  motion *= std::ldexp(1.0, -halvings);
  const Matrix2d one = Matrix2d::Identity();
  Matrix2d second = one / 2, term = one / 2;
  for (int k = 1; k <= kTerms; ++k) {
    term = term * motion / (k + 2);
    second += term;
  }
  Matrix2d first = one + motion * second;
  Matrix2d whole = one + motion * first;
  for (int i = 0; i < halvings; ++i) {
    second = (first * first + 2 * second) / 4;
    first = (whole * first + first) / 2;
    whole = whole * whole;
  }
  return {.p_xx = whole(0, 0),
          .p_xv = whole(0, 1),
          .p_vx = whole(1, 0),
          .p_vv = whole(1, 1),
          .r0_x = delayed * (first(0, 1) - second(0, 1)),
          .r0_v = delayed * (first(1, 1) - second(1, 1)),
          .r1_x = delayed * second(0, 1),
          .r1_v = delayed * second(1, 1)};
}

}  // namespace brakewright::chatter
