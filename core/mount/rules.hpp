#pragma once

#include <cstdint>
#include <string>

#include "core/mount/mount.hpp"

/// The rules of the stack, each as a distance: 0 where it is kept, else how far the dimension is off.
/// Everything is whole nanometres, so that a limit that is met exactly is met on every machine.
namespace brakewright::mount {

using Nm = std::int64_t;

Nm whole_nm(double mm);
/// To a micrometre, with its unit.
std::string in_mm(Nm nm);

/// Sitting height of a bore on a cone between its ends, kept as a ratio so that comparisons are exact.
struct Seat {
  Nm above_small = 0;  ///< bore - small end
  Nm span = 1;         ///< large end - small end, > 0

  double q() const { return static_cast<double>(above_small) / static_cast<double>(span); }
  /// |q - 0.5|; equal ratios give equal values.
  double off_middle() const;
};

Seat seat_of(const Piece& piece, double bore_mm);

/// How far the bore is off what the cone takes between a quarter and three quarters of its height.
Nm cone_miss(const Seat& seat);
/// The same for a taper in a race, between a fifth and four fifths.
Nm taper_miss(const Seat& seat);
/// How much wider the clamp's cup must be to take the cone.
Nm cup_miss(const Piece& clamp, const Piece& cone);
/// How far the room left for the spring is off the spring's own range; at least 1 nm where it is on an end.
Nm spring_miss(const Piece& clamp, const Piece& cone, const Seat& seat, const Piece& spring);
/// How far the clamp's ring stands over the flat that it bears on, at its inner or its outer edge.
Nm ring_miss(const Piece& clamp, double flat_inner_mm, double flat_outer_mm);
/// How far the outer diameters of two rings are apart beyond 2 mm.
Nm pair_miss(const Piece& first, const Piece& second);
/// How far a taper stands out of its hub.
Nm outside_of(const Piece& taper, const Seat& seat);
/// Whether a piece's bore is the arbor's within 0.1 mm.
bool goes_on(const Piece& piece, const Arbor& arbor);

}  // namespace brakewright::mount
