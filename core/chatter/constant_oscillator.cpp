#include <cmath>
#include <complex>
#include <numbers>

#include "core/chatter/delayed_oscillator.hpp"
#include "core/chatter/interval_step.hpp"
#include "core/input_error.hpp"

namespace brakewright::chatter {
namespace {

using Complex = std::complex<double>;

constexpr int kDeepest = 40;
constexpr double kNear = 0.02, kPinned = 1e-10;
constexpr double kLeastLog = -60, kMostLog = 512;

/// The characteristic function of one interval, times l^-2 so that it is 1 far out.
class Characteristic {
 public:
  Characteristic(const IntervalStep& step, std::size_t intervals)
      : step_(step), count_(static_cast<double>(intervals)) {}

  /// @param log_multiplier  logarithm of a multiplier's size; l is its m-th root, at this angle
  Complex at(double log_multiplier, double angle) const {
    const Complex l = std::polar(std::exp(log_multiplier / count_), angle);
    const Complex delay = std::polar(std::exp(-log_multiplier), -count_ * angle);
    const Complex determinant = (l - step_.p_xx) * (l - step_.p_vv) - step_.p_xv * step_.p_vx;
    const Complex answer =
        (l - step_.p_vv) * (step_.r0_x + l * step_.r1_x) + step_.p_xv * (step_.r0_v + l * step_.r1_v);
    return (determinant - delay * answer) / (l * l);
  }

  /// Whether some multiplier is larger than that.
  bool any_beyond(double log_multiplier) const { return std::abs(turned_on(log_multiplier, nullptr)) > 1; }

  /// The logarithm of a multiplier's size near that, by secants from where the function is least on that circle.
  double near_by(double log_multiplier) const {
    double angle = 0;
    turned_on(log_multiplier, &angle);
    Complex place(log_multiplier, angle * count_), before = place + Complex(1e-6, 1e-6);
    Complex value = at(place), value_before = at(before);
    for (int i = 0; i < 40 && value != value_before && value != 0.0; ++i) {
      const Complex next = place - value * (place - before) / (value - value_before);
      before = place;
      value_before = value;
      place = next;
      if (!(std::abs(place.real() - log_multiplier) < 1) || !std::isfinite(place.imag())) return log_multiplier;
      value = at(place);
    }
    return place.real();
  }

 private:
  Complex at(Complex log_multiplier) const { return at(log_multiplier.real(), log_multiplier.imag() / count_); }

  /// By how much the function turns on half of a circle: pi for each multiplier beyond it.
  /// @param least_at  takes the angle at which it is least, where that is asked for
  double turned_on(double log_multiplier, double* least_at) const {
    const int pieces = 3 * static_cast<int>(count_) + 32;
    double turned = 0, from = 0, least = INFINITY;
    Complex value = at(log_multiplier, 0);
    for (int i = 1; i <= pieces; ++i) {
      const double to = std::numbers::pi * i / pieces;
      const Complex next = at(log_multiplier, to);
      turned += turn(log_multiplier, from, value, to, next, 0);
      if (least_at != nullptr && std::norm(next) < least) {
        least = std::norm(next);
        *least_at = to;
      }
      from = to;
      value = next;
    }
    return turned;
  }

  double turn(double log_multiplier, double from, Complex at_from, double to, Complex at_to, int depth) const {
    const double direct = std::arg(at_to * std::conj(at_from));
    if (!(std::abs(direct) >= 1.2) || depth == kDeepest) return direct;
    const double middle = (from + to) / 2;
    const Complex between = at(log_multiplier, middle);
    return turn(log_multiplier, from, at_from, middle, between, depth + 1) +
           turn(log_multiplier, middle, between, to, at_to, depth + 1);
  }

  IntervalStep step_;
  double count_;
};

}  // namespace

double spectral_radius_of_constant(double damping_per_s, double stiffness_per_s2, double delayed_per_s2,
                                   double period_s, std::size_t intervals) {
  if (intervals < 2 || intervals > 20000) throw InputError("out_of_range", "intervals", "from 2 to 20000");
  if (!(period_s > 0 && std::isfinite(period_s))) throw InputError("out_of_range", "period_s", "must be more than 0");
  if (!std::isfinite(damping_per_s)) throw InputError("not_finite", "damping_per_s", "a finite number is needed");
  if (!std::isfinite(stiffness_per_s2)) throw InputError("not_finite", "stiffness_per_s2", "a finite number is needed");
  if (!std::isfinite(delayed_per_s2)) throw InputError("not_finite", "delayed_per_s2", "a finite number is needed");
  const double dt = period_s / static_cast<double>(intervals);
  check_resolved(damping_per_s * dt, stiffness_per_s2 * dt * dt, delayed_per_s2 * dt * dt);
  const Characteristic function(interval_step(damping_per_s * dt, stiffness_per_s2 * dt * dt, delayed_per_s2 * dt * dt),
                                intervals);
  double low = kLeastLog, high = 1;
  if (!function.any_beyond(low)) return 0;
  while (function.any_beyond(high)) {
    low = high;
    high *= 2;
    if (high > kMostLog) throw InputError("out_of_range", "period_s", "must be shorter: it grows past any number");
  }
  while (high - low > kPinned) {
    const double middle = (low + high) / 2;
    (function.any_beyond(middle) ? low : high) = middle;
    if (high - low > kNear) continue;
    const double found = function.near_by((low + high) / 2);
    if (function.any_beyond(found - kPinned) && !function.any_beyond(found + kPinned)) return std::exp(found);
  }
  return std::exp((low + high) / 2);
}

}  // namespace brakewright::chatter
