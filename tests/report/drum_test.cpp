#include <gtest/gtest.h>

#include "report/content/build.hpp"
#include "report/content/lathe_work.hpp"
#include "report/record.hpp"
#include "tests/report/drum_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using namespace sample;
using shop::Paper;
using test::has;
using test::text_of_pdf;

FigureContent figure(const RotorContent& drum, const std::string& name) {
  for (const FigureContent& one : drum.figures) {
    if (one.name == name) return one;
  }
  throw std::runtime_error("no figure " + name);
}

RotorContent left_of(const WholeJob& job) { return content_of(job.input()).rotors.at(0); }

TEST(DrumRecord, CallsADrumADrumAndItsRecordToo) {
  const Content content = content_of(drum_job(false).input());
  EXPECT_EQ(content.title.record, "Drum record");
  EXPECT_EQ(content.rotors.at(0).title, "Left drum");
  EXPECT_EQ(content.rotors.at(0).description, "hubless, braking band 38 mm wide");
  WholeJob in_hat = drum_job(false, 1);
  in_hat.file.parts[0].kind = shop::PartKind::drum_in_hat;
  EXPECT_EQ(left_of(in_hat).title, "Right drum in the hat");
}

TEST(DrumRecord, ShowsTheWidestDiameterOutOfRoundAndBellMouthByDepth) {
  const RotorContent drum = left_of(drum_job(false));
  // 203.4 +- 0.06 and 0.06 wider at the open edge.
  EXPECT_EQ(figure(drum, "widest").limit, "up to 204.000");
  EXPECT_EQ(figure(drum, "out-of-round").before_note, "0.120 | 0.120");
  EXPECT_EQ(figure(drum, "bell-mouth").before, "+0.060");
  EXPECT_EQ(figure(drum, "bell-mouth").before_note, "open edge wider");
  EXPECT_EQ(figure(drum, "bell-mouth").limit, "taper limit 0.080");
  EXPECT_EQ(figure(drum, "widest").after, "–");
  EXPECT_EQ(figure(drum, "scoring").before, "110");
}

TEST(DrumRecord, DrawsEachDiameterAtBothOfItsEndsAndPointsToTheWidest) {
  const RotorContent drum = left_of(drum_job(false));
  EXPECT_EQ(drum.before.points, 8);
  EXPECT_EQ(drum.before.circles, 2);
  ASSERT_EQ(drum.before.cells.size(), 16U);
  ASSERT_TRUE(drum.before.lowest);
  const RingCell& widest = drum.before.cells.at(*drum.before.lowest);
  EXPECT_EQ(widest.circle, 0);
  EXPECT_DOUBLE_EQ(widest.angle_deg, 0);
  EXPECT_DOUBLE_EQ(drum.before.cells[1].angle_deg, 180);
  EXPECT_DOUBLE_EQ(drum.before.cells[1].deviation, drum.before.cells[0].deviation);
  EXPECT_TRUE(has(drum.before.caption, "at point 1, 0°"));
  EXPECT_EQ(drum.ring_words.above, "wider");
  EXPECT_TRUE(drum.scale.grows);
}

TEST(DrumRecord, PointsOfADiameterLieOnHalfATurn) {
  const RotorContent drum = left_of(drum_job(true));
  ASSERT_EQ(drum.readings.rows.size(), 4U);
  EXPECT_EQ(drum.readings.rows[1], (std::vector<std::string>{"2", "45°", "203.460", "203.400", "203.850", "203.850"}));
}

TEST(DrumRecord, TellsTheCutOnTheRadiusAndOnTheDiameter) {
  const RotorContent drum = left_of(drum_job(true));
  // Radii from 101.67 to 101.76, scoring of 0.11 and a margin of 0.01 make 0.21 mm: nine marks of 25.4 um; ten were
  // cut.
  ASSERT_EQ(drum.cut_table.rows.size(), 2U);
  EXPECT_EQ(drum.cut_table.rows[0], (std::vector<std::string>{"radius", "9", "10", "0.254"}));
  EXPECT_EQ(drum.cut_table.rows[1].back(), "0.508");
  // From a mean of 203.43 to 203.85.
  EXPECT_TRUE(has(drum.cut_note, "The diameter grew by 0.420 mm in the mean")) << drum.cut_note;
}

TEST(DrumRecord, HasTheVerdictWithItsReasonsAndTheCheckAfterTheCut) {
  const Content measured = content_of(drum_job(false).input());
  EXPECT_EQ(measured.verdict.word, "Cut");
  ASSERT_FALSE(measured.verdict.reasons.empty());
  EXPECT_TRUE(has(measured.rotors.at(0).cut_note, "Not cut yet. The least cut in whole marks leaves 203."))
      << measured.rotors.at(0).cut_note;
  const CheckContent check = left_of(drum_job(true)).check;
  EXPECT_EQ(check.word, "pass");
  EXPECT_EQ(check.lines.at(0).text, "widest 203.855, machine-to 204.000 mm");
  EXPECT_TRUE(has(check.lines.at(0).basis, "pass, p "));
}

TEST(DrumRecord, TellsAtTheLatheOfOneToolAndOfDiameters) {
  WholeJob job = drum_job(true);
  const shop::Part& part = job.file.parts.front();
  shop::CutPlan plan{.id = id_of(11, 1), .job_id = job.file.job.id, .part_id = part.id};
  plan.passes = {{.outboard_marks = 8, .rpm = 100, .feed_mm_per_rev = 0.2, .diameter_after_mm = 203.796}};
  plan.final_mm = 203.796;
  job.file.cut_plans.push_back(plan);
  for (const char* step : {"edges", "band_on", "touch_outboard", "inner_edge", "lock"}) {
    job.file.bench_steps.push_back({.id = id_of(12, static_cast<int>(job.file.bench_steps.size())),
                                    .job_id = job.file.job.id,
                                    .part_id = part.id,
                                    .step = step,
                                    .pass = 1,
                                    .by_person_id = id_of(2, 1),
                                    .taken_at = at_minute(90)});
  }
  const LatheWorkContent work = lathe_work_of(job.input(), part);
  ASSERT_EQ(work.passes.rows.size(), 1U);
  EXPECT_EQ(work.passes.columns[1].head, "marks");
  EXPECT_EQ(work.passes.rows[0][1], "8");
  EXPECT_EQ(work.passes.rows[0][2], "100");
  EXPECT_EQ(work.passes.rows[0][7], "203.796");
  EXPECT_EQ(work.steps.rows.at(0).at(1),
            "Pass 1: edge looked at, damper strap on, touched off, run to the closed end, tool locked.");
  const std::string text = text_of_pdf(record_pdf(job.input(), Paper::a4));
  EXPECT_TRUE(has(text, "on the radius; leaves: the diameter"));
  EXPECT_FALSE(has(text, "outboard"));
}

TEST(DrumRecord, HasTheLimitsOfADrumAndNoneOfADisc) {
  const Table limits = left_of(drum_job(false)).limits;
  std::vector<std::string> names;
  for (const auto& row : limits.rows) names.push_back(row[0]);
  EXPECT_EQ(names, (std::vector<std::string>{"nominal", "machine-to", "discard", "out-of-round", "taper", "scoring",
                                             "finish Ra"}));
}

TEST(DrumRecord, IsOnThePaperOfBothSizesAndNothingMeets) {
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = record_pdf(drum_job(true).input(), paper);
    const std::string text = text_of_pdf(pdf);
    for (const char* words : {"Drum record", "Left drum", "Right drum", "out-of-round", "open edge", "closed edge",
                              "narrower", "wider", "radius", "diameter", "bell-mouth"}) {
      EXPECT_TRUE(has(text, words)) << words;
    }
    EXPECT_FALSE(has(text, "rotor"));
    EXPECT_EQ(test::words_outside(pdf), 0);
  }
}

TEST(DrumRecord, OfAVehicleWithDiscsInFrontStandsBehindThem) {
  WholeJob front = measured_job(8, 1, 2, false);
  front.assess();
  const WholeJob rear = drum_job(true);
  const std::string text = text_of_pdf(vehicle_pdf({rear.input(), front.input()}, Paper::a4));
  const std::size_t discs = text.find("Rotor record");
  const std::size_t drums = text.find("Drum record");
  ASSERT_NE(discs, std::string::npos);
  ASSERT_NE(drums, std::string::npos);
  EXPECT_LT(discs, drums);
}

}  // namespace
}  // namespace brakewright::report
