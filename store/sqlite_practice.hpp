#pragma once

#include <memory>
#include <vector>

#include "shop/practice/store.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// Practice's shelves in the shop's database. @param store  of open_store or open_in_memory; outlives what is made
std::unique_ptr<shop::PracticeStore> open_practice(shop::Store& store);

/// The same shelves, one by one, for shelves_of_rooms.
std::vector<std::unique_ptr<shop::AnyShelf>> shelves_of_practice(Database& database);

}  // namespace brakewright::store
