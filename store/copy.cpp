#include "store/copy.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>

#include "shop/times.hpp"
#include "store/schema.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

using shop::StoreError;
namespace fs = std::filesystem;

namespace {

void sync_path(const fs::path& path, int flags) {
  const int descriptor = open(path.c_str(), flags | O_CLOEXEC);
  const bool synced = descriptor >= 0 && fsync(descriptor) == 0;
  const int reason = errno;
  if (descriptor >= 0) close(descriptor);
  if (synced) return;
  const auto cause = reason == ENOSPC ? StoreError::Cause::full : StoreError::Cause::other;
  throw StoreError(cause, "Cannot store " + path.string() + ": " + std::strerror(reason));
}

void copy_pages(Database& from, Database& to) {
  sqlite3_backup* copying = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (copying == nullptr) fail(to.handle(), sqlite3_errcode(to.handle()));
  int code = SQLITE_OK;
  do {
    code = sqlite3_backup_step(copying, -1);
    if (code == SQLITE_BUSY || code == SQLITE_LOCKED) sqlite3_sleep(20);
  } while (code == SQLITE_BUSY || code == SQLITE_LOCKED);
  sqlite3_backup_finish(copying);
  if (code != SQLITE_DONE) fail(to.handle(), code);
}

void remove_all_of(const fs::path& file) {
  std::error_code ignored;
  for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(file.string() + tail, ignored);
}

}  // namespace

std::string stamp_of(shop::UtcTime time) {
  std::string stamp;
  for (const char c : shop::to_text(time)) {
    if (c != '-' && c != ':' && c != '.') stamp += c;
  }
  return stamp;
}

void copy_database(const fs::path& from, const fs::path& to) {
  const fs::path part = to.string() + ".part";
  remove_all_of(part);
  try {
    {
      Database source(from, Access::read);
      Database target(part, Access::write);
      copy_pages(source, target);
      target.text("PRAGMA journal_mode = DELETE");
      if (const std::string found = integrity(target); found != "ok") {
        throw StoreError(StoreError::Cause::damaged, "The copy of " + from.string() + " fails its check: " + found);
      }
    }
    sync_file(part);
    fs::rename(part, to);
    sync_folder(to);
  } catch (...) {
    remove_all_of(part);
    throw;
  }
}

std::unique_ptr<Database> copy_in_memory(const fs::path& from) {
  Database source(from, Access::read);
  auto copy = std::make_unique<Database>(":memory:", Access::write);
  copy_pages(source, *copy);
  return copy;
}

void sync_file(const fs::path& file) { sync_path(file, O_RDONLY); }

void sync_folder(const fs::path& file) {
  sync_path(file.has_parent_path() ? file.parent_path() : fs::path("."), O_RDONLY | O_DIRECTORY);
}

}  // namespace brakewright::store
