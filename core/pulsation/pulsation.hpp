#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/pulsation/tyre.hpp"
#include "core/thickness/thickness.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright::pulsation {

/// How far one turn of the wheel goes.
struct Rolling {
  double mm = 0, low_mm = 0, high_mm = 0;
};

/// What was felt or recorded at one speed.
struct Observation {
  double speed_km_per_h = 0;                ///< 5 to 300
  double u_speed_relative = 0.02;           ///< 0 to 0.3
  double speed_factor = 1;                  ///< true speed over that shown, 0.5 to 1.5
  std::optional<double> frequency_hz = {};  ///< 0.2 to 200
  double u_frequency_hz = 0;                ///< > 0 where a frequency is given
};

enum class Felt { unknown, pedal, wheel, seat };

/// What was read at one corner of the car.
struct Corner {
  std::string name;
  bool front = false;
  bool read = false;                     ///< whether `variation` was measured at all
  std::vector<Harmonic> variation = {};  ///< of thickness, or of a drum's diameter
  std::vector<int> blind_orders = {};    ///< of the angles it was read at
  std::optional<double> runout_um = {};
  std::optional<double> variation_limit_um = {};  ///< what counts as a good deal there; 0.1 to 100 000
};

/// What runout left in does.
struct GrowthInput {
  double runout_um = 0;
  double runout_limit_um = 0;
  double variation_um = 0;        ///< now
  double variation_limit_um = 0;  ///< from which it is felt, or its limit
};

struct WearInput {
  double thickness_mm = 0;
  double u_mm = 0;
  double discard_mm = 0;
  WearRate rate;
};

struct PulsationInput {
  Rolling rolling;
  std::vector<Observation> observations;  ///< 1 to 20
  Felt felt = Felt::unknown;
  std::vector<Corner> corners;          ///< at most 12
  std::vector<double> speeds_km_per_h;  ///< of the table; at most 50
  std::optional<GrowthInput> growth = {};
  std::optional<WearInput> wear = {};
  std::uint64_t seed = 1;
};

inline constexpr int kOrders = 6;

/// One wheel order against what was felt; order 0 is "none of the wheel's".
struct OrderFit {
  int order = 0;
  double probability = 0;
  std::optional<double> expected_hz = {};  ///< at the first observation with a frequency
  std::optional<double> off_percent = {};  ///< observed over expected, less 100
  std::optional<double> z = {};            ///< the same in standard uncertainties; the largest of the observations
};

struct CornerFit {
  std::string name;
  double probability = 0;  ///< that it is this one, of those that were read and none of them
  int order = 0;           ///< of its variation that counts most here; 0 where it was not read
  double amplitude_um = 0;
  std::string why;
};

struct SpeedRow {
  double speed_km_per_h = 0;
  int order = 0;
  double low_hz = 0, hz = 0, high_hz = 0;
};

struct GrowthPoint {
  double km = 0, low_um = 0, high_um = 0;
};

struct Growth {
  bool over = false;  ///< the runout is over its limit
  std::optional<double> felt_from_km, felt_to_km;
  std::vector<GrowthPoint> curve;
  std::string text, source;
};

struct Pulsation {
  std::vector<OrderFit> orders;    ///< most probable first; empty without any frequency
  std::vector<CornerFit> corners;  ///< most probable first
  double p_other_corner = 1;       ///< that it is none of those read
  std::vector<SpeedRow> table;
  std::optional<Growth> growth;
  std::optional<WearRoom> wear;
  std::vector<Advice> next;  ///< what to do next, most telling first
};

/// Which wheel order and which corner a pulsation fits, and what to measure next.
///
/// Order k beats k v/circumference times a second. Each order, and "none of the wheel's", is weighed by how near the
/// observed frequencies lie to it within the uncertainties of frequency, speed and tyre (which all observations share).
/// A corner is weighed by its variation at the probable orders, the front doubled where the steering wheel shakes, the
/// rear where the seat does (common practice, no source), against a part that has none.
/// Growth and wear are ranges with their source, never a promise.
/// @throws InputError naming `observations[0].speed_km_per_h`, `rolling`, `growth.runout_um`, ...
/// Source: kinematics; methods 13; growth: 3000 to 6000 miles, another text 3000 km (common practice, no source).
Pulsation find_pulsation(const PulsationInput& input);

/// How runout left in grows into variation: a range, with its source. Figures as in `PulsationInput::growth`, taken as
/// they are.
Growth growth_of(const GrowthInput& input);

/// True speed over what a speedometer shows, and its relative uncertainty: it may show up to some per cent too much,
/// never too little. From memory, no source read.
inline constexpr double kSpeedometerFactor = 0.97, kSpeedometerU = 0.02;

/// A count of beats over some seconds: its frequency and uncertainty, for a beat more or less and a fifth of a second.
struct Counted {
  double hz = 0, u_hz = 0;
};
Counted counted(double beats, double seconds);

}  // namespace brakewright::pulsation
