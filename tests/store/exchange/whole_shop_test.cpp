#include "shop/demo/classes.hpp"
#include "shop/demo/demo.hpp"
#include "shop/doors/secret.hpp"
#include "store/secret_table.hpp"
#include "store/sqlite_school.hpp"
#include "tests/store/journal/shop_on_disk.hpp"

namespace brakewright::store {
namespace {

using namespace shop;

/// The demo shop with its class, studies, permits and a queue, whose doors are closed and one of whose names was
/// erased.
struct Lived {
  std::unique_ptr<Store> store = open_in_memory();
  UtcTime now = UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4));
  std::string exported = {};

  Lived() {
    make_demo(*store, 7, now, {});
    const auto school_store = open_school(*store);
    make_demo_school(*store, *school_store, 7, now);
    Shop shop(*store, {.now = [this] { return now; },
                       .random = [](std::span<std::uint8_t> bytes) { shop::fresh_bytes(bytes); }});
    Uuid teacher, student;
    for (const Person& one : shop.people()) {
      if (one.role == Role::teacher && one.active) teacher = one.id;
      if (one.role == Role::student) student = one.id;
    }
    set_secret(shop, teacher, SecretKind::password, teacher);
    set_secret(shop, student, SecretKind::pin, teacher);
    shop.erase_person(student, teacher);
    exported = export_shop(shop).dump();
  }

  void set_secret(Shop& shop, const Uuid& person, SecretKind kind, const Uuid& by) const {
    const Secret made{.person_id = person, .kind = kind, .hash = "$argon2id$x", .set_at = now, .by_person_id = by};
    shop.journaled(by, [&](const Recorder& record) {
      secrets_of(*store)->put(made);
      const Json detail{{"person_id", to_text(made.person_id)},
                        {"kind", std::string(word_of_secret(kind))},
                        {"hash", veiled(made.hash)},
                        {"set_at", to_text(made.set_at)},
                        {"by_person_id", to_text(made.by_person_id)}};
      record("secret.set", {}, made.person_id, detail.dump());
    });
  }
};

class WholeShop : public ShopOnDisk {
 protected:
  static Lived& here() {
    static Lived lived;
    return lived;
  }

  Imported bring_in(const std::string& text) const { return bring_into(file(), text); }

  Imported bring_into(const fs::path& to, const std::string& text) const {
    const auto there = open_store({.file = to, .now = clock});
    const auto rooms = shelves_of_rooms(database_of(*there));
    Importer importer{.now = clock};
    for (const auto& room : rooms) importer.rooms.push_back(room.get());
    return import_export(*there, text, importer);
  }

  /// All rows of every room but the secrets.
  static std::string rooms_in(Database& database) {
    std::string text;
    for (const auto& room : shelves_of_rooms(database)) {
      const std::string& table = room->word();
      if (table == "secret") continue;
      const auto columns = database.number("SELECT count(*) FROM pragma_table_info('" + table + "')");
      Query rows = database.query("SELECT * FROM " + table + " ORDER BY place");
      while (rows.next()) {
        text += table + ":";
        for (int k = 0; k < static_cast<int>(columns); ++k) text += " " + rows.text(k) + ",";
        text += "\n";
      }
    }
    return text;
  }

  std::string rooms_there() const {
    const auto there = open_file();
    return rooms_in(database_of(*there));
  }
  static std::string rooms_here() { return rooms_in(database_of(*here().store)); }
};

TEST_F(WholeShop, WithClosedDoorsAndAnErasedNameIsBroughtWithAllOfItsSchool) {
  const Imported imported = bring_in(here().exported);
  EXPECT_EQ(imported.secrets_left_behind, 2);
  EXPECT_EQ(fault(), "nothing wrong");
  EXPECT_NE(rooms_here().find("study_reading:"), std::string::npos);
  EXPECT_EQ(rooms_there(), rooms_here());
  const auto there = open_file();
  EXPECT_EQ(there->people(), here().store->people());
  for (const Secret& secret : secrets_of(*there)->secrets()) EXPECT_EQ(secret.hash, "");
  std::size_t brought = 0;
  for (const Change& entry : there->changes(0, 100'000, {})) {
    brought += entry.kind.starts_with("brought.") || entry.kind == "journal.brought" ? 1U : 0U;
  }
  EXPECT_EQ(brought, 0U) << "its own journal goes on";
}

TEST_F(WholeShop, ThatItsJournalDoesNotTellIsBroughtWithItsSchoolToo) {
  Json text = Json::parse(here().exported);
  text["settings"]["shop_name"] = "Told by no entry";
  EXPECT_EQ(bring_in(text.dump()).secrets_left_behind, 2);
  EXPECT_EQ(fault(), "nothing wrong");
  EXPECT_EQ(rooms_there(), rooms_here());
  const auto there = open_file();
  EXPECT_EQ(there->settings().shop_name, "Told by no entry");
  EXPECT_TRUE(secrets_of(*there)->secrets().empty());

  Shop shop_there(*there, {.now = [this] { return clock; },
                           .random = [](std::span<std::uint8_t> bytes) { shop::fresh_bytes(bytes); }});
  const Imported carried_on = bring_into(other_file(), export_shop(shop_there).dump());
  EXPECT_EQ(carried_on.secrets_left_behind, 0) << "those of the first shop were left behind already";
  EXPECT_EQ(store::prove(other_file()).fault.value_or("nothing wrong"), "nothing wrong");
}

}  // namespace
}  // namespace brakewright::store
