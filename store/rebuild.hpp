#pragma once

#include <optional>
#include <string>

#include "store/sqlite_store.hpp"

namespace brakewright::store {

/// Makes the shop again in memory from its journal and compares every table with it, row by row and byte by byte.
/// The chain (store/proof.hpp) must have been found whole before.
/// @return the first difference in words, with the entry that told the row; none when there is none
std::optional<std::string> difference_from_journal(SqliteStore& store);

}  // namespace brakewright::store
