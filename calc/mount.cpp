#include "core/mount/mount.hpp"

#include <nlohmann/json.hpp>

#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

mount::Arbor read_arbor(Reader reader) {
  mount::Arbor arbor{.diameter_mm = reader.number("diameter_mm"),
                     .thread_start_mm = reader.number("thread_start_mm"),
                     .tip_mm = reader.number("tip_mm"),
                     .nut_engagement_mm = reader.number("nut_engagement_mm")};
  reader.done();
  return arbor;
}

mount::PartSeat read_part(Reader reader) {
  mount::PartSeat part;
  part.kind =
      reader.one_of("kind", {"hubless", "hubbed"}) == "hubless" ? mount::PartKind::hubless : mount::PartKind::hubbed;
  const bool hubless = part.kind == mount::PartKind::hubless;
  const auto size = [&](const char* name, bool needed) {
    return needed ? reader.number(name) : reader.number_or(name, 0);
  };
  part.bore_mm = size("bore_mm", hubless);
  part.flange_mm = size("flange_mm", hubless);
  part.flat_inner_mm = size("flat_inner_mm", hubless);
  part.flat_outer_mm = size("flat_outer_mm", hubless);
  part.flat_inner_inboard_mm = reader.optional_number("flat_inner_inboard_mm");
  part.flat_outer_inboard_mm = reader.optional_number("flat_outer_inboard_mm");
  part.hub_length_mm = size("hub_length_mm", !hubless);
  part.inner_race_mm = size("inner_race_mm", !hubless);
  part.outer_race_mm = size("outer_race_mm", !hubless);
  reader.done();
  return part;
}

mount::PieceKind kind_of(const std::string& word) {
  if (word == "cone") return mount::PieceKind::cone;
  if (word == "spring") return mount::PieceKind::spring;
  if (word == "clamp") return mount::PieceKind::clamp;
  if (word == "taper") return mount::PieceKind::taper;
  if (word == "spacer") return mount::PieceKind::spacer;
  return mount::PieceKind::nut;
}

mount::Piece read_piece(Reader& reader) {
  mount::Piece piece;
  piece.id = reader.text("id");
  piece.kind = kind_of(reader.one_of("kind", {"cone", "spring", "clamp", "taper", "spacer", "nut"}));
  const bool cone = piece.kind == mount::PieceKind::cone || piece.kind == mount::PieceKind::taper;
  const bool clamp = piece.kind == mount::PieceKind::clamp, spring = piece.kind == mount::PieceKind::spring;
  const bool fills = clamp || piece.kind == mount::PieceKind::spacer || piece.kind == mount::PieceKind::cone;
  const auto size = [&](const char* name, bool needed) {
    return needed ? reader.number(name) : reader.number_or(name, 0);
  };
  piece.bore_mm = reader.number("bore_mm");
  piece.length_mm = size("length_mm", fills);
  piece.small_mm = size("small_mm", cone);
  piece.large_mm = size("large_mm", cone);
  piece.ring_inner_mm = size("ring_inner_mm", clamp);
  piece.ring_outer_mm = size("ring_outer_mm", clamp);
  piece.cup_depth_mm = size("cup_depth_mm", false);
  piece.cup_bore_mm = size("cup_bore_mm", false);
  piece.solid_mm = size("solid_mm", spring);
  piece.free_mm = size("free_mm", spring);
  piece.weighted = reader.boolean_or("weighted", false);
  piece.damping = reader.boolean_or("damping", false);
  piece.runout_um = size("runout_um", false);
  piece.outside_mm = reader.optional_number("outside_mm");
  reader.done();
  return piece;
}

}  // namespace

Json run_mount(const Json& input) {
  Reader reader(input);
  const auto arbor = read_arbor(reader.object("arbor"));
  const auto part = read_part(reader.object("part"));
  std::vector<mount::Piece> pieces;
  for (auto& piece : reader.objects("pieces")) pieces.push_back(read_piece(piece));
  const auto count = reader.optional_integer("count", 1, 20).value_or(3);
  reader.done();
  const auto answer = mount::find_stacks(arbor, part, pieces, static_cast<std::size_t>(count));
  Json stacks = Json::array(), nearest = Json::array();
  for (const auto& stack : answer.stacks) {
    stacks.push_back({{"pieces", stack.pieces}, {"length_mm", stack.length_mm}, {"q", stack.q}, {"why", stack.why}});
  }
  for (const auto& miss : answer.nearest) {
    nearest.push_back({{"rule", miss.rule}, {"miss_mm", miss.miss_mm}, {"text", miss.text}});
  }
  return {{"stacks", stacks}, {"nearest", nearest}};
}

}  // namespace brakewright::calc
