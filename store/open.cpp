#include "store/open.hpp"

#include "store/backup.hpp"
#include "store/copy.hpp"
#include "store/schema.hpp"
#include "store/sqlite_store.hpp"

namespace brakewright::store {

using shop::StoreError;
namespace fs = std::filesystem;

namespace {

std::string way_back(const fs::path& folder) {
  const auto backup = newest_good_backup(folder);
  if (!backup) return " There is no good backup in " + folder.string() + ".";
  return " The newest good backup is " + backup->name + "; bring it back with: brakewright restore " + backup->name;
}

[[noreturn]] void damaged(const Opening& opening, const std::string& found) {
  throw StoreError(StoreError::Cause::damaged, "The shop's file " + opening.file.string() + " is damaged: " + found +
                                                   "." + way_back(opening.backups));
}

/// Opens and checks; every sign of damage comes out as one message with the way back.
std::unique_ptr<Database> opened(const Opening& opening) {
  try {
    auto database = std::make_unique<Database>(opening.file, opening.read_only ? Access::read : Access::write);
    if (const std::string found = integrity(*database); found != "ok") damaged(opening, found);
    version_of(*database);
    return database;
  } catch (const StoreError& error) {
    const bool told = std::string(error.what()).find(" is damaged: ") != std::string::npos;
    if (error.cause() != StoreError::Cause::damaged || told) throw;
    damaged(opening, error.what());
  }
}

void bring_up_to_date(Database& database, const Opening& opening) {
  const std::int64_t version = version_of(database);
  if (version > 0 && version < newest_version()) {
    copy_database(opening.file, opening.file.string() + ".v" + std::to_string(version) + "-" + stamp_of(opening.now));
  }
  migrate(database);
}

void set_pragmas(Database& database) { database.script("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON"); }

}  // namespace

std::unique_ptr<shop::Store> open_store(const Opening& opening) {
  if (opening.read_only) {
    if (!fs::exists(opening.file)) {
      throw StoreError(StoreError::Cause::other, "There is no shop at " + opening.file.string());
    }
    auto database = opened(opening);
    refuse_newer(*database);
    if (version_of(*database) != newest_version()) {
      throw StoreError(StoreError::Cause::other,
                       opening.file.string() +
                           " was written by an older Brakewright; serve it once with this one, "
                           "which keeps a copy and brings it up to date");
    }
    set_pragmas(*database);
    return std::make_unique<SqliteStore>(std::move(database), nullptr);
  }
  if (opening.file.has_parent_path()) {
    std::error_code failed;
    fs::create_directories(opening.file.parent_path(), failed);
    if (failed) {
      throw StoreError(StoreError::Cause::other,
                       "Cannot make the folder " + opening.file.parent_path().string() + ": " + failed.message());
    }
  }
  auto lock = std::make_unique<Lock>(opening.file);
  auto database = opened(opening);
  if (database->text("PRAGMA journal_mode = WAL") != "wal") {
    throw StoreError(StoreError::Cause::other, "The disk of " + opening.file.string() +
                                                   " cannot keep a write-ahead log; put the shop on a local disk");
  }
  set_pragmas(*database);
  bring_up_to_date(*database, opening);
  return std::make_unique<SqliteStore>(std::move(database), std::move(lock));
}

std::unique_ptr<shop::Store> open_in_memory() {
  auto database = std::make_unique<Database>(":memory:", Access::write);
  set_pragmas(*database);
  migrate(*database);
  return std::make_unique<SqliteStore>(std::move(database), nullptr);
}

}  // namespace brakewright::store
