#include "store/past.hpp"

#include "shop/journal/telling.hpp"
#include "store/chain_proof.hpp"
#include "store/key_file.hpp"
#include "store/open.hpp"
#include "store/rooms.hpp"
#include "store/schema.hpp"
#include "store/sqlite_store.hpp"

namespace brakewright::store {

using namespace shop;
namespace fs = std::filesystem;

namespace {

std::unique_ptr<Database> opened(const fs::path& file) {
  if (!fs::exists(file)) throw StoreError(StoreError::Cause::other, "There is no shop at " + file.string());
  auto database = std::make_unique<Database>(file, Access::read);
  refuse_newer(*database);
  if (version_of(*database) != newest_version()) {
    throw StoreError(StoreError::Cause::other, file.string() +
                                                   " was written by an older Brakewright; serve it once with this "
                                                   "one, which keeps a copy and brings it up to date");
  }
  return database;
}

}  // namespace

std::unique_ptr<Store> open_beside(const fs::path& file) {
  return std::make_unique<SqliteStore>(opened(file), nullptr);
}

std::unique_ptr<Store> shop_as_of(Store& store, std::int64_t seq) {
  auto past = open_in_memory();
  const auto rooms = shelves_of_rooms(database_of(*past));
  std::vector<AnyShelf*> shelves;
  for (const auto& room : rooms) shelves.push_back(room.get());
  past->transact([&] { retell(store, *past, shelves, seq); });
  return past;
}

std::optional<std::string> fault_up_to(const fs::path& file, std::int64_t until,
                                       const std::vector<std::int64_t>& seals) {
  const auto database = opened(file);
  database->script("BEGIN");  // one state of the file for all that follows
  const auto key = key_in(key_file_of(file));
  std::optional<ChainFault> fault = fault_of_chain(*database, until);
  for (const std::int64_t seq : seals) {
    if (!fault) fault = fault_of_signed_seal(*database, seq);
  }
  if (!fault) fault = fault_of_head(*database, key ? std::optional(key->public_key) : std::nullopt);
  return fault ? std::optional(fault->words) : std::nullopt;
}

}  // namespace brakewright::store
