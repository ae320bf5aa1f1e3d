#include "store/rooms.hpp"

#include <stdexcept>
#include <utility>

#include "store/secret_table.hpp"
#include "store/sqlite_practice.hpp"
#include "store/sqlite_school.hpp"
#include "store/sqlite_store.hpp"

namespace brakewright::store {

Database& database_of(shop::Store& store) {
  auto* sqlite = dynamic_cast<SqliteStore*>(&store);
  if (sqlite == nullptr) throw std::logic_error("this store is kept in no database");
  return sqlite->database();
}

std::vector<std::unique_ptr<shop::AnyShelf>> shelves_of_rooms(Database& database) {
  std::vector<std::unique_ptr<shop::AnyShelf>> shelves = shelves_of_school(database);
  shelves.push_back(shelf_of_secrets(database));
  for (auto& shelf : shelves_of_practice(database)) shelves.push_back(std::move(shelf));
  return shelves;
}

}  // namespace brakewright::store
