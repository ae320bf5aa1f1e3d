#pragma once

#include <optional>
#include <span>
#include <vector>

namespace brakewright {

/// Readings round a circle, one value for each angle; angles need be neither even nor distinct nor in order.
struct Trace {
  std::vector<double> angles_deg = {};  ///< from the part's index mark, within +-36000; taken modulo 360
  std::vector<double> values_um = {};   ///< within +-1e9
};

/// One wave of x(t) = c0 + sum A_k cos(k t - phase_k).
struct Harmonic {
  int order = 0;              ///< waves per turn, >= 1
  double amplitude_um = 0.0;  ///< half of the wave's peak to valley
  double phase_deg = 0.0;     ///< in [0, 360); for order 1 the angle of the high spot
  /// Standard uncertainty of the amplitude; nothing when no degree of freedom is left to judge the noise by.
  std::optional<double> u_amplitude_um = {};
};

struct CircleFit {
  double mean_um = 0.0;          ///< c0: mean round the whole circle, not of the readings when these are uneven
  double range_um = 0.0;         ///< highest less lowest of the means per angle: the trade's own figure
  double fitted_range_um = 0.0;  ///< peak to valley of the fitted curve between the points as well
  int order_asked = 0;
  int order_used = 0;  ///< lower than asked where the angles cannot carry more
  int distinct_angles = 0;
  std::vector<Harmonic> harmonics = {};       ///< orders 1 to order_used
  std::optional<double> residual_sd_um = {};  ///< sqrt(residual sum of squares / dof); nothing when dof is 0
  int dof = 0;                                ///< readings less coefficients
  std::vector<int> blind_orders = {};         ///< orders 1 to 12 of which these angles see less than half at worst
};

/// Least squares of harmonics round a circle.
///
/// The order is cut to floor((distinct angles - 1)/2), to 500, to 1e8/distinct angles, and further where the angles are
/// bunched so tightly that double precision cannot tell the waves apart; `order_used` tells. Angles within 1e-6 degree
/// count as one.
/// @param max_order    >= 0; 0 is the mean alone
/// @param noise_sd_um  the readings' standard deviation where it is known, >= 0; the harmonics' uncertainties then rest
///                     on it instead of on the residuals
/// @throws InputError "missing" for no readings, "sizes_differ", "not_finite", "out_of_range", with the field's path
/// Degenerate cases: one or two distinct angles give the mean alone and all orders blind; no degree of freedom left
/// (as many coefficients as readings) gives no residual_sd_um and, without noise_sd_um, no uncertainties; a wave of
/// amplitude 0 has phase 0 and the root mean square of its two coefficients' uncertainties.
/// Evenly spaced angles take O(readings * order), others O(readings * order^2) or less.
/// Source: linear least squares; amplitude's uncertainty by JCGM 100:2008, 5.1.2; methods 2.
CircleFit fit_circle(const Trace& trace, int max_order, std::optional<double> noise_sd_um = {});

/// Value of the fitted curve.
double value_at(const CircleFit& fit, double angle_deg);

/// Peak to valley of sum A_k cos(k t - phase_k) over the whole circle, to about 1e-12 of the amplitudes' sum.
/// Branch and bound with the derivatives' bounds sum k^n A_k, so that no narrow peak between grid points is missed.
double peak_to_valley_um(std::span<const Harmonic> harmonics);

/// Fraction of the true peak to valley of a pure wave of this order that readings at these angles show at worst, over
/// all phases: 0 is blind, 1 sees all. It is half the least width of the points (cos k t, sin k t).
/// @param angles_deg  as in Trace, at least one
/// @param order       >= 1
/// Source: plane geometry; reproduces the table of N equal points (N = 4: 0.71, 0, 0.71, 0 for orders 1 to 4).
double seen_fraction(std::span<const double> angles_deg, int order);

/// Orders from 1 to `up_to` of which these angles see less than half at worst.
std::vector<int> blind_orders(std::span<const double> angles_deg, int up_to = 12);

/// Coefficients c0, a_1, b_1, a_2, b_2, ... of x(t) = c0 + sum a_k cos k t + b_k sin k t and what their uncertainty is
/// for readings of unit variance: for a posterior of the curve given noisy readings.
struct CircleCoefficients {
  int order = 0;                             ///< as in CircleFit::order_used
  std::vector<double> values_um = {};        ///< 2 order + 1
  std::vector<double> unit_covariance = {};  ///< (2 order + 1)^2, row by row; times the noise variance it is in um^2
  double residual_ss_um2 = 0.0;              ///< residual sum of squares over all readings
  int dof = 0;
};

/// The same fit as `fit_circle`, as coefficients with their covariance. Same domain, same refusals.
CircleCoefficients circle_coefficients(const Trace& trace, int max_order);

/// The waves behind coefficients c0, a_1, b_1, ... (no uncertainties).
/// @param coefficients_um  an odd number of them
std::vector<Harmonic> harmonics_of(std::span<const double> coefficients_um);

}  // namespace brakewright
