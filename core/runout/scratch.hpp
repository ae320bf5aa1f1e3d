#pragma once

#include <optional>
#include <vector>

namespace brakewright {

/// A mark that a tool, fed a little past first touch, leaves on a face that wobbles.
struct ScratchMark {
  double centre_deg = 0;  ///< middle of the mark, in the part's own frame
  double arc_deg = 0;     ///< its length, (0, 360]
  double infeed_um = 0;   ///< travel past first touch, > 0
};

struct ScratchSize {
  double amplitude_um = 0;   ///< half of peak to valley; of a full circle, the most it can be
  double runout_um = 0;      ///< peak to valley
  bool upper_bound = false;  ///< the mark goes all the way round: the runout is at most this
};

/// Whose the wobble is, once per turn.
struct ScratchShare {
  double runout_um = 0;
  double high_deg = 0;  ///< in the part's frame, as it sat for the first mark
};

struct ScratchReading {
  std::vector<ScratchSize> marks;
  std::optional<ScratchShare> part;  ///< only with two marks, neither all the way round
  std::optional<ScratchShare> mount;
};

/// Reads one scratch mark, or two with the part turned half a turn on the arbor between them.
///
/// A face with wobble A cos(t - high) is touched first at its high spot; an infeed d past that marks the arc in which
/// A (1 - cos) <= d, so A = d/(1 - cos(arc/2)). Seen in the part's frame, the part's share stays where it is when the
/// part is turned and the mount's turns round: part = (P1 + P2)/2, mount = (P1 - P2)/2. A share of less than a
/// millionth of a micrometre has its high spot given as 0. An arc of 360 says only that the runout is no more than the
/// infeed: amplitude infeed/2, no shares.
/// @param marks  one or two
/// @throws InputError "too_few" or "too_many" (field "marks"), "out_of_range" naming the field
/// Source: plane geometry; methods 5.
ScratchReading read_scratches(const std::vector<ScratchMark>& marks);

}  // namespace brakewright
