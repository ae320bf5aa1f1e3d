#include "shop/doors/sessions.hpp"

#include <gtest/gtest.h>

#include <random>

#include "shop/doors/secret.hpp"
#include "shop/doors/signatures.hpp"
#include "shop/doors/token.hpp"
#include "shop/journal/chain.hpp"

namespace brakewright::shop {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

/// A book that counts what is written in it.
struct CountedBook final : SessionBook {
  std::map<std::string, Session> kept;
  int written = 0;

  std::vector<Session> sessions() override {
    std::vector<Session> all;
    for (const auto& [key, one] : kept) all.push_back(one);
    return all;
  }
  void put(const Session& session) override {
    kept[session.token_sha256] = session;
    ++written;
  }
  void remove(const std::string& token_sha256) override { kept.erase(token_sha256); }
};

class SessionsAtTheDoor : public ::testing::Test {
 protected:
  Sessions opened() {
    return Sessions(
        book, rules, [this] { return now; }, random,
        [this](const Uuid& id) -> std::optional<Role> {
          if (id == gone) return std::nullopt;
          return id == teacher ? Role::teacher : Role::student;
        });
  }

  std::mt19937 dice{20261126};
  RandomBytes random = [this](auto bytes) {
    for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice());
  };
  UtcTime now{std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)};
  SessionRules rules;
  CountedBook book;
  Uuid teacher = make_uuid7(1, random);
  Uuid student = make_uuid7(2, random);
  Uuid gone = {};
};

TEST_F(SessionsAtTheDoor, EndAfterTheirIdleTimeWhichIsLongerForWhoeverLeads) {
  Sessions sessions = opened();
  const std::string of_student = sessions.open(student);
  const std::string of_teacher = sessions.open(teacher);
  now += minutes(20) - seconds(1);
  EXPECT_TRUE(sessions.find(of_student));
  now += seconds(1);
  EXPECT_FALSE(sessions.find(of_student));
  EXPECT_TRUE(sessions.find(of_teacher));
  now += minutes(10);
  EXPECT_FALSE(sessions.find(of_teacher));
  EXPECT_EQ(sessions.count(), 0U);
  EXPECT_TRUE(book.kept.empty());
}

TEST_F(SessionsAtTheDoor, EndAfterHalfADayHoweverBusyTheyWere) {
  Sessions sessions = opened();
  const std::string token = sessions.open(teacher);
  for (const UtcTime end = now + hours(12); now < end; now += minutes(5)) {
    const auto found = sessions.find(token);
    ASSERT_TRUE(found);
    sessions.seen(*found, seconds(0));
  }
  EXPECT_FALSE(sessions.find(token));
}

TEST_F(SessionsAtTheDoor, AreNotKeptOnByAPageThatNobodyTouches) {
  Sessions sessions = opened();
  const std::string token = sessions.open(student);
  const UtcTime touched = now;
  for (int k = 0; k < 19; ++k) {
    now += minutes(1);
    sessions.seen(*sessions.find(token), std::chrono::duration_cast<seconds>(now - touched));
  }
  now += minutes(1);
  EXPECT_FALSE(sessions.find(token));
}

TEST_F(SessionsAtTheDoor, AreWrittenDownAtMostOnceAMinute) {
  Sessions sessions = opened();
  const std::string token = sessions.open(student);
  for (int k = 0; k < 600; ++k) {
    now += seconds(1);
    sessions.seen(*sessions.find(token), seconds(0));
  }
  EXPECT_EQ(book.written, 1 + 10);
}

TEST_F(SessionsAtTheDoor, AreKnownAgainAfterARestartUnlessTheyAreOverOrTheirPersonIsGone) {
  std::string token;
  {
    Sessions sessions = opened();
    token = sessions.open(student);
    sessions.open(teacher);
    now += minutes(10);
    sessions.seen(*sessions.find(token), seconds(0));
  }
  now += minutes(15);
  Sessions again = opened();
  ASSERT_TRUE(again.find(token));
  EXPECT_EQ(again.find(token)->person_id, student);
  EXPECT_EQ(again.count(), 2U);
  now += minutes(10);
  EXPECT_EQ(opened().count(), 0U);
  again.open(student);
  gone = student;
  EXPECT_EQ(opened().count(), 0U);
}

TEST_F(SessionsAtTheDoor, AreOverWhenTheClockWasSetBackBeforeTheirTime) {
  Sessions sessions = opened();
  const std::string token = sessions.open(student);
  now -= seconds(30);
  EXPECT_TRUE(sessions.find(token));
  now -= minutes(2);
  EXPECT_FALSE(sessions.find(token));
}

TEST_F(SessionsAtTheDoor, OfOnePersonAreFewHoweverOftenTheySignIn) {
  Sessions sessions = opened();
  const std::string first = sessions.open(teacher);
  std::string last;
  for (int k = 0; k < 1000; ++k) {
    now += std::chrono::milliseconds(5);
    last = sessions.open(student);
  }
  EXPECT_EQ(sessions.count(), rules.most_of_a_person + 1);
  EXPECT_EQ(book.kept.size(), rules.most_of_a_person + 1);
  EXPECT_TRUE(sessions.find(first));
  EXPECT_TRUE(sessions.find(last));
}

TEST_F(SessionsAtTheDoor, KeepTheHashOfATokenAndNeverTheToken) {
  Sessions sessions = opened();
  const std::string token = sessions.open(student);
  EXPECT_TRUE(looks_like_token(token));
  EXPECT_FALSE(book.kept.contains(token));
  EXPECT_TRUE(book.kept.contains(sha256_of(token)));
  for (const char* forged : {"", "a", "'; DROP TABLE session; --"}) EXPECT_FALSE(sessions.find(forged));
  EXPECT_FALSE(sessions.find(sha256_of(token)));
}

TEST_F(SessionsAtTheDoor, EndAllOfAPersonButTheOneThatAsked) {
  Sessions sessions = opened();
  const std::string kept = sessions.open(student);
  const std::string other = sessions.open(student);
  const std::string others = sessions.open(teacher);
  sessions.end_all_of(student, sha256_of(kept));
  EXPECT_TRUE(sessions.find(kept));
  EXPECT_FALSE(sessions.find(other));
  EXPECT_TRUE(sessions.find(others));
}

TEST_F(SessionsAtTheDoor, TakeASignatureOnceForWhatItWasGivenAndWithinItsTime) {
  Signatures given;
  const std::string token = given.give("tablet", "seal_job", teacher, now, random);
  EXPECT_FALSE(given.take(token, "other tablet", "seal_job", teacher, now));
  EXPECT_FALSE(given.take(token, "tablet", "decide", teacher, now));
  EXPECT_FALSE(given.take(token, "tablet", "seal_job", student, now));
  EXPECT_FALSE(given.take(new_token(random), "tablet", "seal_job", teacher, now));
  EXPECT_FALSE(given.take(token, "tablet", "seal_job", teacher, now + seconds(90)));
  auto taken = given.take(token, "tablet", "seal_job", teacher, now + seconds(89));
  ASSERT_TRUE(taken);
  EXPECT_FALSE(given.take(token, "tablet", "seal_job", teacher, now + seconds(89)));
  given.give_back(std::move(*taken));
  EXPECT_TRUE(given.take(token, "tablet", "seal_job", teacher, now + seconds(89)));
}

TEST_F(SessionsAtTheDoor, HoldABoundedNumberOfSignatures) {
  Signatures given;
  for (int k = 0; k < 10'000; ++k) given.give("tablet", "seal_job", teacher, now, random);
  EXPECT_LE(given.count(), 500U);
  given.give("tablet", "seal_job", teacher, now + minutes(2), random);
  EXPECT_EQ(given.count(), 1U);
}

TEST_F(SessionsAtTheDoor, HashASecretWithASaltOfItsOwnAsTheLibraryReadsIt) {
  const HashCosts costs;
  EXPECT_EQ(costs.password.memory_bytes, 64U << 20U);
  for (const SecretKind kind : {SecretKind::pin, SecretKind::password}) {
    const std::string hash = hash_of("practice lathe", costs.of(kind), random);
    EXPECT_TRUE(hash.starts_with("$argon2id$v=19$m="));
    EXPECT_NE(hash, hash_of("practice lathe", costs.of(kind), random));
    EXPECT_TRUE(hash_holds(hash, "practice lathe"));
    EXPECT_FALSE(hash_holds(hash, "practice lathf"));
    EXPECT_FALSE(hash_holds(hash, ""));
  }
  EXPECT_FALSE(hash_holds("", ""));
}

// FIPS 180-4, example of the message "abc", by the standard's own values.
TEST_F(SessionsAtTheDoor, HashATokenAsTheStandardDoes) {
  EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

}  // namespace
}  // namespace brakewright::shop
