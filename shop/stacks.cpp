#include "shop/stacks.hpp"

#include <algorithm>
#include <map>

#include "core/input_error.hpp"
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

/// Everything that core/mount asks for.
struct Stand {
  mount::Arbor arbor;
  mount::PartSeat seat;
  std::vector<mount::Piece> pieces;
};

Stand stand_of(const JobFile& file, const Part& part, const Lathe* lathe, const std::vector<Piece>& pieces,
               std::vector<std::string>& missing) {
  Stand stand{.arbor = arbor_of(lathe, missing), .seat = seat_of(file, part, missing), .pieces = {}};
  if (pieces.empty()) missing.push_back("pegboard");
  stand.pieces.reserve(pieces.size());
  for (const Piece& piece : pieces) stand.pieces.push_back(piece_for_mount(piece));
  return stand;
}

void call_by_name(std::string& text, const std::vector<Piece>& pieces) {
  for (const Piece& piece : pieces) {
    const std::string id = to_text(piece.id);
    for (auto at = text.find(id); at != std::string::npos; at = text.find(id, at + piece.name.size())) {
      text.replace(at, id.size(), piece.name);
    }
  }
}

std::string without_unit(const std::string& name) {
  return name.ends_with("_mm") ? name.substr(0, name.size() - 3) : name;
}

/// A refusal of core/mount in the shop's fields.
InputError renamed(const InputError& refusal, const std::vector<Piece>& pieces) {
  const std::string& field = refusal.field();
  const auto point = field.find('.');
  const std::string of = field.substr(0, point);
  const std::string name = point == std::string::npos ? "" : without_unit(field.substr(point + 1));
  if (of == "arbor") return {refusal.code(), "lathe." + (name == "diameter" ? "arbor_diameter" : name), refusal.what()};
  if (of == "part") return {refusal.code(), "seat." + name, refusal.what()};
  if (!of.starts_with("pieces[")) return refusal;
  const auto place = static_cast<std::size_t>(std::stoul(of.substr(7)));
  return {refusal.code(), "piece." + name, pieces.at(place).name + ": " + refusal.what()};
}

template <class F>
auto in_own_words(const std::vector<Piece>& pieces, F&& work) {
  try {
    return work();
  } catch (const InputError& refusal) {
    throw renamed(refusal, pieces);
  }
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

std::vector<Piece> pieces_for(const Uuid& job_id, const std::vector<Piece>& all, const std::vector<Booking>& last) {
  std::map<Uuid, const Booking*> booked;
  for (const Booking& booking : last) booked.emplace(booking.piece_id, &booking);
  std::vector<Piece> usable;
  for (const Piece& piece : all) {
    const auto found = booked.find(piece.id);
    const bool was_booked = found != booked.end();
    const PieceState state = state_of(was_booked ? std::optional(*found->second) : std::nullopt);
    const bool ours = state == PieceState::in_use && found->second->job_id == job_id;
    if (piece.active && (state == PieceState::on_board || ours)) usable.push_back(piece);
  }
  return usable;
}

StackAdvice advise_stacks(const JobFile& file, const Part& part, const Lathe* lathe, const std::vector<Piece>& pieces,
                          std::size_t count) {
  StackAdvice advice;
  const Stand stand = stand_of(file, part, lathe, pieces, advice.missing);
  if (!advice.missing.empty()) return advice;
  advice.answer =
      in_own_words(pieces, [&] { return mount::find_stacks(stand.arbor, stand.seat, stand.pieces, count); });
  for (mount::Miss& miss : advice.answer.nearest) call_by_name(miss.text, pieces);
  return advice;
}

OwnStackAdvice check_own_stack(const JobFile& file, const Part& part, const Lathe* lathe,
                               const std::vector<Piece>& pieces) {
  OwnStackAdvice advice;
  const Stand stand = stand_of(file, part, lathe, pieces, advice.missing);
  if (!advice.missing.empty()) return advice;
  advice.answer = in_own_words(pieces, [&] { return mount::check_stack(stand.arbor, stand.seat, stand.pieces); });
  return advice;
}

}  // namespace brakewright::shop
