#pragma once

#include <cstddef>
#include <vector>

namespace brakewright::chatter {

/// x'' + a x' + c(t) x = b(t) x(t - T), with c and b of period T: turning, milling with one delay, delayed Mathieu.
struct DelayedOscillator {
  double damping_per_s = 0;              ///< a
  double period_s = 0;                   ///< T, both the delay and the period
  std::vector<double> stiffness_per_s2;  ///< c, its mean over each of the intervals that T is cut into
  std::vector<double> delayed_per_s2;    ///< b, likewise
};

/// The largest absolute value of a multiplier: what a small vibration is multiplied by from one period to the next.
///
/// Semi-discretization of the first order: the delayed term is a straight line over each interval, c and b are
/// constant there, and the motion between is exact. The map over a period is never made as a matrix: it is applied to
/// vectors, and Arnoldi's method finds the multipliers from that.
/// @param oscillator  2 to 4000 intervals, both lists as long; figures finite, T > 0
/// @throws InputError "out_of_range" or "sizes_differ" naming `stiffness_per_s2`, `delayed_per_s2`, `period_s` ..., or
///         `intervals` where there are fewer than about two for each wave;
///         "not_converged" (field "intervals") where hundreds of waves in a period leave too many multipliers that are
///         as good as equal: what is constant in time has `spectral_radius_of_constant` for that
/// Source: Insperger and Stepan, Semi-Discretization for Time-Delay Systems (2011), chapter 3; Saad, Numerical Methods
/// for Large Eigenvalue Problems, chapter 6.
double spectral_radius(const DelayedOscillator& oscillator);

/// The same where c and b are constant, from the characteristic equation of one interval: exact for any number of
/// waves in a period.
///
/// A multiplier is the m-th power of a root of (l I - P) = l^-m (r0 + l r1); roots outside a circle are counted by how
/// often the equation's left side turns about the origin on it, and the circle is narrowed until none is.
/// @param intervals  2 to 20 000
/// @throws InputError as above; "out_of_range" naming `period_s` where the multiplier is past e^512
/// Source: the argument principle.
double spectral_radius_of_constant(double damping_per_s, double stiffness_per_s2, double delayed_per_s2,
                                   double period_s, std::size_t intervals);

}  // namespace brakewright::chatter
