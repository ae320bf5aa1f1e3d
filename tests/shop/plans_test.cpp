#include "shop/plans.hpp"

#include "tests/shop/bench_scene.hpp"

namespace brakewright::shop {
namespace {

class Plans : public BenchScene {
 protected:
  PlanAdvice plan(const JobFile& file, std::optional<Uuid> insert_id = {}) {
    return shop.plan(file.job.id, file.parts[0].id, insert_id);
  }
  PlanAdvice foresee(const JobFile& file, const std::vector<PlannedPass>& passes) {
    return shop.foresight(file.job.id, file.parts[0].id, {.insert_id = {}, .passes = passes});
  }
  const PartVerdict verdict(const JobFile& file) { return shop.assessment(file.job.id).verdict->parts.at(0); }

  static std::vector<PlannedPass> passes(std::int64_t outboard, std::int64_t inboard) {
    return {{outboard, inboard, 100, 0.1}};
  }
};

// 21.5 mm with one wave of 0.04 mm, shared by both faces: each needs 20 um and the margin of 10, which is 2 marks of
// 25.4 um. The dials begin at 21.5 + 0.01 + 0.01 mm.
TEST_F(Plans, ThePlanIsTheVerdictsWholeMarksAtTheQuickestGearThatTheRulesAllow) {
  const auto file = decided();
  const PlanAdvice advice = plan(file);
  ASSERT_FALSE(advice.refusal);
  ASSERT_EQ(advice.passes.size(), 1U);
  EXPECT_EQ(settings_of(advice.passes), passes(2, 2));
  EXPECT_EQ(verdict(file).cleanup.outboard_marks, 2);
  EXPECT_NEAR(*advice.needed_outboard_um, 30, 1e-6);
  EXPECT_NEAR(*advice.touch_mm, 21.52, 1e-6);
  EXPECT_NEAR(*advice.final_mm, verdict(file).cleanup.final_whole_marks_mm, 1e-9);
  EXPECT_NEAR(*advice.start_min_mm, 21.48, 1e-9);
  EXPECT_NEAR(*advice.machine_to_mm, 20.4, 1e-9);
  EXPECT_NEAR(advice.passes[0].time_s, (140 - 80 + 6) / (0.1 * 100) * 60, 1e-9);
  EXPECT_GT(*advice.passes[0].p_over_machine_to, 0.999);
  EXPECT_TRUE(advice.warnings.empty());
}

TEST_F(Plans, WhatIsNotKnownIsNamed) {
  const auto file = open();
  Lathe bare = iron;
  bare.speeds_rpm.clear();
  shop.put_lathe(bare, teacher);
  insert.active = false;
  shop.put_insert(insert, teacher);
  EXPECT_EQ(plan(file).missing,
            (std::vector<std::string>{"outer_diameter", "seat.ring_inner", "lathe.speeds_rpm", "insert", "verdict"}));
  EXPECT_EQ(plan(file, insert.id).missing.size(), 4U);
  EXPECT_EQ(refusal([&] { plan(file, id()); }), "unknown_insert");
  EXPECT_EQ(refusal([&] { shop.plan(file.job.id, id(), {}); }), "unknown_part");
}

TEST_F(Plans, ARuleInTheWayIsPartOfTheAnswer) {
  const auto file = decided();
  insert.max_speed_m_per_min = 20;
  shop.put_insert(insert, teacher);
  const PlanAdvice slow = plan(file);
  ASSERT_TRUE(slow.refusal);
  EXPECT_EQ(slow.refusal->code, "no_plan");
  EXPECT_EQ(slow.refusal->field, "insert.max_speed_m_per_min");
  EXPECT_TRUE(slow.passes.empty());
  const auto thin = decided(1, 20.5, 0.04);
  insert.max_speed_m_per_min = 120;
  shop.put_insert(insert, teacher);
  ASSERT_FALSE(plan(thin).refusal);
  const auto thinner = decided(1, 20.44, 0.04);
  ASSERT_TRUE(plan(thinner).refusal);
  EXPECT_EQ(plan(thinner).refusal->field, "machine_to_mm");
}

// A swing of 50 um with no angle is taken where the part is thinnest: the outboard face needs 50 + 10 um, the inboard
// one the wave besides, 50 + 40 + 10.
TEST_F(Plans, TheProofOfTheMountIsWhatTheFacesNeed) {
  const auto file = decided();
  prove(file, swing(file, "0.05"));
  const PlanAdvice advice = plan(file);
  EXPECT_NEAR(*advice.needed_outboard_um, 60, 1e-6);
  EXPECT_NEAR(*advice.needed_inboard_um, 100, 1e-6);
  EXPECT_EQ(verdict(file).cleanup.outboard_marks, 3);
  EXPECT_EQ(verdict(file).cleanup.inboard_marks, 4);
  EXPECT_NEAR(*advice.touch_mm, 21.57, 1e-6);
  const auto& missing = shop.assessment(file.job.id).missing;
  EXPECT_TRUE(std::any_of(missing.begin(), missing.end(),
                          [](const std::string& text) { return text.find("swing alone") != std::string::npos; }));

  // Read with its angle, the high spot lies where the part is thick: only the outboard face runs out.
  auto trace = swing(file, "0");
  trace.runout.reset();
  for (int k = 0; k < 8; ++k) trace.trace_um.push_back(20 * std::cos(k * std::numbers::pi / 4));
  prove(file, trace);
  EXPECT_NEAR(*plan(file).needed_outboard_um, 50, 1e-6);
  EXPECT_NEAR(*plan(file).needed_inboard_um, 10, 1);  // what was typed to a micrometre
}

TEST_F(Plans, AProofThatDoesNotGoOnOrIsOfAnEarlierMountChangesNothing) {
  const auto ids = ids_of(hang_a_stack());
  const auto file = decided();
  const PlanAdvice before = plan(file);
  auto back = swing(file, "0.09");
  back.goes_on = false;
  prove(file, back);
  EXPECT_EQ(*plan(file).needed_outboard_um, *before.needed_outboard_um);
  prove(file, swing(file, "0.05"));
  EXPECT_GT(*plan(file).needed_outboard_um, *before.needed_outboard_um);
  mount(file, ids);
  EXPECT_EQ(*plan(file).needed_outboard_um, *before.needed_outboard_um);
}

TEST_F(Plans, TwoDialsOfTheirOwnAreTurnedByTheirOwnMarks) {
  iron.dial_inboard_um_per_mark = 10;
  shop.put_lathe(iron, teacher);
  const auto file = decided();
  const PlanAdvice advice = plan(file);
  EXPECT_EQ(settings_of(advice.passes), passes(2, 5));
  EXPECT_EQ(verdict(file).cleanup.inboard_marks, 3);  // 30 um; the last pass takes 50 at least
  EXPECT_NEAR(*advice.final_mm, 21.52 - 2 * 0.0254 - 0.05, 1e-6);
  EXPECT_EQ(cut(file, 2, 5).dial_inboard_um_per_mark, 10);
}

TEST_F(Plans, PassesThatAreCutAreTakenOffTheNeedAndTheThickness) {
  const auto file = decided();
  prove(file, swing(file, "0.05"));
  const PlanAdvice whole = plan(file);
  shop.record_pass(file.job.id, pass_of(file, 2, 3), teacher);
  const PlanAdvice rest = plan(file);
  EXPECT_NEAR(*rest.needed_outboard_um, 60 - 2 * 25.4, 1e-6);
  EXPECT_NEAR(*rest.needed_inboard_um, 100 - 3 * 25.4, 1e-6);
  EXPECT_NEAR(*rest.touch_mm, *whole.touch_mm - 5 * 0.0254, 1e-9);
  auto stopped = pass_of(file, 1, 1);
  stopped.outcome = PassOutcome::stopped;
  shop.record_pass(file.job.id, stopped, teacher);
  EXPECT_EQ(*plan(file).needed_inboard_um, *rest.needed_inboard_um);
  shop.record_pass(file.job.id, pass_of(file, 1, 1), teacher);
  EXPECT_TRUE(plan(file).passes.empty());
  EXPECT_EQ(*plan(file).needed_inboard_um, 0);
  cut(file, 3, 4);
  EXPECT_NEAR(*plan(file).touch_mm, *whole.touch_mm - 7 * 0.0254, 1e-9);
}

TEST_F(Plans, ForesightLooksAtAnyPassesAndStoresNothing) {
  const auto file = decided();
  const auto seq = shop.last_seq();
  const PlanAdvice seen = foresee(file, {{8, 8, 150, 0.15}, {1, 1, 100, 0.1}});
  ASSERT_EQ(seen.passes.size(), 2U);
  EXPECT_NEAR(*seen.final_mm, 21.52 - 18 * 0.0254, 1e-6);
  std::vector<std::string> codes;
  for (const PlanWarning& warning : seen.warnings) codes.push_back(warning.code);
  EXPECT_NE(std::find(codes.begin(), codes.end(), "speed_over_insert"), codes.end());
  EXPECT_NE(std::find(codes.begin(), codes.end(), "finish_out_of_range"), codes.end());
  EXPECT_EQ(seen.warnings.front().pass, 1);
  EXPECT_EQ(shop.last_seq(), seq);
  EXPECT_EQ(refusal([&] { foresee(file, {{1, 1, 100, 0}}); }), "out_of_range");
  EXPECT_EQ(foresee(file, {{1, 1, 100, 2}}).refusal->field, "passes[0].feed_mm_per_rev");
}

TEST_F(Plans, WhatIsSettledIsForeseenAnewAndSaysWhetherItIsByHand) {
  const auto file = decided();
  const CutPlan computed = settle(file, passes(2, 2));
  EXPECT_FALSE(computed.by_hand);
  EXPECT_EQ(computed.insert_id, insert.id);
  EXPECT_NEAR(computed.final_mm, *plan(file).final_mm, 1e-12);
  EXPECT_TRUE(settle(file, passes(3, 2)).by_hand);
  EXPECT_EQ(shop.job_file(file.job.id).cut_plans.size(), 2U);
  const NewCutPlan again{computed.id, file.parts[0].id, lathe, {}, passes(2, 2)};
  const auto seq = shop.last_seq();
  EXPECT_EQ(shop.settle_plan(file.job.id, again, teacher), computed);
  EXPECT_EQ(shop.last_seq(), seq);
  const NewCutPlan other{computed.id, file.parts[0].id, lathe, {}, passes(1, 2)};
  EXPECT_EQ(refusal([&] { shop.settle_plan(file.job.id, other, teacher); }), "id_taken");
}

TEST_F(Plans, NobodySettlesOnPassesThatLeaveThePartTooThin) {
  const auto file = decided(1, 20.6, 0.02);
  EXPECT_EQ(refusal([&] { settle(file, passes(3, 3)); }), "done");
  EXPECT_EQ(refusal([&] { settle(file, passes(5, 5)); }), "below_machine_to");
  EXPECT_EQ(refusal([&] { settle(file, passes(15, 15)); }), "below_discard");
}

TEST_F(Plans, APlanIsSettledOnTheJobsLatheOnceItsCutIsDecided) {
  const auto file = decided();
  const Lathe other = shop.put_lathe({.id = id(), .name = "Lathe 2"}, teacher);
  const auto with = [&](const Uuid& lathe_id, const std::vector<PlannedPass>& wanted) {
    return refusal([&] { shop.settle_plan(file.job.id, {id(), file.parts[0].id, lathe_id, {}, wanted}, teacher); });
  };
  EXPECT_EQ(with(other.id, passes(2, 2)), "other_lathe");
  EXPECT_EQ(with(id(), passes(2, 2)), "unknown_lathe");
  EXPECT_EQ(with(lathe, {}), "too_few");
  EXPECT_EQ(with(lathe, passes(-1, 2)), "out_of_range");
  EXPECT_EQ(with(lathe, {{2, 2, 100, 2}}), "out_of_range");
  const auto undecided = open();
  EXPECT_EQ(refusal([&] { settle(undecided, passes(2, 2)); }), "not_decided");
}

}  // namespace
}  // namespace brakewright::shop
