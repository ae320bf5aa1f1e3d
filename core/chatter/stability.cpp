#include "core/chatter/stability.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/chatter/check.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::chatter {
namespace {

constexpr double kPi = std::numbers::pi;

void check(const CuttingMode& mode, double rpm, double depth_mm) {
  want(mode.mass_kg, 1e-6, 1e6, "mass_kg", "must be from 0.000001 to 1000000 kg");
  want(mode.zeta, 0, 0.99, "zeta", "must be from 0 to 0.99");
  want(mode.fn_hz, 0.01, 1e6, "fn_hz", "must be from 0.01 to 1000000 Hz");
  check_speed(rpm, "rpm");
  want(depth_mm, 0, 1e4, "depth_mm", "must be from 0 to 10000 mm");
}

double natural_per_s(const CuttingMode& mode) { return 2 * kPi * mode.fn_hz; }

/// What one cutting tooth presses along the feed for each metre of chip and of depth, summed up from angle 0.
double gathered_force(const InterruptedCutting& cut, double angle) {
  const double sine = std::sin(angle);
  return cut.kt_n_per_m2 * sine * sine / 2 + cut.kn_n_per_m2 * (angle / 2 - std::sin(2 * angle) / 4);
}

/// Angles at which a tooth enters and leaves the work.
struct Arc {
  double enter = 0, leave = kPi;
};

Arc arc_of(const InterruptedCutting& cut) {
  if (cut.direction == Direction::up) return {0, std::acos(1 - 2 * cut.radial_ratio)};
  return {std::acos(2 * cut.radial_ratio - 1), kPi};
}

/// Mean force over each interval: every tooth that passes through the arc within it.
std::vector<double> mean_forces(const InterruptedCutting& cut) {
  const Arc arc = arc_of(cut);
  const double pitch = 2 * kPi / cut.teeth, width = pitch / static_cast<double>(cut.intervals);
  std::vector<double> forces;
  for (std::size_t i = 0; i < cut.intervals; ++i) {
    double sum = 0;
    for (int tooth = 0; tooth < cut.teeth; ++tooth) {
      const double from = width * static_cast<double>(i) + pitch * tooth;
      const double low = std::clamp(from, arc.enter, arc.leave), high = std::clamp(from + width, arc.enter, arc.leave);
      sum += gathered_force(cut, high) - gathered_force(cut, low);
    }
    forces.push_back(sum / width);
  }
  return forces;
}

double tooth_period_s(const InterruptedCutting& cut) { return 60 / (cut.rpm * cut.teeth); }

}  // namespace

double waves_per_period(const Turning& turning) { return turning.mode.fn_hz * 60 / turning.rpm; }

double waves_per_period(const InterruptedCutting& cutting) { return cutting.mode.fn_hz * tooth_period_s(cutting); }

double spectral_radius(const Turning& turning) {
  check(turning.mode, turning.rpm, turning.depth_mm);
  check_force(turning.kf_n_per_m2, "kf_n_per_m2");
  const double wn = natural_per_s(turning.mode);
  const double pull = turning.depth_mm / 1000 * turning.kf_n_per_m2 / turning.mode.mass_kg;
  return spectral_radius_of_constant(2 * turning.mode.zeta * wn, wn * wn + pull, pull, 60 / turning.rpm,
                                     turning.intervals);
}

double spectral_radius(const InterruptedCutting& cutting) {
  check(cutting.mode, cutting.rpm, cutting.depth_mm);
  want(cutting.teeth, 1, 64, "teeth", "must be from 1 to 64");
  check_force(cutting.kt_n_per_m2, "kt_n_per_m2");
  want(cutting.kn_n_per_m2, 0, 1e15, "kn_n_per_m2", "must be from 0 to 1e15 N/m2");
  want(cutting.radial_ratio, 1e-6, 1, "radial_ratio", "must be from 0.000001 to 1");
  if (cutting.intervals < 2 || cutting.intervals > 4000)
    throw InputError("out_of_range", "intervals", "from 2 to 4000");
  const double wn = natural_per_s(cutting.mode);
  DelayedOscillator oscillator{.damping_per_s = 2 * cutting.mode.zeta * wn,
                               .period_s = tooth_period_s(cutting),
                               .stiffness_per_s2 = {},
                               .delayed_per_s2 = {}};
  for (const double force : mean_forces(cutting)) {
    const double pull = cutting.depth_mm / 1000 * force / cutting.mode.mass_kg;
    oscillator.stiffness_per_s2.push_back(wn * wn + pull);
    oscillator.delayed_per_s2.push_back(pull);
  }
  return spectral_radius(oscillator);
}

}  // namespace brakewright::chatter
