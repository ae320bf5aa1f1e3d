#include "shop/school/roster.hpp"

#include <algorithm>
#include <map>

#include "core/input_error.hpp"
#include "shop/doors/secret.hpp"
#include "shop/exchange/csv.hpp"
#include "shop/json.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostStudents = 500;

/// Without letter case, for ASCII; enough to find a heading and a name that was typed in capitals.
std::string folded(std::string_view text) {
  std::string made(text);
  for (char& c : made) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return made;
}

struct Columns {
  std::size_t name = 0;
  std::optional<std::size_t> pin = {};
  bool heading = true;
};

Columns columns_of(const CsvRow& first) {
  Columns columns;
  std::optional<std::size_t> name;
  for (std::size_t k = 0; k < first.cells.size(); ++k) {
    const std::string heading = folded(first.cells[k]);
    if (heading == "name" || heading == "student") name = k;
    if (heading == "pin") columns.pin = k;
  }
  if (name) {
    columns.name = *name;
  } else if (first.cells.size() == 1) {
    columns.heading = false;
  } else {
    throw InputError("no_heading", "name", "the first line must name the columns; one of them is name");
  }
  return columns;
}

std::string cell(const CsvRow& row, std::size_t column) {
  return column < row.cells.size() ? std::string(unguarded(row.cells[column])) : std::string();
}

class Roster {
 public:
  Roster(const std::vector<Person>& people, const std::vector<Uuid>& members, const std::function<Uuid()>& new_id)
      : members_(members), new_id_(new_id) {
    for (const Person& person : people) {
      if (person.active && person.role == Role::student) by_name_[folded(person.name)].push_back(person.id);
    }
  }

  RosterLine take(const CsvRow& row, const Columns& columns) {
    RosterLine told{.line = row.line, .name = cell(row, columns.name)};
    try {
      take_name(told);
      if (columns.pin && !cell(row, *columns.pin).empty()) {
        check_secret(SecretKind::pin, cell(row, *columns.pin), "pin");
        told.pin = cell(row, *columns.pin);
      }
    } catch (const InputError& refusal) {
      told.outcome = RosterOutcome::refused;
      told.person_id.reset();
      told.field = refusal.field();
      told.message = refusal.what();
    }
    return told;
  }

 private:
  void take_name(RosterLine& told) {
    Person person;
    person.name = told.name;
    check(person);
    const auto [twice, first_time] = here_.emplace(folded(told.name), told.line);
    if (!first_time) {
      throw InputError("bad_cell", "name",
                       "line " + std::to_string(twice->second) +
                           " has this name already; tell two of one name apart, by a letter for instance");
    }
    const auto known = by_name_.find(folded(told.name));
    if (known == by_name_.end()) {
      told.outcome = RosterOutcome::added;
      told.person_id = new_id_();
      return;
    }
    if (known->second.size() > 1) {
      throw InputError("bad_cell", "name",
                       "the shop has more than one student of this name; tell them apart there first");
    }
    told.person_id = known->second.front();
    const bool is_member = std::find(members_.begin(), members_.end(), *told.person_id) != members_.end();
    told.outcome = is_member ? RosterOutcome::known : RosterOutcome::joins;
  }

  const std::vector<Uuid>& members_;
  const std::function<Uuid()>& new_id_;
  std::map<std::string, std::vector<Uuid>> by_name_;
  std::map<std::string, std::int64_t> here_;
};

}  // namespace

std::vector<RosterLine> read_roster(std::string_view csv, const std::vector<Person>& people,
                                    const std::vector<Uuid>& members, const std::function<Uuid()>& new_id) {
  const CsvTable table = read_csv(csv);
  if (table.rows.empty()) throw InputError("no_heading", "", "this text has no names in it");
  if (table.rows.size() > kMostStudents + 1)
    throw InputError("too_many", "", "no more than 500 names are taken at once");
  const Columns columns = columns_of(table.rows.front());
  Roster roster(people, members, new_id);
  std::vector<RosterLine> lines;
  for (std::size_t k = columns.heading ? 1 : 0; k < table.rows.size(); ++k) {
    lines.push_back(roster.take(table.rows[k], columns));
  }
  return lines;
}

}  // namespace brakewright::shop
