#pragma once

#include <filesystem>
#include <memory>
#include <vector>

#include "shop/store.hpp"

namespace brakewright::store {

/// How a shop's file is opened.
struct Opening {
  std::filesystem::path file = {};     ///< created with its tables when missing and not read_only
  std::filesystem::path backups = {};  ///< folder of backups, to be offered when the file is damaged; may be missing
  bool read_only = false;              ///< beside a running server, for lists and exports; takes no lock
  shop::UtcTime now = {};              ///< for the name of the copy before a migration
};

/// Opens a shop kept in SQLite: takes the lock, checks the file, copies an older one beside itself
/// (`<file>.v<N>-<time>`) and brings it to this program's tables and its journal into the chain; makes the key that
/// signs the journal (`<file>.key`) where there is none.
/// @throws StoreError  busy: another program has it; damaged: names the file and the newest good backup with the
///         command to restore it; newer_version; full; other
std::unique_ptr<shop::Store> open_store(const Opening& opening);

/// A shop that lives as long as the object, for tests and for looking round.
std::unique_ptr<shop::Store> open_in_memory();

}  // namespace brakewright::store
