#include "store/sqlite_store.hpp"

#include <stdexcept>

#include "shop/journal/chain.hpp"
#include "store/journal_rows.hpp"
#include "store/statements.hpp"

namespace brakewright::store {

using namespace shop;

namespace {

template <class E>
std::vector<E> rows_of_job(Database& database, const std::string& table, const Uuid& job_id) {
  static const std::string sql = "SELECT " + column_list<E>() + " FROM " + table + " WHERE job_id = ? ORDER BY place";
  return rows<E>(std::move(database.query(sql).bind(0, to_text(job_id))));
}

}  // namespace

SqliteStore::SqliteStore(std::unique_ptr<Database> database, std::unique_ptr<Lock> lock, std::optional<SigningKey> key)
    : lock_(std::move(lock)), database_(std::move(database)), key_(std::move(key)) {
  if (key_) announced_key_ = named_key(*database_);
}

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
    if (newest_) write_head();
    database_->query("COMMIT").run();
    newest_.reset();
  } catch (...) {
    const bool appended = newest_.has_value();
    newest_.reset();
    if (database_->in_transaction()) database_->script("ROLLBACK");
    if (appended && key_) announced_key_ = named_key(*database_);
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
  if (!newest_) newest_ = newest_in(*database_);
  change.seq = newest_->seq + 1;
  change = chained(std::move(change), newest_->entry_sha256);
  write_row(*database_, sql, change);
  if (change.kind == "job.sealed" && change.job_id) write_seal(*database_, *change.job_id, signed_head(change));
  newest_ = change;
  return change;
}

JournalHead SqliteStore::signed_head(const Change& entry) const {
  JournalHead head{.seq = entry.seq, .entry_sha256 = entry.entry_sha256};
  if (!key_) return head;
  head.public_key = key_->public_key;
  head.signature = signature_of(*key_, signed_text(head.seq, head.entry_sha256));
  return head;
}

void SqliteStore::announce_key(const Change& before) {
  if (!key_ || announced_key_ == key_->public_key) return;
  const std::string earlier = announced_key_.empty() ? "null" : '"' + announced_key_ + '"';
  append(
      entry_behind(before, "journal.key", R"({"public_key":")" + key_->public_key + R"(","before":)" + earlier + "}"));
  announced_key_ = key_->public_key;
}

void SqliteStore::write_head() {
  announce_key(Change(*newest_));
  const JournalHead head = signed_head(*newest_);
  database_
      ->query(
          "INSERT OR REPLACE INTO journal_head (only, seq, entry_sha256, public_key, signature) VALUES (1, ?, ?, ?, ?)")
      .bind(0, head.seq)
      .bind(1, head.entry_sha256)
      .bind(2, head.public_key)
      .bind(3, head.signature)
      .run();
}

void SqliteStore::erase_detail(std::int64_t seq) {
  must_be_within_transact();
  database_->query("UPDATE change SET detail_json = '', salt = '' WHERE seq = ?").bind(0, seq).run();
}

void SqliteStore::forget_words() {
  must_be_within_transact();
  // The index keeps what was taken out of it until its parts are joined.
  database_->query("INSERT INTO job_search (job_search) VALUES ('optimize')").run();
}

JournalHead SqliteStore::journal_head() {
  Query row = database_->query("SELECT seq, entry_sha256, public_key, signature FROM journal_head");
  return row.next() ? head_in(row) : JournalHead{};
}

std::optional<JournalHead> SqliteStore::seal_head(const Uuid& job_id) {
  Query row = database_->query(
      "SELECT seq, entry_sha256, public_key, signature FROM journal_seal WHERE job_id = ? ORDER BY seq LIMIT 1");
  if (!row.bind(0, to_text(job_id)).next()) return std::nullopt;
  return head_in(row);
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

std::vector<Change> SqliteStore::own_changes(UtcTime from, UtcTime to) {
  static const std::string sql =
      "WITH brought AS MATERIALIZED (SELECT seq, seq + json_extract(detail_json, '$.entries') AS last FROM change "
      "WHERE kind = 'journal.brought') SELECT " +
      column_list<Change>() +
      " FROM change WHERE at >= ? AND at < ? AND NOT EXISTS "
      "(SELECT 1 FROM brought WHERE change.seq > brought.seq AND change.seq <= brought.last) ORDER BY seq";
  return rows<Change>(std::move(database_->query(sql).bind(0, to_text(from)).bind(1, to_text(to))));
}

std::int64_t SqliteStore::last_seq() { return database_->number("SELECT coalesce(max(seq), 0) FROM change"); }

}  // namespace brakewright::store
