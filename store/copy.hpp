#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "shop/entities.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// "20260304T091500250Z", for file names.
std::string stamp_of(shop::UtcTime time);

/// Copies a database as it was last committed, also while others write to it. The copy is checked, and on the disk,
/// before it gets its name; a failure leaves no file of that name behind.
/// @throws StoreError
void copy_database(const std::filesystem::path& from, const std::filesystem::path& to);

/// A copy in memory of what was last committed, unchecked.
/// @throws StoreError
std::unique_ptr<Database> copy_in_memory(const std::filesystem::path& from);

/// Waits until a file's content is on the disk. @throws StoreError
void sync_file(const std::filesystem::path& file);

/// Waits until a new name in a file's folder is on the disk.
void sync_folder(const std::filesystem::path& file);

}  // namespace brakewright::store
