#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/chatter/flexibility.hpp"

namespace brakewright::bench_sim {

/// Modes that one force drives, each a damped oscillator, seen where the force acts.
///
/// From one step to the next the force is a straight line and the motion under it is exact, whatever the step. What the
/// modes have in common is only the force: their deflections add by weight.
/// Source: the matrix exponential of an oscillator, `chatter::interval_step`.
class Vibration {
 public:
  /// At rest, under no force.
  /// @param modes   valid ones, or none: then nothing moves
  /// @param step_s  > 0
  /// @throws InputError "out_of_range" (field "intervals") where a step is longer than half a wave
  Vibration(std::span<const chatter::Mode> modes, double step_s);

  /// Goes on with steps of another length from where it is.
  void set_step(double step_s);

  /// Where it will be after a step if the force goes on as it has changed last.
  double foreseen_um() const { return foreseen_um_; }

  /// One step, at whose end the force is this.
  void advance(double force_n);

  double deflection_um() const { return deflection_um_; }
  double force_n() const { return force_n_; }

  /// Sets it swinging: adds to each mode's velocity.
  void knock(double um_per_s);

  /// Deflection under a steady force of 1 N.
  double static_um_per_n() const;

 private:
  struct Part {
    chatter::Mode mode;
    double xx = 1, xv = 0, vx = 0, vv = 1, x0 = 0, v0 = 0, x1 = 0,
           v1 = 0;                     ///< of the step; forces in newtons, velocities per second
    double x_um = 0, v_um_per_s = 0;   ///< without the weight
    double x_rest_um = 0, v_rest = 0;  ///< at the next step's end, but for the force there
  };
  void foresee();

  std::vector<Part> parts_;
  double force_n_ = 0, force_before_n_ = 0;
  double deflection_um_ = 0, foreseen_um_ = 0;
};

/// A damping band on the disc: damping times `factor`, 1 to 100; no more than 0.99 of critical.
/// @throws InputError "out_of_range" or "not_finite" naming `band_factor`
std::vector<chatter::Mode> with_band(std::span<const chatter::Mode> disc, double factor);

/// Whether steps are short enough to follow each mode: three at least to a wave. Between six and three the limit of
/// chatter comes out up to a tenth and more too deep.
/// @throws InputError "out_of_range" or "not_finite" naming `field`
void check_followed(std::span<const chatter::Mode> modes, double step_s, const std::string& field);

}  // namespace brakewright::bench_sim
