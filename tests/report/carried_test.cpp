#include "report/carried/carried.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/input_error.hpp"
#include "report/record.hpp"
#include "tests/report/job_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using shop::Paper;

const std::string kEntryHash = "a1b2c3d4e5f60718" + std::string(48, '9');
const std::string kSealHash(64, 'c');
const std::string kNewestHash(64, 'd');
const std::string kKey(64, 'e');

sample::WholeJob sealed_job() {
  sample::WholeJob job = sample::measured_job(8, 1, 1, true);
  job.file.job.state = shop::JobState::sealed;
  job.file.job.sealed_at = sample::at_minute(150);
  job.file.job.sealed_by_person_id = sample::id_of(2, 2);
  job.file.job.seal_sha256 = kSealHash;
  job.assess();
  return job;
}

RecordInput traced(const sample::WholeJob& job) {
  RecordInput input = job.input();
  input.seal_entry = shop::JournalHead{.seq = 1204, .entry_sha256 = kEntryHash, .public_key = kKey};
  input.newest_entry = {.seq = 1310, .entry_sha256 = kNewestHash};
  return input;
}

std::string code_of(const std::string& pdf) {
  try {
    carried_in(pdf);
    return "read";
  } catch (const InputError& refusal) {
    return refusal.code();
  }
}

TEST(Carried, SealOfAJobIsWholeInThePdfsKeywords) {
  const auto job = sealed_job();
  const std::string pdf = record_pdf(traced(job), Paper::letter);
  const Carried carried = carried_in(pdf);
  EXPECT_EQ(carried.paper, Paper::letter);
  EXPECT_EQ(carried.printed_at, sample::at_minute(162));
  EXPECT_EQ(carried.newest_entry, 1310);
  EXPECT_EQ(carried.newest_entry_sha256, kNewestHash);
  EXPECT_EQ(carried.job_url, job.job_url);
  const CarriedJob wanted{.number = 41,
                          .sealed = true,
                          .seal_entry = 1204,
                          .seal_entry_sha256 = kEntryHash,
                          .seal_sha256 = kSealHash,
                          .public_key = kKey};
  EXPECT_EQ(carried.jobs, std::vector{wanted});
  EXPECT_TRUE(traceable(carried));
  const test::WrittenFile file(pdf, ".pdf");
  const std::string info = test::output_of("pdfinfo " + file.path());
  EXPECT_NE(info.find(text_of(carried)), std::string::npos) << info;
  EXPECT_EQ(text_of(carried), "Brakewright record 1; paper letter; printed 2026-03-04T11:42:00.000Z; journal 1310 " +
                                  kNewestHash + "; address http://192.168.4.20:8520/jobs/41; job 41 sealed 1204 " +
                                  kEntryHash + " " + kSealHash + " " + kKey);
}

TEST(Carried, SealLineOfEverySheetNamesTheEntryAndBeginsItsHashInGroups) {
  const auto job = sealed_job();
  const std::string text = test::text_of_pdf(record_pdf(traced(job), Paper::a4));
  std::size_t lines = 0;
  for (std::size_t at = 0; (at = text.find("entry 1204", at)) != std::string::npos; ++at) {
    const std::string line = text.substr(at, text.find('\n', at) - at);
    EXPECT_NE(line.find("a1b2 c3d4 e5f6 0718"), std::string::npos) << line;
    EXPECT_NE(line.find("by Tomasz Brandt"), std::string::npos) << line;
    ++lines;
  }
  EXPECT_EQ(lines, static_cast<std::size_t>(sheets(job.input(), Paper::a4)));
  EXPECT_NE(text.find(kSealHash), std::string::npos);
  EXPECT_EQ(test::words_outside(record_pdf(traced(job), Paper::letter)), 0);
}

TEST(Carried, OpenJobSaysThatItIsNotSealedAndCarriesNoEntry) {
  auto job = sample::measured_job(8, 1, 1, true);
  job.assess();
  RecordInput input = job.input();
  input.newest_entry = {.seq = 1310, .entry_sha256 = kNewestHash};
  const std::string pdf = record_pdf(input, Paper::a4);
  EXPECT_EQ(text_of(carried_in(pdf)), "Brakewright record 1; job 41 not sealed");
  EXPECT_FALSE(traceable(carried_in(pdf)));
  const std::string text = test::text_of_pdf(pdf);
  EXPECT_NE(text.find("not sealed: this job is still open"), std::string::npos);
  EXPECT_EQ(pdf.find(kNewestHash), std::string::npos);
}

TEST(Carried, JobThatWasSealedInNoEntryOfTheJournalSaysSo) {
  const auto job = sealed_job();
  const std::string pdf = record_pdf(job.input(), Paper::a4);
  EXPECT_EQ(text_of(carried_in(pdf)), "Brakewright record 1; job 41 sealed elsewhere");
  EXPECT_NE(test::text_of_pdf(pdf).find("in no entry of this journal"), std::string::npos);
}

TEST(Carried, SameInputGivesTheSameBytesAndAnotherEntryOthers) {
  const auto job = sealed_job();
  RecordInput input = traced(job);
  const std::string first = record_pdf(input, Paper::a4);
  EXPECT_EQ(first, record_pdf(traced(job), Paper::a4));
  input.newest_entry.seq += 1;
  EXPECT_NE(first, record_pdf(input, Paper::a4));
}

TEST(Carried, VehicleCarriesEachOfItsJobs) {
  const auto first = sealed_job();
  auto second = sample::measured_job(8, 1, 1, false);
  second.file.job.number = 42;
  second.file.job.axle = shop::Axle::rear;
  second.assess();
  const Carried carried = carried_in(vehicle_pdf({second.input(), traced(first)}, Paper::a4));
  ASSERT_EQ(carried.jobs.size(), 2U);
  EXPECT_EQ(carried.jobs[0].seal_entry, 1204);
  EXPECT_EQ(carried.jobs[1], (CarriedJob{.number = 42}));
  EXPECT_EQ(carried.newest_entry, 1310);
}

TEST(Carried, AddressThatIsNoItemIsLeftOut) {
  auto job = sealed_job();
  job.job_url = "http://shop; job 7 not sealed";
  EXPECT_EQ(carried_in(record_pdf(traced(job), Paper::a4)).job_url, "");
}

TEST(Carried, WhatIsNoRecordIsRefusedByItsKind) {
  const auto job = sealed_job();
  const std::string pdf = record_pdf(traced(job), Paper::a4);
  EXPECT_EQ(code_of(pdf), "read");
  EXPECT_EQ(code_of(""), "not_a_pdf");
  EXPECT_EQ(code_of("number,vehicle\n41,blue estate\n"), "not_a_pdf");
  EXPECT_EQ(code_of(pdf.substr(0, pdf.size() / 2)), "damaged");
  EXPECT_EQ(code_of("%PDF-1.5\n1 0 obj << /Title (other) >>\n%%EOF\n"), "no_record");
  EXPECT_EQ(code_of("%PDF-1.5\n<< /Keywords (brakes, discs) >>\n%%EOF\n"), "no_record");
  EXPECT_EQ(code_of("%PDF-1.5\n<< /Keywords"), "damaged");
  EXPECT_EQ(code_of("%PDF-1.5\n<< /Keywords %%EOF"), "no_record");
  EXPECT_EQ(code_of(pdf + std::string(kMostRecordBytes, ' ')), "too_large");
}

TEST(Carried, KeywordsThatAreNotWrittenAsARecordsAreDamaged) {
  const auto with = [](const std::string& words) {
    return code_of("%PDF-1.5\n<< /Keywords (Brakewright record " + words + ") >>\n%%EOF\n");
  };
  EXPECT_EQ(with("1; job 41 not sealed"), "read");
  for (const char* words :
       {"1", "2; job 41 not sealed", "1; job 041 not sealed", "1; job 41 not  sealed", "1; job -1 not sealed",
        "1; job 41 not sealed; ", "1; job 41 sealed 3 ab cd ef", "1; paper a4; job 41 not sealed",
        "1; job 41 not sealed; more", "1;job 41 not sealed", "1; job 99999999999999999999 not sealed"}) {
    EXPECT_EQ(with(words), "damaged") << words;
  }
}

TEST(Carried, KeywordsAreReadAsOtherProgramsWriteThem) {
  const auto in = [](const std::string& string) {
    return code_of("%PDF-1.5\n<< /Keywords " + string + " >>\n%%EOF\n");
  };
  EXPECT_EQ(in("(Brakewright \\\nrecord 1\\073 job 41 not\\40sealed)"), "read");
  std::string hex = "<FEFF";
  for (const char c : std::string("Brakewright record 1; job 41 not sealed")) {
    constexpr std::string_view kDigits = "0123456789ABCDEF";
    const auto byte = static_cast<unsigned char>(c);
    hex += std::string("00") + kDigits[byte / 16] + kDigits[byte % 16];
  }
  EXPECT_EQ(in(hex + ">"), "read");
}

TEST(Carried, NoSingleByteOfAFileMakesTheReaderFail) {
  const auto job = sealed_job();
  std::string pdf = record_pdf(traced(job), Paper::a4);
  const std::size_t from = pdf.rfind("/Keywords");
  ASSERT_NE(from, std::string::npos);
  const Carried carried = carried_in(pdf);
  std::size_t told = 0;
  for (std::size_t at = from; at < from + 400; ++at) {
    for (const char other : {'\0', '(', ')', '\\', '<', ' ', '7'}) {
      const char before = pdf[at];
      if (before == other) continue;
      pdf[at] = other;
      try {
        told += carried_in(pdf) == carried ? 0U : 1U;
      } catch (const InputError&) {
        ++told;
      }
      pdf[at] = before;
    }
  }
  EXPECT_GT(told, 2000U);
}

}  // namespace
}  // namespace brakewright::report
