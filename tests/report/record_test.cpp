#include "report/record.hpp"

#include <gtest/gtest.h>

#include <regex>

#include "core/input_error.hpp"
#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "tests/report/job_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using shop::Paper;
using test::has;
using test::text_of_pdf;

const FigureContent& figure_named(const RotorContent& rotor, const std::string& name) {
  for (const FigureContent& one : rotor.figures) {
    if (one.name == name) return one;
  }
  throw std::runtime_error("no figure " + name);
}

TEST(Record, FiguresAreThoseOfTheReadingsLessTheZeroErrorInTheShopsUnit) {
  sample::WholeJob job = sample::measured_job(8, 1, 2, true);
  job.assess();
  const Content content = content_of(job.input());
  ASSERT_EQ(content.rotors.size(), 2U);
  EXPECT_EQ(content.rotors[0].title, "Left rotor");  // the job names the right one first
  // Readings 22.850 + 0.014 cos(45 k - 68.75 deg), to 0.001: lowest 22.836 at 270 deg, highest 22.864; zero error
  // 0.002.
  const FigureContent& lowest = figure_named(content.rotors[0], "lowest");
  EXPECT_EQ(lowest.before, "22.835");
  EXPECT_EQ(lowest.before_note, "0.8990 in");
  EXPECT_EQ(figure_named(content.rotors[0], "variation").before, "0.026");
  // 0.021 (1 + cos(45 k - 22.92 deg)) to 0.001: 0.040 to 0.002; inboard 0.8 of it: 0.032 to 0.001.
  EXPECT_EQ(figure_named(content.rotors[0], "runout").before, "38 | 31");
  EXPECT_EQ(figure_named(content.rotors[0], "runout").before_note, "out | in, on car");
  EXPECT_EQ(figure_named(content.rotors[0], "finish Ra").after, "–");
}

TEST(Record, SameJobInAnInchShopIsSaidInInchesAndThou) {
  sample::WholeJob job = sample::measured_job(8, 1, 1, false);
  job.settings.default_unit = Unit::in;
  job.assess();
  const Content content = content_of(job.input());
  const FigureContent& lowest = figure_named(content.rotors[0], "lowest");
  EXPECT_EQ(lowest.before, "0.8990");
  EXPECT_EQ(lowest.before_note, "22.835 mm");
  EXPECT_EQ(lowest.limit, "machine-to 0.8740");
  EXPECT_EQ(content.rotors[0].runout.unit, "thou");
}

TEST(Record, LimitsAreShownAsTypedConvertedAndWithTheirSource) {
  sample::WholeJob job = sample::measured_job(8, 1, 1, false);
  const Table table = limits_of(job.file.parts[0].limits);
  EXPECT_EQ(table.rows[1],
            (std::vector<std::string>{"machine-to", "0.874 in", "22.200 mm", "", "service information, sheet 4"}));
  EXPECT_EQ(table.rows[2], (std::vector<std::string>{"discard", "21.8 mm", "0.8583 in", "", "cast on part"}));
  EXPECT_EQ(table.rows[5], (std::vector<std::string>{"scoring", "–", "", "", "unknown"}));
}

TEST(Record, TheCutOfEachSideIsWhatItsOwnDialTook) {
  sample::WholeJob job = sample::measured_job(8, 1, 1, true);
  job.file.cuts[0].dial_inboard_um_per_mark = 20;
  job.assess();
  const Content content = content_of(job.input());
  const auto& rows = content.rotors[0].cut_table.rows;
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].back(), "0.127");  // 5 x 25.4 um
  EXPECT_EQ(rows[1].back(), "0.120");  // 6 x 20 um
}

TEST(Record, PdfTellsTheVerdictTheCutTheCheckAndWhoDidWhat) {
  sample::WholeJob job = sample::measured_job(8, 1, 2, true);
  sample::decide(job, shop::Action::cut, shop::Action::cut, "");
  job.assess();
  const std::string text = text_of_pdf(record_pdf(job.input(), Paper::a4));
  for (const char* words : {"Lindenhof Training Workshop",
                            "M. Okonkwo-Reyes",
                            "blue estate, 2016",
                            "pulsation: felt in the pedal",
                            "front, left and right",
                            "Ida Sandvik",
                            "Tomasz Brandt, teacher",
                            "Lathe 2",
                            "Left rotor",
                            "22.835",
                            "outboard",
                            "0.127",
                            "0.152",
                            "Disc micrometer 3, 118",
                            "2025-11-03",
                            "2026-02-01 overdue",
                            "0.002 mm, 03-04 09:20",
                            "job 41",
                            "opened",
                            "2026-03-04 11:42 UTC"}) {
    EXPECT_TRUE(has(text, words)) << words;
  }
  EXPECT_FALSE(has(text, "demo data"));
  EXPECT_EQ(sheets(job.input(), Paper::a4), 2);
}

TEST(Record, OverruledVerdictKeepsBothWithNameAndReason) {
  sample::WholeJob job = sample::measured_job(8, 1, 1, false);
  sample::decide(job, shop::Action::cut, shop::Action::cut, "");
  sample::decide(job, shop::Action::cut, shop::Action::replace, "the owner wants new ones");
  job.assess();
  const VerdictContent verdict = verdict_of(job.input(), assessed_job(job.input()));
  EXPECT_EQ(verdict.decision, "Replace");
  EXPECT_EQ(verdict.decided_by, "Tomasz Brandt, teacher, 2026-03-04 10:02 UTC");
  EXPECT_EQ(verdict.decision_note, "Overrules what was computed: cut (p 0.87).");
  EXPECT_EQ(verdict.decision_reason, "the owner wants new ones (1 earlier, see the job)");
}

TEST(Record, JobWithoutReadingsMakesOneSheetAndSaysWhatIsMissing) {
  sample::WholeJob job = sample::bare_job();
  job.assess();
  EXPECT_EQ(sheets(job.input(), Paper::letter), 1);
  const std::string text = text_of_pdf(record_pdf(job.input(), Paper::letter));
  EXPECT_TRUE(has(text, "Not measured"));
  EXPECT_TRUE(has(text, "no decision yet"));
  EXPECT_TRUE(has(text, "nothing noted"));
  EXPECT_TRUE(has(text, "sheet 1 of 1"));
}

TEST(Record, TwoReadingsOfEightAreCountedAndNothingIsMadeUpFromThem) {
  sample::WholeJob job = sample::bare_job(1);
  const shop::Part& part = job.file.parts[0];
  job.file.plans.push_back({.part_id = part.id, .circles_from_edge = {{10'000'000}}});
  sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 0, 0, 8, "22.841");
  sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 0, 1, 8, "22.845");
  job.assess();
  const Content content = content_of(job.input());
  EXPECT_EQ(content.verdict.word, "No verdict yet");
  EXPECT_EQ(content.rotors[0].before.centre_value, "2 of 8");
  EXPECT_EQ(figure_named(content.rotors[0], "lowest").before, "–");
  EXPECT_EQ(sheets(job.input(), Paper::a4), 2);
}

TEST(Record, SupersededAndWithdrawnReadingsAreNotDrawn) {
  sample::WholeJob job = sample::measured_job(8, 1, 1, false);
  const shop::Part& part = job.file.parts[0];
  sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 0, 0, 8, "22.900");
  job.file.readings.back().supersedes_id = job.file.readings.front().id;
  sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 0, 1, 8, "99");
  job.file.readings.back().withdrawn_at = sample::at_minute(40);
  const Spots spots = gather_spots(job.file, part, shop::Stage::before);
  ASSERT_EQ(spots.thickness.size(), 8U);
  EXPECT_DOUBLE_EQ(spots.thickness[0].mean_mm, 22.9);
  EXPECT_LT(spots.thickness[1].mean_mm, 23);
}

TEST(Record, TwoReadingsThatStandAtOneSpotAreRepeats) {
  sample::WholeJob job = sample::bare_job(1);
  const shop::Part& part = job.file.parts[0];
  for (const char* text : {"22.840", "22.846", "22.843"}) {
    sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 0, 3, 8, text);
  }
  const Spots spots = gather_spots(job.file, part, shop::Stage::before);
  ASSERT_EQ(spots.thickness.size(), 1U);
  EXPECT_EQ(spots.thickness[0].repeats, 3);
  EXPECT_NEAR(spots.thickness[0].mean_mm, 22.843, 1e-9);
}

TEST(Record, CirclesAreCountedFromTheEdgeInWhateverOrderThePlanNamesThem) {
  sample::WholeJob job = sample::bare_job(1);
  const shop::Part& part = job.file.parts[0];
  job.file.plans.push_back({.part_id = part.id, .circles_from_edge = {{30'000'000}, {10'000'000}}});
  sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 0, 0, 8, "22.8");
  sample::add_reading(job.file, part, shop::Stage::before, shop::Quantity::thickness, 1, 0, 8, "22.9");
  const Spots spots = gather_spots(job.file, part, shop::Stage::before);
  ASSERT_EQ(spots.thickness.size(), 2U);
  EXPECT_DOUBLE_EQ(spots.thickness[0].mean_mm, 22.9);
}

TEST(Record, EveryReadingOfTwentyFourPointsOnThreeCirclesOfTwoRotorsIsOnTheTwoSheets) {
  sample::WholeJob job = sample::measured_job(24, 3, 2, true);
  job.settings.demo = true;
  job.file.job.complaint = shop::Complaint::practice;
  job.assess();
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = record_pdf(job.input(), paper);
    const std::string text = text_of_pdf(pdf);
    EXPECT_TRUE(has(text, "sheet 2 of 2"));
    EXPECT_TRUE(has(text, "demo data, invented"));
    EXPECT_FALSE(has(text, "points more, see the job"));
    std::size_t thicknesses = 0;
    const std::regex reading("22\\.(8[3-6]|58)\\d");
    const std::size_t second = text.find("Readings");
    ASSERT_NE(second, std::string::npos);
    const std::string table = text.substr(second);
    for (std::sregex_iterator hit(table.begin(), table.end(), reading), end; hit != end; ++hit) ++thicknesses;
    EXPECT_EQ(thicknesses, 24U * 3 * 2 * 2);
    EXPECT_EQ(test::words_outside(pdf), 0);
  }
}

TEST(Record, SealedJobShowsItsHashAndItsAmendmentsBesideIt) {
  sample::WholeJob job = sample::measured_job(8, 1, 1, true);
  job.file.job.state = shop::JobState::sealed;
  job.file.job.sealed_at = sample::at_minute(150);
  job.file.job.sealed_by_person_id = sample::id_of(2, 2);
  job.file.job.seal_sha256 = std::string(64, 'a');
  job.file.amendments = {{.id = sample::id_of(10, 1),
                          .job_id = job.file.job.id,
                          .text = "The odometer was read wrongly.",
                          .by_person_id = sample::id_of(2, 2),
                          .at = sample::at_minute(700)}};
  job.file.findings = {{.id = sample::id_of(11, 1),
                        .job_id = job.file.job.id,
                        .part_id = job.file.parts[0].id,
                        .kind = shop::FindingKind::heat_check,
                        .judgement = shop::Judgement::reject,
                        .note = "<i>fine</i> net",
                        .by_person_id = sample::id_of(2, 1),
                        .at = sample::at_minute(25)}};
  job.assess();
  const std::string text = text_of_pdf(record_pdf(job.input(), Paper::a4));
  EXPECT_TRUE(has(text, std::string(64, 'a')));
  EXPECT_TRUE(has(text, "by Tomasz Brandt"));
  EXPECT_TRUE(has(text, "The odometer was read wrongly."));
  EXPECT_TRUE(has(text, "Right: heat check – reject. <i>fine</i> net"));
}

TEST(Record, TimesAreUtcUnlessALocalClockIsGiven) {
  EXPECT_EQ(time_figure(sample::at_minute(15), {}), "2026-03-04 09:15 UTC");
  EXPECT_EQ(time_figure(sample::at_minute(15), LocalClock{std::chrono::minutes(-600), "HST"}), "2026-03-03 23:15 HST");
}

TEST(Record, ProbabilitiesNeverSayCertain) {
  EXPECT_EQ(probability_figure(1.0), ">0.999");
  EXPECT_EQ(probability_figure(0.0), "<0.001");
  EXPECT_EQ(probability_figure(0.9932), "0.993");
  EXPECT_EQ(probability_figure(0.5), "0.50");
}

TEST(Record, DeviationsHaveARealMinusSignAndNoSignedZero) {
  EXPECT_EQ(deviation_figure(-3.2, 1, true), "−3.2");
  EXPECT_EQ(deviation_figure(-0.04, 1, true), "0.0");
  EXPECT_EQ(deviation_figure(0.3, 1, true), "+0.3");
  EXPECT_EQ(grouped(1'234'567), "1\u00a0234\u00a0567");
  EXPECT_EQ(round_up(0.16), 0.2);
  EXPECT_EQ(round_up(14), 15);
}

TEST(Record, SheetThatDoesNotExistIsRefused) {
  sample::WholeJob job = sample::bare_job();
  job.assess();
  EXPECT_THROW(record_svg(job.input(), Paper::a4, 2), InputError);
  EXPECT_THROW(record_png(job.input(), Paper::a4, 1, 1000), InputError);
}

}  // namespace
}  // namespace brakewright::report
