#include "core/mount/own_stack.hpp"

#include <algorithm>
#include <cmath>

#include "core/mount/dimensions.hpp"
#include "core/mount/pegboard.hpp"
#include "core/mount/rules.hpp"
#include "core/mount/why.hpp"

namespace brakewright::mount {
namespace {

std::vector<PieceKind> carrier_kinds(PartKind kind) {
  if (kind == PartKind::hubbed) return {PieceKind::taper, PieceKind::taper};
  return {PieceKind::clamp, PieceKind::spring, PieceKind::cone, PieceKind::clamp};
}

bool in_order(const std::vector<Piece>& pieces, const std::vector<PieceKind>& carrier) {
  if (pieces.size() <= carrier.size() || pieces.back().kind != PieceKind::nut) return false;
  for (std::size_t k = 0; k < carrier.size(); ++k) {
    if (pieces[k].kind != carrier[k]) return false;
  }
  return std::all_of(pieces.begin() + static_cast<std::ptrdiff_t>(carrier.size()), pieces.end() - 1,
                     [](const Piece& piece) { return piece.kind == PieceKind::spacer; });
}

/// Gathers what is broken.
class Rules {
 public:
  void hold(const char* rule, Nm miss, const std::string& text) {
    if (miss == 0) return;
    broken_.push_back({.rule = rule, .miss_mm = static_cast<double>(miss) / 1e6, .text = text + " by " + in_mm(miss)});
  }
  std::vector<Miss> broken() && { return std::move(broken_); }

 private:
  std::vector<Miss> broken_;
};

void hold_clamps(const Carrier& carrier, const PartSeat& part, Rules& rules) {
  const auto [inner, outer] = shoulder_flat(part);
  const Piece& first = *carrier.first;
  const Piece& cone = *carrier.cone;
  rules.hold("cone", cone_miss(carrier.first_seat),
             "the bore sits on the cone outside a quarter to three quarters of its height");
  rules.hold("cup_bore", cup_miss(first, cone), "the first clamp's cup is too narrow for the cone");
  rules.hold("spring_room", spring_miss(first, cone, carrier.first_seat, *carrier.springs.front()),
             "the room behind the cone is not the spring's");
  rules.hold("ring_inboard", ring_miss(first, inner, outer), "the first clamp's ring stands over the hat's flat");
  rules.hold("ring_outboard", ring_miss(*carrier.second, part.flat_inner_mm, part.flat_outer_mm),
             "the second clamp's ring stands over the hat's flat");
  rules.hold("ring_pair", pair_miss(first, *carrier.second), "the two rings' outer diameters differ too much");
}

Carrier clamped(const std::vector<Piece>& pieces, const PartSeat& part) {
  Carrier carrier;
  carrier.first = &pieces[0];
  carrier.springs = {&pieces[1]};
  carrier.cone = &pieces[2];
  carrier.second = &pieces[3];
  carrier.first_seat = seat_of(*carrier.cone, part.bore_mm);
  carrier.length = whole_nm(carrier.first->length_mm) + whole_nm(part.flange_mm) + whole_nm(carrier.second->length_mm);
  return carrier;
}

Carrier on_tapers(const std::vector<Piece>& pieces, const PartSeat& part) {
  Carrier carrier;
  carrier.first = &pieces[0];
  carrier.second = &pieces[1];
  carrier.first_seat = seat_of(*carrier.first, part.inner_race_mm);
  carrier.second_seat = seat_of(*carrier.second, part.outer_race_mm);
  carrier.length = outside_of(*carrier.first, carrier.first_seat) + whole_nm(part.hub_length_mm) +
                   outside_of(*carrier.second, carrier.second_seat);
  return carrier;
}

void hold_length(Nm length, const Arbor& arbor, Rules& rules) {
  rules.hold("length", std::max(Nm{0}, whole_nm(arbor.thread_start_mm) - length), "the stack ends short of the thread");
  rules.hold("length", std::max(Nm{0}, length - (whole_nm(arbor.tip_mm) - whole_nm(arbor.nut_engagement_mm))),
             "the stack ends too far out for the nut");
}

}  // namespace

OwnStack check_stack(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces) {
  check_dimensions(arbor, part, pieces);
  const bool hubbed = part.kind == PartKind::hubbed;
  const auto kinds = carrier_kinds(part.kind);
  if (!in_order(pieces, kinds)) {
    return {.stack = {},
            .broken = {{.rule = "order",
                        .miss_mm = 0,
                        .text = hubbed ? "from the shoulder: taper, hub, taper, spacers, nut"
                                       : "from the shoulder: clamp with spring and cone in its cup, part, clamp, "
                                         "spacers, nut"}}};
  }
  Rules rules;
  for (const Piece& piece : pieces) {
    const Nm off = std::abs(whole_nm(piece.bore_mm) - whole_nm(arbor.diameter_mm));
    if (!goes_on(piece, arbor)) rules.hold("bore", off, "a piece's bore is not the arbor's: it is off");
  }
  const Carrier carrier = hubbed ? on_tapers(pieces, part) : clamped(pieces, part);
  if (hubbed) {
    rules.hold("taper_inner", taper_miss(carrier.first_seat),
               "the first taper does not take the inner race between a fifth and four fifths of its length: it is off");
    rules.hold("taper_outer", taper_miss(carrier.second_seat),
               "the second taper does not take the outer race between a fifth and four fifths of its length: it is "
               "off");
  } else {
    hold_clamps(carrier, part, rules);
  }
  Nm length = carrier.length;
  for (std::size_t k = kinds.size(); k + 1 < pieces.size(); ++k) length += whole_nm(pieces[k].length_mm);
  hold_length(length, arbor, rules);
  OwnStack answer{.stack = {}, .broken = std::move(rules).broken()};
  if (!answer.broken.empty()) return answer;
  Stack made{.pieces = {}, .length_mm = static_cast<double>(length) / 1e6, .q = {carrier.first_seat.q()}, .why = {}};
  if (hubbed) made.q.push_back(carrier.second_seat.q());
  for (const Piece& piece : pieces) {
    made.pieces.push_back(piece.id);
    made.why.push_back(why_of(piece, carrier, part));
  }
  answer.stack = std::move(made);
  return answer;
}

}  // namespace brakewright::mount
