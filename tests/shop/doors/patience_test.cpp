#include "shop/doors/patience.hpp"

#include <gtest/gtest.h>

namespace brakewright::shop {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;

constexpr UtcTime kNow{std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)};

TEST(Patience, DoublesTheWaitFromTheThirdWrongTryOnUpToAMinute) {
  const std::int64_t expected[] = {0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60};
  for (int wrong = 0; wrong < 11; ++wrong) EXPECT_EQ(wait_s_after(wrong, kPerPerson), expected[wrong]) << wrong;
  EXPECT_EQ(wait_s_after(1'000'000, kPerPerson), 60);
}

TEST(Patience, IsGentlerWithAnAddressBehindWhichAClassMayBe) {
  EXPECT_EQ(wait_s_after(29, kPerAddress), 0);
  EXPECT_EQ(wait_s_after(30, kPerAddress), 1);
  EXPECT_EQ(wait_s_after(1000, kPerAddress), 8);
}

TEST(Patience, NeverShutsADoorForGood) {
  Patience patience(kPerPerson);
  UtcTime now = kNow;
  for (int k = 0; k < 10'000; ++k) {
    patience.tried("a", now);
    const std::int64_t wait = patience.wait_s("a", now);
    ASSERT_LE(wait, 60);
    now += seconds(wait);
    ASSERT_EQ(patience.wait_s("a", now), 0);
  }
}

TEST(Patience, CountsATryBeforeItIsLookedAtSoThatManyAtOnceGainNothing) {
  Patience patience(kPerPerson);
  int let_through = 0;
  for (int k = 0; k < 100; ++k) {
    if (patience.wait_s("a", kNow) > 0) continue;
    patience.tried("a", kNow);
    ++let_through;
  }
  EXPECT_EQ(let_through, 3);
  EXPECT_EQ(patience.wait_s("b", kNow), 0);
}

TEST(Patience, ForgivesTheRightOneAndForgetsInAQuarterOfAnHour) {
  Patience patience(kPerPerson);
  for (int k = 0; k < 6; ++k) patience.tried("a", kNow);
  EXPECT_EQ(patience.wait_s("a", kNow), 8);
  EXPECT_EQ(patience.wait_s("a", kNow + minutes(15)), 0);
  patience.tried("a", kNow + minutes(15));
  EXPECT_EQ(patience.wait_s("a", kNow + minutes(15)), 0);
  for (int k = 0; k < 6; ++k) patience.tried("b", kNow);
  patience.right("b");
  EXPECT_EQ(patience.wait_s("b", kNow), 0);
}

TEST(Patience, TakesOneTryBackAndKeepsTheOthers) {
  Patience patience(kPerPerson);
  for (int k = 0; k < 4; ++k) patience.tried("a", kNow);
  patience.undone("a");
  EXPECT_EQ(patience.wait_s("a", kNow), 1);
  for (int k = 0; k < 3; ++k) patience.undone("a");
  EXPECT_EQ(patience.keys(), 0U);
  patience.undone("a");
  EXPECT_EQ(patience.keys(), 0U);
}

TEST(Patience, HoldsABoundedNumberOfKeysAndDropsTheOldest) {
  Patience patience(kPerPerson, 100);
  for (int k = 0; k < 5; ++k) patience.tried("kept", kNow + minutes(1));
  for (int k = 0; k < 10'000; ++k) patience.tried(std::to_string(k), kNow);
  EXPECT_LE(patience.keys(), 100U);
  EXPECT_GT(patience.wait_s("kept", kNow + minutes(1)), 0);
}

}  // namespace
}  // namespace brakewright::shop
