#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/drum/shape.hpp"
#include "core/drum/shoe_contact.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright::drum {

/// All readings of one diameter.
struct Diameter {
  double depth_mm = 0;            ///< from the open edge, 0 to 500
  double angle_deg = 0;           ///< of the gauge's first anvil, [0, 360); a diameter is the same half a turn on
  std::vector<double> values_mm;  ///< 50 to 1500
};

/// Limits of the drum as diameters; the figure cast in the drum wins over any rule.
struct Limits {
  std::optional<LengthLimit> nominal;
  std::optional<LengthLimit> machine_to;      ///< largest that a cut may leave
  std::optional<LengthLimit> discard;         ///< at or over this the drum is scrap
  std::optional<LengthLimit> out_of_round;    ///< on the diameter, at one depth
  std::optional<LengthLimit> taper;           ///< between the mean diameters at its depths: taper, bell-mouth or barrel
  std::optional<LengthLimit> scoring;         ///< depth of groove that may stay
  std::optional<RoughnessLimit> finish = {};  ///< Ra after a cut
};

struct Drum {
  std::string name;
  Limits limits;
  std::vector<Diameter> readings;  ///< three different diameters or more at each depth, at most 96 spots
  Micrometer gauge;                ///< resolution, error, repeatability and zero of the gauge on the diameter
  double part_temperature_c = 20;
  std::optional<RunoutReadings>
      arbor_runout;     ///< indicator inside the drum on the lathe, on the radius, away from the axis positive
  double score_um = 0;  ///< deepest groove
  double u_score_um = 0;
  std::vector<Finding> findings;
};

struct DrumInput {
  std::vector<Drum> parts;  ///< one, or both of the axle
  Complaint complaint = Complaint::other;
  Lathe lathe;  ///< dial marks on the radius
  double margin_um = 0;
  double confidence = 0.95;
  std::optional<LengthLimit> house_allowance;  ///< machine-to = discard less this, where unknown; on the diameter
  std::optional<WearRate> wear_rate;           ///< diameter gained per unit
  std::optional<Shoe> shoe;
  std::uint64_t seed = 1;
  std::size_t draws = 20000;
};

/// What the readings, the limits and the least cut say of one drum, beside its shape.
struct DrumVerdict : Shape {
  std::string name;
  Action action = Action::leave;
  double p = 0;
  std::vector<Reason> reasons;
  double cut_on_radius_um = 0;       ///< least cut from first touch
  double change_on_diameter_um = 0;  ///< twice that
  std::int64_t marks = 0;
  double marks_on_radius_um = 0;  ///< the same in whole marks
  double marks_on_diameter_um = 0;
  double final_mm = 0;  ///< diameter that the cut in whole marks leaves
  Posterior true_final_mm;
  bool runout_assumed = false;
  std::optional<LengthLimit> machine_to;  ///< in force
  bool machine_to_is_house_rule = false;
  std::optional<double> p_under_discard;
  std::optional<double> p_out_of_round_within, p_taper_within, p_scoring_within;
  std::optional<double> p_final_within_machine_to, p_final_under_discard;
  std::optional<Standing> cut_called_for;
  std::optional<WearRoom> wear_room_uncut, wear_room_cut;
  std::optional<ShoeContact> shoe_before, shoe_after;
};

/// Both drums of an axle turned to one size.
struct PairSize {
  double final_mm = 0;             ///< the larger of the two least cuts
  std::vector<double> extra_um;    ///< on the radius, that each takes beyond its own least cut
  std::optional<double> p_within;  ///< probability that both are at machine-to or under with it; absent without limits
};

struct Drums {
  Action action = Action::leave;
  double p = 0;
  std::vector<Reason> reasons;
  std::optional<NextMeasurement> next_measurement;
  std::vector<DrumVerdict> parts;
  std::optional<PairSize> pair;  ///< with two parts
  std::vector<Advice> advice;
};

/// Leave, cut, replace or measure again, for a drum or both drums of an axle: the same decisions as `judge`, on
/// diameters.
///
/// A gauge across the diameter sees even orders alone: eccentricity and odd lobes need an indicator on the lathe.
/// Out-of-round is judged as the thickness variation of a rotor is; the cut radius is the largest local radius with
/// scoring and margin; the final diameter is twice it in whole marks. Depth is on the radius, change on the diameter.
/// @throws InputError naming the field, as `parts[0].readings[2].values_mm[0]`, `parts[1].gauge.mpe_mm`
/// Source: methods 16; verdict.hpp for the rest.
Drums judge_drums(const DrumInput& input);

}  // namespace brakewright::drum
