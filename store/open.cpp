#include "store/open.hpp"

#include "store/backup.hpp"
#include "store/copy.hpp"
#include "store/key_file.hpp"
#include "store/old_journal.hpp"
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

/// What is deleted or replaced is overwritten with zeros, so that an erased name is in no free place of the file.
void set_pragmas(Database& database) {
  database.script("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA secure_delete = ON");
}

/// The store with its journal in the chain and its key on the disk. A shop from before there was a chain has its key
/// kept only once it is chained: a key that is there says that its entries were chained and signed before.
std::unique_ptr<shop::Store> signing(std::unique_ptr<Database> database, std::unique_ptr<Lock> lock,
                                     const fs::path& key_file) {
  const auto kept = key_in(key_file);
  const bool old = !kept && is_before_the_chain(*database);
  const shop::SigningKey key = kept ? *kept : shop::fresh_key();
  if (!kept && !old) keep_key(key_file, key);
  auto store = std::make_unique<SqliteStore>(std::move(database), std::move(lock), key);
  if (old) {
    chain_old_entries(*store);
    keep_key(key_file, key);
  }
  note_broken_end(*store);
  name_new_key(*store);
  return store;
}

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
  return signing(std::move(database), std::move(lock), key_file_of(opening.file));
}

std::unique_ptr<shop::Store> open_in_memory() {
  auto database = std::make_unique<Database>(":memory:", Access::write);
  set_pragmas(*database);
  migrate(*database);
  return std::make_unique<SqliteStore>(std::move(database), nullptr);
}

}  // namespace brakewright::store
