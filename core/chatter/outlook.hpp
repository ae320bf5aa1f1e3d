#pragma once

#include <optional>
#include <vector>

#include "core/chatter/lobes.hpp"

namespace brakewright::chatter {

/// How it became known how the disc rings.
enum class RingKnownBy { size, tap, marks };

/// The tone of the disc that sings first, and what the band does to it.
struct RingTone {
  RingKnownBy by = RingKnownBy::size;
  double hz = 0;                 ///< 1 to 1e5
  double zeta = 0;               ///< share of critical damping, 1e-6 to 0.99; bare unless `heard_with_band`
  double u_zeta = 0;             ///< its standard uncertainty as the tap tells it, 0 to 1; by a tap alone
  double band_factor = 1;        ///< what the band multiplies the damping by, 1 to 1000
  bool band_heard = false;       ///< from taps without and with it; else assumed
  bool heard_with_band = false;  ///< the tap told the damping with the band on
};

/// Two equal tools on the two faces of a disc, and what is to be known of it.
struct OutlookInput {
  double outer_radius_mm = 0;  ///< of the ring, 1 to 1000
  double inner_radius_mm = 0;  ///< 1 to less than the outer one
  double thickness_mm = 0;     ///< 0.1 to 1000
  RingTone ring = {};
  Mode holder = {.zeta = 0.03};        ///< of one tool
  double feed_mm_per_rev = 0;          ///< above 0 to twice the nose's radius
  double nose_radius_mm = 0;           ///< above 0 to 100
  bool banded = false;                 ///< the cut is taken with the band on
  double confidence = 0.95;            ///< with which a depth is said to be quiet, and to sing; 0.5 to 0.9999
  std::vector<double> rpm = {};        ///< 1 to 10 000 speeds
  std::vector<double> depths_mm = {};  ///< that are asked about, 0 to 1e4 each; 10 000 at most
};

/// A depth at which it begins to sing, and 95 % of what it may be.
struct BandedLimit {
  double mm = 0;
  Band95 band = {};
};

struct Outlook {
  BandedLimit disc = {};   ///< the tools swing against each other with the disc between them
  BandedLimit tools = {};  ///< the holders alone
  BandedLimit least = {};  ///< of whatever sings first
  bool disc_governs = false;
  double sings_hz = 0;                               ///< of whatever sings first
  double bare_mm = 0;                                ///< least, without the band
  double banded_mm = 0;                              ///< least, with it
  double single_side_mm = 0;                         ///< one tool alone on the same disc
  bool single_by_disc = false;                       ///< and whose tone that is
  std::vector<std::optional<double>> limit_mm = {};  ///< at each speed; nothing where no depth sings
  std::vector<double> p_sings = {};                  ///< of each depth that was asked about
  double quiet_mm = 0;          ///< up to here a depth holds with the confidence that was asked for
  double sings_mm = 0;          ///< from here on it sings with it
  double counted_depth_mm = 0;  ///< the cut that the force is counted for
  double kf_n_per_m2 = 0;       ///< force per metre of depth and metre of chip
  double k_disc_n_per_m = 0;    ///< at the rim
};

/// How deep two tools may go before a disc of this size sings, from what a shop knows of it.
///
/// The disc counts as one mode at its rim, a fifth of its ring's iron (as if it had no vents) swinging at its tone: a
/// flat ring with two lines at rest. The force's growth with the chip is Kienzle's, half of it thrust, for a cut of
/// 0.1 mm or the nose's radius. The limits with and without the disc err together, so that the chance that a depth
/// sings is the greater of the two; each limit's logarithm is normal about its value. Relative standard uncertainties,
/// all from judgement, no source: force 0.3; disc's stiffness 0.4 by its size, 0.25 by a tone; its damping 0.5, 0.3 and
/// the tap's own by a tap, for on the arbor it is another; the band 0.4, 0.2 where it was heard, none where it
/// was on at the tap as in the cut; the holder's stiffness 0.25 and damping 0.5.
/// @throws InputError "out_of_range" or "not_finite" naming `outer_radius_mm`, `ring.zeta`, `holder.fn_hz`,
///         `depths_mm[3]`, `rpm[0]` ...
/// Source: `twin_limit`, `cutting::nose_force`; the share of thrust from memory.
Outlook outlook_of(const OutlookInput& input);

}  // namespace brakewright::chatter
