#include "store/sqlite.hpp"

#include <utility>

namespace brakewright::store {

using shop::StoreError;

namespace {

constexpr int kBusyMilliseconds = 5000;

void expect(sqlite3* database, int code) {
  if (code != SQLITE_OK) fail(database, code);
}

}  // namespace

void fail(sqlite3* database, int code) {
  using enum StoreError::Cause;
  const std::string detail = database != nullptr ? sqlite3_errmsg(database) : sqlite3_errstr(code);
  const char* name = database != nullptr ? sqlite3_db_filename(database, "main") : nullptr;
  const std::string where = name != nullptr && *name != '\0' ? std::string(" (") + name + ")" : "";
  switch (code & 0xff) {
    case SQLITE_FULL:
      throw StoreError(full, "The disk is full" + where +
                                 ". Nothing of this change was stored and nothing older is lost. Free some space, "
                                 "then enter it again.");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      throw StoreError(damaged, "The shop's file is damaged" + where + ": " + detail);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      throw StoreError(busy, "Another program is writing to the shop's file" + where + "; try again");
    default:
      throw StoreError(other, "The shop's file cannot be used" + where + ": " + detail);
  }
}

Query::Query(sqlite3* database, sqlite3_stmt* statement, bool owned)
    : database_(database), statement_(statement), owned_(owned) {}

Query::Query(Query&& from) noexcept
    : database_(from.database_), statement_(std::exchange(from.statement_, nullptr)), owned_(from.owned_) {}

Query::~Query() {
  if (statement_ == nullptr) return;
  if (owned_) {
    sqlite3_finalize(statement_);
    return;
  }
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

Query& Query::bind(int place, std::int64_t value) {
  expect(database_, sqlite3_bind_int64(statement_, place + 1, value));
  return *this;
}

Query& Query::bind(int place, double value) {
  expect(database_, sqlite3_bind_double(statement_, place + 1, value));
  return *this;
}

Query& Query::bind(int place, std::string_view text) {
  expect(database_, sqlite3_bind_text64(statement_, place + 1, text.data() == nullptr ? "" : text.data(), text.size(),
                                        SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Query& Query::bind_null(int place) {
  expect(database_, sqlite3_bind_null(statement_, place + 1));
  return *this;
}

bool Query::next() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  fail(database_, code);
}

void Query::run() {
  while (next()) {
  }
}

bool Query::is_null(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }
std::string Query::type_name(int column) const {
  switch (sqlite3_column_type(statement_, column)) {
    case SQLITE_INTEGER:
      return "integer";
    case SQLITE_FLOAT:
      return "real";
    case SQLITE_TEXT:
      return "text";
    case SQLITE_BLOB:
      return "blob";
    default:
      return "null";
  }
}

std::int64_t Query::integer(int column) const { return sqlite3_column_int64(statement_, column); }
double Query::real(int column) const { return sqlite3_column_double(statement_, column); }

std::string Query::text(int column) const {
  const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
  if (bytes == nullptr) return {};
  return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

Database::Database(const std::filesystem::path& file, Access access) : file_(file) {
  sqlite3* handle = nullptr;
  const int flags = access == Access::write ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE : SQLITE_OPEN_READONLY;
  const int code = sqlite3_open_v2(file.c_str(), &handle, flags | SQLITE_OPEN_NOMUTEX, nullptr);
  handle_.reset(handle);
  expect(handle, code);
  sqlite3_extended_result_codes(handle, 1);
  sqlite3_busy_timeout(handle, kBusyMilliseconds);
}

Query Database::query(std::string_view sql) {
  auto found = statements_.find(sql);
  const bool in_use = found != statements_.end() && sqlite3_stmt_busy(found->second.get()) != 0;
  if (found == statements_.end() || in_use) {
    sqlite3_stmt* statement = nullptr;
    expect(handle(), sqlite3_prepare_v3(handle(), sql.data(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT,
                                        &statement, nullptr));
    if (in_use) return {handle(), statement, true};
    found = statements_.emplace(std::string(sql), statement).first;
  }
  return {handle(), found->second.get(), false};
}

void Database::script(const std::string& sql) {
  expect(handle(), sqlite3_exec(handle(), sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Database::number(std::string_view sql) {
  Query rows = query(sql);
  if (!rows.next()) fail(handle(), SQLITE_ERROR);
  return rows.integer(0);
}

std::string Database::text(std::string_view sql) {
  Query rows = query(sql);
  if (!rows.next()) fail(handle(), SQLITE_ERROR);
  return rows.text(0);
}

bool Database::in_transaction() const { return sqlite3_get_autocommit(handle()) == 0; }

}  // namespace brakewright::store
