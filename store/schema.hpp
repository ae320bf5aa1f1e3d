#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "store/sqlite.hpp"

namespace brakewright::store {

/// Marks an SQLite file as a shop's ("BWRT").
inline constexpr std::int64_t kApplicationId = 0x42575254;

/// Version of the tables that this program reads and writes.
std::int64_t newest_version();

/// Version of the tables in a database; 0 for an empty one.
/// @throws StoreError damaged when it is no SQLite file, or one of another program
std::int64_t version_of(Database& database);

/// @throws StoreError newer_version when the tables are newer than this program
void refuse_newer(Database& database);

/// Brings the tables up to `to`, one transaction for each step; the version is part of each.
/// @throws StoreError newer_version when they are newer than this program
void migrate(Database& database, std::int64_t to = newest_version());

/// "ok", or what SQLite's own check of the whole file found.
std::string integrity(Database& database);

}  // namespace brakewright::store
