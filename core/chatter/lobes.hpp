#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/chatter/flexibility.hpp"

namespace brakewright::chatter {

/// The least depth (width of the chip) at which waves grow, at one speed.
struct Limit {
  double depth_mm = 0;
  double chatter_hz = 0;
  double whole_waves = 0;  ///< whole waves from one turn to the next: the lobe's number
};

/// Turning's limit for one mode at one speed, the least over all lobes. Closed form but for a root of one unknown.
///
/// depth = -1/(2 Kf Re G) where Re G < 0; a turn takes (2 pi j + e)/w with e = 3 pi + 2 arg G. The phase grows with
/// frequency and the depth has one least, so that only the two lobes about it count, however many waves a turn has.
/// @param mode          `weight` > 0
/// @param kf_n_per_m2   force per metre of depth and metre of chip thickness, 1 to 1e15
/// @param rpm           0.01 to 1e6
/// @throws InputError "out_of_range" or "not_finite" naming `k_n_per_m`, `zeta`, `fn_hz`, `weight`, `kf_n_per_m2`,
///         `rpm`
/// Source: Tlusty; Altintas, Manufacturing Automation, regenerative chatter in orthogonal cutting; methods 10.
Limit limit_of_one_mode(const Mode& mode, double kf_n_per_m2, double rpm);

/// The limit whatever the speed: -1/(2 Kf min Re G); of one mode 2 k zeta (1 + zeta)/Kf at fn sqrt(1 + 2 zeta).
/// `whole_waves` is 0: it goes with no speed. Same refusals; several modes are named `modes[1].zeta`.
Limit absolute_limit(std::span<const Mode> modes, double kf_n_per_m2);

/// Limits of several modes together at each speed, by scanning all frequencies that can chatter.
///
/// Nothing stands for a speed at which no depth chatters, as weights of both signs allow.
/// @param rpm  1 to 10 000 speeds, 0.01 to 1e6 each
/// @throws InputError as above; `rpm[3]` for a speed
std::vector<std::optional<Limit>> limits(std::span<const Mode> modes, double kf_n_per_m2, std::span<const double> rpm);

/// Relative standard uncertainties of what the limit rests on, 0 to 2 each; all modes share one error.
struct RelativeU {
  double k = 0, zeta = 0, kf = 0;
};

struct Band95 {
  double low_mm = 0, high_mm = 0;
};

/// Relative standard uncertainty of the absolute limit, which is that of its logarithm to first order.
/// @throws InputError "out_of_range" or "not_finite" naming `u_relative.k`, `u_relative.zeta`, `u_relative.kf`
/// Source: JCGM 100, 5.1.2, of the logarithms.
double relative_u_of_absolute_limit(std::span<const Mode> modes, double kf_n_per_m2, const RelativeU& u);

/// Where the absolute limit lies with 95 % probability: 1.96 of the above to either side of its logarithm.
/// @throws InputError as above
Band95 band_of_absolute_limit(std::span<const Mode> modes, double kf_n_per_m2, const RelativeU& u);

}  // namespace brakewright::chatter
