#include "store/rebuild.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include "core/input_error.hpp"
#include "shop/journal/chain.hpp"
#include "shop/journal/telling.hpp"
#include "store/open.hpp"
#include "store/rooms.hpp"

namespace brakewright::store {

using namespace shop;

namespace {

using Difference = std::optional<std::string>;

/// The journal's own tables, which the chain and the signatures prove, and SQLite's own.
const std::string kTables =
    "SELECT name FROM sqlite_schema WHERE type = 'table' AND sql LIKE '%STRICT' "
    "AND name NOT IN ('change', 'journal_head', 'journal_seal') ORDER BY name";

std::vector<std::string> texts(Database& database, const std::string& sql) {
  std::vector<std::string> found;
  Query rows = database.query(sql);
  while (rows.next()) found.push_back(rows.text(0));
  return found;
}

/// Name and definition of everything in a database, white space aside.
std::vector<std::string> schema_of(Database& database) {
  std::vector<std::string> found;
  for (const std::string& text :
       texts(database,
             "SELECT type || ' ' || name || ': ' || coalesce(sql, '') FROM sqlite_schema ORDER BY type, name")) {
    std::string squeezed;
    for (const char c : text) {
      const bool white = c == ' ' || c == '\n' || c == '\t' || c == '\r';
      if (!white)
        squeezed += c;
      else if (!squeezed.empty() && squeezed.back() != ' ')
        squeezed += ' ';
    }
    found.push_back(std::move(squeezed));
  }
  return found;
}

Difference schema_difference(Database& actual, Database& rebuilt) {
  const auto here = schema_of(actual);
  const auto wanted = schema_of(rebuilt);
  const auto [a, b] = std::mismatch(here.begin(), here.end(), wanted.begin(), wanted.end());
  if (a == here.end() && b == wanted.end()) return {};
  const std::string& named = a == here.end() ? *b : *a;
  return "the tables, indices and triggers are not those of this program, from \"" + named.substr(0, named.find(':')) +
         "\" on";
}

/// Every bit of a number in its shortest digits.
std::string digits_of(double number) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), number).ptr;
  return {text.data(), end};
}

/// A value with its type, so that 1 and '1' differ.
std::string cell(const Query& row, int column) {
  const std::string type = row.type_name(column);
  if (type == "null") return type;
  return type + " " + (type == "real" ? digits_of(row.real(column)) : row.text(column));
}

/// A secret stands in the journal by its hash alone.
bool same_cell(const std::string& table, const std::string& column, const Query& actual, const Query& rebuilt, int k) {
  if (table == "secret" && column == "hash" && rebuilt.text(k).starts_with("sha256:")) {
    return veiled(actual.text(k)) == rebuilt.text(k);
  }
  return cell(actual, k) == cell(rebuilt, k);
}

std::string shown(std::string text) {
  constexpr std::size_t kMost = 60;
  if (text.size() > kMost) text = text.substr(0, kMost) + "...";
  return text;
}

class Comparison {
 public:
  Comparison(Database& actual, Database& rebuilt, const ToldBy& told_by)
      : actual_(actual), rebuilt_(rebuilt), told_by_(told_by) {}

  Difference of_table(const std::string& table) {
    const auto columns = texts(actual_, "SELECT name FROM pragma_table_info('" + table + "') ORDER BY cid");
    const std::string sql = "SELECT * FROM \"" + table + "\" ORDER BY rowid";
    Query here = actual_.query(sql);
    Query told = rebuilt_.query(sql);
    while (true) {
      const bool has = here.next();
      const bool wanted = told.next();
      if (!has && !wanted) return {};
      if (!has) return "a row of " + table + " is not there: " + name_of(table, columns, told);
      if (!wanted) return "a row of " + table + " is told by no entry of the journal: " + name_of(table, columns, here);
      for (int k = 0; k < static_cast<int>(columns.size()); ++k) {
        const std::string& column = columns[static_cast<std::size_t>(k)];
        if (same_cell(table, column, here, told, k)) continue;
        return name_of(table, columns, told) + " of " + table + " is not as the journal tells it: " + column + " is " +
               shown(cell(here, k)) + ", told was " + shown(cell(told, k));
      }
    }
  }

 private:
  /// "row <id> (entry 12)".
  std::string name_of(const std::string& table, const std::vector<std::string>& columns, const Query& row) const {
    for (const char* key : {"id", "part_id", "name", "only"}) {
      const auto found = std::find(columns.begin(), columns.end(), key);
      if (found == columns.end()) continue;
      const std::string value = row.text(static_cast<int>(found - columns.begin()));
      return "row " + shown(value) + entry_of(table, value);
    }
    return "a row";
  }

  std::string entry_of(const std::string& table, const std::string& id) const {
    try {
      const auto found = told_by_.find({table, parse_uuid(id)});
      if (found != told_by_.end()) return " (entry " + std::to_string(found->second) + ")";
    } catch (const InputError&) {
      // no id
    }
    return "";
  }

  Database& actual_;
  Database& rebuilt_;
  const ToldBy& told_by_;
};

/// What is found of a job by its words is made by the store from the rows.
Difference search_difference(Database& actual, Database& rebuilt) {
  const std::string sql = "SELECT rowid || ' ' || words FROM job_search ORDER BY rowid";
  if (texts(actual, sql) != texts(rebuilt, sql)) return "the words of job_search are not those of the jobs";
  return {};
}

}  // namespace

Difference difference_from_journal(SqliteStore& store) {
  const auto fresh = open_in_memory();
  Database& rebuilt = database_of(*fresh);
  Database& actual = store.database();
  if (auto schema = schema_difference(actual, rebuilt)) return schema;
  const auto rooms = shelves_of_rooms(rebuilt);
  std::vector<AnyShelf*> shelves;
  for (const auto& room : rooms) shelves.push_back(room.get());
  ToldBy told_by;
  try {
    fresh->transact([&] { told_by = retell(store, *fresh, shelves); });
  } catch (const TellingError& error) {
    return error.what();
  } catch (const StoreError& error) {
    return std::string("the rows that the journal tells do not fit together: ") + error.what();
  }
  Comparison comparison(actual, rebuilt, told_by);
  for (const std::string& table : texts(actual, kTables)) {
    if (auto found = comparison.of_table(table)) return found;
  }
  return search_difference(actual, rebuilt);
}

}  // namespace brakewright::store
