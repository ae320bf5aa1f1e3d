#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "store/sqlite.hpp"

namespace brakewright::store {

/// An entry of the journal that is not as it was written.
struct ChainFault {
  std::int64_t seq = 0;
  std::string words = {};
};

/// Goes through the entries as they are stored, byte by byte.
/// @param until  the last entry that is looked at; the whole journal when left out
/// @return the first that was altered, put in, taken out or moved, or that continues a broken end
std::optional<ChainFault> fault_of_chain(Database& database, std::optional<std::int64_t> until = {});

/// Holds the signed head against the newest entry and against the key that the journal named last.
/// @param own_key  the public key beside the file, where it is there
std::optional<ChainFault> fault_of_head(Database& database, const std::optional<std::string>& own_key);

/// Holds every entry that sealed a job against its signature.
std::optional<ChainFault> fault_of_signed_seals(Database& database);

/// Holds one of them against its signature. @param seq  of an entry "job.sealed"
std::optional<ChainFault> fault_of_signed_seal(Database& database, std::int64_t seq);

}  // namespace brakewright::store
