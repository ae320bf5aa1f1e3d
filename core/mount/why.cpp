#include "core/mount/why.hpp"

#include <cmath>
#include <cstdio>

namespace brakewright::mount {
namespace {

std::string shown_mm(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f mm", mm);
  return text;
}

}  // namespace

std::string why_of(const Piece& piece, const Carrier& carrier, const PartSeat& part) {
  switch (piece.kind) {
    case PieceKind::cone:
      return "centres the " + shown_mm(part.bore_mm) + " bore at " +
             std::to_string(std::lround(carrier.first_seat.q() * 100)) + " % of its height; half way is best";
    case PieceKind::spring:
      return "pushes the cone into the bore: " + shown_mm(piece.solid_mm) + " flat, " + shown_mm(piece.free_mm) +
             " free, and the room behind the cone lies between";
    case PieceKind::clamp:
      return "bears on the hat with a ring of " + shown_mm(piece.ring_outer_mm) + " outer diameter" +
             (piece.id == carrier.first->id ? "; its cup takes spring and cone" : "");
    case PieceKind::taper: {
      const bool first = piece.id == carrier.first->id;
      const double q = (first ? carrier.first_seat : carrier.second_seat).q();
      return "sits in the " + shown_mm(first ? part.inner_race_mm : part.outer_race_mm) + " race at " +
             std::to_string(std::lround(q * 100)) + " % of its length";
    }
    case PieceKind::spacer:
      return std::string("fills ") + shown_mm(piece.length_mm) + " of the arbor" +
             (piece.damping    ? " and damps"
              : piece.weighted ? " and adds weight"
                               : "");
    case PieceKind::nut:
      return "holds the stack";
  }
  return {};
}

}  // namespace brakewright::mount
