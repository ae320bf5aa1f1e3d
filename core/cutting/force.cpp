#include "core/cutting/force.hpp"

#include <algorithm>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <cmath>
#include <string>

#include "core/cutting/accepted.hpp"
#include "core/want.hpp"

namespace brakewright::cutting {
namespace {

constexpr double kThinnestMeasured_mm = 0.05;

void check(const NoseCut& cut) {
  want_within(cut.nose_radius_mm, kPositive, "nose_radius_mm");
  want_within(cut.depth_mm, kPositive, "depth_mm");
  want(cut.depth_mm <= cut.nose_radius_mm, "depth_mm",
       "must be at most the nose radius: deeper, the straight edge cuts too");
  want_within(cut.feed_mm_per_rev, kPositive, "feed_mm_per_rev");
  want(cut.feed_mm_per_rev <= 2 * cut.nose_radius_mm, "feed_mm_per_rev", "must be at most twice the nose radius");
  want_within(cut.kc11_n_per_mm2, kPositive, "kc11_n_per_mm2");
  want(cut.mc >= 0 && cut.mc < 1, "mc", "must be from 0 to below 1");
  want_within(cut.surface_speed_m_per_min, kNotNegative, "surface_speed_m_per_min");
}

/// The chip between this turn's arc and what the turn before left, angles from the lowest point of the nose.
class Chip {
 public:
  explicit Chip(const NoseCut& cut)
      : radius_(cut.nose_radius_mm), feed_(cut.feed_mm_per_rev), surface_(cut.nose_radius_mm - cut.depth_mm) {
    const double leading = std::acos(surface_ / radius_);
    begin_ = std::max(-std::asin(feed_ / (2 * radius_)), -leading);
    end_ = leading;
    // where the arc of the turn before meets the uncut surface
    const double meeting = std::sqrt(std::max(0.0, radius_ * radius_ - surface_ * surface_)) - feed_;
    kink_ = std::clamp(std::atan2(meeting, surface_), begin_, end_);
  }

  double begin() const { return begin_; }
  double end() const { return end_; }
  double kink() const { return kink_; }

  /// Radius at which the chip ends, seen from the centre of the nose.
  double inner(double turn) const {
    const double c = std::cos(turn), s = std::sin(turn);
    const double before = -feed_ * s + std::sqrt(std::max(0.0, radius_ * radius_ - feed_ * feed_ * c * c));
    const double uncut = surface_ <= 0 ? 0 : surface_ / std::max(c, 1e-300);
    return std::min(radius_, std::max(before, uncut));
  }
  double thickness(double turn) const { return std::max(0.0, radius_ - inner(turn)); }

  /// Integral over the contact, split where the chip's inner side has its corner.
  template <class Density>
  double integral(const Density& density) const {
    return over(density, begin_, kink_) + over(density, kink_, end_);
  }

 private:
  /// Scaled here: on a short arc the rule's own scaling rounds a place onto an end, which it then refuses.
  template <class Density>
  static double over(const Density& density, double from, double to) {
    if (to <= from) return 0;
    const double middle = (from + to) / 2, half = (to - from) / 2;
    boost::math::quadrature::tanh_sinh<double> rule;
    return half * rule.integrate([&](double place) { return density(middle + half * place); });
  }

  double radius_, feed_, surface_;
  double begin_ = 0, end_ = 0, kink_ = 0;
};

}  // namespace

NoseForce nose_force(const NoseCut& cut) {
  check(cut);
  const Chip chip(cut);
  const double r = cut.nose_radius_mm;
  const auto pressure = [&](double turn) { return cut.kc11_n_per_mm2 * std::pow(chip.thickness(turn), 1 - cut.mc); };
  NoseForce result;
  result.chip_area_mm2 = chip.integral([&](double turn) {
    const double inner = chip.inner(turn);
    return (r - inner) * (r + inner) / 2;
  });
  result.contact_mm = r * (chip.end() - chip.begin());
  result.h_max_um = chip.thickness(chip.kink()) * 1e3;
  result.force_n = chip.integral([&](double turn) { return pressure(turn) * r; });
  const double into_disc = chip.integral([&](double turn) { return pressure(turn) * r * std::cos(turn); });
  result.mean_cos = result.force_n > 0 ? into_disc / result.force_n : 1;  // a chip too thin for the arithmetic
  result.power_w = result.force_n * cut.surface_speed_m_per_min / 60;
  result.extrapolated = result.h_max_um * 1e-3 < kThinnestMeasured_mm;
  result.force_low_n = 0.8 * result.force_n;
  result.force_high_n = (result.extrapolated ? 1.5 : 1.2) * result.force_n;
  return result;
}

}  // namespace brakewright::cutting
