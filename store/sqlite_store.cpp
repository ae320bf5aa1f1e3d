#include "store/sqlite_store.hpp"

#include <stdexcept>

#include "store/rows.hpp"

namespace brakewright::store {

using namespace shop;

namespace {

std::string marks(std::size_t count) {
  std::string text;
  for (std::size_t k = 0; k < count; ++k) text += k == 0 ? "?" : ", ?";
  return text;
}

/// Statement that only ever inserts: a row that is there already is refused.
template <class E>
std::string insert_sql(const std::string& table) {
  return "INSERT INTO " + table + " (" + column_list<E>() + ") VALUES (" + marks(columns_of<E>().size()) + ")";
}

/// Statement that inserts, or replaces the row with the same key.
template <class E>
std::string upsert_sql(const std::string& table, const std::string& key) {
  std::string sql = insert_sql<E>(table) + " ON CONFLICT (" + key + ") DO UPDATE SET ";
  bool first = true;
  for (const auto& name : columns_of<E>()) {
    sql += (first ? "" : ", ") + name + " = excluded." + name;
    first = false;
  }
  return sql;
}

template <class E>
void write_row(Database& database, const std::string& sql, const E& entity) {
  Query query = database.query(sql);
  RowWriter(query).write(entity);
  query.run();
}

template <class E>
std::vector<E> rows(Query query) {
  std::vector<E> found;
  while (query.next()) found.push_back(row_as<E>(query));
  return found;
}

template <class E>
std::vector<E> rows_of_job(Database& database, const std::string& table, const Uuid& job_id) {
  static const std::string sql = "SELECT " + column_list<E>() + " FROM " + table + " WHERE job_id = ? ORDER BY place";
  return rows<E>(std::move(database.query(sql).bind(0, to_text(job_id))));
}

}  // namespace

SqliteStore::SqliteStore(std::unique_ptr<Database> database, std::unique_ptr<Lock> lock)
    : lock_(std::move(lock)), database_(std::move(database)) {}

void SqliteStore::must_be_within_transact() const {
  if (!database_->in_transaction()) throw std::logic_error("a store is written within transact() only");
}

void SqliteStore::transact(const std::function<void()>& work) {
  if (database_->in_transaction()) {
    work();
    return;
  }
  database_->query("BEGIN IMMEDIATE").run();
  try {
    work();
    database_->query("COMMIT").run();
  } catch (...) {
    if (database_->in_transaction()) database_->script("ROLLBACK");
    throw;
  }
}

#define BRAKEWRIGHT_PUT(Entity, sql_text)       \
  void SqliteStore::put(const Entity& entity) { \
    static const std::string sql = sql_text;    \
    must_be_within_transact();                  \
    write_row(*database_, sql, entity);         \
  }

BRAKEWRIGHT_PUT(Person, upsert_sql<Person>("person", "id"))
BRAKEWRIGHT_PUT(Instrument, upsert_sql<Instrument>("instrument", "id"))
BRAKEWRIGHT_PUT(Lathe, upsert_sql<Lathe>("lathe", "id"))
BRAKEWRIGHT_PUT(KnownPart, upsert_sql<KnownPart>("known_part", "id"))
BRAKEWRIGHT_PUT(Piece, upsert_sql<Piece>("piece", "id"))
BRAKEWRIGHT_PUT(Insert, upsert_sql<Insert>("cutting_insert", "id"))
BRAKEWRIGHT_PUT(Corner, upsert_sql<Corner>("corner", "id"))
BRAKEWRIGHT_PUT(Band, upsert_sql<Band>("band", "id"))
BRAKEWRIGHT_PUT(TaperPlate, upsert_sql<TaperPlate>("taper_plate", "id"))
BRAKEWRIGHT_PUT(Job, upsert_sql<Job>("job", "id"))
BRAKEWRIGHT_PUT(Part, upsert_sql<Part>("part", "id"))
BRAKEWRIGHT_PUT(MeasuringPlan, upsert_sql<MeasuringPlan>("measuring_plan", "part_id, stage"))
BRAKEWRIGHT_PUT(Reading, upsert_sql<Reading>("reading", "id"))
BRAKEWRIGHT_PUT(Finding, upsert_sql<Finding>("finding", "id"))
BRAKEWRIGHT_PUT(ZeroCheck, insert_sql<ZeroCheck>("zero_check"))
BRAKEWRIGHT_PUT(Decision, insert_sql<Decision>("decision"))
BRAKEWRIGHT_PUT(Booking, insert_sql<Booking>("booking"))
BRAKEWRIGHT_PUT(Mount, insert_sql<Mount>("mount"))
BRAKEWRIGHT_PUT(MountProof, insert_sql<MountProof>("mount_proof"))
BRAKEWRIGHT_PUT(CutPlan, insert_sql<CutPlan>("cut_plan"))
BRAKEWRIGHT_PUT(Pass, insert_sql<Pass>("pass"))
BRAKEWRIGHT_PUT(BenchStep, insert_sql<BenchStep>("bench_step"))
BRAKEWRIGHT_PUT(Cut, insert_sql<Cut>("cut"))
BRAKEWRIGHT_PUT(Refit, insert_sql<Refit>("refit"))
BRAKEWRIGHT_PUT(Amendment, insert_sql<Amendment>("amendment"))
BRAKEWRIGHT_PUT(Settings, "INSERT OR REPLACE INTO settings (" + column_list<Settings>() + ", only) VALUES (" +
                              marks(columns_of<Settings>().size()) + ", 1)")

#undef BRAKEWRIGHT_PUT

Change SqliteStore::append(Change change) {
  static const std::string sql = insert_sql<Change>("change");
  must_be_within_transact();
  change.seq = last_seq() + 1;
  write_row(*database_, sql, change);
  return change;
}

std::int64_t SqliteStore::next_job_number() {
  must_be_within_transact();
  Query query = database_->query(
      "UPDATE counter SET value = max(value, (SELECT coalesce(max(number), 0) FROM job)) + 1 "
      "WHERE name = 'job_number' RETURNING value");
  if (!query.next()) throw std::logic_error("no counter of job numbers");
  const std::int64_t number = query.integer(0);
  while (query.next()) {
  }
  return number;
}

Settings SqliteStore::settings() {
  static const std::string sql = "SELECT " + column_list<Settings>() + " FROM settings";
  auto found = rows<Settings>(database_->query(sql));
  return found.empty() ? Settings{} : found.front();
}

std::vector<Person> SqliteStore::people() {
  static const std::string sql = "SELECT " + column_list<Person>() + " FROM person ORDER BY place";
  return rows<Person>(database_->query(sql));
}

std::vector<Piece> SqliteStore::pieces() {
  static const std::string sql = "SELECT " + column_list<Piece>() + " FROM piece ORDER BY place";
  return rows<Piece>(database_->query(sql));
}

std::vector<Booking> SqliteStore::last_bookings() {
  static const std::string sql = "SELECT " + column_list<Booking>() +
                                 " FROM booking WHERE place IN (SELECT max(place) FROM booking GROUP BY piece_id)";
  return rows<Booking>(database_->query(sql));
}

std::vector<Booking> SqliteStore::bookings_of(const Uuid& piece_id) {
  static const std::string sql =
      "SELECT " + column_list<Booking>() + " FROM booking WHERE piece_id = ? ORDER BY place DESC";
  return rows<Booking>(std::move(database_->query(sql).bind(0, to_text(piece_id))));
}

std::optional<Booking> SqliteStore::booking(const Uuid& id) {
  static const std::string sql = "SELECT " + column_list<Booking>() + " FROM booking WHERE id = ?";
  auto found = rows<Booking>(std::move(database_->query(sql).bind(0, to_text(id))));
  if (found.empty()) return std::nullopt;
  return found.front();
}

std::vector<Insert> SqliteStore::inserts() {
  static const std::string sql = "SELECT " + column_list<Insert>() + " FROM cutting_insert ORDER BY place";
  return rows<Insert>(database_->query(sql));
}

std::vector<Corner> SqliteStore::corners() {
  static const std::string sql = "SELECT " + column_list<Corner>() + " FROM corner ORDER BY insert_id, number";
  return rows<Corner>(database_->query(sql));
}

std::vector<Band> SqliteStore::bands() {
  static const std::string sql = "SELECT " + column_list<Band>() + " FROM band ORDER BY place";
  return rows<Band>(database_->query(sql));
}

std::vector<TaperPlate> SqliteStore::taper_plates() {
  static const std::string sql = "SELECT " + column_list<TaperPlate>() + " FROM taper_plate ORDER BY place";
  return rows<TaperPlate>(database_->query(sql));
}

std::vector<Instrument> SqliteStore::instruments() {
  static const std::string sql = "SELECT " + column_list<Instrument>() + " FROM instrument ORDER BY place";
  return rows<Instrument>(database_->query(sql));
}

std::vector<Lathe> SqliteStore::lathes() {
  static const std::string sql = "SELECT " + column_list<Lathe>() + " FROM lathe ORDER BY place";
  return rows<Lathe>(database_->query(sql));
}

std::vector<ZeroCheck> SqliteStore::zero_checks(std::optional<Uuid> instrument_id) {
  static const std::string all = "SELECT " + column_list<ZeroCheck>() + " FROM zero_check ";
  static const std::string order = "ORDER BY at DESC, place DESC";
  if (!instrument_id) return rows<ZeroCheck>(database_->query(all + order));
  return rows<ZeroCheck>(
      std::move(database_->query(all + "WHERE instrument_id = ? " + order).bind(0, to_text(*instrument_id))));
}

std::optional<Reading> SqliteStore::reading(const Uuid& id) {
  static const std::string sql = "SELECT " + column_list<Reading>() + " FROM reading WHERE id = ?";
  auto found = rows<Reading>(std::move(database_->query(sql).bind(0, to_text(id))));
  if (found.empty()) return std::nullopt;
  return found.front();
}

std::optional<Uuid> SqliteStore::job_of_part(const Uuid& part_id) {
  Query query = database_->query("SELECT job_id FROM part WHERE id = ?");
  if (!query.bind(0, to_text(part_id)).next()) return std::nullopt;
  return parse_uuid(query.text(0));
}

std::optional<JobFile> SqliteStore::job_file(const Uuid& job_id) {
  static const std::string sql = "SELECT " + column_list<Job>() + " FROM job WHERE id = ?";
  auto found = rows<Job>(std::move(database_->query(sql).bind(0, to_text(job_id))));
  if (found.empty()) return std::nullopt;
  return rest_of(std::move(found.front()));
}

std::optional<JobFile> SqliteStore::job_file_by_number(std::int64_t number) {
  static const std::string sql = "SELECT " + column_list<Job>() + " FROM job WHERE number = ?";
  auto found = rows<Job>(std::move(database_->query(sql).bind(0, number)));
  if (found.empty()) return std::nullopt;
  return rest_of(std::move(found.front()));
}

JobFile SqliteStore::rest_of(Job job) {
  static const std::string plans = "SELECT " + column_list<MeasuringPlan>("measuring_plan") +
                                   " FROM part JOIN measuring_plan ON measuring_plan.part_id = part.id"
                                   " WHERE part.job_id = ? ORDER BY measuring_plan.place";
  const Uuid id = job.id;
  JobFile file{.job = std::move(job)};
  file.parts = rows_of_job<Part>(*database_, "part", id);
  file.plans = rows<MeasuringPlan>(std::move(database_->query(plans).bind(0, to_text(id))));
  file.readings = rows_of_job<Reading>(*database_, "reading", id);
  file.findings = rows_of_job<Finding>(*database_, "finding", id);
  file.decisions = rows_of_job<Decision>(*database_, "decision", id);
  file.mounts = rows_of_job<Mount>(*database_, "mount", id);
  file.mount_proofs = rows_of_job<MountProof>(*database_, "mount_proof", id);
  file.cut_plans = rows_of_job<CutPlan>(*database_, "cut_plan", id);
  file.passes = rows_of_job<Pass>(*database_, "pass", id);
  file.bench_steps = rows_of_job<BenchStep>(*database_, "bench_step", id);
  file.cuts = rows_of_job<Cut>(*database_, "cut", id);
  file.refits = rows_of_job<Refit>(*database_, "refit", id);
  file.amendments = rows_of_job<Amendment>(*database_, "amendment", id);
  Query last = database_->query("SELECT coalesce(max(seq), 0) FROM change WHERE job_id = ?");
  last.bind(0, to_text(id)).next();
  file.seq = last.integer(0);
  return file;
}

std::vector<Change> SqliteStore::changes(std::int64_t after, std::int64_t limit, std::optional<Uuid> job_id) {
  static const std::string all = "SELECT " + column_list<Change>() + " FROM change WHERE seq > ? ";
  static const std::string order = "ORDER BY seq LIMIT ?";
  if (!job_id) return rows<Change>(std::move(database_->query(all + order).bind(0, after).bind(1, limit)));
  return rows<Change>(std::move(
      database_->query(all + "AND job_id = ? " + order).bind(0, after).bind(1, to_text(*job_id)).bind(2, limit)));
}

std::int64_t SqliteStore::last_seq() { return database_->number("SELECT coalesce(max(seq), 0) FROM change"); }

}  // namespace brakewright::store
