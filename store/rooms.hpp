#pragma once

#include <memory>
#include <vector>

#include "shop/shelf.hpp"
#include "shop/store.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// The database of a store that open_store or open_in_memory made, for the shelves of the rooms. It lives as long as
/// the store.
Database& database_of(shop::Store& store);

/// Every shelf of every room in a database, each room's in one line of store/rooms.cpp: what the journal rebuilds
/// beside the tables of SqliteStore.
std::vector<std::unique_ptr<shop::AnyShelf>> shelves_of_rooms(Database& database);

}  // namespace brakewright::store
