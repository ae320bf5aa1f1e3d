#include "core/dials/lathe_study.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "core/input_error.hpp"
#include "tests/core/dials/simulated_lathe.hpp"

namespace brakewright::dials {
namespace {

TEST(LatheStudy, BelowFiveJobsItSaysOnlyHowManyAreWanting) {
  Random random(1);
  for (std::size_t count = 0; count < 5; ++count) {
    const auto study = study_lathe(jobs_of({}, count, random));
    EXPECT_EQ(study.jobs, count);
    EXPECT_EQ(study.needs, 5 - count);
    EXPECT_FALSE(study.outboard || study.inboard || study.mean || study.spread || study.drift || study.odd_job);
    EXPECT_TRUE(study.notes.empty());
  }
  const auto study = study_lathe(jobs_of({}, 5, random));
  EXPECT_EQ(study.needs, 0U);
  EXPECT_TRUE(study.mean.has_value());
}

TEST(LatheStudy, JobsWithoutErrorGiveTheMarksThemselves) {
  LatheStudyInput in{.dial_um_per_mark = 25.4};
  const double marks[][2] = {{4, 6}, {8, 5}, {10, 10}, {6, 12}, {7, 3}, {12, 4}};
  for (const auto& [outboard, inboard] : marks) {
    in.jobs.push_back({.outboard_marks = outboard,
                       .inboard_marks = inboard,
                       .depth = {.um = 25.0 * outboard + 26.0 * inboard, .u_um = 2},
                       .days = outboard});
  }
  const auto study = study_lathe(in);
  EXPECT_TRUE(study.separable);
  EXPECT_NEAR(study.outboard->um_per_mark, 25, 1e-9);
  EXPECT_NEAR(study.inboard->um_per_mark, 26, 1e-9);
  EXPECT_NEAR(study.mean->um_per_mark, 25.5, 1e-9);
  EXPECT_FALSE(study.outboard->agrees);
  EXPECT_EQ(study.spread->dial_sd_um, 0);
  EXPECT_NEAR(study.spread->job_sd_um, 0, 1e-9);
  EXPECT_FALSE(study.odd_job.has_value());
}

TEST(LatheStudy, OneValueByHand) {
  // both dials by the same marks, equal uncertainties: the mean is sum(xy)/sum(xx), its interval Student's with 4
  LatheStudyInput in{.dial_um_per_mark = 20};
  const double marks[] = {5, 5, 10, 10, 5}, depth[] = {202, 197, 405, 398, 203};
  double xx = 0, xy = 0;
  for (int i = 0; i < 5; ++i) {
    in.jobs.push_back({.outboard_marks = marks[i], .inboard_marks = marks[i], .depth = {depth[i], 1}});
    xx += 4 * marks[i] * marks[i];
    xy += 2 * marks[i] * depth[i];
  }
  double squares = 0;
  for (int i = 0; i < 5; ++i) squares += std::pow(depth[i] - xy / xx * 2 * marks[i], 2);
  const auto study = study_lathe(in);
  EXPECT_FALSE(study.separable);
  EXPECT_NEAR(study.mean->um_per_mark, xy / xx, 1e-9);
  const double half = 2.776445 * std::sqrt(squares / 4 / xx);
  EXPECT_NEAR(study.mean->high95_um - study.mean->um_per_mark, half, 1e-6);
  EXPECT_TRUE(study.mean->agrees);
  EXPECT_NEAR(study.spread->job_sd_um, std::sqrt(squares / 4), 1e-9);
  // a job's variance is 1 for measuring it and that of two settings
  EXPECT_NEAR(study.spread->dial_sd_um, std::sqrt((squares / 4 - 1) / 2), 1e-6);
  EXPECT_FALSE(study.drift.has_value());  // all on one day
}

TEST(LatheStudy, DialsThatAreAlwaysTurnedAlikeAreToldOnlyTogether) {
  Random random(5);
  const auto study = study_lathe(jobs_of({.outboard_um = 24, .inboard_um = 26, .alike = true}, 20, random));
  EXPECT_FALSE(study.separable);
  EXPECT_FALSE(study.outboard || study.inboard);
  EXPECT_NEAR(study.mean->um_per_mark, 25, 0.3);
  ASSERT_FALSE(study.notes.empty());
  EXPECT_NE(study.notes.front().find("unequal marks"), std::string::npos);
  // the faces measured on their own tell them apart though both are turned alike
  Random again(5);
  const auto told =
      study_lathe(jobs_of({.outboard_um = 24, .inboard_um = 26, .u_face_um = 5, .alike = true}, 20, again));
  EXPECT_TRUE(told.separable);
  EXPECT_NEAR(told.outboard->um_per_mark, 24, 0.4);
  EXPECT_NEAR(told.inboard->um_per_mark, 26, 0.4);
  EXPECT_FALSE(told.outboard->agrees);
}

TEST(LatheStudy, WithUnequalNominalDialsTurnedAlikeTheirRatioIsKept) {
  LatheStudyInput in{.dial_um_per_mark = 25.4, .dial_inboard_um_per_mark = 50};
  for (int i = 0; i < 6; ++i) {
    in.jobs.push_back({.outboard_marks = 4, .inboard_marks = 4, .depth = {1.02 * 4 * 75.4 + (i % 2 == 0 ? 1 : -1), 2}});
  }
  const auto study = study_lathe(in);
  EXPECT_FALSE(study.separable);
  EXPECT_NEAR(study.mean->um_per_mark, 1.02 * 37.7, 1e-9);
  EXPECT_NEAR(study.mean->nominal_um, 37.7, 1e-12);
  EXPECT_FALSE(study.mean->agrees);
}

TEST(LatheStudy, ADialThatWasNeverTurnedIsNotSpokenOf) {
  LatheStudyInput in{.dial_um_per_mark = 25.4};
  for (int i = 0; i < 6; ++i) {
    in.jobs.push_back(
        {.outboard_marks = 4.0 + i, .depth = {25.4 * (4 + i) + (i % 2 == 0 ? 1 : -1), 2}, .days = 1.0 * i});
  }
  const auto study = study_lathe(in);
  EXPECT_TRUE(study.outboard.has_value());
  EXPECT_FALSE(study.inboard || study.mean);
  EXPECT_TRUE(study.outboard->agrees);
  EXPECT_NE(study.notes.front().find("inboard dial was never turned"), std::string::npos);
}

TEST(LatheStudy, ADriftIsFoundAndTheMarkIsToldForTheLastJob) {
  Random random(6);
  const auto study = study_lathe(jobs_of({.drift_um_per_100_days = 0.5}, 40, random));
  ASSERT_TRUE(study.drift.has_value());
  EXPECT_TRUE(study.drift->differs_from_zero);
  EXPECT_LT(study.drift->low95_um, 0.5);
  EXPECT_GT(study.drift->high95_um, 0.5);
  EXPECT_NEAR(study.drift->um_per_mark_at_last_job, 25.4 + 0.5 * 3.9, 0.3);
}

TEST(LatheStudy, AJobWithAMisreadMarkStandsOut) {
  Random random(7);
  auto in = jobs_of({.dial_sd_um = 1, .u_depth_um = 2}, 15, random);
  in.jobs[4].depth.um += 2 * 25.4;
  const auto study = study_lathe(in);
  ASSERT_TRUE(study.odd_job.has_value());
  EXPECT_EQ(study.odd_job->job, 4U);
  EXPECT_NEAR(study.odd_job->depth_um - study.odd_job->expected_um, 50.8, 10);
  EXPECT_LT(study.odd_job->p, 0.001);
}

TEST(LatheStudy, FacesThatContradictTheSumAreTold) {
  Random random(8);
  auto in = jobs_of({.u_face_um = 3}, 8, random);
  in.jobs[2].outboard_depth->um += 100;
  const auto study = study_lathe(in);
  bool told = false;
  for (const auto& note : study.notes) told = told || note.find("In job 3 of these the two faces") == 0;
  EXPECT_TRUE(told);
  EXPECT_LT(study.spread->dial_sd_um, 100);
}

TEST(LatheStudy, TheOrderOfTheJobsAndTheFirstDayDoNotMatter) {
  Random random(9);
  const auto in = jobs_of({.outboard_um = 25, .u_face_um = 5}, 10, random);
  auto turned = in;
  std::reverse(turned.jobs.begin(), turned.jobs.end());
  for (auto& job : turned.jobs) job.days += 20'000;
  const auto a = study_lathe(in), b = study_lathe(turned);
  EXPECT_NEAR(a.outboard->um_per_mark, b.outboard->um_per_mark, 1e-9);
  EXPECT_NEAR(a.outboard->high95_um, b.outboard->high95_um, 1e-8);
  EXPECT_NEAR(a.spread->dial_sd_um, b.spread->dial_sd_um, 1e-7);
  EXPECT_NEAR(a.drift->um_per_100_days, b.drift->um_per_100_days, 1e-7);
}

std::string refusal_of_study(const std::function<void(LatheStudyInput&)>& spoil) {
  Random random(10);
  auto in = jobs_of({.u_face_um = 5}, 6, random);
  spoil(in);
  try {
    study_lathe(in);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(LatheStudy, NonsenseIsRefusedByTheNameOfItsField) {
  EXPECT_EQ(refusal_of_study([](auto& in) { in.dial_um_per_mark = 0; }), "out_of_range dial_um_per_mark");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.dial_inboard_um_per_mark = -1; }),
            "out_of_range dial_inboard_um_per_mark");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[1].outboard_marks = -1; }), "out_of_range jobs[1].outboard_marks");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[1].outboard_marks = in.jobs[1].inboard_marks = 0; }),
            "out_of_range jobs[1].outboard_marks");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[0].depth.u_um = 0; }), "out_of_range jobs[0].u_depth_um");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[0].depth.um = std::nan(""); }), "not_finite jobs[0].depth_um");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[5].inboard_depth->u_um = -1; }),
            "out_of_range jobs[5].u_inboard_depth_um");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[5].settings = 0; }), "out_of_range jobs[5].settings");
  EXPECT_EQ(refusal_of_study([](auto& in) { in.jobs[5].days = INFINITY; }), "not_finite jobs[5].days");
}

}  // namespace
}  // namespace brakewright::dials
