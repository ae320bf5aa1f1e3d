#include "server/backup_schedule.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <semaphore>
#include <stdexcept>

namespace brakewright::server {
namespace {

using namespace std::chrono_literals;

const shop::UtcTime kNow{std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)};

TEST(BackupSchedule, IsDueAfterADay) {
  EXPECT_TRUE(backup_due(kNow, std::nullopt));
  EXPECT_FALSE(backup_due(kNow, kNow - 23h));
  EXPECT_TRUE(backup_due(kNow, kNow - 24h));
  EXPECT_FALSE(backup_due(kNow, kNow + 1h)) << "a clock that was set back a little";
  EXPECT_TRUE(backup_due(kNow, kNow + 48h)) << "a backup from the future keeps off no other";
}

TEST(BackupSchedule, TriesAgainAfterAFailure) {
  std::atomic<int> tries = 0;
  std::counting_semaphore<> done(0);
  const BackupSchedule schedule({.now = [] { return kNow; },
                                 .newest = [] { return std::optional<shop::UtcTime>(); },
                                 .back_up =
                                     [&] {
                                       if (++tries == 1) throw std::runtime_error("disk full");
                                       done.release();
                                     }},
                                1ms);
  done.acquire();
  EXPECT_GE(tries, 2);
}

}  // namespace
}  // namespace brakewright::server
