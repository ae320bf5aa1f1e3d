#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "shop/exchange/readings_csv.hpp"

/// The pegboard as a table for a spreadsheet, out and in.
namespace brakewright::shop {

enum class PieceOutcome { added, changed, known, refused };

/// What became of one line, or would become of it.
struct PieceLine {
  std::int64_t line = 0;  ///< in the text, from 1, the heading included
  std::string name;
  PieceOutcome outcome = PieceOutcome::refused;
  std::string field;    ///< refused: heading of the cell, or empty for the whole line
  std::string message;  ///< refused: why; changed: what
};

struct PiecesReport {
  bool stored = false;  ///< false for a trial, and where a line was refused: then nothing was stored at all
  std::int64_t added = 0;
  std::int64_t changed = 0;
  std::int64_t known = 0;  ///< are here as the line says
  std::int64_t refused = 0;
  std::vector<PieceLine> lines;  ///< every line of the table, in its order
};

/// Adds pieces to the pegboard from a table and changes those of the same name: all lines, or, where one is refused,
/// none.
///
/// Headings, in any order, in capitals or not, with blanks, hyphens or underscores:
///   name                 needed; what is stamped or painted on the piece. A piece of this name is changed, not
///   doubled. kind                 cone, spring, clamp (or cup), taper, spacer, nut hook, note           as they stand
///   unit                 mm or in: of the line's bare numbers, and in which the piece is shown
///   bore, length, small, large, ring_inner, ring_outer, cup_depth, cup_bore, solid, free, outside
///                        lengths; a unit behind the number comes first, then the line's, then the heading's
///                        (`bore_mm`, `bore (in)`), then the default
///   weighted, damping    yes or no; empty is no
///   runout               a bare number is micrometres unless the heading says otherwise
///   active               yes or no; a piece in a table without this heading is in use
///   id                   as `pieces_csv` writes it: that piece, whatever its name is now
/// Other headings are passed over. A new piece needs kind, bore, length and what its kind needs. A heading that is not
/// there leaves that of a known piece as it is; an empty cell under one that is there says that there is none.
/// @throws InputError "not_a_table", "no_heading", "too_many" when the table as a whole cannot be used (field names
///         the heading); StoreError
PiecesReport import_pieces(Shop& shop, std::string_view csv, const ImportOptions& options, const Uuid& by);

/// All pieces, one to a line, each in its own unit, exactly; what is no short decimal of an inch stands in millimetres
/// with the unit behind it. `import_pieces` reads it back into the same shop without changing anything.
std::string pieces_csv(const std::vector<Piece>& pieces);

}  // namespace brakewright::shop
