#include <cctype>

#include "store/rows.hpp"
#include "store/sqlite_store.hpp"

namespace brakewright::store {

using namespace shop;

namespace {

constexpr std::size_t kMostWords = 16;

bool says_something(const std::string& word) {
  for (const char c : word) {
    if (std::isalnum(static_cast<unsigned char>(c)) || (static_cast<unsigned char>(c) & 0x80) != 0) return true;
  }
  return false;
}

/// Words between white space that hold a letter or a digit, the first of them.
std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if (c != '\0' && std::isspace(static_cast<unsigned char>(c)) == 0) {
      word += c;
      continue;
    }
    if (says_something(word) && words.size() < kMostWords) words.push_back(word);
    word.clear();
  }
  return words;
}

/// An FTS5 expression: each word as a quoted phrase that may go on.
std::string match_of(const std::vector<std::string>& words) {
  std::string match;
  for (const auto& word : words) {
    match += match.empty() ? "\"" : " \"";
    for (const char c : word) match += c == '"' ? std::string("\"\"") : std::string(1, c);
    match += "\"*";
  }
  return match;
}

struct Where {
  std::string sql;
  std::string number;  ///< to order by: that of the index, which comes in order and need not be sorted
  std::string match;
  std::string state;
  std::string vehicle;  ///< the job of it that was asked for

  int bind(Query& query) const {
    int place = 0;
    if (!match.empty()) query.bind(place++, match);
    if (!state.empty()) query.bind(place++, state);
    if (!vehicle.empty()) query.bind(place++, vehicle);
    return place;
  }
};

Where where_of(const JobQuery& asked) {
  Where where;
  where.match = match_of(words_of(asked.words));
  if (asked.state) where.state = word_of(*asked.state);
  where.sql = where.match.empty() ? " FROM job WHERE 1"
                                  : " FROM job_search CROSS JOIN job ON job.number = job_search.rowid"
                                    " WHERE job_search MATCH ?";
  // CROSS keeps the word index outside: by state first, it would be asked anew for each of ten thousand jobs.
  where.number = where.match.empty() ? "job.number" : "job_search.rowid";
  if (!where.state.empty()) where.sql += " AND job.state = ?";
  if (asked.vehicle_of) {
    where.vehicle = to_text(*asked.vehicle_of);
    where.sql +=
        " AND job.id IN (SELECT other.id FROM job AS asked JOIN job AS other"
        " ON other.id = coalesce(asked.beside_job_id, asked.id)"
        " OR other.beside_job_id = coalesce(asked.beside_job_id, asked.id) WHERE asked.id = ?)";
  }
  return where;
}

}  // namespace

JobPage SqliteStore::jobs(const JobQuery& asked) {
  static const std::string job_columns = column_list<Job>("job");
  static const std::string part_sql = "SELECT " + column_list<Part>() + " FROM part WHERE job_id = ? ORDER BY place";
  const Where where = where_of(asked);
  JobPage page;
  {
    Query count = database_->query("SELECT count(*)" + where.sql);
    where.bind(count);
    count.next();
    page.total = count.integer(0);
  }
  Query query =
      database_->query("SELECT " + job_columns + ", (SELECT name FROM person WHERE person.id = job.worker_person_id)" +
                       where.sql + " ORDER BY " + where.number + " DESC LIMIT ? OFFSET ?");
  const int place = where.bind(query);
  query.bind(place, asked.limit).bind(place + 1, asked.offset);
  while (query.next()) {
    JobLine line;
    RowReader reader(query);
    reader.read(line.job);
    line.worker_name = query.text(reader.column());
    Query parts = database_->query(part_sql);
    parts.bind(0, to_text(line.job.id));
    while (parts.next()) line.parts.push_back(row_as<Part>(parts));
    page.lines.push_back(std::move(line));
  }
  return page;
}

std::vector<KnownPart> SqliteStore::known_parts(const std::string& words, std::int64_t limit) {
  std::string sql = "SELECT " + column_list<KnownPart>() + " FROM known_part WHERE 1";
  const auto wanted = words_of(words);
  for (std::size_t k = 0; k < wanted.size(); ++k) sql += " AND instr(lower(name), lower(?)) > 0";
  Query query = database_->query(sql + " ORDER BY last_met_at DESC, place DESC LIMIT ?");
  int place = 0;
  for (const auto& word : wanted) query.bind(place++, word);
  query.bind(place, limit);
  std::vector<KnownPart> found;
  while (query.next()) found.push_back(row_as<KnownPart>(query));
  return found;
}

}  // namespace brakewright::store
