#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace brakewright::store {

/// What was looked at, and came out whole.
struct Proven {
  std::string what = {};   ///< "file", "journal", "head", "seals" or "rebuilt"
  std::string words = {};  ///< such as "1,204 entries, each chained to the one before"
};

/// What `brakewright check` finds.
struct Proof {
  std::vector<Proven> proven = {};         ///< in the order in which it was looked at, up to the first fault
  std::optional<std::string> fault = {};   ///< in words, with the first entry or row that is not as it was written
  std::optional<std::int64_t> entry = {};  ///< seq of that entry, where the fault is one of the journal
};

/// Looks at a copy of the shop's file as it was last committed, also while the shop is in use, and changes nothing:
/// the file is whole; each entry of the journal is chained to the one before; its head is signed with the shop's key;
/// every seal holds; and the shop, made again from the journal, is the shop that is there.
/// @throws StoreError  for a file that cannot be read, is no shop's, or is of another version
Proof prove(const std::filesystem::path& file);

}  // namespace brakewright::store
