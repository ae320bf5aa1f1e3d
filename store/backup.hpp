#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"

/// Backups of a shop: whole, checked copies of its file, made while it is in use.
namespace brakewright::store {

struct Backup {
  std::string name = {};  ///< file name within the folder, such as "shop-20260304T091500Z.sqlite"
  std::int64_t bytes = 0;
  shop::UtcTime at = {};
};

/// Copies a shop's file into a folder, which is made when missing: what was committed when it begins, checked, on the
/// disk before it gets its name. Then removes the oldest beyond `keep`. Writers need not wait.
/// @param keep  at least 1
/// @throws StoreError
Backup back_up(const std::filesystem::path& file, const std::filesystem::path& folder, shop::UtcTime now,
               std::size_t keep);

/// Backups of a folder, newest first; none when the folder is missing.
std::vector<Backup> backups(const std::filesystem::path& folder);

/// The newest backup that passes its check.
std::optional<Backup> newest_good_backup(const std::filesystem::path& folder);

/// What came back.
struct Restored {
  std::map<std::string, std::int64_t> rows = {};  ///< table by name
  std::filesystem::path safety_copy = {};         ///< the file as it was before; empty when there was none
};

/// Puts a backup in the place of a shop's file, which no program may have open. The present file, good or damaged, is
/// kept beside itself first.
/// @throws StoreError  busy: the shop is open; damaged: the backup fails its check, and nothing was changed;
///         newer_version: the backup is of a newer program
Restored restore(const std::filesystem::path& backup, const std::filesystem::path& file, shop::UtcTime now);

/// Rows of each table of a shop's file.
std::map<std::string, std::int64_t> count_rows(const std::filesystem::path& file);

}  // namespace brakewright::store
