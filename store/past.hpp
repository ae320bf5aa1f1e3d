#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "shop/store.hpp"

/// Looking back along a shop's journal.
namespace brakewright::store {

/// Opens a shop's file to be read as it was last committed, beside whoever has it open. Unlike open_store it looks for
/// no damage first, so that it costs nothing to begin.
/// @throws StoreError  for a file that is not there, is no shop's, or is of another version
std::unique_ptr<shop::Store> open_beside(const std::filesystem::path& file);

/// The shop as it was when an entry of its journal was the newest one, made again in memory. Names that were erased
/// since stay erased. It has no journal of its own.
/// @param store  of open_store or open_beside
/// @throws shop::TellingError; StoreError
std::unique_ptr<shop::Store> shop_as_of(shop::Store& store, std::int64_t seq);

/// Whether the journal of a shop's file proves all up to an entry: each entry is chained to the one before, these
/// entries that sealed a job are signed, and the journal's head is signed with the shop's key.
/// @param seals  seqs of entries "job.sealed"
/// @return the first fault in words; none when there is none
std::optional<std::string> fault_up_to(const std::filesystem::path& file, std::int64_t until,
                                       const std::vector<std::int64_t>& seals);

}  // namespace brakewright::store
