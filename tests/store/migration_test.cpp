#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <sstream>

#include "core/uncertainty/random.hpp"
#include "shop/demo/demo.hpp"
#include "shop/seal.hpp"
#include "store/open.hpp"
#include "store/schema.hpp"
#include "tests/store/small_shop.hpp"

namespace brakewright::store {
namespace {

namespace fs = std::filesystem;
using namespace shop;
using namespace shop::small_shop;

/// A folder with a shop as the first version of the tables keeps it: the rows of a shop of today, in the columns that
/// were there then.
class OldShop : public testing::Test {
 protected:
  OldShop() {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~OldShop() override { fs::remove_all(folder_); }

  fs::path file() const { return folder_ / "shop.sqlite"; }
  fs::path today() const { return folder_ / "today.sqlite"; }

  void write_old_from_today() {
    Database old(file(), Access::write);
    migrate(old, 1);
    old.script("ATTACH '" + today().string() + "' AS today");
    old.script("BEGIN; PRAGMA defer_foreign_keys = ON; DELETE FROM counter");
    for (const std::string& table : listed(old,
                                           "SELECT group_concat(name, ' ') FROM main.sqlite_schema WHERE type = "
                                           "'table' AND name NOT LIKE 'job_search%' AND name NOT LIKE 'sqlite%'")) {
      std::string columns;
      for (const auto& column :
           listed(old, "SELECT group_concat(name, ' ') FROM pragma_table_info('" + table + "', 'main')")) {
        columns += (columns.empty() ? "" : ", ") + column;
      }
      old.script("INSERT INTO main." + table + " (" + columns + ") SELECT " + columns + " FROM today." + table +
                 " ORDER BY rowid");
    }
    old.script("COMMIT; DETACH today");
  }

 private:
  static std::vector<std::string> listed(Database& database, const std::string& sql) {
    std::istringstream words(database.text(sql));
    return {std::istream_iterator<std::string>(words), {}};
  }

  fs::path folder_ = fs::path(testing::TempDir()) / ("old-shop-" + std::to_string(getpid()));
};

/// Takes out of a job what the first tables had no place for.
JobFile as_it_was(JobFile file) {
  file.mounts.clear();
  file.mount_proofs.clear();
  file.cut_plans.clear();
  file.passes.clear();
  file.bench_steps.clear();
  file.refits.clear();
  file.job.tyre.reset();
  file.job.vehicle_mass_kg.reset();
  file.job.felt_in.reset();
  file.job.felt_speed_km_per_h.reset();
  file.job.felt_frequency_hz.reset();
  file.job.beside_job_id.reset();
  for (Part& part : file.parts) {
    part.seat = {};
    part.studs.reset();
    part.hub_reading_diameter.reset();
    part.kind.reset();
    part.limits.out_of_round.reset();
    part.limits.taper.reset();
    part.band_width.reset();
    part.lining_radius.reset();
    part.lining_arc_deg.reset();
  }
  for (Cut& cut : file.cuts) cut.dial_inboard_um_per_mark.reset();
  return file;
}

TEST_F(OldShop, HasAllItsJobsAndTheirSealsAfterItsTablesWereBroughtUp) {
  std::vector<JobFile> before;
  {
    const auto store = open_store({.file = today(), .now = kMorning});
    make_demo(*store, 5, kMorning, {});
    for (const JobLine& line : store->jobs({.state = {}, .words = "", .limit = 500}).lines) {
      before.push_back(as_it_was(*store->job_file(line.job.id)));
      // A seal of those days was made of what there was then.
      if (before.back().job.state == JobState::sealed) before.back().job.seal_sha256 = seal_of(before.back());
    }
  }
  {
    Database database(today(), Access::write);
    database.script("DROP TRIGGER sealed_job_stays");
    for (const JobFile& one : before) {
      database.query("UPDATE job SET seal_sha256 = ? WHERE id = ?")
          .bind(0, one.job.seal_sha256)
          .bind(1, to_text(one.job.id))
          .run();
    }
  }
  write_old_from_today();
  ASSERT_EQ(Database(file(), Access::read).number("PRAGMA user_version"), 1);

  const auto store = open_store({.file = file(), .now = kMorning});
  EXPECT_EQ(Database(file(), Access::read).number("PRAGMA user_version"), newest_version());
  Random dice(1);
  Shop shop(*store, {.now = [] { return kMorning; },
                     .random =
                         [&](auto bytes) {
                           for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice.below(256));
                         }});
  ASSERT_EQ(shop.jobs({.state = {}, .words = "", .limit = 500}).total, static_cast<std::int64_t>(before.size()));
  std::size_t sealed = 0;
  for (const JobFile& one : before) {
    const JobFile file = shop.job_file(one.job.id);
    EXPECT_EQ(file, one) << one.job.number;
    if (file.job.state != JobState::sealed) continue;
    ++sealed;
    EXPECT_TRUE(shop.seal_holds(one.job.id)) << one.job.number;
  }
  EXPECT_GE(sealed, 30U);
  EXPECT_EQ(shop.settings().cutting, CuttingRules{});
  for (const shop::Lathe& lathe : shop.lathes()) {
    EXPECT_FALSE(lathe.arbor_diameter);
    EXPECT_TRUE(lathe.speeds_rpm.empty());
    EXPECT_EQ(lathe.dial_reads, DialReads::depth);
    EXPECT_EQ(lathe.nut_engagement, Length{8'000'000});
  }
  EXPECT_TRUE(shop.pieces().empty());
}

TEST_F(OldShop, TakesPiecesAndMountsOnceItsTablesWereBroughtUp) {
  fill(*open_store({.file = today(), .now = kMorning}));
  write_old_from_today();
  const auto store = open_store({.file = file(), .now = kMorning});
  store->transact([&] {
    store->put(shop::Lathe{.id = id(31), .name = "Bench 1"});
    store->put(Piece{.id = id(80), .name = "nut", .bore = {25'400'000}, .length = {20'000'000}});
    store->put(Mount{.id = id(100),
                     .job_id = id(10),
                     .part_id = id(20),
                     .lathe_id = id(31),
                     .piece_ids = {id(80)},
                     .by_person_id = id(1),
                     .at = kMorning});
  });
  EXPECT_EQ(store->job_file(id(10))->mounts.front().piece_ids, std::vector{id(80)});
}

TEST_F(OldShop, IsCopiedBesideItselfBeforeItsTablesAreBroughtUp) {
  fill(*open_store({.file = today(), .now = kMorning}));
  write_old_from_today();
  open_store({.file = file(), .now = kMorning});
  std::vector<std::int64_t> kept;
  for (const auto& entry : fs::directory_iterator(file().parent_path())) {
    if (!entry.path().filename().string().starts_with("shop.sqlite.v1-")) continue;
    kept.push_back(Database(entry.path(), Access::read).number("PRAGMA user_version"));
  }
  EXPECT_EQ(kept, std::vector<std::int64_t>{1});
}

}  // namespace
}  // namespace brakewright::store
