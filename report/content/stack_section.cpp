#include <algorithm>

#include "report/content/lathe_work.hpp"
#include "report/content/names.hpp"
#include "shop/stacks.hpp"

namespace brakewright::report {

namespace {

constexpr double kShoulderMm = 10;  ///< drawn length of the shoulder, whose own is nowhere on record

std::vector<Point> sleeve(double from, double to, double inner, double outer) {
  return {{from, inner}, {to, inner}, {to, outer}, {from, outer}};
}

/// Lays the pieces along the arbor, one after the other, as core/mount counts their lengths.
class Section {
 public:
  Section(const mount::Arbor& arbor, const mount::PartSeat& seat, std::vector<double> q, std::string part)
      : seat_(seat), q_(std::move(q)), part_(std::move(part)), radius_(arbor.diameter_mm / 2) {
    add(StackLook::arbor, sleeve(-kShoulderMm, arbor.tip_mm, 0, radius_), "");
    add(StackLook::arbor, sleeve(-kShoulderMm, 0, radius_, radius_ + 14), "");
  }

  StackSection build(const std::vector<mount::Piece>& pieces) {
    const bool hubless = seat_.kind == mount::PartKind::hubless;
    std::size_t clamps = 0;
    std::size_t tapers = 0;
    for (std::size_t k = 0; k < pieces.size(); ++k) {
      const mount::Piece& piece = pieces[k];
      const std::string label = std::to_string(k + 1);
      switch (piece.kind) {
        case mount::PieceKind::clamp:
          if (clamps++ > 0 && hubless) flange();
          clamp(piece, label, clamps == 1);
          break;
        case mount::PieceKind::spring:
          spring_ = piece;
          spring_label_ = label;
          break;
        case mount::PieceKind::cone:
          cone(piece, label);
          break;
        case mount::PieceKind::taper:
          taper(piece, label, tapers++ == 0);
          break;
        case mount::PieceKind::spacer:
          add(piece.damping ? StackLook::damping : StackLook::steel,
              sleeve(at_, at_ + piece.length_mm, radius_, radius_ + (piece.weighted ? 24 : 15)), label);
          at_ += piece.length_mm;
          break;
        case mount::PieceKind::nut:
          add(StackLook::steel, sleeve(at_, at_ + piece.length_mm, radius_, radius_ + 11), label);
          at_ += piece.length_mm;
          break;
      }
    }
    return std::move(section_);
  }

 private:
  void add(StackLook look, std::vector<Point> outline, const std::string& label) {
    section_.shapes.push_back({look, std::move(outline), label});
  }

  void clamp(const mount::Piece& piece, const std::string& label, bool inboard) {
    const double end = at_ + piece.length_mm;
    const double inner = piece.ring_inner_mm / 2;
    const double outer = piece.ring_outer_mm / 2;
    const double wall = std::min(piece.length_mm, std::max(piece.length_mm - piece.cup_depth_mm, 4.0));
    if (inboard) {
      const double cup = piece.cup_depth_mm > 0 ? piece.cup_bore_mm / 2 : inner;
      add(StackLook::steel,
          {{at_, radius_},
           {at_ + wall, radius_},
           {at_ + wall, cup},
           {end, cup},
           {end, outer},
           {at_ + wall, outer},
           {at_, radius_ + 12}},
          label);
      cup_floor_ = at_ + wall;
    } else {
      const double rim = at_ + std::min(piece.length_mm * 0.4, 12.0);
      add(StackLook::steel,
          {{at_, inner}, {at_, outer}, {rim, outer}, {end, radius_ + 12}, {end, radius_}, {rim, radius_}, {rim, inner}},
          label);
    }
    at_ = end;
  }

  double next_q() { return q_used_ < q_.size() ? q_[q_used_++] : 0.5; }

  /// The part's bore meets the cone where the clamp's ring meets the part.
  void cone(const mount::Piece& piece, const std::string& label) {
    const double q = next_q();
    const double large = at_ - (1 - q) * piece.length_mm;
    const double small = at_ + q * piece.length_mm;
    if (spring_) {
      std::vector<Point> coil;
      constexpr int kTurns = 6;
      for (int k = 0; k <= kTurns; ++k) {
        coil.push_back({cup_floor_ + (large - cup_floor_) * k / kTurns, radius_ + (k % 2 == 0 ? 2.0 : 9.0)});
      }
      add(StackLook::spring, std::move(coil), spring_label_);
    }
    add(StackLook::cone, {{large, radius_}, {small, radius_}, {small, piece.small_mm / 2}, {large, piece.large_mm / 2}},
        label);
  }

  void flange() {
    const double outer = seat_.flat_outer_mm / 2;
    const double end = at_ + seat_.flange_mm;
    // Beyond its flat the hat is not on record: it is broken off.
    add(StackLook::part,
        {{at_, seat_.bore_mm / 2},
         {end, seat_.bore_mm / 2},
         {end, outer + 4},
         {(at_ + end) / 2, outer + 8},
         {at_, outer + 4}},
        part_);
    at_ = end;
  }

  void taper(const mount::Piece& piece, const std::string& label, bool inboard) {
    const double q = next_q();
    const double outside = piece.outside_mm.value_or((1 - q) * piece.length_mm);
    const double large = piece.large_mm / 2;
    const double small = piece.small_mm / 2;
    if (inboard) {
      add(StackLook::cone,
          {{at_, radius_}, {at_ + piece.length_mm, radius_}, {at_ + piece.length_mm, small}, {at_, large}}, label);
      at_ += outside;
      hub();
      return;
    }
    const double from = at_ - (piece.length_mm - outside);
    add(StackLook::cone,
        {{from, radius_}, {from + piece.length_mm, radius_}, {from + piece.length_mm, large}, {from, small}}, label);
    at_ += outside;
  }

  void hub() {
    const double inner = seat_.inner_race_mm / 2;
    const double outer = seat_.outer_race_mm / 2;
    const double end = at_ + seat_.hub_length_mm;
    const double wall = std::max(inner, outer) + 9;
    const double middle = at_ + seat_.hub_length_mm * 0.45;
    add(StackLook::part,
        {{at_, inner},
         {end, outer},
         {end, wall},
         {middle + 4, wall},
         {middle + 4, wall + 16},
         {middle, wall + 20},
         {middle - 4, wall + 16},
         {middle - 4, wall},
         {at_, wall}},
        part_);
    at_ = end;
  }

  mount::PartSeat seat_;
  std::vector<double> q_;
  std::string part_;  ///< what it is called
  double radius_;
  double at_ = 0;
  double cup_floor_ = 0;
  std::size_t q_used_ = 0;
  std::optional<mount::Piece> spring_;
  std::string spring_label_;
  StackSection section_;
};

}  // namespace

StackSection section_of(const RecordInput& input, const shop::Part& part, const shop::Mount& mount) {
  const auto by_id = [](const auto& all, const shop::Uuid& id) {
    return std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.id == id; });
  };
  const StackSection unknown{.shapes = {}, .none = "not drawn: the arbor, the seat or a piece is not on record"};
  const auto lathe = by_id(input.lathes, mount.lathe_id);
  std::vector<std::string> missing;
  const mount::Arbor arbor = shop::arbor_of(lathe == input.lathes.end() ? nullptr : &*lathe, missing);
  const mount::PartSeat seat = shop::seat_of(input.file, part, missing);
  std::vector<mount::Piece> pieces;
  for (const shop::Uuid& id : mount.piece_ids) {
    const auto piece = by_id(input.pieces, id);
    if (piece == input.pieces.end()) return unknown;
    pieces.push_back(shop::piece_for_mount(*piece));
  }
  if (!missing.empty() || !(arbor.diameter_mm > 0)) return unknown;
  return Section(arbor, seat, mount.q, name_of_kind(part)).build(pieces);
}

}  // namespace brakewright::report
