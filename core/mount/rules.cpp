#include "core/mount/rules.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace brakewright::mount {
namespace {

constexpr Nm kBoreTolerance = 100'000;
constexpr Nm kConeRoomInCup = 2'000'000;
constexpr Nm kRingPairDifference = 2'000'000;

Nm distance_outside(Nm value, Nm low, Nm high) { return std::max({Nm{0}, low - value, value - high}); }

/// Distance of the bore from `least_parts`/`parts` .. 1 - `least_parts`/`parts` of the span.
Nm seat_miss(const Seat& seat, Nm parts) {
  const Nm scaled = distance_outside(parts * seat.above_small, seat.span, (parts - 1) * seat.span);
  return (scaled + parts - 1) / parts;
}

}  // namespace

Nm whole_nm(double mm) { return std::llround(mm * 1e6); }

std::string in_mm(Nm nm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3f mm", static_cast<double>(nm) / 1e6);
  return text;
}

double Seat::off_middle() const {
  return static_cast<double>(std::abs(2 * above_small - span)) / static_cast<double>(2 * span);
}

Seat seat_of(const Piece& piece, double bore_mm) {
  const Nm small = whole_nm(piece.small_mm);
  return {.above_small = whole_nm(bore_mm) - small, .span = whole_nm(piece.large_mm) - small};
}

Nm cone_miss(const Seat& seat) { return seat_miss(seat, 4); }

Nm taper_miss(const Seat& seat) { return seat_miss(seat, 5); }

Nm cup_miss(const Piece& clamp, const Piece& cone) {
  return std::max(Nm{0}, whole_nm(cone.large_mm) + kConeRoomInCup - whole_nm(clamp.cup_bore_mm));
}

Nm spring_miss(const Piece& clamp, const Piece& cone, const Seat& seat, const Piece& spring) {
  // room = cup depth - (1 - q) cone length, times the seat's span to stay whole
  const Nm room = whole_nm(clamp.cup_depth_mm) * seat.span - (seat.span - seat.above_small) * whole_nm(cone.length_mm);
  const Nm solid = whole_nm(spring.solid_mm) * seat.span;
  const Nm free = whole_nm(spring.free_mm) * seat.span;
  if (solid < room && room < free) return 0;
  const Nm off = std::max(solid - room, room - free);
  return std::max(Nm{1}, off / seat.span);
}

Nm ring_miss(const Piece& clamp, double flat_inner_mm, double flat_outer_mm) {
  return std::max({Nm{0}, whole_nm(flat_inner_mm) - whole_nm(clamp.ring_inner_mm),
                   whole_nm(clamp.ring_outer_mm) - whole_nm(flat_outer_mm)});
}

Nm pair_miss(const Piece& first, const Piece& second) {
  const Nm apart = std::abs(whole_nm(first.ring_outer_mm) - whole_nm(second.ring_outer_mm));
  return std::max(Nm{0}, apart - kRingPairDifference);
}

Nm outside_of(const Piece& taper, const Seat& seat) {
  if (taper.outside_mm) return whole_nm(*taper.outside_mm);
  return std::llround((1.0 - seat.q()) * taper.length_mm * 1e6);
}

bool goes_on(const Piece& piece, const Arbor& arbor) {
  return std::abs(whole_nm(piece.bore_mm) - whole_nm(arbor.diameter_mm)) <= kBoreTolerance;
}

}  // namespace brakewright::mount
