#include "store/schema.hpp"

#include <array>
#include <string_view>

extern "C" const unsigned char migration_0001[], migration_0001_end[], migration_0002[], migration_0002_end[],
    migration_0003[], migration_0003_end[], migration_0004[], migration_0004_end[], migration_0005[],
    migration_0005_end[], migration_0006[], migration_0006_end[], migration_0007[], migration_0007_end[],
    migration_0008[], migration_0008_end[], migration_0009[], migration_0009_end[];

namespace brakewright::store {

using shop::StoreError;

namespace {

struct Migration {
  const unsigned char* begin;
  const unsigned char* end;
};

const std::array kMigrations{
    Migration{migration_0001, migration_0001_end}, Migration{migration_0002, migration_0002_end},
    Migration{migration_0003, migration_0003_end}, Migration{migration_0004, migration_0004_end},
    Migration{migration_0005, migration_0005_end}, Migration{migration_0006, migration_0006_end},
    Migration{migration_0007, migration_0007_end}, Migration{migration_0008, migration_0008_end},
    Migration{migration_0009, migration_0009_end}};

}  // namespace

std::int64_t newest_version() { return static_cast<std::int64_t>(kMigrations.size()); }

std::int64_t version_of(Database& database) {
  const std::int64_t version = database.number("PRAGMA user_version");
  const std::int64_t application = database.number("PRAGMA application_id");
  const bool empty = version == 0 && database.number("SELECT count(*) FROM sqlite_schema") == 0;
  if (!empty && application != kApplicationId) {
    throw StoreError(StoreError::Cause::damaged,
                     database.file().string() + " is a database of another program, not a shop");
  }
  return version;
}

void refuse_newer(Database& database) {
  const std::int64_t present = version_of(database);
  if (present > newest_version()) {
    throw StoreError(StoreError::Cause::newer_version,
                     database.file().string() + " was written by a newer Brakewright (tables of version " +
                         std::to_string(present) + ", this program knows " + std::to_string(newest_version()) +
                         "). Start that newer program, or restore a backup from before it.");
  }
}

void migrate(Database& database, std::int64_t to) {
  refuse_newer(database);
  for (std::int64_t version = version_of(database); version < to; ++version) {
    const Migration& step = kMigrations.at(static_cast<std::size_t>(version));
    const std::string sql(reinterpret_cast<const char*>(step.begin), static_cast<std::size_t>(step.end - step.begin));
    try {
      database.script("BEGIN IMMEDIATE;\n" + sql + "\nPRAGMA application_id = " + std::to_string(kApplicationId) +
                      ";\nPRAGMA user_version = " + std::to_string(version + 1) + ";\nCOMMIT;");
    } catch (...) {
      if (database.in_transaction()) database.script("ROLLBACK");
      throw;
    }
  }
}

std::string integrity(Database& database) {
  try {
    return database.text("PRAGMA quick_check(1)");
  } catch (const StoreError& error) {
    return error.what();
  }
}

}  // namespace brakewright::store
