#include "core/gauge_study/gauge_study.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <limits>
#include <numeric>

#include "core/input_error.hpp"
#include "tests/core/gauge_study/simulated_study.hpp"

namespace brakewright::gauge_study {
namespace {

/// values[part][operator][repeat]
Input study_of(const std::vector<std::vector<std::vector<double>>>& values) {
  Input input;
  for (std::size_t p = 0; p < values.size(); ++p) {
    for (std::size_t o = 0; o < values[p].size(); ++o) {
      for (const double value : values[p][o]) {
        input.rows.push_back({.part = std::to_string(p + 1),
                              .operator_name = std::string(1, static_cast<char>('A' + o)),
                              .value = value});
      }
    }
  }
  return input;
}

std::string refusal(const Input& input) {
  try {
    study_gauge(input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field() + ": " + error.what();
  }
  return "accepted";
}

bool begins(const std::string& text, const std::string& with) { return text.rfind(with, 0) == 0; }

bool notes_say(const Study& study, const std::string& words) {
  return std::any_of(study.notes.begin(), study.notes.end(),
                     [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

TEST(GaugeStudy, SplitsASmallTableAsByHand) {
  // Cell means 2 6 / 10 18; parts 4 14, operators 6 12, all 9. By hand: parts 4*(25 + 25), operators 4*(9 + 9),
  // interaction 2*4*1, repeats 4*2.
  const Study study = study_gauge(study_of({{{1, 3}, {5, 7}}, {{9, 11}, {17, 19}}}));
  const Table& table = study.full->table;
  EXPECT_DOUBLE_EQ(table.part.ss, 200);
  EXPECT_DOUBLE_EQ(table.operators->ss, 72);
  EXPECT_DOUBLE_EQ(table.interaction->ss, 8);
  EXPECT_DOUBLE_EQ(table.repeatability.ss, 8);
  EXPECT_DOUBLE_EQ(table.ss_total, 288);
  EXPECT_EQ(table.df_total, 7);
  EXPECT_DOUBLE_EQ(table.part.f.value(), 25);
  EXPECT_DOUBLE_EQ(table.interaction->f.value(), 4);
  const Components& components = study.full->components;
  EXPECT_DOUBLE_EQ(components.repeatability, 2);
  EXPECT_DOUBLE_EQ(components.interaction.value(), 3);
  EXPECT_DOUBLE_EQ(components.operators.value(), 16);
  EXPECT_DOUBLE_EQ(components.part, 48);
  EXPECT_DOUBLE_EQ(components.grr, 21);
  EXPECT_FALSE(study.is_pooled);  // F = 4 with 1 and 4 degrees of freedom: p = 0.116
  EXPECT_DOUBLE_EQ(study.figures.percent_grr.value(), 100 * std::sqrt(21.0 / 69));
  EXPECT_DOUBLE_EQ(study.figures.ndc_uncut.value(), 1.41 * std::sqrt(48.0 / 21));
}

TEST(GaugeStudy, TheInteractionIsPooledOnlyWhereItsPExceedsTheLevel) {
  Input input = study_of({{{1, 3}, {5, 7}}, {{9, 11}, {17, 19}}});
  input.alpha_pool = 0.1;
  const Study pooled = study_gauge(input);
  EXPECT_TRUE(pooled.is_pooled);
  EXPECT_DOUBLE_EQ(pooled.figures.repeatability_sd, std::sqrt(16.0 / 5));
  EXPECT_EQ(pooled.figures.interaction_sd.value(), 0);
  EXPECT_EQ(pooled.pooled->table.repeatability.df, 5);
  input.alpha_pool = 0.12;
  EXPECT_FALSE(study_gauge(input).is_pooled);
}

TEST(GaugeStudy, SharesOfTheToleranceTakeSixDeviations) {
  Input input = study_of({{{1, 3}, {5, 7}}, {{9, 11}, {17, 19}}});
  EXPECT_FALSE(study_gauge(input).figures.percent_tolerance);
  input.tolerance = 50;
  const Study study = study_gauge(input);
  EXPECT_DOUBLE_EQ(study.figures.percent_tolerance.value(), 100 * 6 * std::sqrt(21.0) / 50);
  EXPECT_DOUBLE_EQ(study.intervals.percent_tolerance->low95, 12 * study.intervals.grr_sd.low95);
}

TEST(GaugeStudy, NegativeComponentsCountAsNothingAndAreSaid) {
  const Study study = study_gauge(study_of({{{0, 4}, {0, 4}}, {{1, 5}, {1, 5}}, {{2, 3}, {2, 3}}}));
  EXPECT_LT(study.full->components.operators_unclipped.value(), 0.001);
  EXPECT_LT(study.pooled->components.operators_unclipped.value(), 0);
  EXPECT_EQ(study.pooled->components.operators.value(), 0);
  EXPECT_EQ(study.figures.operator_sd.value(), 0);
  EXPECT_TRUE(notes_say(study, "variance of the operators came out negative"));
  EXPECT_TRUE(notes_say(study, "variance of the parts came out negative"));
  EXPECT_EQ(study.figures.ndc_uncut.value(), 0);
}

TEST(GaugeStudy, OneOperatorTellsPartsAndRepeatabilityAndSaysWhatIsMissing) {
  const Study study = study_gauge(study_of({{{1, 2, 3}}, {{3, 4, 5}}, {{8, 9, 10}}}));
  EXPECT_DOUBLE_EQ(study.full->table.part.ss, 78);
  EXPECT_DOUBLE_EQ(study.full->table.part.f.value(), 39);
  EXPECT_FALSE(study.full->table.operators);
  EXPECT_FALSE(study.pooled);
  EXPECT_FALSE(study.figures.reproducibility_sd);
  EXPECT_FALSE(study.intervals.operator_sd);
  EXPECT_DOUBLE_EQ(study.figures.grr_sd, 1);
  EXPECT_DOUBLE_EQ(study.figures.part_sd, std::sqrt(38.0 / 3));
  EXPECT_EQ(study.intervals.grr_sd.high95, study.intervals.repeatability_sd.high95);
  EXPECT_TRUE(notes_say(study, "One operator alone"));
  EXPECT_FALSE(study.by_operator.front().offset);
  EXPECT_EQ(study.by_operator.front().u_reading_basis, ReadingBasis::repeatability);
}

TEST(GaugeStudy, OneRepeatKeepsTheInteractionInRepeatabilityAndSaysSo) {
  const Study study = study_gauge(study_of({{{1}, {2}, {4}}, {{5}, {6}, {6}}, {{9}, {8}, {11}}}));
  EXPECT_FALSE(study.full);
  EXPECT_TRUE(study.is_pooled);
  EXPECT_EQ(study.pooled->table.repeatability.df, 4);
  EXPECT_FALSE(study.figures.interaction_sd);
  EXPECT_FALSE(study.intervals.interaction_sd);
  EXPECT_TRUE(study.figures.operator_sd);
  EXPECT_TRUE(notes_say(study, "One repeat alone"));
  EXPECT_FALSE(study.by_operator.front().repeatability_sd);
  EXPECT_DOUBLE_EQ(study.by_operator.front().u_reading,
                   std::hypot(study.figures.repeatability_sd, study.figures.reproducibility_sd.value()));
}

TEST(GaugeStudy, EqualReadingsGiveNoRatiosAndNoMadeUpNumbers) {
  const Study equal = study_gauge(study_of({{{0.1, 0.1}, {0.1, 0.1}}, {{0.1, 0.1}, {0.1, 0.1}}}));
  EXPECT_EQ(equal.figures.total_sd, 0);
  EXPECT_FALSE(equal.figures.percent_grr);
  EXPECT_FALSE(equal.figures.ndc_uncut);
  EXPECT_FALSE(equal.intervals.percent_grr);
  EXPECT_FALSE(equal.full->table.part.p);
  EXPECT_TRUE(notes_say(equal, "too coarse"));
  // Parts differ, and everybody reads the same of each, in decimals that no double holds.
  const Study copies = study_gauge(
      study_of({{{25.43, 25.43}, {25.43, 25.43}}, {{25.47, 25.47}, {25.47, 25.47}}, {{25.11, 25.11}, {25.11, 25.11}}}));
  EXPECT_EQ(copies.figures.grr_sd, 0);
  EXPECT_EQ(copies.figures.percent_grr.value(), 0);
  EXPECT_EQ(copies.full->table.part.p.value(), 0);
  EXPECT_FALSE(copies.figures.ndc_uncut);
  // An offset of one person alone is not an interaction.
  const Study apart = study_gauge(
      study_of({{{25.43, 25.43}, {25.45, 25.45}}, {{25.47, 25.47}, {25.49, 25.49}}, {{25.11, 25.11}, {25.13, 25.13}}}));
  EXPECT_EQ(apart.full->table.interaction->ss, 0);
  EXPECT_FALSE(apart.full->table.interaction->p);
  EXPECT_NEAR(apart.figures.grr_sd, 0.02 / std::sqrt(2.0), 1e-15);
}

TEST(GaugeStudy, ALargeOffsetCostsNoDigits) {
  Random random(4);
  Input near = simulated({.operator_sd = 0.5, .interaction_sd = 0.3}, random);
  for (Row& row : near.rows) row.value = std::round(row.value * 1024) / 1024;
  Input far = near;
  for (Row& row : far.rows) row.value += 1e9;  // exact: steps of 2^-10 below 2^43
  const Study first = study_gauge(near), second = study_gauge(far);
  EXPECT_NEAR(second.full->table.interaction->ss / first.full->table.interaction->ss, 1, 1e-13);
  EXPECT_NEAR(second.full->table.repeatability.ss / first.full->table.repeatability.ss, 1, 1e-13);
  EXPECT_NEAR(second.figures.percent_grr.value() / first.figures.percent_grr.value(), 1, 1e-13);
}

TEST(GaugeStudy, IntervalsSurroundTheFiguresAndFollowTheSeed) {
  Random random(9);
  Input input = simulated({.operator_sd = 1, .interaction_sd = 0.7}, random);
  const Study study = study_gauge(input);
  const auto surrounds = [](const Interval& interval, double value) {
    return interval.low95 < value && value < interval.high95;
  };
  EXPECT_TRUE(surrounds(study.intervals.repeatability_sd, study.figures.repeatability_sd));
  EXPECT_TRUE(surrounds(*study.intervals.operator_sd, *study.figures.operator_sd));
  EXPECT_TRUE(surrounds(*study.intervals.interaction_sd, *study.figures.interaction_sd));
  EXPECT_TRUE(surrounds(*study.intervals.reproducibility_sd, *study.figures.reproducibility_sd));
  EXPECT_TRUE(surrounds(study.intervals.grr_sd, study.figures.grr_sd));
  EXPECT_TRUE(surrounds(study.intervals.part_sd, study.figures.part_sd));
  EXPECT_TRUE(surrounds(study.intervals.total_sd, study.figures.total_sd));
  EXPECT_TRUE(surrounds(*study.intervals.percent_grr, *study.figures.percent_grr));
  EXPECT_TRUE(surrounds(*study.intervals.ndc_uncut, *study.figures.ndc_uncut));
  EXPECT_EQ(study_gauge(input).intervals.grr_sd.high95, study.intervals.grr_sd.high95);
  input.seed = 2;
  EXPECT_NE(study_gauge(input).intervals.grr_sd.high95, study.intervals.grr_sd.high95);
}

TEST(GaugeStudy, TheChiSquaredIntervalOfRepeatabilityIsThatOfTheTables) {
  // 6 degrees of freedom: 1.237 and 14.449 (NIST/SEMATECH e-Handbook, table of critical values of chi-squared).
  const Study study = study_gauge(study_of({{{1, 2, 3}}, {{3, 4, 5}}, {{8, 9, 10}}}));
  EXPECT_NEAR(study.intervals.repeatability_sd.low95, std::sqrt(6 / 14.449), 2e-5);
  EXPECT_NEAR(study.intervals.repeatability_sd.high95, std::sqrt(6 / 1.237), 5e-4);
}

TEST(GaugeStudy, UnbalancedDataAreRefusedByTheFirstCellThatDiffers) {
  Input input = study_of({{{1, 2}, {3, 4}}, {{5, 6}, {7, 8}}, {{5, 6}, {7, 8}}});
  Input fewer = input;
  fewer.rows.erase(fewer.rows.begin() + 6);
  EXPECT_EQ(
      refusal(fewer),
      "missing rows: part 2 was read once by B, elsewhere 2 times; every part must be read equally often by each");
  Input none = input;
  none.rows.erase(none.rows.begin() + 6, none.rows.begin() + 8);
  EXPECT_TRUE(begins(refusal(none), "missing rows: part 2 was read never by B"));
  Input more = input;
  more.rows.push_back(more.rows.front());
  EXPECT_TRUE(begins(refusal(more), "too_many rows[12].value: part 1 was read 3 times by A, elsewhere 2 times"));
}

TEST(GaugeStudy, WhatTellsNothingIsRefused) {
  EXPECT_TRUE(begins(refusal({}), "missing rows"));
  EXPECT_TRUE(begins(refusal(study_of({{{1, 2}, {3, 4}}})), "missing rows: readings of two parts"));
  EXPECT_TRUE(begins(refusal(study_of({{{1}}, {{2}}})), "missing rows: one operator"));
}

TEST(GaugeStudy, BadValuesAreRefusedWithTheirPath) {
  const Input good = study_of({{{1, 2}, {3, 4}}, {{5, 6}, {7, 8}}});
  const auto refused = [&](const auto& spoil) {
    Input input = good;
    spoil(input);
    return refusal(input);
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(begins(refused([&](Input& in) { in.rows[3].value = nan; }), "not_finite rows[3].value"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.rows[2].part = ""; }), "missing rows[2].part"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.rows[2].operator_name = ""; }), "missing rows[2].operator"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.rows[2].instrument = "m"; }), "missing rows[0].instrument"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.tolerance = 0; }), "out_of_range tolerance"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.alpha_pool = 1.5; }), "out_of_range alpha_pool"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.u_instrument = -1; }), "out_of_range u_instrument"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.draws = 10; }), "out_of_range draws"));
  EXPECT_TRUE(begins(refused([](Input& in) {
                       in.rows[0].value = 1e308;
                       in.rows[1].value = -1e308;
                     }),
                     "out_of_range rows"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.rows[0].value = 1e200; }), "out_of_range rows"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.references = {{"3", 1, 0}}; }), "out_of_range references[0].part"));
  EXPECT_TRUE(begins(refused([](Input& in) {
                       in.references = {{"1", 1, 0}, {"1", 1, 0}};
                     }),
                     "duplicate references[1].part"));
  EXPECT_TRUE(begins(refused([](Input& in) { in.references = {{"1", 1, -1}}; }), "out_of_range references[0].u"));
}

Input any_study() {
  Truth truth;
  truth.parts = *rc::gen::inRange<std::size_t>(2, 7);
  truth.operators = *rc::gen::inRange<std::size_t>(2, 5);
  truth.repeats = *rc::gen::inRange<std::size_t>(2, 4);
  truth.operator_sd = *rc::gen::inRange(0, 20) * 0.1;
  truth.interaction_sd = *rc::gen::inRange(0, 20) * 0.1;
  Random random(*rc::gen::arbitrary<std::uint32_t>());
  Input input = simulated(truth, random);
  for (Row& row : input.rows) row.value = std::round(row.value * 64) / 64;
  input.draws = 1000;
  return input;
}

bool near(double a, double b, double relative = 1e-11) {
  return std::abs(a - b) <= relative * std::max(std::abs(a), std::abs(b)) + 1e-13;
}

RC_GTEST_PROP(GaugeStudy, TheOrderOfTheRowsChangesNothing, ()) {
  const Input input = any_study();
  Input mixed = input;
  Random random(*rc::gen::arbitrary<std::uint32_t>());
  for (std::size_t i = mixed.rows.size() - 1; i > 0; --i) std::swap(mixed.rows[i], mixed.rows[random.below(i + 1)]);
  const Study first = study_gauge(input), second = study_gauge(mixed);
  RC_ASSERT(first.is_pooled == second.is_pooled);
  RC_ASSERT(near(first.figures.grr_sd, second.figures.grr_sd));
  RC_ASSERT(near(first.figures.part_sd, second.figures.part_sd));
  RC_ASSERT(near(first.intervals.grr_sd.high95, second.intervals.grr_sd.high95));
  for (const Group& group : first.by_operator) {
    const auto same = std::find_if(second.by_operator.begin(), second.by_operator.end(),
                                   [&](const Group& other) { return other.name == group.name; });
    RC_ASSERT(same != second.by_operator.end());
    RC_ASSERT(near(group.repeatability_sd.value(), same->repeatability_sd.value()));
    RC_ASSERT(near(group.offset.value(), same->offset.value(), 1e-9));
  }
}

RC_GTEST_PROP(GaugeStudy, OriginAndScaleGoThroughAsTheyShould, ()) {
  const Input input = any_study();
  Input moved = input;
  const double scale = *rc::gen::element(0.125, 3.0, 1000.0, -1.0);
  const double shift = *rc::gen::inRange(-1000, 1000) * 8.0;
  for (Row& row : moved.rows) row.value = shift + scale * row.value;
  const Study first = study_gauge(input), second = study_gauge(moved);
  const double size = std::abs(scale);
  RC_ASSERT(near(first.figures.grr_sd * size, second.figures.grr_sd, 1e-9));
  RC_ASSERT(near(first.figures.total_sd * size, second.figures.total_sd, 1e-9));
  RC_ASSERT(near(first.intervals.part_sd.high95 * size, second.intervals.part_sd.high95, 1e-9));
  RC_ASSERT(near(first.figures.percent_grr.value(), second.figures.percent_grr.value(), 1e-9));
  RC_ASSERT(near(first.by_operator[1].offset.value() * scale, second.by_operator[1].offset.value(), 1e-8));
}

RC_GTEST_PROP(GaugeStudy, NamesAreOnlyNames, ()) {
  const Input input = any_study();
  Input named = input;
  for (Row& row : named.rows) {
    row.part = "p" + std::string(row.part.rbegin(), row.part.rend());
    row.operator_name = row.operator_name == "person 1"   ? "person 2"
                        : row.operator_name == "person 2" ? "person 1"
                                                          : row.operator_name;
  }
  const Study first = study_gauge(input), second = study_gauge(named);
  RC_ASSERT(first.figures.grr_sd == second.figures.grr_sd);
  RC_ASSERT(first.full->table.ss_total == second.full->table.ss_total);
  RC_ASSERT(first.by_operator[0].mean == second.by_operator[0].mean);
  RC_ASSERT(second.by_operator[0].name == "person 2");
}

RC_GTEST_PROP(GaugeStudy, SquaresAndDegreesOfFreedomAddUp, ()) {
  const Study study = study_gauge(any_study());
  const Table& table = study.full->table;
  RC_ASSERT(table.df_total == table.part.df + table.operators->df + table.interaction->df + table.repeatability.df);
  RC_ASSERT(near(study.pooled->table.repeatability.ss, table.interaction->ss + table.repeatability.ss));
  double about_mean = 0, mean = 0;
  for (const Cell& cell : study.cells) mean += cell.mean / static_cast<double>(study.cells.size());
  for (const Cell& cell : study.cells) {
    about_mean += static_cast<double>(study.repeats) * (cell.mean - mean) * (cell.mean - mean) +
                  static_cast<double>(study.repeats - 1) * *cell.sd * *cell.sd;
  }
  RC_ASSERT(near(about_mean, table.ss_total, 1e-9));
}

}  // namespace
}  // namespace brakewright::gauge_study
