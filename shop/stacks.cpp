#include "shop/stacks.hpp"

#include "shop/assess_inputs.hpp"

namespace brakewright::shop {
namespace {

double mm_or_0(const std::optional<Length>& length) { return length ? length->mm() : 0; }

double needed(const std::optional<TypedLength>& length, const std::string& field, std::vector<std::string>& missing) {
  if (length) return length->value.mm();
  missing.push_back("seat." + field);
  return 0;
}

double needed(const std::optional<Length>& length, const std::string& field, std::vector<std::string>& missing) {
  if (length) return length->mm();
  missing.push_back("lathe." + field);
  return 0;
}

std::optional<double> mm_of(const std::optional<TypedLength>& length) {
  if (!length) return std::nullopt;
  return length->value.mm();
}

mount::PieceKind kind_of(PieceKind kind) {
  switch (kind) {
    case PieceKind::cone:
      return mount::PieceKind::cone;
    case PieceKind::spring:
      return mount::PieceKind::spring;
    case PieceKind::clamp:
      return mount::PieceKind::clamp;
    case PieceKind::taper:
      return mount::PieceKind::taper;
    case PieceKind::spacer:
      return mount::PieceKind::spacer;
    case PieceKind::nut:
      return mount::PieceKind::nut;
  }
  return mount::PieceKind::spacer;
}

}  // namespace

mount::PartSeat seat_of(const JobFile& file, const Part& part, std::vector<std::string>& missing) {
  const Seat& seat = part.seat;
  mount::PartSeat made;
  if (part.construction == Construction::integral_hub) {
    made.kind = mount::PartKind::hubbed;
    made.hub_length_mm = needed(seat.hub_length, "hub_length", missing);
    made.inner_race_mm = needed(seat.inner_race, "inner_race", missing);
    made.outer_race_mm = needed(seat.outer_race, "outer_race", missing);
    return made;
  }
  made.kind = mount::PartKind::hubless;
  const auto read = current(file, part.id, Stage::before, Quantity::bore);
  made.bore_mm = read.empty() ? needed(seat.bore, "bore", missing) : read.back().value.value.mm();
  made.flange_mm = needed(seat.flange, "flange", missing);
  made.flat_inner_mm = needed(seat.flat_inner, "flat_inner", missing);
  made.flat_outer_mm = needed(seat.flat_outer, "flat_outer", missing);
  made.flat_inner_inboard_mm = mm_of(seat.flat_inner_inboard);
  made.flat_outer_inboard_mm = mm_of(seat.flat_outer_inboard);
  return made;
}

mount::Arbor arbor_of(const Lathe* lathe, std::vector<std::string>& missing) {
  if (lathe == nullptr) {
    missing.push_back("lathe");
    return {};
  }
  return {.diameter_mm = needed(lathe->arbor_diameter, "arbor_diameter", missing),
          .thread_start_mm = needed(lathe->thread_start, "thread_start", missing),
          .tip_mm = needed(lathe->tip, "tip", missing),
          .nut_engagement_mm = lathe->nut_engagement.mm()};
}

mount::Piece piece_for_mount(const Piece& piece) {
  mount::Piece made{.id = to_text(piece.id),
                    .kind = kind_of(piece.kind),
                    .bore_mm = piece.bore.mm(),
                    .length_mm = piece.length.mm(),
                    .small_mm = mm_or_0(piece.small),
                    .large_mm = mm_or_0(piece.large),
                    .ring_inner_mm = mm_or_0(piece.ring_inner),
                    .ring_outer_mm = mm_or_0(piece.ring_outer),
                    .cup_depth_mm = mm_or_0(piece.cup_depth),
                    .cup_bore_mm = mm_or_0(piece.cup_bore),
                    .solid_mm = mm_or_0(piece.solid),
                    .free_mm = mm_or_0(piece.free),
                    .weighted = piece.weighted,
                    .damping = piece.damping,
                    .runout_um = piece.runout_um.value_or(0)};
  if (piece.outside) made.outside_mm = piece.outside->mm();
  return made;
}

StackAdvice advise_stacks(const JobFile& file, const Part& part, const Lathe* lathe, const std::vector<Piece>& pieces,
                          std::size_t count) {
  StackAdvice advice;
  const mount::Arbor arbor = arbor_of(lathe, advice.missing);
  const mount::PartSeat seat = seat_of(file, part, advice.missing);
  if (pieces.empty()) advice.missing.push_back("pegboard");
  if (!advice.missing.empty()) return advice;
  std::vector<mount::Piece> on_hand;
  on_hand.reserve(pieces.size());
  for (const Piece& piece : pieces) on_hand.push_back(piece_for_mount(piece));
  advice.answer = mount::find_stacks(arbor, seat, on_hand, count);
  return advice;
}

}  // namespace brakewright::shop
