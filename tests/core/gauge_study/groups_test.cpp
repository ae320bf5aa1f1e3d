#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>

#include "tests/core/gauge_study/simulated_study.hpp"

namespace brakewright::gauge_study {
namespace {

const Finding* find(const Study& study, FindingCode code) {
  const auto found = std::find_if(study.findings.begin(), study.findings.end(),
                                  [&](const Finding& finding) { return finding.code == code; });
  return found == study.findings.end() ? nullptr : &*found;
}

Input small() {
  Input input;
  const double values[2][2][2] = {{{10.1, 10.3}, {10.0, 10.0}}, {{20.3, 20.5}, {20.2, 20.4}}};
  for (int p = 0; p < 2; ++p) {
    for (int o = 0; o < 2; ++o) {
      for (const double value : values[p][o]) {
        input.rows.push_back({.part = p == 0 ? "one" : "two", .operator_name = o == 0 ? "Ann" : "Ben", .value = value});
      }
    }
  }
  return input;
}

TEST(GaugeGroups, OwnFiguresAreThoseOfHand) {
  Input input = small();
  input.references = {{"one", 10.0, 0.05}, {"two", 20.2, 0.05}};
  input.u_instrument = 0.03;
  const Study study = study_gauge(input);
  const Group& ann = study.by_operator.at(0);
  EXPECT_EQ(ann.name, "Ann");
  EXPECT_EQ(ann.readings, 4U);
  EXPECT_NEAR(ann.mean, 15.3, 1e-12);
  EXPECT_NEAR(ann.repeatability_sd.value(), std::sqrt(0.02), 1e-12);
  EXPECT_EQ(ann.dof, 2);
  EXPECT_NEAR(ann.spread_ratio.value(), std::sqrt(0.02 / 0.01), 1e-9);
  EXPECT_NEAR(ann.offset.value(), 15.3 - 15.15, 1e-12);
  EXPECT_NEAR(ann.bias.value(), 0.2, 1e-12);
  // Both differences are 0.2, so nothing but the references is uncertain.
  EXPECT_NEAR(ann.u_bias.value(), 0.05, 1e-12);
  EXPECT_NEAR(ann.errors.at(0).difference, 0.2, 1e-12);
  EXPECT_NEAR(ann.errors.at(0).en.value(), 0.2 / (2 * std::sqrt(0.01 + 0.0009 + 0.0025)), 1e-9);
  EXPECT_NEAR(ann.u_reading, std::sqrt(0.02 + 0.0025 + 0.04), 1e-9);
  EXPECT_EQ(ann.u_reading_basis, ReadingBasis::reference);
  const Group& ben = study.by_operator.at(1);
  EXPECT_NEAR(ben.bias.value(), 0.05, 1e-12);
  EXPECT_NEAR(ben.u_bias.value(), std::hypot(0.05, 0.05), 1e-12);
}

TEST(GaugeGroups, WithoutReferencesAReadingCarriesWhatPeopleDifferBy) {
  Input input = small();
  input.u_instrument = 0.03;
  const Study study = study_gauge(input);
  const Group& ann = study.by_operator.at(0);
  EXPECT_FALSE(ann.bias);
  EXPECT_TRUE(ann.errors.empty());
  EXPECT_EQ(ann.u_reading_basis, ReadingBasis::reproducibility);
  const double reproducibility = study.figures.reproducibility_sd.value();
  EXPECT_GT(reproducibility, 0);
  EXPECT_NEAR(ann.u_reading, std::sqrt(0.02 + reproducibility * reproducibility + 0.0009), 1e-9);
  EXPECT_NEAR(ann.u_common, std::sqrt(reproducibility * reproducibility + 0.0009), 1e-9);
}

TEST(GaugeGroups, WhatRepeatingDoesNotLessenIsToldApartFromOwnScatter) {
  Input input = small();
  input.references = {{"two", 20.2, 0.05}};
  const Study study = study_gauge(input);
  const Group& group = study.by_operator[0];
  // Bias of 0.2 and 0.05 of the reference.
  EXPECT_NEAR(group.u_common, std::sqrt(0.04 + 0.0025), 1e-9);
  EXPECT_NEAR(group.u_reading, std::hypot(group.u_common, group.repeatability_sd.value()), 1e-12);
}

TEST(GaugeGroups, AReferenceOfOnePartGivesTheBiasThere) {
  Input input = small();
  input.references = {{"two", 20.2, 0.05}};
  const Study study = study_gauge(input);
  EXPECT_EQ(study.by_operator[0].errors.size(), 1U);
  EXPECT_NEAR(study.by_operator[0].bias.value(), 0.2, 1e-12);
  // Two readings of that part, each of variance 0.02.
  EXPECT_NEAR(study.by_operator[0].u_bias.value(), std::sqrt(0.02 / 2 + 0.0025), 1e-9);
}

TEST(GaugeGroups, ReadingsWithoutScatterAgainstACertainReferenceHaveNoNormalisedError) {
  Input input;
  for (const char* part : {"one", "two"}) {
    for (int k = 0; k < 4; ++k) input.rows.push_back({.part = part, .operator_name = k < 2 ? "A" : "B", .value = 5});
  }
  input.references = {{"one", 5, 0}};
  const Study study = study_gauge(input);
  EXPECT_FALSE(study.by_operator[0].errors[0].en);
  EXPECT_FALSE(study.by_operator[0].bias_p);
  EXPECT_EQ(study.by_operator[0].u_reading, 0);
}

TEST(GaugeFindings, OneWhoScattersMoreAndOneWhoReadsHighStandOut) {
  Random random(12);
  Input input = simulated({.operators = 5, .repeatability_sd = 1, .part_sd = 30, .mean = 100}, random);
  for (Row& row : input.rows) {
    if (row.operator_name == "person 2") row.value += 3 * random.normal();
    if (row.operator_name == "person 4") row.value += 3;
  }
  const Study study = study_gauge(input);
  const Finding* spread = find(study, FindingCode::operator_spread);
  ASSERT_NE(spread, nullptr);
  EXPECT_EQ(spread->who, "person 2");
  EXPECT_GT(spread->value.value(), 2);
  EXPECT_LT(spread->p.value(), 1e-4);
  const Finding* offset = find(study, FindingCode::operator_offset);
  ASSERT_NE(offset, nullptr);
  EXPECT_EQ(offset->who, "person 4");
  EXPECT_NEAR(offset->value.value(), 3, 1);
  // One who is far off does not make the others look off.
  EXPECT_EQ(std::count_if(study.findings.begin(), study.findings.end(),
                          [](const Finding& finding) { return finding.who.has_value(); }),
            2);
  EXPECT_EQ(find(study, FindingCode::operator_bias), nullptr);
  EXPECT_EQ(find(study, FindingCode::parts_not_told_apart), nullptr);
}

TEST(GaugeFindings, BiasAgainstReferencesIsToldOfEachWhoseReadingsAreOff) {
  Random random(3);
  Input input = simulated({.operators = 3, .repeatability_sd = 0.5, .part_sd = 0}, random);
  for (Row& row : input.rows) row.value += 2;  // all of them: the instrument's
  for (int p = 1; p <= 10; ++p) input.references.push_back({"part " + std::to_string(p), 0, 0.1});
  const Study study = study_gauge(input);
  EXPECT_EQ(std::count_if(study.findings.begin(), study.findings.end(),
                          [](const Finding& finding) { return finding.code == FindingCode::operator_bias; }),
            3);
  EXPECT_EQ(find(study, FindingCode::operator_offset), nullptr);
  EXPECT_NE(find(study, FindingCode::parts_not_told_apart), nullptr);
  for (const Group& group : study.by_operator) EXPECT_NEAR(group.bias.value(), 2, 0.5);
}

TEST(GaugeFindings, TheLargerShareIsNamedAndTheInteractionIsSeen) {
  Random random(5);
  const Study repeats = study_gauge(simulated({.operators = 6, .operator_sd = 0.1}, random));
  ASSERT_NE(find(repeats, FindingCode::repeatability_dominates), nullptr);
  EXPECT_GT(find(repeats, FindingCode::repeatability_dominates)->value.value(), 0.8);
  EXPECT_LT(find(repeats, FindingCode::repeatability_dominates)->p.value(), 0.05);
  EXPECT_EQ(find(repeats, FindingCode::reproducibility_dominates), nullptr);
  const Study people = study_gauge(simulated({.operators = 6, .operator_sd = 3, .interaction_sd = 2}, random));
  ASSERT_NE(find(people, FindingCode::reproducibility_dominates), nullptr);
  EXPECT_NE(find(people, FindingCode::interaction_present), nullptr);
}

TEST(GaugeFindings, NobodyStandsOutAmongEqualsInMoreThanOneStudyOfTwenty) {
  Random random(77);
  int spread = 0, offset = 0;
  const int studies = 400;
  for (int i = 0; i < studies; ++i) {
    Input input = simulated({.parts = 8, .operators = 4, .repeats = 3}, random);
    input.draws = 1000;
    const Study study = study_gauge(input);
    spread += find(study, FindingCode::operator_spread) != nullptr ? 1 : 0;
    offset += find(study, FindingCode::operator_offset) != nullptr ? 1 : 0;
  }
  // 20 expected at the most, standard deviation 4.4.
  EXPECT_LE(spread, 34);
  EXPECT_LE(offset, 34);
  EXPECT_GE(spread, 6);
  EXPECT_GE(offset, 6);
}

TEST(GaugeInstruments, TheInstrumentThatReadsHighIsToldFromThePeople) {
  Random random(21);
  Input input;
  for (int p = 0; p < 6; ++p) {
    for (const char* who : {"Ann", "Ben", "Cas"}) {
      for (const char* what : {"red", "blue"}) {
        for (int k = 0; k < 2; ++k) {
          const double shift = std::string(what) == "blue" ? 5 : 0;
          input.rows.push_back({.part = std::to_string(p),
                                .operator_name = who,
                                .value = 100 + 10 * p + shift + random.normal(),
                                .instrument = what});
        }
      }
    }
  }
  const Study study = study_gauge(input);
  ASSERT_TRUE(study.by_instrument && study.by_instrument->table);
  EXPECT_EQ(study.by_instrument->table->operators->df, 1);
  const Group& blue = study.by_instrument->groups.at(1);
  EXPECT_EQ(blue.name, "blue");
  EXPECT_NEAR(blue.offset.value(), 5, 1);
  EXPECT_EQ(blue.dof, 18);
  EXPECT_NEAR(blue.repeatability_sd.value(), 1, 0.5);
  const Finding* offset = find(study, FindingCode::instrument_offset);
  ASSERT_NE(offset, nullptr);
  // The people's own repeatability leaves out what the instruments differ by; the table by people cannot.
  EXPECT_LT(study.by_operator[0].repeatability_sd.value(), 2);
  EXPECT_GT(study.figures.repeatability_sd, 2);
  EXPECT_TRUE(std::any_of(study.notes.begin(), study.notes.end(),
                          [](const std::string& note) { return note.find("several instruments") != note.npos; }));
}

TEST(GaugeInstruments, AnInstrumentToEachPersonIsSaidNotToBeTellable) {
  Input input = small();
  for (Row& row : input.rows) row.instrument = row.operator_name + "'s own";
  const Study study = study_gauge(input);
  EXPECT_TRUE(std::any_of(study.notes.begin(), study.notes.end(),
                          [](const std::string& note) { return note.find("cannot be told apart") != note.npos; }));
}

TEST(GaugeInstruments, UnevenlyUsedInstrumentsAreNotComparedButKeepTheirOwnSpread) {
  Input input = small();
  for (std::size_t i = 0; i < input.rows.size(); ++i) input.rows[i].instrument = i < 2 ? "red" : "blue";
  const Study study = study_gauge(input);
  ASSERT_TRUE(study.by_instrument);
  EXPECT_FALSE(study.by_instrument->table);
  EXPECT_FALSE(study.by_instrument->groups.at(0).offset);
  EXPECT_EQ(study.by_instrument->groups.at(0).dof, 1);
  EXPECT_TRUE(std::any_of(study.notes.begin(), study.notes.end(), [](const std::string& note) {
    return note.find("part two was read never by instrument red") != note.npos;
  }));
  for (Row& row : input.rows) row.instrument = "red";
  EXPECT_FALSE(study_gauge(input).by_instrument);
}

}  // namespace
}  // namespace brakewright::gauge_study
