#include "store/secret_table.hpp"

#include "shop/room_json.hpp"
#include "store/rooms.hpp"
#include "store/sqlite_shelf.hpp"

namespace brakewright::shop {

template <>
struct Words<SecretKind> {
  static constexpr auto all = std::to_array<std::string_view>({"pin", "password"});
};

template <Of<Secret> E, class V>
void fields(E& e, V&& v) {
  v("person_id", e.person_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("hash", e.hash, rules::plain);
  v("set_at", e.set_at, rules::plain);
  v("by_person_id", e.by_person_id, rules::plain);
}

BRAKEWRIGHT_ROOM_JSON(Secret)

}  // namespace brakewright::shop

namespace brakewright::store {
namespace {

class SecretTable final : public shop::SecretStore {
 public:
  explicit SecretTable(Database& database) : shelf_(shelf_in(database)) {}

  static SqliteShelf<shop::Secret> shelf_in(Database& database) {
    return {database, "secret", Rows::change, "person_id, kind"};
  }

  void put(const shop::Secret& secret) override { shelf_.put(secret); }
  std::vector<shop::Secret> secrets() override { return shelf_.all(); }

 private:
  SqliteShelf<shop::Secret> shelf_;
};

}  // namespace

std::unique_ptr<shop::SecretStore> secrets_of(shop::Store& store) {
  return std::make_unique<SecretTable>(database_of(store));
}

std::unique_ptr<shop::AnyShelf> shelf_of_secrets(Database& database) {
  return std::make_unique<SqliteShelf<shop::Secret>>(SecretTable::shelf_in(database));
}

}  // namespace brakewright::store
