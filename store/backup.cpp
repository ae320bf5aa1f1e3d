#include "store/backup.hpp"

#include <algorithm>
#include <system_error>

#include "core/input_error.hpp"
#include "shop/times.hpp"
#include "store/copy.hpp"
#include "store/lock.hpp"
#include "store/schema.hpp"

namespace brakewright::store {

using shop::StoreError;
namespace fs = std::filesystem;

namespace {

constexpr std::string_view kPrefix = "shop-";
constexpr std::string_view kSuffix = ".sqlite";

/// Time behind a backup's name, when it is one.
std::optional<shop::UtcTime> time_of(const std::string& name) {
  if (name.size() <= kPrefix.size() + kSuffix.size() || !name.starts_with(kPrefix) || !name.ends_with(kSuffix)) {
    return std::nullopt;
  }
  const std::string stamp = name.substr(kPrefix.size(), name.size() - kPrefix.size() - kSuffix.size());
  if (stamp.size() != 19 || stamp[8] != 'T') return std::nullopt;  // 20260304T091500250Z
  try {
    return shop::parse_time(stamp.substr(0, 4) + "-" + stamp.substr(4, 2) + "-" + stamp.substr(6, 5) + ":" +
                            stamp.substr(11, 2) + ":" + stamp.substr(13, 2) + "." + stamp.substr(15));
  } catch (const InputError&) {
    return std::nullopt;
  }
}

[[noreturn]] void not_restored(const fs::path& backup, const std::string& why) {
  throw StoreError(StoreError::Cause::damaged,
                   "The backup " + backup.string() + " cannot be restored: " + why + ". Nothing was changed.");
}

void expect_good(const fs::path& backup) {
  if (!fs::exists(backup)) not_restored(backup, "there is no such file");
  Database database(backup, Access::read);
  if (const std::string found = integrity(database); found != "ok") not_restored(backup, found);
  const std::int64_t version = version_of(database);
  if (version == 0) not_restored(backup, "it is empty");
  if (version > newest_version()) {
    throw StoreError(StoreError::Cause::newer_version,
                     "The backup " + backup.string() + " is of a newer Brakewright. Nothing was changed.");
  }
}

/// The present file kept aside: a whole copy when it can be read, its files as they are when it cannot.
fs::path set_aside(const fs::path& file, shop::UtcTime now) {
  const fs::path aside = file.string() + ".before-restore-" + stamp_of(now);
  try {
    copy_database(file, aside);
  } catch (const StoreError& error) {
    if (error.cause() == StoreError::Cause::full) throw;
    for (const char* tail : {"", "-wal", "-shm"}) {
      if (fs::exists(file.string() + tail)) {
        fs::copy_file(file.string() + tail, aside.string() + tail, fs::copy_options::overwrite_existing);
      }
    }
    sync_file(aside);
  }
  return aside;
}

}  // namespace

Backup back_up(const fs::path& file, const fs::path& folder, shop::UtcTime now, std::size_t keep) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) {
    throw StoreError(StoreError::Cause::other, "Cannot make the folder " + folder.string() + ": " + failed.message());
  }
  const std::string name = std::string(kPrefix) + stamp_of(now) + std::string(kSuffix);
  copy_database(file, folder / name);
  const auto all = backups(folder);
  for (std::size_t k = std::max<std::size_t>(keep, 1); k < all.size(); ++k) fs::remove(folder / all[k].name, failed);
  return {name, static_cast<std::int64_t>(fs::file_size(folder / name)), now};
}

std::vector<Backup> backups(const fs::path& folder) {
  std::vector<Backup> found;
  std::error_code failed;
  for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end; entry.increment(failed)) {
    const std::string name = entry->path().filename().string();
    const auto at = time_of(name);
    if (!at) continue;
    std::error_code gone;
    const auto bytes = fs::file_size(entry->path(), gone);
    if (!gone) found.push_back({name, static_cast<std::int64_t>(bytes), *at});
  }
  std::sort(found.begin(), found.end(), [](const Backup& a, const Backup& b) { return a.at > b.at; });
  return found;
}

std::optional<Backup> newest_good_backup(const fs::path& folder) {
  for (const Backup& backup : backups(folder)) {
    try {
      expect_good(folder / backup.name);
      return backup;
    } catch (const StoreError&) {
      continue;
    }
  }
  return std::nullopt;
}

Restored restore(const fs::path& backup, const fs::path& file, shop::UtcTime now) {
  const Lock lock(file);
  expect_good(backup);
  Restored restored;
  if (fs::exists(file)) restored.safety_copy = set_aside(file, now);
  const fs::path incoming = file.string() + ".incoming";
  copy_database(backup, incoming);
  for (const char* tail : {"-wal", "-shm"}) fs::remove(file.string() + tail);
  fs::rename(incoming, file);
  sync_folder(file);
  restored.rows = count_rows(file);
  if (restored.rows != count_rows(backup)) {
    throw StoreError(StoreError::Cause::damaged, "What was restored differs from the backup " + backup.string() +
                                                     "; the shop as it was is in " + restored.safety_copy.string());
  }
  return restored;
}

std::map<std::string, std::int64_t> count_rows(const fs::path& file) {
  Database database(file, Access::read);
  std::vector<std::string> tables;
  {
    Query names = database.query(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND sql LIKE '%STRICT' AND name <> 'counter'");
    while (names.next()) tables.push_back(names.text(0));
  }
  std::map<std::string, std::int64_t> rows;
  for (const auto& table : tables) rows[table] = database.number("SELECT count(*) FROM \"" + table + "\"");
  return rows;
}

}  // namespace brakewright::store
