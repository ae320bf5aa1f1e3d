#pragma once

#include <memory>

#include "shop/school/store.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// The school's shelves in the shop's database. @param store  of open_store or open_in_memory; outlives what is made
std::unique_ptr<shop::SchoolStore> open_school(shop::Store& store);

/// The same shelves, one by one, for shelves_of_rooms.
std::vector<std::unique_ptr<shop::AnyShelf>> shelves_of_school(Database& database);

}  // namespace brakewright::store
