#pragma once

namespace brakewright::chatter {

/// Motion over one interval of length dt: (x, dt x') at its end from those at its start, p, and from the delayed x at
/// both ends, r0 and r1.
struct IntervalStep {
  double p_xx = 0, p_xv = 0, p_vx = 0, p_vv = 0;
  double r0_x = 0, r0_v = 0, r1_x = 0, r1_v = 0;
};

/// @param damping    a dt
/// @param stiffness  c dt^2
/// @param delayed    b dt^2
/// By the series of the exponential and its first two phi functions, doubled as often as their argument was halved.
/// Source: Higham, Functions of Matrices, 10.7.4.
IntervalStep interval_step(double damping, double stiffness, double delayed);

/// Whether an interval is short enough to follow the motion: each of the above at most 10 in size.
/// @throws InputError "out_of_range" (field "intervals")
void check_resolved(double damping, double stiffness, double delayed);

}  // namespace brakewright::chatter
