#include "store/practice_file.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "shop/journal/chain.hpp"
#include "shop/practice/practice.hpp"
#include "shop/store.hpp"
#include "store/open.hpp"
#include "store/proof.hpp"
#include "store/sqlite.hpp"
#include "store/sqlite_practice.hpp"

namespace brakewright::store {
namespace {

namespace fs = std::filesystem;
using namespace shop;

class PracticeFiles : public testing::Test {
 protected:
  PracticeFiles() {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~PracticeFiles() override { fs::remove_all(folder_); }

  fs::path shop_file() const { return folder_ / "shop.sqlite"; }
  fs::path file() const { return practice_beside(shop_file()); }

  static Uuid run(std::uint8_t number) {
    Uuid id{};
    id.bytes[15] = number;
    return id;
  }
  static void keep(PracticeBook& book, std::uint8_t of, std::int64_t number, bool ends = false) {
    book.keep({number, R"({"do":"look"})", R"({"took_s":)" + std::to_string(number) + "}"},
              {.run_id = run(of),
               .acts = number,
               .view_json = "{}",
               .at = UtcTime(std::chrono::milliseconds(7)),
               .ends = ends});
  }

 private:
  fs::path folder_ = fs::path(testing::TempDir()) / ("practice-" + std::to_string(getpid()));
};

TEST_F(PracticeFiles, KeepWhatWasActedAndForgetARunAsAWhole) {
  {
    const auto book = open_practice_book(file());
    keep(*book, 1, 1);
    keep(*book, 1, 2, true);
    keep(*book, 2, 1);
  }
  const auto book = open_practice_book(file());
  ASSERT_EQ(book->open_runs().size(), 2U);
  EXPECT_EQ(book->open_runs()[0].acts, 2);
  EXPECT_TRUE(book->open_runs()[0].ends);
  EXPECT_EQ(book->open_runs()[0].at, UtcTime(std::chrono::milliseconds(7)));
  ASSERT_EQ(book->acts(run(1)).size(), 2U);
  EXPECT_EQ(book->acts(run(1))[1].outcome_json, R"({"took_s":2})");
  book->forget(run(1));
  EXPECT_TRUE(book->acts(run(1)).empty());
  EXPECT_EQ(book->open_runs().size(), 1U);
  EXPECT_EQ(fs::status(file()).permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(PracticeFiles, TakeTheActsOfAWholeClassAtOnceAndRefuseANumberTwice) {
  const auto book = open_practice_book(file());
  std::vector<std::thread> hands;
  for (std::uint8_t who = 1; who <= 20; ++who) {
    hands.emplace_back([&, who] {
      for (std::int64_t k = 1; k <= 10; ++k) keep(*book, who, k);
    });
  }
  for (std::thread& one : hands) one.join();
  for (std::uint8_t who = 1; who <= 20; ++who) EXPECT_EQ(book->acts(run(who)).size(), 10U);
  EXPECT_THROW(keep(*book, 3, 10), StoreError);
  keep(*book, 3, 11);
  EXPECT_EQ(book->acts(run(3)).size(), 11U);
}

TEST_F(PracticeFiles, RefuseOneActOfABatchAndKeepTheOthers) {
  const auto book = open_practice_book(file());
  for (std::uint8_t who = 1; who <= 20; ++who) keep(*book, who, 1);
  std::vector<std::thread> hands;
  std::atomic<int> refused = 0, lost = 0;
  for (std::uint8_t who = 1; who <= 20; ++who) {
    hands.emplace_back([&, who] {
      for (std::int64_t k = 2; k <= 11; ++k) {
        const bool twice = who % 2 == 0;
        try {
          keep(*book, who, twice ? 1 : k);
        } catch (const StoreError& error) {
          ++(twice && std::string(error.what()).find(to_text(run(who))) != std::string::npos ? refused : lost);
        }
      }
    });
  }
  for (std::thread& one : hands) one.join();
  EXPECT_EQ(refused, 100);
  EXPECT_EQ(lost, 0);
  for (std::uint8_t who = 1; who <= 20; ++who) EXPECT_EQ(book->acts(run(who)).size(), who % 2 == 0 ? 1U : 11U);
}

TEST_F(PracticeFiles, DropWhatNamesNoRunAndKeepTheOthers) {
  keep(*open_practice_book(file()), 1, 1);
  Database(file(), Access::write)
      .script("INSERT INTO open_run SELECT 'nobody', acts, view_json, at_ms, ends FROM open_run");
  const auto book = open_practice_book(file());
  ASSERT_EQ(book->open_runs().size(), 1U);
  EXPECT_EQ(book->acts(run(1)).size(), 1U);
  EXPECT_EQ(Database(file(), Access::read).number("SELECT count(*) FROM open_run"), 1);
}

TEST_F(PracticeFiles, ThatCannotBeReadArePutAside) {
  std::ofstream(file()) << std::string(20'000, 'x');
  const auto book = open_practice_book(file());
  EXPECT_TRUE(book->open_runs().empty());
  keep(*book, 1, 1);
  EXPECT_TRUE(fs::exists(file().string() + ".damaged"));
}

/// A shop on the disk with a run that ended, one that goes on, and a set.
class PracticeRecords : public PracticeFiles {
 protected:
  PracticeRecords() {
    const auto opened = open_store({.file = shop_file(), .now = now()});
    Shop shop(*opened, {.now = now, .random = fresh_bytes});
    const Uuid teacher = shop.new_id();
    shop.put_person({.id = teacher, .name = "Ines Marrow", .role = Role::teacher}, teacher);
    const auto shelves = open_practice(*opened);
    const auto book = open_practice_book(file());
    Practice practice(shop, *shelves, *book, {.now = now, .random = fresh_bytes});
    practice.put_set(shop.new_id(), {.name = "Find it", .faults = std::vector<std::string>{"thin"}}, teacher);
    for (const std::int64_t seed : {1, 2}) {
      const Uuid run = practice.begin({.difficulty = 0, .seed = seed}, teacher).line.run.id;
      practice.act(run, {1, R"({"do":"look"})"}, teacher);
      if (seed == 2) continue;
      practice.act(run, {2, R"({"do":"decide","action":"leave"})"}, teacher);
      practice.act(run, {3, R"({"do":"finish"})"}, teacher);
    }
  }

  static UtcTime now() { return UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 11 / 26)); }
  std::string fault() const { return prove(shop_file()).fault.value_or("nothing wrong"); }

  void tamper(const std::string& trigger, const std::string& sql) const {
    Database database(shop_file(), Access::write);
    const std::string kept = database.text("SELECT sql FROM sqlite_schema WHERE name = '" + trigger + "'");
    database.script("DROP TRIGGER " + trigger + "; " + sql + "; " + kept);
  }
};

TEST_F(PracticeRecords, AreMadeAgainFromTheJournal) { EXPECT_EQ(fault(), "nothing wrong"); }

TEST_F(PracticeRecords, ShowWhoGaveThemselvesPoints) {
  tamper("practice_run_is_final", "UPDATE practice_run SET points = 99.5 WHERE ended_at IS NOT NULL");
  EXPECT_NE(fault().find("points is real 99.5"), std::string::npos) << fault();
}

TEST_F(PracticeRecords, ShowWhoseActsWereChanged) {
  tamper("practice_record_is_final", "UPDATE practice_record SET done_json = replace(done_json, 'look', 'wipe')");
  EXPECT_NE(fault().find("of practice_record is not as the journal tells it"), std::string::npos) << fault();
}

TEST_F(PracticeRecords, AreNeverChangedByTheShopOnceTheyEnded) {
  Database database(shop_file(), Access::write);
  EXPECT_THROW(database.script("UPDATE practice_run SET safe = 1 WHERE ended_at IS NOT NULL"), StoreError);
  EXPECT_THROW(database.script("UPDATE practice_run SET seed = 3"), StoreError);
  EXPECT_THROW(database.script("DELETE FROM practice_run"), StoreError);
  EXPECT_THROW(database.script("UPDATE practice_record SET at = ''"), StoreError);
}

}  // namespace
}  // namespace brakewright::store
