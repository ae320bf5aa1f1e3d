#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace brakewright {

/// One value for the whole face, or one for each reading angle.
using PerPoint = std::vector<double>;

/// Both faces of a part on the lathe, as they stand to planes square to the spindle.
struct CleanupInput {
  std::vector<double> thickness_mm;  ///< at each angle, at 20 C
  std::vector<double> outboard_um;   ///< outboard face, deviation outward from a plane square to the spindle; any zero
  std::vector<double> angles_deg;    ///< of both lists, [0, 360)
  PerPoint score_outboard_um = {0};  ///< depth of scoring under the face: one value, or one for each angle; >= 0
  PerPoint score_inboard_um = {0};
  double margin_um = 0;                                 ///< cut below the lowest spot of each face, >= 0
  double dial_um_per_mark = 25.4;                       ///< tool travel for one mark of the dial, > 0
  std::optional<double> dial_inboard_um_per_mark = {};  ///< of the inboard dial; as the outboard's when left out
  std::optional<double> machine_to_mm;
  std::optional<double> discard_mm;
  bool use_fit = false;  ///< work on fitted curves (all orders that the angles allow, 12 at most), not on the readings
};

struct Cleanup {
  double outboard_cut_um = 0;  ///< tool travel from first touch until this face is clean
  double inboard_cut_um = 0;
  std::int64_t outboard_marks = 0;  ///< the same in whole dial marks, rounded up
  std::int64_t inboard_marks = 0;
  double final_mm = 0;                  ///< thickness left by the least cut
  double final_whole_marks_mm = 0;      ///< thickness left when both dials are taken to whole marks
  double removed_mean_outboard_um = 0;  ///< mean depth of metal that leaves this face with the least cut
  double removed_mean_inboard_um = 0;
  double cheek_difference_um = 0;  ///< mean removed outboard less inboard: what the cheeks' thicknesses are apart after
  double wobble_um = 0;            ///< highest less lowest of the mid-plane: what part and mount wobble cost together
  double start_min_mm = 0;         ///< lowest thickness before the cut
  std::optional<double> over_machine_to_mm;  ///< final_whole_marks_mm less machine-to; negative: may not be cut
  std::optional<double> over_discard_mm;
  /// How many such cuts fit above machine-to, this one counted: (start_min - machine_to)/(start_min -
  /// final_whole_marks), cut to whole; 0 when this one already goes below. At most 99.
  std::optional<int> cuts_left;
};

/// The least that must come off each face so that both clean up all round, in the lathe's frame.
///
/// The inboard deviation follows from thickness and outboard face: b = thickness - T0 - a, T0 = mean thickness. Each
/// tool must reach the lowest spot of its face, less the scoring there and the margin. A wobble on the arbor moves
/// both faces the same way and therefore costs its whole peak to valley of thickness.
/// Marks are rounded up, but a cut that is whole to a millionth of a mark is not rounded past it: 0.3 over 0.1 is 3.
/// @throws InputError "sizes_differ" (`outboard_um`, `angles_deg`, `score_outboard_um`, ...), "not_finite",
///         "out_of_range", "too_few" for no points, naming the field
/// Degenerate: a perfect part still loses `margin_um` from each face; with a margin of 0 it loses nothing.
/// Source: plane geometry; methods 6.
Cleanup least_cleanup(const CleanupInput& input);

/// Smallest whole number of marks that reaches `travel`, robust to rounding of the quotient. 0 for travel <= 0.
std::int64_t marks_for(double travel_um, double dial_um_per_mark);

}  // namespace brakewright
