#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

class Decisions : public Classroom {
 protected:
  Decision decide(const JobFile& file, Action action, const std::string& reason = "") {
    return shop.decide(id(), file.job.id, action, reason, teacher);
  }

  Cut cut(const JobFile& file, std::int64_t marks) {
    return shop.record_cut({.id = id(),
                            .job_id = file.job.id,
                            .part_id = file.parts[0].id,
                            .outboard_marks = marks,
                            .inboard_marks = marks,
                            .note = ""},
                           teacher);
  }

  /// A job through to its seal: 21.5 mm with 0.04 mm of variation, cut by 3 marks a side.
  JobFile sealed() {
    const auto file = open();
    look_over(file);
    measure(file, 21.5, 0.04);
    decide(file, Action::cut, "as the class was told");
    cut(file, 3);
    measure(file, 21.37, 0.002, Stage::after);
    shop.seal(file.job.id, teacher);
    return shop.job_file(file.job.id);
  }
};

TEST_F(Decisions, WhatWasComputedStandsBesideWhatWasDecided) {
  const auto file = open();
  look_over(file);
  measure(file, 19.9, 0.01);
  const auto verdict = shop.assessment(file.job.id).verdict;
  ASSERT_TRUE(verdict);
  EXPECT_EQ(verdict->action, brakewright::Action::replace);
  const auto decision = decide(file, Action::replace);
  EXPECT_EQ(decision.computed_action, Action::replace);
  EXPECT_EQ(decision.computed_p, verdict->p);
  EXPECT_EQ(decision.computed_json, R"({"p":)" + std::to_string(verdict->p) + "}");
}

TEST_F(Decisions, OverrulingNeedsItsReason) {
  const auto file = open();
  measure(file, 19.9, 0.01);
  EXPECT_EQ(refusal([&] { decide(file, Action::leave, "  "); }), "reason_needed");
  EXPECT_EQ(decide(file, Action::leave, "kept for the class to measure").action, Action::leave);
}

TEST_F(Decisions, NobodyCanDecideToCutAtOrUnderDiscard) {
  const auto file = open();
  measure(file, 20.0, 0);
  EXPECT_EQ(refusal([&] { decide(file, Action::cut, "I am the head of this school"); }), "below_discard");
  const auto unmeasured = open();
  auto lone = figure(unmeasured, 0, "19.95");
  add(unmeasured, lone);
  EXPECT_EQ(refusal([&] { decide(unmeasured, Action::cut, "looks fine"); }), "below_discard");
}

TEST_F(Decisions, LaterDecisionsStandBesideEarlierOnes) {
  const auto file = open();
  measure(file, 21.5, 0.04);
  decide(file, Action::leave, "first thought");
  decide(file, Action::replace, "second thought");
  EXPECT_EQ(shop.job_file(file.job.id).decisions.size(), 2U);
}

TEST_F(Decisions, ACutIsRecordedOnceDecidedWithTheDialOfItsLathe) {
  const auto file = open();
  measure(file, 21.5, 0.04);
  EXPECT_EQ(refusal([&] { cut(file, 3); }), "not_decided");
  decide(file, Action::cut, "as the class was told");
  EXPECT_EQ(refusal([&] { cut(file, 0); }), "out_of_range");
  const auto made = cut(file, 3);
  EXPECT_EQ(made.dial_um_per_mark, 25.4);
  EXPECT_EQ(made.lathe_id, lathe);
}

TEST_F(Decisions, AJobIsSealedOnlyWhenItIsDone) {
  const auto file = open();
  const auto seal = [&] { return refusal([&] { shop.seal(file.job.id, teacher); }); };
  EXPECT_EQ(seal(), "not_decided");
  measure(file, 21.5, 0.04);
  decide(file, Action::cut, "as the class was told");
  EXPECT_EQ(seal(), "not_cut");
  cut(file, 3);
  EXPECT_EQ(seal(), "not_measured_after");
  measure(file, 21.37, 0.002, Stage::after);
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::seal);
  EXPECT_EQ(seal(), "done");
  EXPECT_EQ(seal(), "done");
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::nothing);
}

TEST_F(Decisions, ASealedJobTakesAmendmentsOnly) {
  const auto file = sealed();
  EXPECT_EQ(refusal([&] { add(file, figure(file, 0, "21.5")); }), "sealed");
  EXPECT_EQ(refusal([&] { shop.withdraw_reading(file.job.id, file.readings[0].id, teacher); }), "sealed");
  EXPECT_EQ(refusal([&] { shop.change_job(file.job, teacher); }), "sealed");
  EXPECT_EQ(refusal([&] { shop.change_part(file.parts[0], teacher); }), "sealed");
  EXPECT_EQ(refusal([&] { shop.put_plan(file.plans[0], teacher); }), "sealed");
  EXPECT_EQ(refusal([&] { decide(file, Action::leave, "no"); }), "sealed");
  EXPECT_EQ(refusal([&] { cut(file, 1); }), "sealed");
  EXPECT_EQ(refusal([&] { look_over(file); }), "sealed");
  const Amendment word{.id = id(), .job_id = file.job.id, .text = "read in miles", .subject_id = file.readings[0].id};
  shop.amend(word, teacher);
  shop.amend(word, teacher);
  EXPECT_EQ(shop.job_file(file.job.id).amendments.size(), 1U);
  EXPECT_TRUE(shop.seal_holds(file.job.id));
  const auto open_one = open();
  EXPECT_EQ(refusal([&] { shop.amend({.id = id(), .job_id = open_one.job.id, .text = "x"}, teacher); }), "not_sealed");
}

TEST_F(Decisions, TheSealBreaksWhenAnythingSealedChanges) {
  const auto file = sealed();
  EXPECT_EQ(file.job.seal_sha256.size(), 64U);
  EXPECT_TRUE(shop.seal_holds(file.job.id));
  Part forged = file.parts[0];
  forged.limits.discard = limit("19");
  store->transact([&] { store->put(forged); });
  EXPECT_FALSE(shop.seal_holds(file.job.id));
  EXPECT_FALSE(shop.seal_holds(open().job.id));
}

TEST_F(Decisions, TheAssessmentTakesTheZeroErrorOffAndSaysWhatIsMissing) {
  const auto file = open();
  measure(file, 21.5, 0);
  const auto without = shop.assessment(file.job.id);
  ASSERT_TRUE(without.parts[0].before.thickness);
  const auto has_advice = [](const Assessment& made, const std::string& code) {
    for (const Advice& advice : made.parts[0].before.thickness->advice) {
      if (advice.code == code) return true;
    }
    return false;
  };
  EXPECT_TRUE(has_advice(without, "no_zero_check_today"));
  EXPECT_NEAR(without.parts[0].before.thickness->mean_mm, 21.5, 1e-9);

  const auto checked = open();
  shop.add_zero_check(id(), micrometer, "0.004", Unit::mm, checked.job.id, teacher);
  measure(checked, 21.5, 0);
  const auto with = shop.assessment(checked.job.id);
  EXPECT_NEAR(with.parts[0].before.thickness->mean_mm, 21.496, 1e-9);
  EXPECT_FALSE(has_advice(with, "no_zero_check_today"));
  EXPECT_FALSE(with.missing.empty());
}

TEST_F(Decisions, OnlyCurrentReadingsCountAndRepeatsAreOneSpot) {
  const auto file = open();
  measure(file, 21.5, 0);
  const auto far = add(file, figure(file, 0, "21.6"));
  EXPECT_NEAR(shop.assessment(file.job.id).parts[0].before.thickness->points[0].mean_mm, 21.55, 1e-9);
  shop.withdraw_reading(file.job.id, far.id, teacher);
  EXPECT_NEAR(shop.assessment(file.job.id).parts[0].before.thickness->points[0].mean_mm, 21.5, 1e-9);
}

TEST_F(Decisions, TheSameFileGivesTheSameAssessment) {
  const auto file = open(2);
  measure(file, 21.5, 0.03);
  const auto settings = shop.settings();
  const auto instruments = shop.instruments();
  const auto zero_checks = shop.zero_checks({});
  const auto lathes = shop.lathes();
  const auto one = assess(shop.job_file(file.job.id), {settings, instruments, zero_checks, lathes});
  const auto two = shop.assessment(file.job.id);
  EXPECT_EQ(one.verdict->p, two.verdict->p);
  EXPECT_EQ(one.parts[1].before.thickness->true_variation_mm.median,
            two.parts[1].before.thickness->true_variation_mm.median);
}

TEST_F(Decisions, AfterTheCutWhatWasRemovedIsHeldAgainstTheDials) {
  const auto file = sealed();
  const auto check = shop.assessment(file.job.id).parts[0].check;
  ASSERT_TRUE(check);
  EXPECT_NEAR(check->removed_mean_um, 130, 1);
  EXPECT_NEAR(*check->planned_um, 6 * 25.4, 1e-9);
  EXPECT_EQ(check->removed.size(), 8U);
}

}  // namespace
}  // namespace brakewright::shop
