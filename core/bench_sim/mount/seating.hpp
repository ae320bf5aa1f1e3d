#pragma once

#include <vector>

#include "core/bench_sim/part/faces.hpp"

namespace brakewright::bench_sim {

/// Something hard between two seats: a chip, a burr, dirt that does not give.
struct Bump {
  double height_um = 0;  ///< 0 to 1000
  double radius_mm = 0;  ///< 0 to the seat's radius
  double angle_deg = 0;
};

/// Where a plane comes to rest on a seat.
struct Rest {
  double centre_um = 0;  ///< above the seat at its centre
  Tilt tilt = {};
};

/// How a rigid plane rests on a rigid flat seat with bumps on it, pressed down in the middle.
///
/// It comes as low at the centre as bumps and seat let it: least c with c + tilt >= height at each bump and
/// c >= seat radius * |tilt|, which is the seat's edge. One bump of height h at radius b: the plane stands on it and on
/// the far edge, with a slope of h/(b + seat radius). Several: the touching points are two or three of bumps and edge
/// that have the centre between them; all such sets are tried, for the problem is convex. Of planes that are equally
/// low, where it could rock, the least tilted one is given.
/// @param bumps           16 at most
/// @param seat_radius_mm  outer edge of the seat, 1 to 500
/// @throws InputError "out_of_range", fields "seat_radius_mm", "bumps[0].height_um", ...; "too_many", field "bumps"
/// Source: plane geometry; statics of a rigid body. Seats really give a little: common practice, no source.
Rest rest_on(const std::vector<Bump>& bumps, double seat_radius_mm);

}  // namespace brakewright::bench_sim
