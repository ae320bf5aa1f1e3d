#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/uncertainty/conformity.hpp"

namespace brakewright {

/// What is known of the micrometer that took the readings.
struct Micrometer {
  double resolution_mm = 0;     ///< step of its last digit, > 0
  double mpe_mm = 0;            ///< largest permissible error, >= 0: a rectangular error common to all its readings
  double repeatability_mm = 0;  ///< standard deviation of one reading when the same spot is read again, >= 0
  double zero_error_mm = 0;     ///< what it shows when closed on nothing (or over the setting piece); is subtracted
};

/// All readings of one spot of the part.
struct ThicknessPoint {
  double angle_deg = 0;             ///< from the part's index mark, [0, 360)
  std::optional<double> radius_mm;  ///< where on the face; absent on all points alike means one circle
  std::vector<double> values_mm;    ///< as shown by the micrometer, one or more
};

struct ThicknessInput {
  std::vector<ThicknessPoint> readings;  ///< 3 distinct angles or more on each circle; at most 96 spots in all
  Micrometer micrometer;
  double part_temperature_c = 20;  ///< -40 to 200
  std::optional<double> variation_limit_mm;
  std::optional<double> discard_mm;
  std::optional<double> machine_to_mm;
  double confidence = 0.95;  ///< asked of `variation_verdict`, within (0.5, 1)
  std::uint64_t seed = 1;
  std::size_t draws = 20000;  ///< 100 to 200 000
};

/// Mean of one spot's readings, less the zero error and at 20 C.
struct PointMean {
  double angle_deg = 0;
  double radius_mm = 0;  ///< 0 when the readings carry none
  double mean_mm = 0;
  std::size_t count = 0;  ///< readings of this spot
};

/// The trade's figures of one circle.
struct CircleOfThickness {
  double radius_mm = 0;
  double mean_mm = 0;
  double min_mm = 0;
  double max_mm = 0;
  double variation_mm = 0;          ///< highest less lowest of its point means
  std::vector<Harmonic> harmonics;  ///< of its thickness, in the part's frame
  std::vector<int> blind_orders;    ///< orders up to 12 of which these points see less than half at worst
};

/// A quantity that is known only as a distribution: the middle, and the ends of its 95 % interval.
struct Posterior {
  double median = 0;
  double low95 = 0;
  double high95 = 0;
};

/// Where a quantity stands to its limit: within, outside or cannot tell.
using Standing = Conformity;

struct Advice {
  std::string code;  ///< stable word, such as "instrument_too_coarse"
  std::string text;  ///< one sentence
};

struct Thickness {
  double mean_mm = 0;
  double min_mm = 0;
  double min_angle_deg = 0;
  double min_radius_mm = 0;
  double max_mm = 0;
  double max_angle_deg = 0;
  double variation_mm = 0;          ///< the trade's figure: of the circle on which it is largest
  double variation_radius_mm = 0;   ///< that circle
  double taper_mm = 0;              ///< mean of the outermost circle less that of the innermost; 0 with one circle
  double temperature_shift_mm = 0;  ///< what bringing the mean to 20 C added to it (negative for a warm part)
  Posterior true_variation_mm;      ///< highest less lowest of the part itself, all the way round its worst circle
  std::optional<double> p_variation_within;  ///< probability that true variation <= the limit; absent without a limit
  /// `within` when that is >= confidence, `outside` when <= 1 - confidence. Never `within` by an instrument whose step
  /// is the limit or more.
  std::optional<Standing> variation_verdict;
  double u_min_mm = 0;  ///< standard uncertainty of `min_mm`: permissible error, rounding, repeatability, 2 K
  std::optional<double> p_min_above_discard;  ///< that the thinnest spot all the way round is over discard
  std::optional<double> p_min_above_machine_to;
  std::vector<Harmonic> harmonics;  ///< of the circle that `variation_radius_mm` names
  std::vector<int> blind_orders;
  std::vector<Advice> advice;
  std::vector<PointMean> points;           ///< in the order of the readings
  std::vector<CircleOfThickness> circles;  ///< from the innermost out
};

/// Thickness and thickness variation of a disc from micrometer readings round it.
///
/// The trade's figure, highest less lowest of the readings, overstates what the part has by what the readings
/// scatter: N equal readings with noise s already give d2(N) s (2.85 s for 8). So the answer carries both that figure
/// and the posterior of the true variation. See true_curve.hpp for its model and what its interval is held to.
/// Repeats of a spot are averaged; several circles share one pattern as far as the readings say so.
/// Two spots of one angle and radius are one spot. Degenerate: a resolution of many repeatabilities, with equal
/// readings, bounds the variation by about one step and no better; a repeatability of 0 means "by rounding alone".
/// @throws InputError naming `readings[i].values_mm[j]`, `micrometer.resolution_mm`, ... for a value that is not
///         finite or out of its range, "sizes_differ" when some points carry a radius and others none, "too_few" for
///         fewer than three distinct angles on a circle
/// Source: methods 3; thermal growth 11e-6 per K for grey iron; JCGM 101 (propagation of distributions).
Thickness reduce_thickness(const ThicknessInput& input);

/// Growth of grey iron per kelvin. Common practice for grey iron, as methods 3 takes it.
inline constexpr double kGreyIronPerKelvin = 11e-6;

}  // namespace brakewright
