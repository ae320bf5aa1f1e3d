#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/cleanup/cleanup.hpp"
#include "core/runout/runout.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright {

/// A limit of the part being worked on, with where it comes from ("cast on the part", a service document, ...).
struct LengthLimit {
  double value_mm = 0;
  std::string source;
};

struct RoughnessLimit {
  double value_um = 0;
  std::string source;
};

/// What a part is. A drum's diameters stand here as what is left to turn away: `mirror_mm` less the diameter, brought
/// to 20 C and to a zero of nothing, at twice the angle it was read at (a diameter comes round twice in a turn), with
/// depth from the open edge in the place of radius. So limits, draws and decisions are those of a rotor's thickness.
/// See core/drum.
enum class PartKind { rotor, drum };

struct PartLimits {
  std::optional<LengthLimit> nominal;
  std::optional<LengthLimit> machine_to;  ///< thinnest that a cut may leave
  std::optional<LengthLimit> discard;     ///< at or under this the part is scrap
  std::optional<LengthLimit> variation;   ///< thickness variation
  std::optional<LengthLimit> runout;      ///< lateral runout on the car
  std::optional<LengthLimit> scoring;     ///< depth of groove that may stay
  std::optional<LengthLimit> taper = {};  ///< of a drum: between the mean diameters at its depths
  std::optional<RoughnessLimit> finish;   ///< Ra
};

/// Where the indicator stood when the face was read.
enum class Carrier { car, arbor };

struct RunoutReadings {
  Carrier carrier = Carrier::car;
  RunoutTrace outboard;
  Indicator indicator;
};

struct Scoring {
  double outboard_um = 0;  ///< deepest groove of each face, >= 0
  double inboard_um = 0;
  double u_um = 0;  ///< standard uncertainty of each depth
};

/// Something seen. Whether it means the end of the part is for the shop's teacher to say.
struct Finding {
  std::string kind;  ///< "crack", "heat check", "broken fin", ...
  bool reject = false;
};

/// Everything that was read on one part.
struct PartReadings {
  std::string name;  ///< as the reasons shall call it: "left", "right"
  PartLimits limits;
  std::vector<ThicknessPoint> readings;
  Micrometer micrometer;
  double part_temperature_c = 20;
  std::optional<RunoutReadings> car_runout;    ///< face runout on the car: held against the limit
  std::optional<RunoutReadings> arbor_runout;  ///< on the lathe: what the cleanup must take off
  Scoring scoring;
  std::vector<Finding> findings;
  PartKind kind = PartKind::rotor;
  double mirror_mm = 0;  ///< of a drum
};

struct Lathe {
  double dial_um_per_mark = 25.4;                       ///< tool travel for one mark, > 0
  std::optional<double> dial_inboard_um_per_mark = {};  ///< of the inboard dial; as the outboard's when left out
  double dial_repeatability_um = 2.5;                   ///< standard deviation of a dial setting
  double mount_runout_um = 10;  ///< root mean square of the runout that one more mounting adds at the face
};

enum class Complaint { pulsation, noise, pull, pad_change, inspection, practice, other };

/// How fast the shop sees such parts wear: thickness lost per 10 000 km, or per year.
struct WearRate {
  double mm_per_unit = 0;          ///< > 0
  double relative_u = 0.3;         ///< its relative standard uncertainty
  std::string unit = "10 000 km";  ///< "10 000 km" or "year"
};

struct VerdictInput {
  std::vector<PartReadings> parts;  ///< one, or both of the axle
  Complaint complaint = Complaint::other;
  Lathe lathe;
  double margin_um = 0;      ///< what the shop cuts below the lowest spot of each face
  double confidence = 0.95;  ///< within [0.5, 1)
  /// House rule: machine-to = discard + this, where the part's own machine-to is unknown. Never used unless given.
  std::optional<LengthLimit> house_allowance;
  std::optional<WearRate> wear_rate;
  std::uint64_t seed = 1;
  std::size_t draws = 20000;  ///< 100 to 200 000
};

enum class Action { leave, cut, replace, measure_again };

/// "leave", "cut", "replace", "measure again".
const char* name_of(Action action);

/// One sentence that a student can check by hand, with the numbers in it.
struct Reason {
  std::string code;  ///< stable word: "below_discard", "variation_outside", ...
  std::string text;
  std::string part;             ///< name of the part; empty when it is about the axle
  std::optional<double> value;  ///< in the unit of `unit`
  std::optional<double> limit;
  std::string unit;         ///< "mm", "um" or ""
  std::optional<double> p;  ///< probability behind the sentence
  std::string source;       ///< where the limit comes from; or "common practice, no source"
};

/// The reading that would settle the matter most cheaply.
struct NextMeasurement {
  std::string kind;  ///< "repeats", "more_points", "finer_micrometer", "runout_on_arbor", "find_limit", "none"
  std::string part;
  std::string text;                ///< what to do, in one sentence
  std::vector<double> angles_deg;  ///< where, when it matters
  std::size_t repeats = 0;         ///< readings in all at each of them
  double resolution_mm = 0;        ///< of the micrometer to use, 0 when the present one will do
  std::string question;            ///< which probability it is about: "variation", "discard", "machine_to", ...
  double p_now = 0;
  double p_after = 0;    ///< that probability afterwards, if the part is as now best estimated
  double p_settles = 0;  ///< probability that the reading settles it either way
  std::string method;    ///< how p_after was found
};

/// Distance or years until discard.
struct WearRoom {
  double low95 = 0;
  double median = 0;
  double high95 = 0;
  std::string unit;
};

/// What the draws and the plain figures say of one part.
struct PartVerdict {
  std::string name;
  Action action = Action::leave;
  double p = 0;
  Thickness thickness;
  std::optional<Runout> runout;
  Cleanup cleanup;                        ///< at the readings' own points
  bool runout_assumed = false;            ///< no trace on the arbor: the cleanup rests on the car's, or on none
  std::optional<LengthLimit> machine_to;  ///< the one in force: the part's own or the house rule's
  bool machine_to_is_house_rule = false;
  std::optional<double> p_above_discard;  ///< the thinnest spot is over discard
  std::optional<double> p_variation_within;
  std::optional<double> p_runout_within;
  std::optional<double> p_scoring_within;
  std::optional<double> p_final_over_machine_to;  ///< after the least cut, in whole marks
  std::optional<double> p_final_over_discard;
  Posterior final_mm;                      ///< thickness that the least cut in whole marks leaves
  std::optional<Standing> cut_called_for;  ///< `outside`: something is over its limit; absent when nothing was asked
  std::optional<WearRoom> wear_room_uncut;
  std::optional<WearRoom> wear_room_cut;
  std::vector<Reason> reasons;
  PartKind kind = PartKind::rotor;
  double mirror_mm = 0;  ///< of a drum: less what stands here as thickness it is a diameter
  double taper_mm = 0;   ///< of a drum: largest less least of the mean diameters at its depths
  std::optional<double> p_taper_within;
};

struct Verdict {
  Action action = Action::leave;                    ///< for the axle: both parts are judged together
  double p = 0;                                     ///< probability behind the word
  std::vector<Reason> reasons;                      ///< most telling first
  std::optional<NextMeasurement> next_measurement;  ///< only with `measure_again`
  std::vector<PartVerdict> parts;
};

/// Leave it, cut it, replace it, or measure again: what the readings and limits of a whole job say.
///
/// In this order for each part: a finding that the shop rejects on; at or below discard; whether a cut is called for
/// (variation, runout or scoring over its limit; pulsation that the readings do not clear); whether what the cut
/// leaves is over machine-to with the shop's confidence. A probability between confidence and its complement is
/// `measure_again`, with the cheapest reading that would settle it. Parts of one axle take the graver action of the
/// two: replace, then measure again, then cut, then leave.
/// Nothing here calls a part safe: it says what is within the limits that were given.
/// @throws InputError naming the field, as `parts[1].readings[3].values_mm[0]`
/// Degenerate: without any limit the action is `measure_again` and the next measurement is to find the limits.
/// Source: methods 7; trade practice for the order of decisions; JCGM 101 for the draws; JCGM 106 for deciding
/// by probability.
Verdict judge(const VerdictInput& input);

}  // namespace brakewright
