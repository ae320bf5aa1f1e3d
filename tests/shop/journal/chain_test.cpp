#include "shop/journal/chain.hpp"

#include <gtest/gtest.h>

#include <set>

#include "core/input_error.hpp"
#include "store/open.hpp"
#include "tests/store/small_shop.hpp"

namespace brakewright::shop {
namespace {

using namespace small_shop;

TEST(Chain, HashesAsFips180Says) {
  // The example "abc" of FIPS 180-4, as NIST publishes it with its intermediate values.
  EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_of(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Chain, PutsTheSaltsBytesBeforeTheDetail) {
  EXPECT_EQ(detail_sha256_of("6162", "c"), sha256_of("abc"));
  EXPECT_EQ(detail_sha256_of("", "abc"), sha256_of("abc"));
  EXPECT_THROW(detail_sha256_of("616", "c"), InputError);
  EXPECT_THROW(detail_sha256_of("zz", "c"), InputError);
  EXPECT_EQ(fresh_salt().size(), 32U);
  EXPECT_NE(fresh_salt(), fresh_salt());
}

TEST(Chain, GivesEveryEntryAnotherHashForEveryOtherField) {
  const EntryText entry{.seq = 7,
                        .id = "ab",
                        .kind = "reading.added",
                        .job_id = "cd",
                        .subject_id = "ef",
                        .by_person_id = "gh",
                        .at = "t",
                        .detail_sha256 = "d"};
  std::set<std::string> hashes{entry_sha256_of("before", entry), entry_sha256_of("", entry)};
  const auto with = [&](auto&& change) {
    EntryText other = entry;
    change(other);
    hashes.insert(entry_sha256_of("before", other));
  };
  with([](EntryText& e) { e.seq = 8; });
  with([](EntryText& e) { e.id = "ac"; });
  with([](EntryText& e) { e.kind = "reading.withdrawn"; });
  with([](EntryText& e) { e.job_id.reset(); });
  with([](EntryText& e) { e.job_id = ""; });
  with([](EntryText& e) { e.subject_id = "e"; });
  with([](EntryText& e) { e.by_person_id = "fgh"; });
  with([](EntryText& e) { e.at = "u"; });
  with([](EntryText& e) { e.detail_sha256 = "e"; });
  EXPECT_EQ(hashes.size(), 11U);
}

TEST(Chain, MovesNoByteFromOneFieldToTheNext) {
  EXPECT_NE(entry_sha256_of("", {.seq = 1, .id = "ab", .kind = "c"}),
            entry_sha256_of("", {.seq = 1, .id = "a", .kind = "bc"}));
}

TEST(Chain, GoesOnFromEntryToEntryInAStore) {
  const auto store = store::open_in_memory();
  fill(*store);
  for (std::uint32_t k = 1; k <= 4; ++k) {
    store->transact([&] { store->append(change(100 + k, id(20), id(10))); });
  }
  std::string previous;
  for (const Change& entry : store->changes(0, 10, {})) {
    EXPECT_EQ(entry.salt.size(), 32U);
    EXPECT_EQ(entry.detail_sha256, detail_sha256_of(entry.salt, entry.detail_json));
    EXPECT_EQ(chained(entry, previous), entry);
    previous = entry.entry_sha256;
  }
  EXPECT_EQ(store->journal_head().seq, 4);
  EXPECT_EQ(store->journal_head().entry_sha256, previous);
}

TEST(Chain, LeavesTheHeadWhereItWasWhenNothingCameOfAnEntry) {
  const auto store = store::open_in_memory();
  fill(*store);
  store->transact([&] { store->append(change(101, id(20), id(10))); });
  const auto head = store->journal_head();
  EXPECT_THROW(store->transact([&] {
    store->append(change(102, id(20), id(10)));
    throw std::runtime_error("changed my mind");
  }),
               std::runtime_error);
  EXPECT_EQ(store->journal_head(), head);
  store->transact([&] { EXPECT_EQ(store->append(change(103, id(20), id(10))).seq, 2); });
  EXPECT_EQ(store->journal_head().seq, 2);
}

TEST(Chain, StaysWholeWhenADetailIsErased) {
  const auto store = store::open_in_memory();
  fill(*store);
  store->transact([&] { store->append(change(101, id(20), id(10))); });
  const Change before = store->changes(0, 1, {}).front();
  store->transact([&] { store->erase_detail(1); });
  const Change after = store->changes(0, 1, {}).front();
  EXPECT_EQ(after.detail_json, "");
  EXPECT_EQ(after.salt, "");
  EXPECT_EQ(after.entry_sha256, before.entry_sha256);
  EXPECT_EQ(chained(after, ""), after);
}

}  // namespace
}  // namespace brakewright::shop
