#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

#include "shop/exchange/transfer.hpp"
#include "shop/journal/chain.hpp"
#include "store/open.hpp"
#include "store/proof.hpp"
#include "store/rooms.hpp"
#include "store/sqlite.hpp"
#include "tests/shop/bench_scene.hpp"

namespace brakewright::store {

namespace fs = std::filesystem;

/// A folder with a shop in it in which something of every kind was done: two jobs at once, one of them cut and sealed.
class ShopOnDisk : public shop::BenchScene {
 protected:
  ShopOnDisk() {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~ShopOnDisk() override { fs::remove_all(folder_); }

  fs::path file() const { return folder_ / "shop.sqlite"; }
  fs::path key_file() const { return file().string() + ".key"; }
  fs::path other_file() const { return folder_ / "other.sqlite"; }
  std::unique_ptr<shop::Store> open_file() const { return open_store({.file = file(), .now = clock}); }
  std::string fault() const { return store::prove(file()).fault.value_or("nothing wrong"); }

  /// Lives through the scene in memory and makes the file of its export, entry by entry.
  void write_shop() {
    live();
    import_export(*open_file(), shop::export_shop(shop).dump(), {.by = teacher, .now = clock});
  }

  /// Another shop, in other_file(), which is in use: its teacher was added.
  std::unique_ptr<shop::Store> shop_of_another() {
    auto there = open_store({.file = other_file(), .now = clock});
    there->transact([&] {
      const shop::Person first{.id = id(), .name = "Rosa Lind", .role = shop::Role::teacher, .created_at = clock};
      there->put(first);
      there->append({.id = id(),
                     .kind = "person.added",
                     .subject_id = first.id,
                     .detail_json = shop::json_text(first),
                     .by_person_id = first.id,
                     .at = clock});
    });
    return there;
  }

  /// Adds one more entry the ordinary way.
  void go_on(const std::string& name) const {
    const auto opened = open_file();
    shop::Shop here(*opened, {.now = [this] { return clock; },
                              .random = [](std::span<std::uint8_t> bytes) { shop::fresh_bytes(bytes); }});
    here.put_person({.id = here.new_id(), .name = name, .role = shop::Role::student}, teacher);
  }

  /// Runs statements with the triggers out of the way, and puts those back: what somebody can do who has the file.
  void tamper(const std::string& sql) const {
    Database database(file(), Access::write);
    tamper(database, [&] { database.script(sql); });
  }

  template <class F>
  static void tamper(Database& database, F&& edit) {
    std::vector<std::pair<std::string, std::string>> triggers;
    {
      Query rows = database.query("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
      while (rows.next()) triggers.emplace_back(rows.text(0), rows.text(1));
    }
    database.script("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; BEGIN");
    try {
      for (const auto& [name, sql] : triggers) database.script("DROP TRIGGER " + name);
      edit();
      for (const auto& [name, sql] : triggers) database.script(sql);
      database.script("COMMIT");
    } catch (...) {
      database.script("ROLLBACK");
      throw;
    }
  }

 private:
  void live();

  fs::path folder_ = fs::path(testing::TempDir()) / ("journal-" + std::to_string(getpid()));
};

inline void ShopOnDisk::live() {
  using namespace shop;
  const auto stack = hang_a_stack();
  const Uuid corner = shop.put_corner({.id = id(), .insert_id = insert.id, .number = 1}, teacher).id;
  shop.put_band({.id = id(), .name = "Band 1"}, teacher);
  shop.put_taper_plate({.id = id(), .name = "Plate 1", .hook = "4", .taper_um = 50, .diameter = of_mm(140), .studs = 5},
                       teacher);
  shop.put_known_part({.id = id(), .name = "blue estate, front"}, teacher);
  Settings settings = shop.settings();
  settings.shop_name = "Harrow Lane";
  shop.change_settings(settings, teacher);
  const Uuid student = shop.put_person({.id = id(), .name = "Tomasz Wren", .role = Role::student}, teacher).id;
  shop.add_zero_check(id(), micrometer, "0.002", Unit::mm, std::nullopt, teacher);

  const JobFile other = open(2);
  measure(other, 21.2, 0.02);
  const auto finding =
      shop.add_finding({.id = id(), .job_id = other.job.id, .part_id = other.parts[0].id, .note = ""}, student);
  shop.withdraw_finding(other.job.id, finding.id, student);
  const auto readings = shop.job_file(other.job.id).readings;
  shop.withdraw_reading(other.job.id, readings.front().id, student);
  NewReading again = figure(other, 1, "21.205");
  again.supersedes_id = readings.at(1).id;
  again.confirmed = true;
  add(other, again);
  Job renamed = shop.job_file(other.job.id).job;
  renamed.complaint_note = "shakes from 80";
  renamed.worker_person_id = student;
  shop.change_job(renamed, teacher);

  const JobFile sealed = decided();
  measure(other, 21.3, 0.02);
  mount(sealed, ids_of(stack));
  BenchScene::prove(sealed, swing(sealed, "0.02"));
  settle(sealed, {{2, 2, 100, 0.1}});
  NewPass pass = pass_of(sealed, 2, 2);
  pass.outboard_corner_id = corner;
  shop.record_pass(sealed.job.id, pass, teacher);
  shop.record_step(sealed.job.id,
                   {.id = id(), .part_id = sealed.parts[0].id, .phase = BenchPhase::mount, .step = "band_on"}, teacher);
  cut(sealed, 2, 2);
  for (const char* step : {"washed", "cloth_white"}) tick(sealed, step);
  measure(sealed, 21.4, 0.002, Stage::after);
  shop.seal(sealed.job.id, teacher);
  shop.amend({.id = id(), .job_id = sealed.job.id, .text = "read again: no shake"}, teacher);
  for (const Piece& one : stack) {
    shop.book({.id = id(), .piece_id = one.id, .kind = BookingKind::returned}, student);
  }
}

}  // namespace brakewright::store
