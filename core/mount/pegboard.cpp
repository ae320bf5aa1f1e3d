#include "core/mount/pegboard.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace brakewright::mount {
namespace {

constexpr std::size_t kKinds = 6;

bool steadier(const Piece* a, const Piece* b) {
  return std::make_tuple(runout_squared(*a), std::cref(a->id)) < std::make_tuple(runout_squared(*b), std::cref(b->id));
}

}  // namespace

std::pair<double, double> shoulder_flat(const PartSeat& part) {
  return {part.flat_inner_inboard_mm.value_or(part.flat_inner_mm),
          part.flat_outer_inboard_mm.value_or(part.flat_outer_mm)};
}

Nm runout_squared(const Piece& piece) {
  const Nm runout = whole_nm(piece.runout_um * 1e-3);
  return runout * runout;
}

Pegboard::Pegboard(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces)
    : arbor_(arbor), part_(part), by_kind_(kKinds) {
  for (const auto& piece : pieces) {
    if (goes_on(piece, arbor)) by_kind_[static_cast<std::size_t>(piece.kind)].push_back(&piece);
  }
  for (auto& pegs : by_kind_) std::sort(pegs.begin(), pegs.end(), steadier);
}

SpacerSearch Pegboard::spacers() const {
  std::vector<Spacer> spacers;
  for (const Piece* piece : of(PieceKind::spacer)) {
    spacers.push_back({.length = whole_nm(piece->length_mm),
                       .runout_squared = runout_squared(*piece),
                       .damping = piece->damping,
                       .id = &piece->id});
  }
  return SpacerSearch(std::move(spacers));
}

std::vector<Pegboard::Inner> Pegboard::inner_for(const Piece& clamp, std::size_t count) const {
  std::vector<Inner> inner;
  for (const Piece* cone : of(PieceKind::cone)) {
    const Seat seat = seat_of(*cone, part_.bore_mm);
    if (cone_miss(seat) > 0 || cup_miss(clamp, *cone) > 0) continue;
    Inner candidate{.cone = cone, .seat = seat, .springs = {}};
    for (const Piece* spring : of(PieceKind::spring)) {
      if (candidate.springs.size() == count) break;
      if (spring_miss(clamp, *cone, seat, *spring) == 0) candidate.springs.push_back(spring);
    }
    if (!candidate.springs.empty()) inner.push_back(std::move(candidate));
  }
  return inner;
}

std::vector<RingGroup> Pegboard::clamp_carriers(std::size_t count) const {
  const auto [shoulder_inner, shoulder_outer] = shoulder_flat(part_);
  std::map<Nm, std::vector<Carrier>, std::greater<>> by_ring;
  std::vector<const Piece*> seconds;
  for (const Piece* clamp : of(PieceKind::clamp)) {
    if (ring_miss(*clamp, part_.flat_inner_mm, part_.flat_outer_mm) == 0) seconds.push_back(clamp);
  }
  for (const Piece* first : of(PieceKind::clamp)) {
    if (ring_miss(*first, shoulder_inner, shoulder_outer) > 0) continue;
    const auto inner = inner_for(*first, count);
    if (inner.empty()) continue;
    for (const Piece* second : seconds) {
      if (second == first || pair_miss(*first, *second) > 0) continue;
      const Nm ring = std::min(whole_nm(first->ring_outer_mm), whole_nm(second->ring_outer_mm));
      for (const auto& in : inner) {
        by_ring[ring].push_back(
            {.first = first,
             .second = second,
             .cone = in.cone,
             .springs = in.springs,
             .first_seat = in.seat,
             .second_seat = {},
             .length = whole_nm(first->length_mm) + whole_nm(part_.flange_mm) + whole_nm(second->length_mm),
             .off_middle = in.seat.off_middle()});
      }
    }
  }
  std::vector<RingGroup> groups;
  for (auto& [ring, carriers] : by_ring) groups.push_back({.ring = ring, .carriers = std::move(carriers)});
  return groups;
}

std::vector<RingGroup> Pegboard::taper_carriers() const {
  RingGroup group;
  std::vector<std::pair<const Piece*, Seat>> seconds;
  for (const Piece* taper : of(PieceKind::taper)) {
    const Seat seat = seat_of(*taper, part_.outer_race_mm);
    if (taper_miss(seat) == 0) seconds.emplace_back(taper, seat);
  }
  for (const Piece* first : of(PieceKind::taper)) {
    const Seat first_seat = seat_of(*first, part_.inner_race_mm);
    if (taper_miss(first_seat) > 0) continue;
    for (const auto& [second, second_seat] : seconds) {
      if (second == first) continue;
      group.carriers.push_back(
          {.first = first,
           .second = second,
           .cone = nullptr,
           .springs = {},
           .first_seat = first_seat,
           .second_seat = second_seat,
           .length = outside_of(*first, first_seat) + whole_nm(part_.hub_length_mm) + outside_of(*second, second_seat),
           .off_middle = first_seat.off_middle() + second_seat.off_middle()});
    }
  }
  if (group.carriers.empty()) return {};
  return {std::move(group)};
}

std::vector<RingGroup> Pegboard::carriers(std::size_t count) const {
  return part_.kind == PartKind::hubless ? clamp_carriers(count) : taper_carriers();
}

}  // namespace brakewright::mount
