#include "server/records/record_check.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "report/carried/carried.hpp"
#include "server/records/record_matter.hpp"
#include "shop/json_all.hpp"
#include "shop/school/school.hpp"
#include "store/copy.hpp"
#include "store/past.hpp"
#include "store/sqlite_school.hpp"
#include "tests/store/journal/shop_on_disk.hpp"

namespace brakewright::server {
namespace {

using namespace shop;
namespace fs = std::filesystem;

constexpr const char* kAddress = "http://192.0.2.7:8520";

/// The shop of the journal's tests at a desk: somebody brings a record.
class Desk : public store::ShopOnDisk {
 protected:
  void SetUp() override {
    write_shop();
    const auto opened = store::open_beside(file());
    for (const JobLine& line : opened->jobs({}).lines) {
      (line.job.state == JobState::sealed ? sealed : still_open) = line.job;
    }
    clock += std::chrono::hours(1);
  }

  template <class Work>
  auto in_shop(Work&& work) const {
    const auto opened = store::open_beside(file());
    Shop here(*opened, {.now = [this] { return clock; }, .random = [](std::span<std::uint8_t>) {}});
    const auto rooms = store::open_school(*opened);
    const School school(here, *rooms, [this] { return clock; });
    return work(here);
  }

  std::string print(const Job& job, Paper paper = Paper::a4, const std::string& address = kAddress) const {
    return in_shop(
        [&](Shop& here) { return record_file(here, job.id, false, paper, {.printed_at = clock, .address = address}); });
  }

  template <class Work>
  void change(Work&& work) const {
    const auto opened = open_file();
    Shop here(*opened,
              {.now = [this] { return clock; }, .random = [](std::span<std::uint8_t> bytes) { fresh_bytes(bytes); }});
    work(here);
  }

  RecordCheck check(const std::string& pdf, bool knows_names = true) const {
    return check_record(pdf, file(), {.knows_names = knows_names, .address = kAddress});
  }
  std::string answer(const std::string& pdf) const {
    try {
      return std::string(word_of_answer(check(pdf).answer));
    } catch (const InputError& refusal) {
      return refusal.code();
    }
  }

  /// Prints the sealed job, and writes an entry of it as no operation of the shop does.
  std::pair<std::string, std::int64_t> append(const std::string& kind, const Job& told) {
    std::string pdf = print(sealed);
    const auto opened = open_file();
    std::int64_t seq = 0;
    opened->transact([&] {
      seq = opened
                ->append({.id = id(),
                          .kind = kind,
                          .job_id = sealed.id,
                          .subject_id = sealed.id,
                          .detail_json = json_text(told),
                          .by_person_id = teacher,
                          .at = clock})
                .seq;
    });
    return {std::move(pdf), seq};
  }
  void expect_later(const std::pair<std::string, std::int64_t>& brought) const;

  Job sealed, still_open;
};

std::string all_of(const RecordCheck& check) {
  std::string text;
  for (const std::string& sentence : check.sentences) text += sentence + "\n";
  return text;
}

bool says(const RecordCheck& check, const std::string& words) { return all_of(check).find(words) != std::string::npos; }

void Desk::expect_later(const std::pair<std::string, std::int64_t>& brought) const {
  const RecordCheck found = check(brought.first);
  EXPECT_EQ(word_of_answer(found.answer), "sealed_later");
  EXPECT_EQ(found.jobs.at(0).later_entry, brought.second);
  EXPECT_TRUE(
      says(found, "does not stand: it was taken back or made anew later, in entry " + std::to_string(brought.second)));
  EXPECT_TRUE(says(found, "byte for byte"));
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.rfind(what);
  if (at == std::string::npos) throw std::runtime_error("nothing to replace: " + what);
  return text.replace(at, what.size(), with);
}

TEST_F(Desk, SaysOfWhatTheShopPrintedThatItIsThatByteForByteOnWhateverPaper) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    for (const char* address : {kAddress, ""}) {
      const RecordCheck found = check(print(sealed, paper, address));
      EXPECT_EQ(word_of_answer(found.answer), "as_printed") << all_of(found);
      ASSERT_EQ(found.jobs.size(), 1U);
      EXPECT_EQ(found.jobs[0].number, sealed.number);
      EXPECT_EQ(found.jobs[0].sealed_at, sealed.sealed_at);
      EXPECT_EQ(found.jobs[0].sealed_by, "Ines Marrow");
      EXPECT_TRUE(says(found, "byte for byte what this shop prints of job " + std::to_string(sealed.number)));
      EXPECT_TRUE(says(found, "sealed by Ines Marrow on 20"));
      EXPECT_FALSE(says(found, "leads to"));
    }
  }
}

TEST_F(Desk, TellsNamesToNobodyWhoMayNotKnowThem) {
  const std::string pdf = print(sealed);
  const RecordCheck found = check(pdf, false);
  EXPECT_EQ(word_of_answer(found.answer), "as_printed");
  EXPECT_EQ(found.jobs.at(0).sealed_by, "");
  EXPECT_EQ(all_of(found).find("Marrow"), std::string::npos);
}

TEST_F(Desk, KnowsARecordAgainAfterAllThatItNamesWasChanged) {
  const std::string pdf = print(sealed);
  clock += std::chrono::hours(1);
  change([&](Shop& here) {
    here.put_person({.id = teacher, .name = "Ines Otherwise", .role = Role::teacher}, teacher);
    Settings settings = here.settings();
    settings.shop_name = "Under another name";
    settings.default_unit = Unit::in;
    settings.confidence = 0.8;
    here.change_settings(settings, teacher);
    Instrument gauge = here.instruments().front();
    gauge.name = "Renamed";
    gauge.mpe = {90'000};
    here.put_instrument(gauge, teacher);
    here.amend({.id = here.new_id(), .job_id = sealed.id, .text = "and once more: no shake"}, teacher);
  });
  EXPECT_NE(pdf, print(sealed));
  const RecordCheck found = check(pdf);
  EXPECT_EQ(word_of_answer(found.answer), "as_printed") << all_of(found);
  EXPECT_EQ(found.jobs.at(0).amendments_since, 1);
  EXPECT_TRUE(says(found, "got 1 amendment, the newest in entry"));
  EXPECT_EQ(answer(print(sealed)), "as_printed");
}

TEST_F(Desk, FindsOneAlteredByteAnywhereInTheFile) {
  std::string pdf = print(sealed);
  ASSERT_EQ(answer(pdf), "as_printed");
  std::vector<std::size_t> places = {0, 9, pdf.size() - 1, pdf.rfind("/CreationDate") + 18, pdf.rfind("/Title") + 9};
  for (std::size_t at = 1'000; at < pdf.size(); at += pdf.size() / 12) places.push_back(at);
  const std::size_t keywords = pdf.rfind("/Keywords");
  for (std::size_t at = keywords; at < keywords + 420; at += 13) places.push_back(at);
  for (const std::size_t at : places) {
    pdf[at] = static_cast<char>(pdf[at] ^ 1);
    EXPECT_NE(answer(pdf), "as_printed") << "byte " << at;
    pdf[at] = static_cast<char>(pdf[at] ^ 1);
  }
  EXPECT_NE(answer(pdf + "\n"), "as_printed");
  EXPECT_EQ(answer(pdf), "as_printed");
}

TEST_F(Desk, DoesNotTakeAChangedNumberUnderTheGenuineSealForTheShops) {
  const std::string forged = in_shop([&](Shop& here) {
    RecordMatter matter = record_matter(here, sealed.id, {.printed_at = clock, .address = kAddress});
    matter.file.readings.back().value = mm("22.500");
    return report::record_pdf(matter.input(), Paper::a4);
  });
  ASSERT_EQ(report::carried_in(forged), report::carried_in(print(sealed)));
  const RecordCheck found = check(forged);
  EXPECT_EQ(word_of_answer(found.answer), "differs");
  EXPECT_TRUE(says(found, "is not what this shop prints of it"));
  EXPECT_TRUE(says(found, "Either it was altered after it was printed, or another version of the program"));
}

TEST_F(Desk, TellsASealThatItsJournalHasNot) {
  const std::string pdf = print(sealed);
  const report::CarriedJob job = report::carried_in(pdf).jobs.at(0);
  const std::string entry = " sealed " + std::to_string(job.seal_entry) + " ";
  const auto why = [&](const std::string& altered) {
    const RecordCheck found = check(altered);
    EXPECT_EQ(word_of_answer(found.answer), "not_in_journal");
    EXPECT_FALSE(says(check(altered, false), "Of its journal"));
    return found.sentences.at(1);
  };
  EXPECT_NE(why(replaced(pdf, entry, " sealed 99999 ")).find("is not there: the journal ends with"), std::string::npos);
  EXPECT_NE(why(replaced(pdf, entry, " sealed 3 ")).find("entry 3 seals no job"), std::string::npos);
  EXPECT_NE(why(replaced(pdf, job.seal_entry_sha256, std::string(64, '0'))).find("has another hash"),
            std::string::npos);
  EXPECT_NE(why(replaced(pdf, job.seal_sha256, std::string(64, '0'))).find("another hash of its content"),
            std::string::npos);
  EXPECT_NE(why(replaced(pdf, "job " + std::to_string(job.number) + " sealed", "job 88 sealed")).find("another job"),
            std::string::npos);
}

TEST_F(Desk, MissesWhatAnOlderCopyOfTheFileNoLongerHas) {
  const fs::path older = file().string() + ".older";
  store::copy_database(file(), older);
  change([&](Shop& here) {
    here.amend({.id = here.new_id(), .job_id = sealed.id, .text = "told to the owner"}, teacher);
  });
  const std::string pdf = print(sealed);
  EXPECT_EQ(answer(pdf), "as_printed");
  fs::remove(file().string() + "-wal");
  fs::remove(file().string() + "-shm");
  fs::rename(older, file());
  const RecordCheck found = check(pdf);
  EXPECT_EQ(word_of_answer(found.answer), "not_in_journal");
  EXPECT_TRUE(says(found, "when it was printed the journal had entry"));
}

TEST_F(Desk, VouchesForNothingWhenItsJournalWasBent) {
  const std::string pdf = print(sealed);
  tamper("UPDATE change SET at = '2026-01-01T00:00:00.000Z' WHERE seq = 5");
  const RecordCheck found = check(pdf);
  EXPECT_EQ(word_of_answer(found.answer), "not_proven");
  EXPECT_TRUE(says(found, "First fault: entry 5"));
  const RecordCheck stranger = check(pdf, false);
  EXPECT_EQ(word_of_answer(stranger.answer), "not_proven");
  EXPECT_FALSE(says(stranger, "First fault"));
}

TEST_F(Desk, VouchesForNothingWhenTheSealsSignatureWasReplaced) {
  const std::string pdf = print(sealed);
  tamper("UPDATE journal_seal SET signature = '" + std::string(128, '0') + "'");
  EXPECT_TRUE(says(check(pdf), "the signature of entry"));
}

TEST_F(Desk, SaysThatASealWasMadeAnewLater) { expect_later(append("job.sealed", sealed)); }

TEST_F(Desk, SaysThatASealWasTakenBackLater) {
  Job open_again = sealed;
  open_again.state = JobState::open;
  expect_later(append("job.changed", open_again));
}

TEST_F(Desk, SaysOfAnOpenJobsRecordThatItHasNoSeal) {
  const RecordCheck found = check(print(still_open));
  EXPECT_EQ(word_of_answer(found.answer), "not_sealed");
  EXPECT_TRUE(found.jobs.empty());
  EXPECT_TRUE(says(found, "says itself that it is not sealed"));
}

TEST_F(Desk, SaysWhenATimeOrAnAddressIsNotTheShops) {
  const std::string elsewhere = print(sealed, Paper::a4, "http://203.0.113.9");
  const RecordCheck led = check(elsewhere);
  EXPECT_EQ(word_of_answer(led.answer), "as_printed");
  EXPECT_TRUE(says(led, "Its code leads to http://203.0.113.9/jobs/"));
  clock -= std::chrono::hours(24 * 30);
  const RecordCheck early = check(print(sealed));
  EXPECT_TRUE(says(early, "a clock was set, or that time is not true"));
}

TEST_F(Desk, NamesAnErasedNameAsAReasonForADifference) {
  Uuid student;
  in_shop([&](Shop& here) {
    for (const Person& one : here.people()) {
      if (one.role == Role::student) student = one.id;
    }
    return 0;
  });
  change([&](Shop& here) { here.amend({.id = here.new_id(), .job_id = sealed.id, .text = "seen again"}, student); });
  const std::string pdf = print(sealed);
  ASSERT_EQ(answer(pdf), "as_printed");
  change([&](Shop& here) { here.erase_person(student, teacher); });
  const RecordCheck found = check(pdf);
  EXPECT_EQ(word_of_answer(found.answer), "differs");
  EXPECT_TRUE(says(found, "names somebody whose name was erased since"));
  EXPECT_EQ(answer(print(sealed)), "as_printed");
}

TEST_F(Desk, RefusesWhatIsNoRecord) {
  const std::string pdf = print(sealed);
  EXPECT_EQ(answer("no pdf"), "not_a_pdf");
  EXPECT_EQ(answer(pdf.substr(0, pdf.size() - 2'000)), "damaged");
  EXPECT_EQ(answer("%PDF-1.7\n%%EOF\n"), "no_record");
  EXPECT_EQ(answer(pdf + std::string(report::kMostRecordBytes, ' ')), "too_large");
}

}  // namespace
}  // namespace brakewright::server
