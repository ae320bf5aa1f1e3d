#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/bench_sim/mount/seating.hpp"
#include "core/bench_sim/part/faces.hpp"
#include "core/runout/scratch.hpp"

namespace brakewright::bench_sim {

/// A bump and what it sticks to: it turns with that when the part is turned on the arbor.
struct Dirt {
  Bump bump = {};            ///< angle in the part's frame, or in the arbor's
  bool on_the_part = false;  ///< else on the adapter
};

/// An arbor, or an adapter on it, whose shoulder is not square to the spindle: it turns with the spindle.
struct BentArbor {
  double shoulder_runout_um = 0;   ///< peak to valley read on the shoulder, 0 to 1000
  double shoulder_radius_mm = 30;  ///< where that is read, 1 to 500
  double high_deg = 0;             ///< in the arbor's frame
};

inline constexpr double kScatterRadius_mm = 100;  ///< at which scatters of tilts are given as heights

/// A nut that does not hold: every now and then the part slips and sits anew.
struct LooseNut {
  double axial_sd_um = 0;  ///< of one slip, 0 to 500
  double tilt_sd_um = 0;   ///< of each of a slip's two tilts, as height at kScatterRadius_mm, 0 to 500
  double mean_turns = 50;  ///< of the spindle between slips, 1 to 1e6
};

/// What is wrong with a mount. All sizes 0: the part sits as it sits on the hub, but for its own seat's tilt.
struct MountFaults {
  std::vector<Dirt> dirt = {};
  BentArbor arbor = {};
  double bore_offset_mm = 0;   ///< of a wrong cone: bore's axis from the spindle's, 0 to 5
  double bore_offset_deg = 0;  ///< where to, in the arbor's frame
  /// Of each of the two tilts at each mounting, standard deviation as height at kScatterRadius_mm, 0 to 500: pitted or
  /// loose races.
  double seating_sd_um = 0;
  std::optional<LooseNut> nut = {};
};

/// One time that a part is put on.
struct MountInput {
  MountFaults faults = {};
  double turn_deg = 0;                        ///< the part turned on the arbor: arbor's angle = part's angle + turn
  std::optional<double> seat_radius_mm = {};  ///< outer edge of the ring it sits on; seat_reach_mm when absent
  std::uint64_t seed = 1;
  std::uint64_t number = 0;  ///< which mounting of this seed, below 2^40: another one seats and slips anew
};

/// Where the part is after a slip, until the next.
struct Slip {
  double at_turn = 0;  ///< turns of the spindle since the start of the cut
  Motion motion = {};
};

struct Mounting {
  double turn_deg = 0;
  Motion motion = {};            ///< in the part's own frame, before the cut
  std::vector<Slip> slips = {};  ///< in order, of the first 20 000 turns; none without a loose nut
};

/// How a part sits on the spindle.
///
/// The part's own seat and dirt on it turn with the part; arbor, adapter, cone and seating turn with the spindle. Tilts
/// add as vectors; bumps that lie together under one seat share one resting plane (rest_on). In angles of the arbor a
/// position of `calc separate` and of the two scratches: y(t) = carrier(t) + part(t - turn).
/// @throws InputError "out_of_range" or "not_finite" naming the field: "faults.dirt[0].bump.height_um", "turn_deg", ...
Mounting mount_of(const SimPart& part, const MountInput& input);

/// Where the part is after so many turns of the spindle since the start of the cut.
const Motion& motion_at(const Mounting& mounting, double turns);

/// What stands at a place of the bench when the part's `angle_deg` is there: height outward of that side over the plane
/// square to the spindle in which a perfect face of a perfect mount lies. Off the face's edges, which an eccentric part
/// brings about, the edge counts.
/// @param radius_mm  from the spindle's axis; on the face
/// @throws InputError "out_of_range", field "radius_mm"
double bench_height_um(const SimPart& part, const Motion& motion, Side side, double radius_mm, double angle_deg);

/// How far the rim stands out there over its mean: what an indicator on the rim, and the eye, sees of a wrong cone.
double rim_height_um(const SimPart& part, const Motion& motion, double angle_deg);

/// The mark that a tool at a radius makes when it is fed past first touch: the stretch round the highest spot that
/// stands no more than the infeed below it, in the part's own frame, as `calc scratch` takes it.
/// @param infeed_um  0.001 to 10 000
/// @throws InputError "out_of_range", field "radius_mm" or "infeed_um"
ScratchMark scratch_of(const SimPart& part, const Motion& motion, Side side, double radius_mm, double infeed_um);

/// How faces that were cut plane and square to the spindle lie on the car's hub: the mount's tilt the other way, as
/// runout against the hub and no thickness variation.
Tilt tilt_after_cut(const Motion& motion);

}  // namespace brakewright::bench_sim
