#include <sys/stat.h>

#include <fstream>
#include <map>

#include "core/input_error.hpp"
#include "shop/demo/demo.hpp"
#include "shop/journal/signing.hpp"
#include "store/backup.hpp"
#include "store/rebuild.hpp"
#include "tests/shop/watched_store.hpp"
#include "tests/store/journal/shop_on_disk.hpp"

namespace brakewright::store {
namespace {

using namespace shop;

TEST(Signing, IsEd25519AsInRfc8032) {
  // RFC 8032, section 7.1, TEST 1 and TEST 2.
  const SigningKey first = key_of_seed("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60");
  EXPECT_EQ(first.public_key, "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a");
  EXPECT_EQ(
      signature_of(first, ""),
      "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595b"
      "be24655141438e7a100b");
  EXPECT_TRUE(signature_holds(first.public_key, "", signature_of(first, "")));
  EXPECT_FALSE(signature_holds(first.public_key, "a", signature_of(first, "")));
  EXPECT_FALSE(signature_holds(fresh_key().public_key, "", signature_of(first, "")));
  EXPECT_FALSE(signature_holds(first.public_key, "", ""));
  EXPECT_THROW(key_of_seed("9d61"), InputError);
}

using Journal = ShopOnDisk;

TEST_F(Journal, OfAShopInWhichAllWasDoneIsProven) {
  write_shop();
  const Proof proof = store::prove(file());
  EXPECT_EQ(proof.fault, std::nullopt);
  ASSERT_EQ(proof.proven.size(), 5U);
  EXPECT_EQ(proof.proven[4].what, "rebuilt");
  go_on("Ada Fern");
  EXPECT_EQ(fault(), "nothing wrong");
}

TEST_F(Journal, IsProvenWhileTheShopIsInUseAndAsItWasCommitted) {
  write_shop();
  const auto in_use = open_file();
  const std::int64_t last = in_use->last_seq();
  in_use->transact([&] {
    in_use->append({.id = id(),
                    .kind = "note.made",
                    .subject_id = teacher,
                    .detail_json = "{}",
                    .by_person_id = teacher,
                    .at = clock});
    EXPECT_EQ(fault(), "nothing wrong");
  });
  EXPECT_EQ(in_use->last_seq(), last + 1);
  EXPECT_EQ(fault(), "nothing wrong");
}

TEST_F(Journal, NamesTheEntryThatWasAlteredPutInCutOutOrMoved) {
  write_shop();
  fs::copy(file(), file().string() + ".whole");
  const auto after = [&](const std::string& sql) {
    fs::copy(file().string() + ".whole", file(), fs::copy_options::overwrite_existing);
    tamper(sql);
    const Proof proof = store::prove(file());
    return std::pair(proof.entry.value_or(0), proof.fault.value_or("nothing wrong"));
  };
  const auto said = [](const std::pair<std::int64_t, std::string>& found, std::int64_t entry, const char* words) {
    return found.first == entry && found.second.find(words) != std::string::npos;
  };
  const auto altered = after("UPDATE change SET kind = 'job.changed' WHERE seq = 9");
  EXPECT_TRUE(said(altered, 9, "was altered")) << altered.second;
  const auto detail = after("UPDATE change SET detail_json = replace(detail_json, '\"', '\"') || ' ' WHERE seq = 9");
  EXPECT_TRUE(said(detail, 9, "its detail")) << detail.second;
  const auto cut_out = after("DELETE FROM change WHERE seq = 12");
  EXPECT_TRUE(said(cut_out, 12, "cut out")) << cut_out.second;
  const auto cut_off = after("DELETE FROM change WHERE seq > 40; DELETE FROM journal_seal WHERE seq > 40");
  EXPECT_TRUE(said(cut_off, 41, "cut off")) << cut_off.second;
  const auto put_in = after(
      "UPDATE change SET seq = -seq - 1 WHERE seq >= 20; UPDATE change SET seq = -seq WHERE seq < 0;"
      "UPDATE journal_seal SET seq = seq + 1; INSERT INTO change SELECT 20, 'x', kind, job_id, subject_id, "
      "detail_json, "
      "by_person_id, at, salt, detail_sha256, entry_sha256 FROM change WHERE seq = 19");
  EXPECT_TRUE(said(put_in, 20, "was put in")) << put_in.second;
  const auto moved = after(
      "UPDATE change SET seq = -1 WHERE seq = 15; UPDATE change SET seq = 15 WHERE seq = 25;"
      "UPDATE change SET seq = 25 WHERE seq = -1");
  EXPECT_TRUE(said(moved, 15, "was moved: it was written as entry 25")) << moved.second;
  const auto row = after("UPDATE reading SET value_nm = value_nm + 1000 WHERE place = 3");
  EXPECT_NE(row.second.find("of reading is not as the journal tells it: value_nm"), std::string::npos) << row.second;
}

TEST_F(Journal, KeepsWhatWasCutOffItsEndVisibleWhenItGoesOn) {
  write_shop();
  tamper("DELETE FROM change WHERE seq = (SELECT max(seq) FROM change)");
  go_on("Ada Fern");
  go_on("Ben Holt");
  EXPECT_NE(fault().find("journal.resumed"), std::string::npos) << fault();
}

constexpr const char* kHashesOut = "UPDATE change SET salt = '', detail_sha256 = '', entry_sha256 = '';";
constexpr const char* kSignaturesOut =
    "DELETE FROM journal_head; DELETE FROM journal_seal; DELETE FROM change WHERE kind = 'journal.key';";

TEST_F(Journal, WhoseHashesWereTakenOutIsNotChainedAnewWhereItWasSignedBefore) {
  write_shop();
  fs::copy(file(), file().string() + ".whole");
  const std::string altered = "UPDATE change SET by_person_id = subject_id WHERE kind = 'job.sealed';";
  for (const std::string& edit : {altered + kHashesOut, altered + kHashesOut + kSignaturesOut}) {
    fs::copy(file().string() + ".whole", file(), fs::copy_options::overwrite_existing);
    tamper(edit);
    go_on("Ada Fern");
    go_on("Ben Holt");
    EXPECT_NE(fault(), "nothing wrong") << edit;
    std::map<std::string, int> kinds;
    for (const Change& entry : open_file()->changes(0, 10'000, {})) ++kinds[entry.kind];
    EXPECT_EQ(kinds["journal.chained"], 0) << edit;
    EXPECT_EQ(kinds["journal.resumed"], 1) << edit;
  }
}

TEST_F(Journal, FromBeforeTheChainIsChainedAndCheckSaysFromWhere) {
  write_shop();
  tamper(std::string(kHashesOut) + kSignaturesOut);
  fs::remove(key_file());
  std::int64_t chained = 0;
  for (const Change& entry : open_file()->changes(0, 10'000, {})) {
    if (entry.kind == "journal.chained") chained = entry.seq;
  }
  ASSERT_GT(chained, 1);
  EXPECT_TRUE(fs::exists(key_file()));
  const Proof proof = store::prove(file());
  EXPECT_EQ(proof.fault, std::nullopt);
  ASSERT_GE(proof.proven.size(), 2U);
  EXPECT_NE(proof.proven[1].words.find("entry " + std::to_string(chained) + " (journal.chained)"), std::string::npos)
      << proof.proven[1].words;
}

TEST_F(Journal, IsSignedWithAKeyThatOnlyItsOwnerReads) {
  write_shop();
  struct stat status {};
  ASSERT_EQ(::stat(key_file().c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0600U);
  const auto head = open_file()->journal_head();
  EXPECT_TRUE(signature_holds(head.public_key, signed_text(head.seq, head.entry_sha256), head.signature));
}

TEST_F(Journal, GoesOnWithANewKeyAndSaysSoWhenTheOldOneIsLost) {
  write_shop();
  const std::string before = open_file()->journal_head().public_key;
  fs::remove(key_file());
  EXPECT_EQ(fault(), "nothing wrong");
  go_on("Ada Fern");
  const auto opened = open_file();
  EXPECT_NE(opened->journal_head().public_key, before);
  std::vector<Change> keys;
  for (const Change& entry : opened->changes(0, 10'000, {})) {
    if (entry.kind == "journal.key") keys.push_back(entry);
  }
  ASSERT_EQ(keys.size(), 2U);
  EXPECT_NE(keys[1].detail_json.find(before), std::string::npos);
  EXPECT_EQ(fault(), "nothing wrong");
}

TEST_F(Journal, WrittenAnewWithAnotherKeyIsSeenByTheKeyBesideTheFile) {
  write_shop();
  const auto key = file().string() + ".key";
  fs::rename(key, key + ".aside");
  go_on("Ada Fern");
  fs::rename(key + ".aside", key);
  EXPECT_NE(fault().find("another key than the one beside the file"), std::string::npos) << fault();
}

TEST_F(Journal, RefusesAKeyFileThatHoldsNoKey) {
  write_shop();
  std::ofstream(key_file(), std::ios::trunc) << "no key\n";
  EXPECT_THROW(open_file(), StoreError);
}

TEST_F(Journal, OfARestoredBackupGoesOnWhole) {
  write_shop();
  const auto made = back_up(file(), file().parent_path() / "backups", clock, 5);
  go_on("Ada Fern");
  restore(file().parent_path() / "backups" / made.name, file(), clock);
  EXPECT_EQ(fault(), "nothing wrong");
  go_on("Ben Holt");
  EXPECT_EQ(fault(), "nothing wrong");
}

TEST_F(Journal, TellsWhatAnImportBroughtIntoAShopInUse) {
  write_shop();
  const std::string text = export_shop(shop).dump();
  const auto there = shop_of_another();
  EXPECT_EQ(import_export(*there, text).jobs_added, 2);
  EXPECT_EQ(store::prove(other_file()).fault.value_or("nothing wrong"), "nothing wrong");
}

TEST(DemoShop, IsMadeAgainFromItsJournal) {
  const auto store = open_in_memory();
  make_demo(*store, 7, UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)), {});
  EXPECT_EQ(difference_from_journal(dynamic_cast<SqliteStore&>(*store)), std::nullopt);
}

TEST_F(Journal, OfAnErasedPersonWhoWasBroughtHasTheNameInNoEntry) {
  write_shop();
  const std::string text = export_shop(shop).dump();
  {
    const auto there = shop_of_another();
    import_export(*there, text);
    WatchedStore watched(*there);
    Shop here(watched, {.now = [this] { return clock; },
                        .random = [](std::span<std::uint8_t> bytes) { shop::fresh_bytes(bytes); }});
    Uuid student;
    for (const Person& one : here.people()) {
      if (one.name == "Tomasz Wren") student = one.id;
    }
    here.erase_person(student, teacher);
    EXPECT_EQ(watched.words_forgotten, 1);
    for (const Change& entry : here.changes(0, 10'000, {})) {
      EXPECT_EQ(entry.detail_json.find("Tomasz Wren"), std::string::npos) << entry.seq << " " << entry.kind;
    }
  }
  EXPECT_EQ(store::prove(other_file()).fault.value_or("nothing wrong"), "nothing wrong");
}

TEST_F(Journal, WithANameErasedHoldsAndHasThatNameNowhere) {
  const std::string name = "Quillon Vasterby";
  write_shop();
  shop::Uuid student;
  {
    const auto opened = open_file();
    shop::Shop here(*opened, {.now = [this] { return clock; },
                              .random = [](std::span<std::uint8_t> bytes) { shop::fresh_bytes(bytes); }});
    student = here.put_person({.id = here.new_id(), .name = name, .role = shop::Role::student}, teacher).id;
    shop::Job job = here.jobs({.state = shop::JobState::open, .words = ""}).lines.at(0).job;
    job.worker_person_id = student;
    here.change_job(job, teacher);
    ASSERT_EQ(here.jobs({.words = "Quillon"}).total, 1);
    here.erase_person(student, teacher);
    EXPECT_EQ(here.jobs({.words = "Quillon"}).total, 0);
  }
  EXPECT_EQ(fault(), "nothing wrong");
  for (const char* beside : {"", "-wal"}) {
    std::ifstream in(file().string() + beside, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    for (const char* word : {"Quillon", "quillon", "Vasterby", "vasterby"}) {
      EXPECT_EQ(bytes.find(word), bytes.npos) << word << beside;
    }
  }
}

}  // namespace
}  // namespace brakewright::store
