#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <set>

#include "core/length/length.hpp"
#include "shop/exchange/csv.hpp"
#include "shop/exchange/piece_headings.hpp"
#include "shop/exchange/pieces_csv.hpp"
#include "shop/exchange/reading_headings.hpp"
#include "shop/json.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostPieces = 5'000;

InputError bad_cell(const std::string& heading, const std::string& message) { return {"bad_cell", heading, message}; }

/// One line of a table of pieces.
class Line {
 public:
  Line(const CsvRow& row, const PieceColumns& columns) : row_(row), columns_(columns) {
    if (row.cells.size() > columns.count()) {
      throw bad_cell("", "there are more cells than headings; a decimal comma wants ; between the cells, or quotes");
    }
  }

  bool has(std::string_view name) const { return columns_.find(name) != nullptr; }

  std::string text(std::string_view name) const {
    const PieceColumn* column = columns_.find(name);
    if (column == nullptr || column->index >= row_.cells.size()) return "";
    return std::string(unguarded(row_.cells[column->index]));
  }

  std::string heading(std::string_view name) const {
    const PieceColumn* column = columns_.find(name);
    return column == nullptr ? std::string(name) : column->heading;
  }

  std::string unit_of_heading(std::string_view name) const {
    const PieceColumn* column = columns_.find(name);
    return column == nullptr ? "" : column->unit;
  }

 private:
  const CsvRow& row_;
  const PieceColumns& columns_;
};

bool yes_or_no(const Line& line, std::string_view name) {
  const std::string word = plain_word(line.text(name));
  if (word == "yes" || word == "y" || word == "true" || word == "1" || word == "x") return true;
  if (word.empty() || word == "no" || word == "n" || word == "false" || word == "0") return false;
  throw bad_cell(line.heading(name), "accepted here: yes, no");
}

PieceKind kind_in(const Line& line) {
  const std::string word = plain_word(line.text("kind"));
  if (word == "cup") return PieceKind::clamp;
  try {
    return parse_word<PieceKind>(word);
  } catch (const InputError& refusal) {
    throw bad_cell(line.heading("kind"), refusal.what());
  }
}

std::optional<Unit> unit_in(const Line& line) {
  const std::string text = line.text("unit");
  const std::string word = plain_word(text);
  if (text.empty()) return std::nullopt;
  if (word == "mm") return Unit::mm;
  if (word == "in" || word == "inch" || word == "inches" || text == "\"") return Unit::in;
  throw bad_cell(line.heading("unit"), "accepted here: mm, in");
}

bool is_bare(const std::string& text) { return text.find_first_not_of("0123456789.,+-/ ") == std::string::npos; }

/// The unit behind the number comes first, then the line's, then the heading's, then the piece's.
Length length_in(const Line& line, std::string_view name, std::optional<Unit> of_line, Unit otherwise) {
  std::string text = line.text(name);
  const std::string of_heading = line.unit_of_heading(name);
  if (!of_line && !of_heading.empty() && is_bare(text)) text += " " + of_heading;
  try {
    return parse_length(text, of_line.value_or(otherwise)).typed.value;
  } catch (const InputError& refusal) {
    throw bad_cell(line.heading(name), refusal.what());
  }
}

double runout_um_in(const Line& line) {
  const std::string of_heading = line.unit_of_heading("runout");
  std::string text = line.text("runout");
  std::replace(text.begin(), text.end(), ',', '.');
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool bare = error == std::errc() && end == text.data() + text.size() && std::isfinite(value);
  if (bare && (of_heading.empty() || of_heading == "um")) return value;
  return length_in(line, "runout", std::nullopt, Unit::mm).um();
}

/// Without the white space round it, which a cell loses.
std::string plain_text(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

void set_text(const Line& line, std::string_view name, std::string& text) {
  if (line.has(name) && line.text(name) != plain_text(text)) text = line.text(name);
}

void set_dimensions(const Line& line, Piece& piece, std::optional<Unit> of_line, bool is_new) {
  for (const auto& [name, member] : {std::pair{"bore", &Piece::bore}, std::pair{"length", &Piece::length}}) {
    if (!line.text(name).empty()) {
      piece.*member = length_in(line, name, of_line, piece.unit);
    } else if (line.has(name) || is_new) {
      throw bad_cell(line.heading(name), "every piece has a " + std::string(name) + "; it is needed here");
    }
  }
  for (const auto& [name, member] : kDimensions) {
    if (!line.has(name)) continue;
    (piece.*member).reset();
    if (!line.text(name).empty()) piece.*member = length_in(line, name, of_line, piece.unit);
  }
  if (line.has("runout")) {
    piece.runout_um.reset();
    if (!line.text("runout").empty()) piece.runout_um = runout_um_in(line);
  }
}

/// The piece as the line says it.
Piece described(const Line& line, Piece piece, bool is_new) {
  set_text(line, "name", piece.name);
  if (line.has("kind") || is_new) piece.kind = kind_in(line);
  set_text(line, "hook", piece.hook);
  set_text(line, "note", piece.note);
  const auto unit = unit_in(line);
  if (unit) piece.unit = *unit;
  set_dimensions(line, piece, unit, is_new);
  if (line.has("weighted")) piece.weighted = yes_or_no(line, "weighted");
  if (line.has("damping")) piece.damping = yes_or_no(line, "damping");
  piece.active = !line.has("active") || yes_or_no(line, "active");
  return piece;
}

/// The heading for a field of the JSON, "small" for "small_nm".
std::string heading_of(const Line& line, std::string field) {
  for (const std::string_view ending : {"_nm", "_um"}) {
    if (field.ends_with(ending)) field.erase(field.size() - ending.size());
  }
  const bool known = std::find(kPieceHeadings.begin(), kPieceHeadings.end(), field) != kPieceHeadings.end();
  return known ? line.heading(field) : field;
}

/// Which headings two pieces differ under.
std::string differences(const Piece& before, const Piece& after) {
  std::string words;
  const auto note = [&](bool same, std::string_view name) {
    if (!same) words += (words.empty() ? "" : ", ") + std::string(name);
  };
  note(before.name == after.name, "name");
  note(before.kind == after.kind, "kind");
  note(before.hook == after.hook, "hook");
  note(before.unit == after.unit, "unit");
  note(before.bore == after.bore, "bore");
  note(before.length == after.length, "length");
  for (const auto& [name, member] : kDimensions) note(before.*member == after.*member, name);
  note(before.weighted == after.weighted, "weighted");
  note(before.damping == after.damping, "damping");
  note(before.runout_um == after.runout_um, "runout");
  note(before.note == after.note, "note");
  note(before.active == after.active, "active");
  return words;
}

class PieceImporter {
 public:
  PieceImporter(Shop& shop, Unit default_unit) : shop_(shop), default_unit_(default_unit), present_(shop.pieces()) {
    for (std::size_t k = 0; k < present_.size(); ++k) {
      by_id_.emplace(present_[k].id, k);
      by_name_[present_[k].name].push_back(k);
    }
  }

  void take(const CsvRow& row, const PieceColumns& columns) {
    PieceLine told;
    told.line = row.line;
    try {
      const Line line(row, columns);
      told.name = line.text("name");
      take_line(line, told);
    } catch (const InputError& refusal) {
      told.outcome = PieceOutcome::refused;
      told.field = refusal.field();
      told.message = refusal.what();
    }
    counter(told.outcome) += 1;
    report_.lines.push_back(std::move(told));
  }

  PiecesReport finish(bool dry_run, const Uuid& by) {
    if (!dry_run && report_.refused == 0) {
      shop_.put_pieces(wanted_, by);
      report_.stored = true;
    }
    return std::move(report_);
  }

 private:
  std::int64_t& counter(PieceOutcome outcome) {
    switch (outcome) {
      case PieceOutcome::added:
        return report_.added;
      case PieceOutcome::changed:
        return report_.changed;
      case PieceOutcome::known:
        return report_.known;
      case PieceOutcome::refused:
        break;
    }
    return report_.refused;
  }

  void take_line(const Line& line, PieceLine& told) {
    if (told.name.empty()) throw bad_cell(line.heading("name"), "a piece goes by its name; it is needed here");
    const std::optional<Uuid> id = id_in(line);
    const auto [twice, first_time] = names_here_.emplace(told.name, told.line);
    if (!first_time && !(id && by_id_.contains(*id))) {
      throw bad_cell(line.heading("name"),
                     "line " + std::to_string(twice->second) + " has a piece of this name already");
    }
    const Piece* known = known_piece(line, id, told.name);
    Piece piece = described(line, known == nullptr ? Piece{.id = id.value_or(Uuid{}), .unit = default_unit_} : *known,
                            known == nullptr);
    if (known == nullptr && !id) piece.id = shop_.new_id();
    if (!ids_here_.insert(piece.id).second) throw bad_cell(line.heading("id"), "an earlier line speaks of this piece");
    try {
      check(piece);
      check_dimensions(piece);
    } catch (const InputError& refusal) {
      throw bad_cell(heading_of(line, refusal.field()), refusal.what());
    }
    told.outcome = known == nullptr  ? PieceOutcome::added
                   : *known == piece ? PieceOutcome::known
                                     : PieceOutcome::changed;
    if (told.outcome == PieceOutcome::changed) {
      told.message = (known->name == piece.name ? "a piece of this name is here; changed: " : "changed: ") +
                     differences(*known, piece);
    }
    wanted_.push_back(std::move(piece));
  }

  std::optional<Uuid> id_in(const Line& line) const {
    const std::string text = line.text("id");
    if (text.empty()) return std::nullopt;
    try {
      return parse_uuid(text);
    } catch (const InputError& refusal) {
      throw bad_cell(line.heading("id"), refusal.what());
    }
  }

  const Piece* known_piece(const Line& line, const std::optional<Uuid>& id, const std::string& name) const {
    const auto same_id = id ? by_id_.find(*id) : by_id_.end();
    const auto same_name = by_name_.find(name);
    if (same_id != by_id_.end()) {
      const Piece& piece = present_[same_id->second];
      const bool renamed = plain_text(piece.name) != name;
      if (renamed && same_name != by_name_.end()) {
        throw bad_cell(line.heading("name"), "another piece has this name; two of one name cannot be told apart");
      }
      return &piece;
    }
    if (same_name == by_name_.end()) return nullptr;
    if (same_name->second.size() > 1) {
      throw bad_cell(line.heading("name"), "the shop has more than one piece of this name; say which by its id");
    }
    return &present_[same_name->second.front()];
  }

  Shop& shop_;
  Unit default_unit_;
  std::vector<Piece> present_;
  std::map<Uuid, std::size_t> by_id_;
  std::map<std::string, std::vector<std::size_t>, std::less<>> by_name_;
  std::map<std::string, std::int64_t> names_here_;
  std::set<Uuid> ids_here_;
  std::vector<Piece> wanted_;
  PiecesReport report_;
};

}  // namespace

PiecesReport import_pieces(Shop& shop, std::string_view csv, const ImportOptions& options, const Uuid& by) {
  const CsvTable table = read_csv(csv);
  if (table.rows.empty()) {
    throw InputError("no_heading", "", "the first line must name the columns; this text has none");
  }
  if (table.rows.size() > kMostPieces + 1) {
    throw InputError("too_many", "", "no more than 5,000 pieces are taken at once");
  }
  const PieceColumns columns(table.rows[0].cells);
  PiecesReport report;
  const auto take = [&] {
    PieceImporter importer(shop, options.default_unit);
    for (std::size_t k = 1; k < table.rows.size(); ++k) importer.take(table.rows[k], columns);
    report = importer.finish(options.dry_run, by);
  };
  // One change, so that nobody hangs a piece of the same name, or mends one, between the look at the board and the
  // putting.
  if (options.dry_run) {
    take();
  } else {
    shop.batch(take);
  }
  return report;
}

}  // namespace brakewright::shop
