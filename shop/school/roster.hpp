#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "shop/entities.hpp"

/// A class list as a spreadsheet writes it.
namespace brakewright::shop {

enum class RosterOutcome { added, joins, known, refused };

/// What became of one line, or would become of it.
struct RosterLine {
  std::int64_t line = 0;  ///< in the text, from 1, the heading included
  std::string name = {};
  RosterOutcome outcome = RosterOutcome::refused;  ///< new here; here already and now in the class; in it already
  std::optional<Uuid> person_id = {};              ///< absent for a refused line
  std::optional<std::string> pin = {};             ///< as the line gives it; told to nobody
  std::string field = {};                          ///< refused: heading of the cell
  std::string message = {};                        ///< refused: why
};

struct RosterReport {
  bool stored = false;  ///< false for a trial, and where a line was refused: then nothing was stored at all
  std::int64_t added = 0;
  std::int64_t joins = 0;
  std::int64_t known = 0;
  std::int64_t refused = 0;
  std::vector<RosterLine> lines = {};
};

/// Reads a class list: a column `name` and, where wanted, a column `pin` of 4 to 8 digits; other columns are passed
/// over. A table without a heading is taken for names alone where it has one column.
/// @param people  of the shop: an active student of the same name, letter case aside, is that student
/// @param members  who is in the class already
/// @throws InputError "not_a_table", "no_heading", "too_many" when the table as a whole cannot be used
std::vector<RosterLine> read_roster(std::string_view csv, const std::vector<Person>& people,
                                    const std::vector<Uuid>& members, const std::function<Uuid()>& new_id);

}  // namespace brakewright::shop
