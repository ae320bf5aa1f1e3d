#include "core/mount/dimensions.hpp"

#include <cmath>
#include <set>

#include "core/input_error.hpp"
#include "core/mount/pegboard.hpp"
#include "core/mount/rules.hpp"

namespace brakewright::mount {
namespace {

constexpr double kLongest_mm = 2000;
constexpr double kRunoutMost_um = 100'000;

void want(bool good, const std::string& field, const std::string& message) {
  if (!good) throw InputError("out_of_range", field, message);
}

void want_size(double value_mm, const std::string& field) {
  want(std::isfinite(value_mm) && value_mm >= 0 && value_mm <= kLongest_mm, field, "must be from 0 to 2000 mm");
}

void check_arbor(const Arbor& arbor) {
  want_size(arbor.diameter_mm, "arbor.diameter_mm");
  want(arbor.diameter_mm > 0, "arbor.diameter_mm", "must be more than 0");
  want_size(arbor.thread_start_mm, "arbor.thread_start_mm");
  want_size(arbor.tip_mm, "arbor.tip_mm");
  want_size(arbor.nut_engagement_mm, "arbor.nut_engagement_mm");
  want(arbor.tip_mm > arbor.thread_start_mm, "arbor.tip_mm", "the tip must lie beyond the start of the thread");
}

void check_part(const PartSeat& part) {
  if (part.kind == PartKind::hubbed) {
    want_size(part.hub_length_mm, "part.hub_length_mm");
    want_size(part.inner_race_mm, "part.inner_race_mm");
    want_size(part.outer_race_mm, "part.outer_race_mm");
    want(part.inner_race_mm > 0, "part.inner_race_mm", "must be more than 0");
    want(part.outer_race_mm > 0, "part.outer_race_mm", "must be more than 0");
    return;
  }
  want_size(part.bore_mm, "part.bore_mm");
  want(part.bore_mm > 0, "part.bore_mm", "must be more than 0");
  want_size(part.flange_mm, "part.flange_mm");
  want_size(part.flat_inner_mm, "part.flat_inner_mm");
  want_size(part.flat_outer_mm, "part.flat_outer_mm");
  want(part.flat_outer_mm > part.flat_inner_mm, "part.flat_outer_mm", "must be more than flat_inner_mm");
  const auto [inner, outer] = shoulder_flat(part);
  want_size(inner, "part.flat_inner_inboard_mm");
  want_size(outer, "part.flat_outer_inboard_mm");
  want(outer > inner, "part.flat_outer_inboard_mm", "must be more than the inboard flat's inner diameter");
}

void check_piece(const Piece& piece, const std::string& field) {
  const std::pair<const char*, double> sizes[] = {{"bore_mm", piece.bore_mm},
                                                  {"length_mm", piece.length_mm},
                                                  {"small_mm", piece.small_mm},
                                                  {"large_mm", piece.large_mm},
                                                  {"ring_inner_mm", piece.ring_inner_mm},
                                                  {"ring_outer_mm", piece.ring_outer_mm},
                                                  {"cup_depth_mm", piece.cup_depth_mm},
                                                  {"cup_bore_mm", piece.cup_bore_mm},
                                                  {"solid_mm", piece.solid_mm},
                                                  {"free_mm", piece.free_mm},
                                                  {"outside_mm", piece.outside_mm.value_or(0)}};
  for (const auto& [name, size] : sizes) want_size(size, field + "." + name);
  want(std::isfinite(piece.runout_um) && piece.runout_um >= 0 && piece.runout_um <= kRunoutMost_um,
       field + ".runout_um", "must be from 0 to 100000 um");
  if (piece.kind == PieceKind::cone || piece.kind == PieceKind::taper) {
    want(whole_nm(piece.large_mm) > whole_nm(piece.small_mm), field + ".large_mm",
         "the large end must be larger than the small end; is it upside down?");
  }
  if (piece.kind == PieceKind::clamp) {
    want(piece.ring_outer_mm > piece.ring_inner_mm, field + ".ring_outer_mm", "must be more than ring_inner_mm");
  }
  if (piece.kind == PieceKind::spring) {
    want(piece.free_mm > piece.solid_mm, field + ".free_mm", "a spring is longer without load than pressed flat");
  }
  if (piece.kind == PieceKind::spacer) want(piece.length_mm > 0, field + ".length_mm", "must be more than 0");
}

void check_pieces(const std::vector<Piece>& pieces) {
  std::set<std::string> ids;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::string field = "pieces[" + std::to_string(i) + "]";
    want(!pieces[i].id.empty(), field + ".id", "every piece needs an id");
    if (!ids.insert(pieces[i].id).second) {
      throw InputError("duplicate_id", field + ".id", "two pieces have the id " + pieces[i].id);
    }
    check_piece(pieces[i], field);
  }
}

}  // namespace

void check_dimensions(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces) {
  check_arbor(arbor);
  check_part(part);
  check_pieces(pieces);
}

}  // namespace brakewright::mount
