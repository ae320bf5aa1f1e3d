#include <gtest/gtest.h>

#include "core/input_error.hpp"
#include "shop/room_json.hpp"
#include "shop/shop.hpp"
#include "store/open.hpp"
#include "store/rooms.hpp"
#include "store/sqlite_shelf.hpp"
#include "tests/store/small_shop.hpp"

namespace brakewright::shop {

enum class BroomState { whole, bald };

/// A thing of a room that only this test has.
struct Broom {
  Uuid id = {};
  std::string name = {};
  BroomState state = BroomState::whole;
  std::optional<Uuid> person_id = {};
  std::vector<double> widths_mm = {};

  friend bool operator==(const Broom&, const Broom&) = default;
};

template <>
struct Words<BroomState> {
  static constexpr auto all = std::to_array<std::string_view>({"whole", "bald"});
};

template <Of<Broom> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("state", e.state, rules::plain);
  v("person_id", e.person_id, rules::made);
  v("widths_mm", e.widths_mm, Rule{.low = 1, .high = 2000});
}

BRAKEWRIGHT_ROOM_JSON(Broom)

namespace {

using namespace small_shop;

Broom broom(std::uint32_t number, const std::string& name) {
  return {.id = id(number), .name = name, .state = BroomState::bald, .person_id = id(1), .widths_mm = {300.5, 12}};
}

class Cupboard : public testing::Test {
 protected:
  Cupboard() {
    database.script(
        "CREATE TABLE broom (place INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, name TEXT NOT NULL, "
        "state TEXT NOT NULL, person_id TEXT, widths_mm TEXT NOT NULL) STRICT");
    fill(*store);
  }

  std::unique_ptr<Store> store = store::open_in_memory();
  store::Database& database = store::database_of(*store);
  store::SqliteShelf<Broom> brooms{database, "broom", store::Rows::change};
  store::SqliteShelf<Broom> kept_brooms{database, "broom", store::Rows::final};
  std::uint8_t drawn = 0;
  Shop shop{*store, Surroundings{.now = [] { return kMorning; },
                                 .random =
                                     [this](std::span<std::uint8_t> bytes) {
                                       for (auto& byte : bytes) byte = ++drawn;
                                     }}};
};

TEST_F(Cupboard, AShelfKeepsRowsInTheOrderInWhichTheyCame) {
  store->transact([&] {
    brooms.put(broom(50, "wide"));
    brooms.put(broom(49, "narrow"));
  });
  EXPECT_EQ(brooms.all(), (std::vector{broom(50, "wide"), broom(49, "narrow")}));
  EXPECT_EQ(brooms.find(id(49)), broom(49, "narrow"));
  EXPECT_FALSE(brooms.find(id(48)));
  EXPECT_EQ(brooms.where("person_id", id(1)).size(), 2U);
  EXPECT_TRUE(brooms.where("person_id", id(2)).empty());
}

TEST_F(Cupboard, ARowIsReplacedInItsPlaceOrNotAtAll) {
  store->transact([&] {
    brooms.put(broom(50, "wide"));
    brooms.put(broom(49, "narrow"));
    brooms.put(broom(50, "very wide"));
  });
  EXPECT_EQ(brooms.all(), (std::vector{broom(50, "very wide"), broom(49, "narrow")}));
  EXPECT_THROW(store->transact([&] { kept_brooms.put(broom(50, "wide")); }), StoreError);
  EXPECT_EQ(brooms.find(id(50))->name, "very wide");
  EXPECT_THROW(brooms.put(broom(51, "no transaction")), std::logic_error);
}

TEST_F(Cupboard, ARoomsChangeAndItsEntryAreOneOrNone) {
  std::vector<Change> heard;
  shop.on_change([&](const Change& change) { heard.push_back(change); });
  shop.journaled(id(1), [&](const Recorder& record) { record.put(brooms, broom(50, "wide"), "hung"); });
  ASSERT_EQ(heard.size(), 1U);
  EXPECT_EQ(heard[0].kind, "broom.hung");
  EXPECT_EQ(heard[0].subject_id, id(50));
  EXPECT_EQ(heard[0].by_person_id, id(1));
  EXPECT_EQ(from_json<Broom>(parse_json(heard[0].detail_json)), broom(50, "wide"));
  EXPECT_EQ(shop.changes(0, 10, {}), heard);

  EXPECT_THROW(shop.journaled(id(1),
                              [&](const Recorder& record) {
                                record.put(brooms, broom(51, "narrow"), "hung");
                                throw InputError("out_of_range", "name", "no");
                              }),
               InputError);
  EXPECT_THROW(shop.journaled(id(7), [&](const Recorder& record) { record.put(brooms, broom(52, "bent"), "hung"); }),
               RuleError);
  shop.undisturbed([&] { EXPECT_EQ(brooms.all().size(), 1U); });
  EXPECT_EQ(shop.last_seq(), 1);
}

TEST_F(Cupboard, WhatAnEntryTellsPutsItsRow) {
  store->transact([&] { brooms.put_told(json_text(broom(50, "wide"))); });
  EXPECT_EQ(brooms.find(id(50)), broom(50, "wide"));
  EXPECT_THROW(store->transact([&] { brooms.put_told(R"({"id":"x"})"); }), InputError);
}

}  // namespace
}  // namespace brakewright::shop
