#include "core/bench_sim/cut/vibration.hpp"

#include <algorithm>
#include <numbers>

#include "core/bench_sim/cut/tool.hpp"
#include "core/chatter/interval_step.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kLeastStepsToAWave = 3;
constexpr double kMostDamping = 0.99;

}  // namespace

Vibration::Vibration(std::span<const chatter::Mode> modes, double step_s) {
  for (const chatter::Mode& mode : modes) parts_.push_back({.mode = mode});
  set_step(step_s);
}

void Vibration::set_step(double step_s) {
  for (Part& part : parts_) {
    const double turn = 2 * std::numbers::pi * part.mode.fn_hz * step_s;
    const double damping = 2 * part.mode.zeta * turn, stiffness = turn * turn;
    chatter::check_resolved(damping, stiffness, stiffness);
    const chatter::IntervalStep step = chatter::interval_step(damping, stiffness, stiffness);
    const double um_per_n = 1e6 / part.mode.k_n_per_m;
    part.xx = step.p_xx;
    part.xv = step.p_xv * step_s;
    part.vx = step.p_vx / step_s;
    part.vv = step.p_vv;
    part.x0 = step.r0_x * um_per_n;
    part.x1 = step.r1_x * um_per_n;
    part.v0 = step.r0_v * um_per_n / step_s;
    part.v1 = step.r1_v * um_per_n / step_s;
  }
  foresee();
}

void Vibration::foresee() {
  const double expected_n = 2 * force_n_ - force_before_n_;
  foreseen_um_ = 0;
  for (Part& part : parts_) {
    part.x_rest_um = part.xx * part.x_um + part.xv * part.v_um_per_s + part.x0 * force_n_;
    part.v_rest = part.vx * part.x_um + part.vv * part.v_um_per_s + part.v0 * force_n_;
    foreseen_um_ += part.mode.weight * (part.x_rest_um + part.x1 * expected_n);
  }
}

void Vibration::advance(double force_n) {
  deflection_um_ = 0;
  for (Part& part : parts_) {
    part.x_um = part.x_rest_um + part.x1 * force_n;
    part.v_um_per_s = part.v_rest + part.v1 * force_n;
    deflection_um_ += part.mode.weight * part.x_um;
  }
  force_before_n_ = force_n_;
  force_n_ = force_n;
  foresee();
}

void Vibration::knock(double um_per_s) {
  for (Part& part : parts_) part.v_um_per_s += um_per_s;
  foresee();
}

double Vibration::static_um_per_n() const {
  double sum = 0;
  for (const Part& part : parts_) sum += part.mode.weight * 1e6 / part.mode.k_n_per_m;
  return sum;
}

std::vector<chatter::Mode> with_band(std::span<const chatter::Mode> disc, double factor) {
  want(factor, 1, 100, "band_factor", "must be from 1, no band, to 100");
  std::vector<chatter::Mode> damped(disc.begin(), disc.end());
  for (chatter::Mode& mode : damped) mode.zeta = std::min(kMostDamping, mode.zeta * factor);
  return damped;
}

void check_followed(std::span<const chatter::Mode> modes, double step_s, const std::string& field) {
  for (const chatter::Mode& mode : modes) {
    if (!(mode.fn_hz * step_s * kLeastStepsToAWave <= 1)) {
      throw InputError("out_of_range", field,
                       "must give three angles at least to a wave of every mode: a higher speed, or more angles");
    }
  }
}

}  // namespace brakewright::bench_sim
