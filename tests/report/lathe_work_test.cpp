#include "report/content/lathe_work.hpp"

#include <gtest/gtest.h>

#include "core/input_error.hpp"
#include "report/content/build.hpp"
#include "report/sheet/sheet.hpp"
#include "shop/stacks.hpp"
#include "tests/report/turned_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using namespace sample;
using shop::Paper;
using test::has;
using test::text_of_pdf;

TEST(LatheWork, MakesOneMoreSheetOnlyWhereSomethingWasDoneAtTheLathe) {
  WholeJob job = measured_job(8, 1, 2, true);
  job.assess();
  EXPECT_EQ(sheets(job.input(), Paper::a4), 2);
  EXPECT_EQ(sheets(turned_job().input(), Paper::a4), 3);
  EXPECT_EQ(sheets(turned_job(1).input(), Paper::letter), 3);
}

TEST(LatheWork, NamesAllThreeSheetsToWhoeverAsksForAnother) {
  try {
    record_svg(turned_job(1).input(), Paper::a4, 4);
    FAIL() << "accepted";
  } catch (const InputError& error) {
    EXPECT_STREQ(error.what(), "this record has 3 sheets: accepted here: 1 to 3");
  }
}

TEST(LatheWork, IsOnThePaperOfBothSizesWithStackProofPassesAndSteps) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string text = text_of_pdf(record_pdf(turned_job().input(), paper));
    for (const char* words : {"sheet 3 of 3",
                              "at the lathe",
                              "Left rotor: stack on the arbor",
                              "Right rotor: stack on the arbor",
                              "damping spacer",
                              "half way up",
                              "left-hand thread",
                              "Shoulder to nut 119.0 mm",
                              "2 scratch marks: 62 µm as mounted",
                              "the rotor's own 48 µm, the mount's 21 µm",
                              "it goes with the rotor",
                              "allowed 50 µm",
                              "2:40",
                              "2:45",
                              "stopped",
                              "0:31",
                              "4:07",
                              "leaves 22.560 mm",
                              "As worked out, tip 1, radius 0.4, 6:40 of cutting",
                              "Before the cut: damping band on",
                              "Pass 2: something was wrong",
                              "Finish: washed, white",
                              "10:44–10:48",
                              "Tomasz Brandt"}) {
      EXPECT_TRUE(has(text, words)) << words;
    }
  }
}

TEST(LatheWork, NumbersThePassesAsCutBesideTheirPlanAndAStoppedOneIsDoneAgain) {
  const WholeJob job = turned_job(1);
  const LatheWorkContent work = lathe_work_of(job.input(), job.file.parts[0]);
  ASSERT_EQ(work.passes.rows.size(), 3U);
  EXPECT_EQ(work.passes.rows[0],
            (std::vector<std::string>{"1", "3", "4", "150", "0.150", "2:40", "2:45", "1.8", "22.660", ""}));
  EXPECT_EQ(work.passes.rows[1][9], "stopped");
  EXPECT_EQ(work.passes.rows[2][5], "4:00");
  EXPECT_EQ(work.outboard_um, (std::vector<double>{3 * 25.4, 2 * 25.4}));
}

TEST(LatheWork, ShowsAPlanThatIsNotCutYetAsSuch) {
  WholeJob job = turned_job(1);
  job.file.passes.clear();
  job.assess();
  const LatheWorkContent work = lathe_work_of(job.input(), job.file.parts[0]);
  ASSERT_EQ(work.passes.rows.size(), 2U);
  EXPECT_EQ(work.passes.rows[1][6], "–");
  EXPECT_EQ(work.passes.rows[1][9], "not cut yet");
}

TEST(LatheWork, TakesBackWhatWasUntickedAndSetsTroubleOnItsOwnLine) {
  const WholeJob job = turned_job(1);
  const Table steps = steps_of(job.input(), job.file.parts[0]);
  std::vector<std::string> ticked;
  for (const auto& row : steps.rows) ticked.push_back(row[0] + " " + row[1]);
  EXPECT_EQ(ticked, (std::vector<std::string>{
                        "10:02 Before mounting: bore clean.",
                        "10:14–10:15 Before the cut: damping band on, guards, glasses, sleeves and hair seen to.",
                        "10:16–10:17 Pass 1: machine on.", "10:24 Pass 2: something was wrong while cutting: chatter.",
                        "10:44–10:48 Finish: washed, white cloth stayed white."}));
}

TEST(LatheWork, DrawsEveryPieceOfTheStackEndToEndFromTheShoulderToTheNut) {
  const WholeJob job = turned_job(1);
  const StackSection section = section_of(job.input(), job.file.parts[0], job.file.mounts[0]);
  const auto reach = [&](const std::string& label) {
    std::pair<double, double> along{1e9, -1e9};
    for (const StackShape& shape : section.shapes) {
      if (shape.label != label) continue;
      for (const Point& point : shape.outline) {
        along = {std::min(along.first, point.x_mm), std::max(along.second, point.x_mm)};
      }
    }
    return along;
  };
  EXPECT_EQ(reach("1"), std::pair(0.0, 50.0));
  EXPECT_EQ(reach("rotor"), std::pair(50.0, 57.0));
  EXPECT_EQ(reach("3"), std::pair(36.0, 64.0));  // half of the cone's 28 mm on either side of the bore's edge
  EXPECT_EQ(reach("2"), std::pair(8.0, 36.0));   // from the floor of the cup to the cone
  EXPECT_EQ(reach("4"), std::pair(57.0, 87.0));
  EXPECT_EQ(reach("5"), std::pair(87.0, 119.0));
  EXPECT_EQ(reach("6"), std::pair(119.0, 143.0));
}

TEST(LatheWork, SaysWhyThereIsNoPictureWhereAPieceIsNotOnRecord) {
  WholeJob job = turned_job(1);
  job.pieces.pop_back();
  const LatheWorkContent work = lathe_work_of(job.input(), job.file.parts[0]);
  EXPECT_TRUE(work.stack.shapes.empty());
  EXPECT_EQ(work.pieces.rows.back()[1], "not on record");
}

TEST(LatheWork, ClipsNamesAndNotesThatAreLongerThanThePaperIsWide) {
  WholeJob job = turned_job();
  const std::string endless(3000, 'W');
  for (shop::Piece& one : job.pieces) one.name = endless;
  for (shop::Mount& mount : job.file.mounts) mount.reason = endless;
  for (shop::MountProof& proof : job.file.mount_proofs) proof.reason = endless;
  for (shop::Pass& pass : job.file.passes) pass.note = endless;
  for (shop::BenchStep& step : job.file.bench_steps) step.detail = endless;
  const std::string text = text_of_pdf(record_pdf(job.input(), Paper::letter));
  EXPECT_TRUE(has(text, "…"));
  EXPECT_TRUE(has(text, "As worked out, tip 1"));
}

/// Steps of one person: each ticked one after the other, a minute apart.
void tick_all(WholeJob& job, std::int64_t pass, const std::vector<const char*>& words, const char* detail = "") {
  for (const char* word : words) {
    const int number = static_cast<int>(job.file.bench_steps.size());
    job.file.bench_steps.push_back({.id = id_of(26, number),
                                    .job_id = job.file.job.id,
                                    .part_id = job.file.parts[0].id,
                                    .step = word,
                                    .pass = pass,
                                    .detail = detail,
                                    .by_person_id = id_of(2, 1),
                                    .taken_at = at_minute(60 + number),
                                    .received_at = at_minute(60 + number)});
  }
}

TEST(LatheWork, TellsPassesThatWentAlikeInOneSentenceAndWhoseTheyAreBesideTheHeading) {
  WholeJob job = turned_job(1);
  job.file.bench_steps.clear();
  tick_all(job, 1, {"dial_outboard"}, "21");
  for (const std::int64_t pass : {2, 3, 4}) tick_all(job, pass, {"lock", "feed_on"});
  tick_all(job, 5, {"feed_on", "something_new"});
  const Table steps = steps_of(job.input(), job.file.parts[0]);
  EXPECT_EQ(steps.rows,
            (std::vector<std::vector<std::string>>{{"10:00", "Pass 1: outboard dial at 21."},
                                                   {"10:01–10:06", "Passes 2 to 4, each: tools locked, feed on."},
                                                   {"10:07–10:08", "Pass 5: feed on, something new."}}));
  EXPECT_EQ(steps_note_of(job.input(), job.file.parts[0]), "what was ticked, by Ida Sandvik");
}

}  // namespace
}  // namespace brakewright::report
