#include "core/chatter/delayed_oscillator.hpp"

#include <Eigen/Dense>
#include <cmath>
#include <string>

#include "core/chatter/interval_step.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"
#include "core/want.hpp"

namespace brakewright::chatter {
namespace {

using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;

constexpr std::size_t kMostIntervals = 4000;
constexpr Eigen::Index kMostDirections = 320;
constexpr double kSettled = 1e-9;

void hold(bool good, const char* code, const char* field, const char* message) {
  if (!good) throw InputError(code, field, message);
}

void check(const DelayedOscillator& o) {
  hold(o.stiffness_per_s2.size() >= 2 && o.stiffness_per_s2.size() <= kMostIntervals, "out_of_range",
       "stiffness_per_s2", "from 2 to 4000 intervals");
  hold(o.delayed_per_s2.size() == o.stiffness_per_s2.size(), "sizes_differ", "delayed_per_s2",
       "must be as long as stiffness_per_s2");
  hold(o.period_s > 0 && std::isfinite(o.period_s), "out_of_range", "period_s", "must be more than 0");
  hold(std::isfinite(o.damping_per_s), "not_finite", "damping_per_s", "a finite number is needed");
  for (std::size_t i = 0; i < o.stiffness_per_s2.size(); ++i) {
    hold(std::isfinite(o.stiffness_per_s2[i]), "not_finite", "stiffness_per_s2", "finite numbers are needed");
    hold(std::isfinite(o.delayed_per_s2[i]), "not_finite", "delayed_per_s2", "finite numbers are needed");
    const double dt = o.period_s / static_cast<double>(o.stiffness_per_s2.size());
    check_resolved(o.damping_per_s * dt, o.stiffness_per_s2[i] * dt * dt, o.delayed_per_s2[i] * dt * dt);
  }
}

/// The map over one period of what there is to know: x at the m + 1 ends of the intervals, then dt x' at the last.
class PeriodMap {
 public:
  explicit PeriodMap(const DelayedOscillator& o) {
    const std::size_t count = o.stiffness_per_s2.size();
    const double dt = o.period_s / static_cast<double>(count);
    steps_.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool same =
          i > 0 && o.stiffness_per_s2[i] == o.stiffness_per_s2[i - 1] && o.delayed_per_s2[i] == o.delayed_per_s2[i - 1];
      steps_.push_back(
          same ? steps_.back()
               : interval_step(o.damping_per_s * dt, o.stiffness_per_s2[i] * dt * dt, o.delayed_per_s2[i] * dt * dt));
    }
  }

  Eigen::Index size() const { return static_cast<Eigen::Index>(steps_.size()) + 2; }

  void apply(const Eigen::Ref<const Vector>& before, Eigen::Ref<Vector> after) const {
    const Eigen::Index last = size() - 2;
    double x = before[last], v = before[last + 1];
    after[0] = x;
    for (Eigen::Index i = 0; i < last; ++i) {
      const IntervalStep& step = steps_[static_cast<std::size_t>(i)];
      const double delayed = before[i], next_delayed = before[i + 1], x_before = x;
      x = step.p_xx * x_before + step.p_xv * v + step.r0_x * delayed + step.r1_x * next_delayed;
      v = step.p_vx * x_before + step.p_vv * v + step.r0_v * delayed + step.r1_v * next_delayed;
      after[i + 1] = x;
    }
    after[last + 1] = v;
  }

 private:
  std::vector<IntervalStep> steps_;
};

/// An orthonormal basis of v, Av, A^2 v, ... and the map within it.
class Arnoldi {
 public:
  explicit Arnoldi(const PeriodMap& map)
      : map_(map), most_(std::min(map.size(), kMostDirections)), within_(Matrix::Zero(most_ + 1, most_)) {
    basis_.resize(map.size(), std::min<Eigen::Index>(most_ + 1, 40));
    Vector start(map.size());
    Random random(1);
    for (double& value : start) value = random.normal();
    basis_.col(0) = start.normalized();
  }

  /// @throws InputError "not_converged"
  double largest_multiplier() {
    for (Eigen::Index look = std::min<Eigen::Index>(12, most_);;
         look = std::min(most_, look + std::max<Eigen::Index>(8, look / 3))) {
      while (directions_ < look && !closed_) add_direction();
      const double leading = settled();
      if (leading >= 0) return leading;
      if (directions_ == most_) break;
    }
    throw InputError("not_converged", "intervals",
                     "so many waves go into one period that its multipliers are as good as equal: fewer intervals, a "
                     "higher speed, or the limit from the lobes");
  }

 private:
  void add_direction() {
    const Eigen::Index at = directions_;
    if (at + 1 >= basis_.cols()) {
      basis_.conservativeResize(Eigen::NoChange, std::min(most_ + 1, 2 * basis_.cols()));
    }
    Vector next(map_.size());
    map_.apply(basis_.col(at), next);
    const double size = next.norm();
    const auto so_far = basis_.leftCols(at + 1);
    for (int again = 0; again < 2; ++again) {
      const Vector shares = so_far.transpose() * next;
      within_.col(at).head(at + 1) += shares;
      next.noalias() -= so_far * shares;
    }
    const double left = next.norm();
    ++directions_;
    if (!(left > 1e-14 * size) || directions_ == map_.size()) {
      closed_ = true;
      return;
    }
    within_(at + 1, at) = left;
    basis_.col(at + 1) = next / left;
  }

  /// The largest multiplier within the basis once its vector hardly leaves it; else below 0.
  double settled() const {
    const Matrix inside = within_.topLeftCorner(directions_, directions_);
    const Eigen::EigenSolver<Matrix> found(inside);
    Eigen::Index largest = 0;
    const double radius = found.eigenvalues().cwiseAbs().maxCoeff(&largest);
    if (closed_) return radius;
    const Eigen::VectorXcd vector = found.eigenvectors().col(largest);
    const double leaves = within_(directions_, directions_ - 1) * std::abs(vector[directions_ - 1]) / vector.norm();
    return leaves <= kSettled * radius ? radius : -1;
  }

  const PeriodMap& map_;
  Eigen::Index most_;
  Matrix within_, basis_;
  Eigen::Index directions_ = 0;
  bool closed_ = false;
};

}  // namespace

double spectral_radius(const DelayedOscillator& oscillator) {
  check(oscillator);
  return Arnoldi(PeriodMap(oscillator)).largest_multiplier();
}

}  // namespace brakewright::chatter
