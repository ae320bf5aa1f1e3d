#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>

#include "store/backup.hpp"
#include "store/open.hpp"
#include "store/schema.hpp"
#include "store/sqlite_store.hpp"
#include "tests/store/small_shop.hpp"

namespace brakewright::store {
namespace {

namespace fs = std::filesystem;
using namespace shop;
using namespace shop::small_shop;
using Cause = StoreError::Cause;

class ShopFile : public testing::Test {
 protected:
  ShopFile() {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  ~ShopFile() override { fs::remove_all(folder_); }

  fs::path file() const { return folder_ / "shop.sqlite"; }
  fs::path backup_folder() const { return folder_ / "backups"; }
  Opening opening() const { return {.file = file(), .backups = backup_folder(), .read_only = false, .now = kMorning}; }
  std::unique_ptr<Store> open() const { return open_store(opening()); }

  void add_reading(Store& store, std::uint32_t number) {
    store.transact([&] { store.put(reading(number, id(10), id(20))); });
  }

  /// Cause and message of the refusal to open.
  std::pair<Cause, std::string> refusal() const {
    try {
      open();
    } catch (const StoreError& error) {
      return {error.cause(), error.what()};
    }
    return {Cause::other, "opened"};
  }

  void write(const fs::path& path, const std::string& bytes, std::streamoff at = 0) const {
    std::fstream stream(
        path, fs::exists(path) ? std::ios::in | std::ios::out | std::ios::binary : std::ios::out | std::ios::binary);
    stream.seekp(at);
    stream << bytes;
  }

 private:
  fs::path folder_ = fs::path(testing::TempDir()) / ("shop-file-" + std::to_string(getpid()));
};

TEST_F(ShopFile, WhatWasPutIsThereAfterOpeningAgain) {
  fill(*open());
  EXPECT_EQ(open()->people(), std::vector{person()});
}

TEST_F(ShopFile, ACommitIsSyncedToTheWriteAheadLog) {
  auto store = open();
  auto& database = dynamic_cast<SqliteStore&>(*store).database();
  EXPECT_EQ(database.text("PRAGMA journal_mode"), "wal");
  EXPECT_EQ(database.number("PRAGMA synchronous"), 2);  // FULL
  EXPECT_EQ(database.number("PRAGMA foreign_keys"), 1);
}

TEST_F(ShopFile, TwoServersDoNotOpenOneShop) {
  const auto first = open();
  const auto [cause, message] = refusal();
  EXPECT_EQ(cause, Cause::busy);
  EXPECT_NE(message.find("process " + std::to_string(getpid())), std::string::npos) << message;
}

TEST_F(ShopFile, AListMayBeReadBesideARunningServer) {
  const auto server = open();
  fill(*server);
  auto reading_only = opening();
  reading_only.read_only = true;
  const auto reader = open_store(reading_only);
  EXPECT_EQ(reader->jobs({}).total, 1);
  EXPECT_THROW(reader->transact([&] { reader->put(person(2)); }), StoreError);
}

TEST_F(ShopFile, ReadingAShopThatIsNotThereSaysSoAndMakesNone) {
  auto reading_only = opening();
  reading_only.read_only = true;
  EXPECT_THROW(open_store(reading_only), StoreError);
  EXPECT_FALSE(fs::exists(file()));
}

TEST_F(ShopFile, ANewerDatabaseIsRefusedAndLeftAsItIs) {
  open();
  Database(file(), Access::write).script("PRAGMA user_version = 99");
  const auto [cause, message] = refusal();
  EXPECT_EQ(cause, Cause::newer_version);
  EXPECT_NE(message.find("version 99"), std::string::npos) << message;
  EXPECT_EQ(Database(file(), Access::read).number("PRAGMA user_version"), 99);
}

TEST_F(ShopFile, ADatabaseOfAnotherProgramIsRefused) {
  Database(file(), Access::write).script("CREATE TABLE songs (title TEXT)");
  EXPECT_EQ(refusal().first, Cause::damaged);
  EXPECT_NE(refusal().second.find("another program"), std::string::npos);
}

TEST_F(ShopFile, AFileThatIsNoDatabaseIsNamed) {
  write(file(), std::string(8192, 'x'));
  const auto [cause, message] = refusal();
  EXPECT_EQ(cause, Cause::damaged);
  EXPECT_NE(message.find(file().string()), std::string::npos) << message;
  EXPECT_NE(message.find("no good backup"), std::string::npos) << message;
}

TEST_F(ShopFile, ADamagedFileIsNamedAndTheNewestGoodBackupOffered) {
  fill(*open());
  const auto older = back_up(file(), backup_folder(), kMorning, 5);
  const auto newer = back_up(file(), backup_folder(), kMorning + std::chrono::hours(1), 5);
  write(backup_folder() / newer.name, std::string(4096, '\xAA'), 8192);
  write(file(), std::string(16384, '\xAA'), 4096);
  const auto [cause, message] = refusal();
  EXPECT_EQ(cause, Cause::damaged);
  EXPECT_NE(message.find(file().string()), std::string::npos) << message;
  EXPECT_NE(message.find("brakewright restore " + older.name), std::string::npos) << message;
}

TEST_F(ShopFile, ABackupIsMadeWhileTheShopIsOpenAndComesBackWithAllItsRows) {
  {
    const auto store = open();
    fill(*store);
    for (std::uint32_t k = 0; k < 50; ++k) add_reading(*store, 1000 + k);
    back_up(file(), backup_folder(), kMorning, 5);
    add_reading(*store, 2000);
  }
  const auto restored = restore(backup_folder() / backups(backup_folder()).at(0).name, file(), kMorning);
  EXPECT_EQ(restored.rows.at("reading"), 50);
  EXPECT_EQ(restored.rows.at("job"), 1);
  EXPECT_EQ(count_rows(restored.safety_copy).at("reading"), 51);
  EXPECT_FALSE(open()->reading(id(2000)));
  EXPECT_TRUE(open()->reading(id(1049)));
}

TEST_F(ShopFile, OnlySoManyBackupsAreKeptTheNewestOnes) {
  fill(*open());
  for (int hour = 0; hour < 5; ++hour) back_up(file(), backup_folder(), kMorning + std::chrono::hours(hour), 3);
  const auto kept = backups(backup_folder());
  ASSERT_EQ(kept.size(), 3U);
  EXPECT_EQ(kept[0].at, kMorning + std::chrono::hours(4));
  EXPECT_EQ(kept[2].at, kMorning + std::chrono::hours(2));
  EXPECT_EQ(kept[0].name, "shop-20260304T130000000Z.sqlite");
}

TEST_F(ShopFile, AnOpenShopIsNotRestoredOver) {
  const auto store = open();
  fill(*store);
  const auto backup = back_up(file(), backup_folder(), kMorning, 5);
  try {
    restore(backup_folder() / backup.name, file(), kMorning);
    FAIL() << "restored";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.cause(), Cause::busy);
  }
}

TEST_F(ShopFile, ADamagedBackupIsNotRestored) {
  fill(*open());
  const auto backup = back_up(file(), backup_folder(), kMorning, 5);
  write(backup_folder() / backup.name, std::string(16384, '\xAA'), 4096);
  EXPECT_THROW(restore(backup_folder() / backup.name, file(), kMorning), StoreError);
  EXPECT_EQ(open()->people().size(), 1U);
}

TEST_F(ShopFile, ADamagedShopIsKeptAsideWhenABackupTakesItsPlace) {
  fill(*open());
  const auto backup = back_up(file(), backup_folder(), kMorning, 5);
  write(file(), std::string(8192, 'x'));
  const auto restored = restore(backup_folder() / backup.name, file(), kMorning);
  EXPECT_TRUE(fs::exists(restored.safety_copy));
  EXPECT_EQ(open()->people().size(), 1U);
}

TEST_F(ShopFile, AFullDiskIsToldAndLeavesNothingHalfWritten) {
  const auto store = open();
  fill(*store);
  auto& database = dynamic_cast<SqliteStore&>(*store).database();
  database.number("PRAGMA max_page_count = " + std::to_string(database.number("PRAGMA page_count") + 4));
  std::uint32_t acknowledged = 0;
  try {
    for (std::uint32_t k = 0; k < 10'000; ++k) {
      store->transact([&] {
        store->put(reading(1000 + 2 * k, id(10), id(20)));
        store->put(reading(1001 + 2 * k, id(10), id(20)));
      });
      acknowledged += 2;
    }
    FAIL() << "never full";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.cause(), Cause::full);
    EXPECT_NE(std::string(error.what()).find("disk is full"), std::string::npos) << error.what();
  }
  EXPECT_GT(acknowledged, 0U);
  EXPECT_EQ(store->job_file(id(10))->readings.size(), acknowledged);
  database.number("PRAGMA max_page_count = 1000000");
  add_reading(*store, 99);
  EXPECT_EQ(store->job_file(id(10))->readings.size(), acknowledged + 1);
}

TEST_F(ShopFile, TheJournalAndTheRecordsRefuseChangeEvenBySql) {
  const auto store = open();
  fill(*store);
  store->transact([&] {
    store->put(reading(30, id(10), id(20)));
    store->append(change(40, id(30), id(10)));
  });
  auto& database = dynamic_cast<SqliteStore&>(*store).database();
  for (const char* sql : {"UPDATE change SET kind = 'other'", "DELETE FROM change", "DELETE FROM reading",
                          "UPDATE reading SET value_nm = 1", "DELETE FROM job", "UPDATE reading SET id = 'x'"}) {
    EXPECT_THROW(database.script(sql), StoreError) << sql;
  }
}

/// Writes readings until it is killed; tells each one that was acknowledged through a pipe.
[[noreturn]] void write_for_ever(const Opening& opening, int acknowledged, std::uint32_t first) {
  const auto store = open_store(opening);
  for (std::uint32_t number = first;; ++number) {
    store->transact([&] {
      store->put(reading(number, id(10), id(20)));
      store->append(change(number + 0x40000000, id(number), id(10)));
    });
    if (write(acknowledged, &number, sizeof number) != sizeof number) _exit(1);
  }
}

TEST_F(ShopFile, AWriterKilledAtAnyMomentLosesNothingThatItAcknowledgedAndLeavesNothingTorn) {
  fill(*open());
  std::uint32_t first = 1000;
  for (unsigned round = 0; round < 20; ++round) {
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    const pid_t writer = fork();
    ASSERT_GE(writer, 0);
    if (writer == 0) {
      close(ends[0]);
      write_for_ever(opening(), ends[1], first);
    }
    close(ends[1]);
    std::uint32_t last = 0;
    ASSERT_EQ(read(ends[0], &last, sizeof last), static_cast<ssize_t>(sizeof last));
    usleep(500 + 1777 * round);
    kill(writer, SIGKILL);
    waitpid(writer, nullptr, 0);
    while (read(ends[0], &last, sizeof last) == sizeof last) {
    }
    close(ends[0]);

    const auto store = open();
    const auto file = store->job_file(id(10));
    const auto stored = file->readings.size();
    EXPECT_GE(stored, last - 1000 + 1) << "round " << round;
    EXPECT_LE(stored, last - 1000 + 2) << "round " << round;  // the one that was not told yet
    EXPECT_EQ(store->changes(0, 1'000'000, id(10)).size(), stored) << "round " << round;
    first = 1000 + static_cast<std::uint32_t>(stored);
  }
  EXPECT_GT(first, 1020U);
}

}  // namespace
}  // namespace brakewright::store
