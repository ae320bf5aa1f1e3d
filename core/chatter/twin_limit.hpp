#pragma once

#include <array>

#include "core/chatter/lobes.hpp"

namespace brakewright::chatter {

/// Two tools, one on each face of the disc, at equal depth.
struct TwinCut {
  Mode tool;  ///< of one holder; `weight` > 0
  Mode disc;  ///< across its faces, where the tools stand; `weight` > 0
  double kf_n_per_m2 = 0;
};

/// What both tools feel when they swing against each other: the disc gives way to each of them, so it counts twice.
std::array<Mode, 2> opposed_modes(const TwinCut& cut);

/// Depths per side that hold at every speed.
struct TwinLimit {
  Limit disc_mode;    ///< the tools swing against each other with the disc between them
  Limit tools_only;   ///< the tools swing alike to both sides and the disc stands still
  Limit single_side;  ///< one tool alone on the same disc
  bool disc_governs = false;

  const Limit& least() const { return disc_governs ? disc_mode : tools_only; }
};

/// The static thrusts of two tools cancel on the disc, but what the waves add does not: the disc feels both.
///
/// The mode with the disc has -1/(2 Kf min Re(Gt + 2 Gd)), which is half of one tool's limit where the disc is the
/// softer; the mode without it -1/(2 Kf min Re Gt).
/// @throws InputError "out_of_range" or "not_finite" naming `tool.k_n_per_m`, `disc.zeta`, `kf_n_per_m2` ...
/// Source: derived from the equations of the two tools and the disc, methods 10; the rightmost root of their delay
/// equation changes its sign there.
TwinLimit twin_limit(const TwinCut& cut);

/// Where the lesser of the limits with and without the disc lies with 95 % probability; tool and disc share one error.
/// @throws InputError as above, and naming `u_relative.k`, `u_relative.zeta`, `u_relative.kf`
/// Source: as `band_of_absolute_limit`.
Band95 band_of_twin_limit(const TwinCut& cut, const RelativeU& u);

}  // namespace brakewright::chatter
