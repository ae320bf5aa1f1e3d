#include "tests/shop/bench_scene.hpp"

namespace brakewright::shop {
namespace {

class BenchWork : public BenchScene {};

TEST_F(BenchWork, APassCountsUpWhatItsCornersHaveCut) {
  const auto file = decided();
  const Corner out = shop.put_corner({.id = id(), .insert_id = insert.id, .number = 1}, teacher);
  const Corner in = shop.put_corner({.id = id(), .insert_id = insert.id, .number = 2}, teacher);
  auto wanted = pass_of(file, 2, 0);
  wanted.outboard_corner_id = out.id;
  wanted.inboard_corner_id = in.id;
  const Pass first = shop.record_pass(file.job.id, wanted, teacher);
  EXPECT_EQ(first.number, 1);
  EXPECT_EQ(shop.record_pass(file.job.id, wanted, teacher), first);
  const auto used_m = [&](const Corner& corner) {
    for (const Corner& known : shop.corners()) {
      if (known.id == corner.id) return known.used_m;
    }
    return -1.0;
  };
  // pi (140^2 - 80^2) / 0.1 mm
  EXPECT_NEAR(used_m(out), std::numbers::pi * (140.0 * 140 - 80.0 * 80) / 0.1 / 1000, 1e-9);
  EXPECT_EQ(used_m(in), 0);
  auto stopped = pass_of(file, 1, 1);
  stopped.outboard_corner_id = out.id;
  stopped.outcome = PassOutcome::stopped;
  EXPECT_EQ(shop.record_pass(file.job.id, stopped, teacher).number, 2);
  EXPECT_NEAR(used_m(out), std::numbers::pi * (140.0 * 140 - 80.0 * 80) / 0.1 / 1000, 1e-9);
}

TEST_F(BenchWork, NonsenseInPassesAndStepsIsRefused) {
  const auto file = decided();
  auto pass = pass_of(file, 2, 2);
  std::swap(pass.began_at, pass.ended_at);
  EXPECT_EQ(refusal([&] { shop.record_pass(file.job.id, pass, teacher); }), "out_of_range");
  pass = pass_of(file, 2, 2);
  pass.plan_id = id();
  EXPECT_EQ(refusal([&] { shop.record_pass(file.job.id, pass, teacher); }), "unknown_plan");
  pass.plan_id.reset();
  pass.outboard_corner_id = id();
  EXPECT_EQ(refusal([&] { shop.record_pass(file.job.id, pass, teacher); }), "unknown_corner");
  pass.outboard_corner_id.reset();
  pass.feed_mm_per_rev = 0;
  EXPECT_EQ(refusal([&] { shop.record_pass(file.job.id, pass, teacher); }), "out_of_range");
  EXPECT_TRUE(shop.job_file(file.job.id).passes.empty());
  NewBenchStep step{.id = id(), .part_id = id(), .step = "band_on"};
  EXPECT_EQ(refusal([&] { shop.record_step(file.job.id, step, teacher); }), "unknown_part");
  step.part_id = file.parts[0].id;
  step.step = " ";
  EXPECT_NE(refusal([&] { shop.record_step(file.job.id, step, teacher); }), "done");
}

TEST_F(BenchWork, AJobWaitsForMountPlanCutAndFinishInTurn) {
  const auto ids = ids_of(hang_a_stack());
  const auto file = decided();
  EXPECT_EQ(waits(file), WaitsFor::mount);
  mount(file, ids);
  EXPECT_EQ(waits(file), WaitsFor::mount);
  auto not_yet = swing(file, "0.04");
  not_yet.goes_on = false;
  prove(file, not_yet);
  EXPECT_EQ(waits(file), WaitsFor::mount);
  prove(file, swing(file, "0.02"));
  EXPECT_EQ(waits(file), WaitsFor::plan);
  settle(file, {{2, 2, 100, 0.1}});
  EXPECT_EQ(waits(file), WaitsFor::cut);
  shop.record_pass(file.job.id, pass_of(file, 2, 2), teacher);
  EXPECT_EQ(waits(file), WaitsFor::cut);
  cut(file, 2, 2);
  EXPECT_EQ(waits(file), WaitsFor::finish);
  tick(file, "washed");
  tick(file, "cloth_white");
  EXPECT_EQ(waits(file), WaitsFor::readings_after);
  tick(file, "cloth_white", StepEvent::undone);
  measure(file, 21.4, 0.002, Stage::after);
  EXPECT_EQ(waits(file), WaitsFor::finish);
  EXPECT_EQ(refusal([&] { shop.seal(file.job.id, teacher); }), "not_finished");
  tick(file, "cloth_white");
  EXPECT_EQ(waits(file), WaitsFor::seal);
  EXPECT_EQ(shop.jobs({.words = ""}).lines.at(0).waits_for, WaitsFor::seal);
}

TEST_F(BenchWork, AnArborHoldsOnePartSoTheOneThatIsMountedIsSeenThroughFirst) {
  hang_a_stack();
  const auto file = decided(2);
  EXPECT_EQ(waits(file), WaitsFor::mount);
  prove(file, swing(file, "0.02", 1));
  EXPECT_EQ(waits(file), WaitsFor::plan);
  settle(file, {{2, 2, 100, 0.1}}, 1);
  EXPECT_EQ(waits(file), WaitsFor::cut);
  cut(file, 2, 2, 1);
  EXPECT_EQ(waits(file), WaitsFor::mount);
  prove(file, swing(file, "0.02", 0));
  EXPECT_EQ(waits(file), WaitsFor::plan);
}

TEST_F(BenchWork, MountingAnewNeedsANewProof) {
  const auto ids = ids_of(hang_a_stack());
  const auto file = decided();
  mount(file, ids);
  prove(file, swing(file, "0.02"));
  EXPECT_EQ(waits(file), WaitsFor::plan);
  mount(file, ids);
  EXPECT_EQ(waits(file), WaitsFor::mount);
}

TEST_F(BenchWork, WhereTheBenchIsNotReadyTheCutComesAtOnce) {
  const auto file = decided();
  EXPECT_EQ(waits(file), WaitsFor::plan) << "an empty pegboard carries nothing";
  const Piece nut = hang(piece(PieceKind::nut, "N1", 20));
  EXPECT_EQ(waits(file), WaitsFor::mount);
  Lathe bare = iron;
  bare.tip.reset();
  shop.put_lathe(bare, teacher);
  EXPECT_EQ(waits(file), WaitsFor::plan);
  bare.feeds_mm_per_rev.clear();
  shop.put_lathe(bare, teacher);
  EXPECT_EQ(waits(file), WaitsFor::cut);
  shop.put_lathe(iron, teacher);
  Piece gone = nut;
  gone.active = false;
  hang(gone);
  EXPECT_EQ(waits(file), WaitsFor::plan);
}

TEST_F(BenchWork, ACutNeedsNoMountAndWithoutGuidedPassesNoTicks) {
  hang_a_stack();
  const auto file = decided();
  cut(file, 2, 2);
  EXPECT_EQ(waits(file), WaitsFor::readings_after);
  measure(file, 21.4, 0.002, Stage::after);
  shop.seal(file.job.id, teacher);
  EXPECT_EQ(shop.job_file(file.job.id).job.state, JobState::sealed);
}

TEST_F(BenchWork, ASealedJobTakesNothingMoreFromTheBench) {
  const auto ids = ids_of(hang_a_stack());
  const auto file = decided();
  cut(file, 2, 2);
  measure(file, 21.4, 0.002, Stage::after);
  shop.seal(file.job.id, teacher);
  EXPECT_EQ(refusal([&] { mount(file, ids); }), "sealed");
  EXPECT_EQ(refusal([&] { prove(file, swing(file, "0.02")); }), "sealed");
  EXPECT_EQ(refusal([&] { settle(file, {{2, 2, 100, 0.1}}); }), "sealed");
  EXPECT_EQ(refusal([&] { shop.record_pass(file.job.id, pass_of(file, 1, 1), teacher); }), "sealed");
  EXPECT_EQ(refusal([&] { tick(file, "washed"); }), "sealed");
  EXPECT_EQ(state(ids[0]), PieceState::on_board);
  EXPECT_TRUE(shop.seal_holds(file.job.id));
  shop.book({id(), ids[0], BookingKind::missing, file.job.id, "not on its hook"}, teacher);
  EXPECT_TRUE(shop.seal_holds(file.job.id)) << "counting the pegboard back in is no change of the job";
}

TEST_F(BenchWork, ALatheThatContradictsItselfIsRefusedByItsField) {
  const auto refused = [&](auto spoil) {
    Lathe lathe_ = iron;
    spoil(lathe_);
    try {
      shop.put_lathe(lathe_, teacher);
    } catch (const InputError& error) {
      return error.field();
    }
    return std::string("accepted");
  };
  EXPECT_EQ(refused([&](Lathe& l) { l.tip = of_mm(90); }), "tip_nm");
  EXPECT_EQ(refused([&](Lathe& l) { l.nut_engagement = of_mm(50); }), "nut_engagement_nm");
  EXPECT_EQ(refused([&](Lathe& l) { l.nut_engagement = of_mm(49); }), "accepted");
  EXPECT_EQ(refused([&](Lathe& l) { l.arbor_diameter = of_mm(0); }), "arbor_diameter_nm");
  EXPECT_EQ(refused([&](Lathe& l) { l.speeds_rpm = {150, 100}; }), "speeds_rpm[1]");
  EXPECT_EQ(refused([&](Lathe& l) { l.speeds_rpm = {100, 100}; }), "speeds_rpm[1]");
  EXPECT_EQ(refused([&](Lathe& l) { l.feeds_mm_per_rev = {0}; }), "feeds_mm_per_rev[0]");
  EXPECT_EQ(refused([&](Lathe& l) { l.feeds_mm_per_rev = {0.1, 0.1, 0.2}; }), "feeds_mm_per_rev[1]");
  EXPECT_EQ(refused([&](Lathe& l) { l.thread_start.reset(), l.tip.reset(); }), "accepted");
}

}  // namespace
}  // namespace brakewright::shop
