#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/separation/separation.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright {

/// A plate of tapered thickness between hub and part: thick side against thin side over its diameter.
struct TaperPlate {
  std::string id;
  double taper_um = 0;     ///< 0 to 100 000
  double diameter_mm = 0;  ///< 1 to 2000
};

/// One turn of the indicator on the bare flange.
struct FlangeTrace {
  Trace trace = {};
  double lift = 1;  ///< radius at which runout is read over the radius of this trace: what a tilt grows by; 0.01 to 100
};

/// One turn of the indicator on the part by itself, on a bench that may hold it out of square with its own seat.
struct BenchTrace {
  Trace trace = {};
  double u_tilt_um = 0;  ///< standard deviation of each coordinate of that tilt, 0 to 1e6
};

/// Readings that say what hub and part are, in place of their harmonics or beside them.
struct RefitReadings {
  std::vector<PositionTrace> positions = {};  ///< as for `separate`; turn 0 is position 0 of the studs
  std::optional<double> noise_sd_um = {};     ///< of one reading; the residuals' own where these have 3 spare or more
  std::vector<FlangeTrace> flange = {};       ///< tell the hub's tilt, and the size of its higher waves
  std::vector<BenchTrace> bench = {};         ///< tell the part alone
  /// Of the same hub with another part on it, or with this one before it was changed: tell the hub alone.
  std::vector<PositionTrace> other_part = {};
};

struct RefitInput {
  std::vector<Harmonic> hub;             ///< in the hub's frame; each order once, orders 1 to 40
  std::vector<Harmonic> part;            ///< in the part's own frame
  int positions = 0;                     ///< studs, 1 to 24
  std::optional<double> radius_mm = {};  ///< at which runout is read, 1 to 2000; needed with plates
  std::vector<TaperPlate> plates = {};   ///< on hand, at most 64
  std::optional<double> limit_um = {};   ///< 0.001 to 1e6
  /// Standard uncertainty of every amplitude that carries none of its own; without any, all harmonics are exact.
  std::optional<double> u_um = {};
  double refit_u_um = 0;  ///< tilt that mounting the part once more adds: standard deviation of each coordinate
  std::optional<RefitReadings> readings = {};
  std::optional<int> keep_position = {};  ///< `best`, and every plate, is sought in this position alone
  /// `best` goes by the median of what is likely in place of the summed curve, where anything is uncertain; plates
  /// then have their probabilities too.
  bool by_likely = false;
  double confidence = 0.95;
  std::uint64_t seed = 1;
  std::size_t draws = 2000;  ///< 100 to 20 000
};

/// The part on one set of studs, with one plate or none.
struct FittedRunout {
  int position = 0;  ///< 0 to positions - 1: the part is turned by position * 360/positions degrees
  double turn_deg = 0;
  double runout_um = 0;                    ///< peak to valley of the summed curve, all the way round
  double high_deg = 0;                     ///< where it stands highest, in the hub's frame, to half a degree
  std::optional<std::size_t> plate = {};   ///< index of the plate
  std::optional<int> plate_position = {};  ///< its thick side is at plate_position * 360/positions degrees
  std::optional<Posterior> true_runout_um = {};
  std::optional<double> p_within = {};
  std::optional<Standing> verdict = {};
};

struct Refit {
  FittedRunout best;
  std::vector<FittedRunout> all;  ///< each position without a plate, then each plate at its best, in their order
  double worst_um = 0;            ///< the largest of the positions without a plate
  std::vector<Harmonic> hub;      ///< that the answer rests on
  std::vector<Harmonic> part;
  bool from_readings = false;
  std::vector<Advice> advice;
};

/// The position of the part on its studs that leaves the least runout, and whether a tapered plate is needed.
///
/// Runout of position n is the peak to valley of h(t) + p(t - n 360/positions), exact between grid points. A plate of
/// taper p over diameter D adds a tilt of amplitude p r/D at radius r whose high side is at the plate's thick side; it
/// is used for `best` only where a limit is given and every position misses it without, and only where it helps. Of
/// equal runouts (to a billionth of the amplitudes) the one without plate, the plate with the least tilt, the lower
/// position and the lower plate position come first, in that order.
///
/// Probabilities: coefficients of each wave are normal about their estimate, with a pattern's size and smoothness
/// unknown for hub and part each (as in TrueCurve), so that what is noise is not taken for runout. With `readings` the
/// orders up to 12 that the positions do not tell apart count with what is likely of them, and what hub and part share
/// in uncertainty is kept. With `readings` and neither `hub` nor `part`, these are the mean of that belief.
/// Readings of the flange, of the part on a bench and of another part on the same hub count beside the positions, each
/// for what it tells.
/// Without any uncertainty there are no probabilities.
/// @throws InputError naming `hub[2].order`, `plates[0].taper_um`, `readings.positions[1].values_um`, ...; "missing"
/// for
///         `radius_mm` with plates, `hub` and `part` without readings, `readings.noise_sd_um` where nothing tells it
/// Source: plane geometry; methods 12; JCGM 101 for the draws.
Refit best_refit(const RefitInput& input);

}  // namespace brakewright
