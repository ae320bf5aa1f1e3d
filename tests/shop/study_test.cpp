#include "shop/study.hpp"

#include <array>
#include <atomic>
#include <chrono>
#include <thread>

#include "tests/shop/drum_scene.hpp"
#include "tests/shop/watched_store.hpp"

namespace brakewright::shop {
namespace {

class Study : public DrumScene {
 protected:
  /// A proof by a trace of a face that does not run out at all: the outboard tool loses nothing to air, the inboard one
  /// half of the thickness' wave.
  void prove_flat(const JobFile& file) {
    auto trace = swing(file, "0");
    trace.runout.reset();
    trace.trace_um.assign(8, 0.0);
    prove(file, trace);
  }

  /// Cut by so many marks, of which each really is so deep, and measured after.
  JobFile cut_and_measured(std::int64_t outboard, std::int64_t inboard, double real_um) {
    clock += std::chrono::hours(24);
    const auto file = decided(1, 21.5, 0.04);
    prove_flat(file);
    cut(file, outboard, inboard);
    measure(file, 21.5 - (static_cast<double>(outboard + inboard) * real_um - 20) / 1000, 0, Stage::after);
    return shop.job_file(file.job.id);
  }

  void finish(std::int64_t outboard, std::int64_t inboard, double real_um) {
    const auto file = cut_and_measured(outboard, inboard, real_um);
    clock += std::chrono::hours(1);
    shop.seal(file.job.id, teacher);
    clock += std::chrono::hours(1);
  }

  /// Does it while another thread asks the shop for its last seq, again and again.
  template <class F>
  void while_another_asks(Shop& asked, F&& work) {
    std::atomic<int> answers{0};
    std::atomic<bool> ended{false};
    std::thread other([&] {
      for (; !ended; ++answers) {
        asked.last_seq();
        std::this_thread::sleep_for(std::chrono::microseconds(50));
      }
    });
    while (answers == 0) std::this_thread::yield();
    work();
    ended = true;
    other.join();
  }

  /// Five jobs in which a mark was 24 um on either side.
  void finish_five() {
    for (const auto& [out, in] : {std::pair{12, 4}, {4, 12}, {14, 6}, {6, 14}, {10, 10}}) finish(out, in, 24);
  }
};

TEST_F(Study, FewerThanFiveFinishedJobsSayNothing) {
  for (int k = 0; k < 4; ++k) finish(8, 8, 24);
  cut_and_measured(8, 8, 24);  // not sealed
  const LatheRecord record = shop.lathe_study(lathe);
  EXPECT_EQ(record.jobs, 4U);
  EXPECT_EQ(record.needs, 1U);
  EXPECT_FALSE(record.study);
  const auto next = decided();
  EXPECT_EQ(shop.assessment(next.job.id).bench->dial_um_per_mark, 25.4);
  EXPECT_TRUE(shop.assessment(next.job.id).bench->basis.empty());
}

TEST_F(Study, FiveFinishedJobsSayWhatAMarkReallyIs) {
  finish_five();
  const LatheRecord record = shop.lathe_study(lathe);
  ASSERT_TRUE(record.study);
  ASSERT_EQ(record.cuts.size(), 5U);
  EXPECT_NEAR(record.cuts[0].cut.depth.um, 16 * 24, 1);
  EXPECT_EQ(record.study->jobs, 5U);
  ASSERT_TRUE(record.study->mean);
  EXPECT_NEAR(record.study->mean->um_per_mark, 24, 0.3);
  EXPECT_FALSE(record.study->mean->agrees);
  EXPECT_EQ(refusal([&] { shop.lathe_study(id()); }), "unknown_lathe");
}

TEST_F(Study, WhatWasMeasuredReplacesWhatWasTypedForJobsThatAreOpenedAfter) {
  clock += std::chrono::hours(1);
  const auto earlier = decided();
  finish_five();
  const auto later = decided();
  const BenchFigures old_figures = *shop.assessment(earlier.job.id).bench;
  EXPECT_EQ(old_figures.dial_um_per_mark, 25.4);
  EXPECT_EQ(old_figures.dial_sd_um, 5);
  const Assessment made = shop.assessment(later.job.id);
  EXPECT_NEAR(made.bench->dial_um_per_mark, 24, 0.3);
  EXPECT_NEAR(made.bench->dial_inboard_um_per_mark, 24, 0.3);
  EXPECT_LT(made.bench->dial_sd_um, 5);
  EXPECT_EQ(made.bench->mount_rms_um, 12);
  EXPECT_NE(made.bench->basis.find("from 5 finished jobs on this lathe"), std::string::npos);
  EXPECT_NE(std::find(made.missing.begin(), made.missing.end(), made.bench->basis), made.missing.end());
  const PlanAdvice plan = shop.plan(later.job.id, later.parts[0].id, {});
  EXPECT_EQ(plan.basis, made.bench->basis);
  EXPECT_NEAR(*plan.touch_mm - *plan.final_mm, 6 * 0.024, 0.003);  // 50 um at least by a mark of 24 um: 3 a side
}

TEST_F(Study, AJobOfDrumsIsToldOfTheOneToolThatTurnsThem) {
  finish_five();
  const BenchFigures discs = *shop.assessment(decided().job.id).bench;
  const BenchFigures drums = *shop.assessment(open_drums().job.id).bench;
  EXPECT_NE(discs.basis.find("um inboard"), std::string::npos);
  EXPECT_EQ(drums.basis.find("board"), std::string::npos);
  EXPECT_NE(drums.basis.find("from 5 finished jobs on this lathe"), std::string::npos);
}

TEST_F(Study, ACutWhoseFaceWasNotKnownOnTheArborSaysNothingOfTheDials) {
  finish_five();
  clock += std::chrono::hours(24);
  for (const bool swing_alone : {false, true}) {
    const auto file = decided();
    if (swing_alone) prove(file, swing(file, "0.02"));
    cut(file, 8, 8);
    measure(file, 21.2, 0, Stage::after);
    EXPECT_NEAR(shop.assessment(file.job.id).parts[0].dial_check->outboard.touch_loss.um, 30, 1e-9);
    shop.seal(file.job.id, teacher);
  }
  EXPECT_EQ(shop.lathe_study(lathe).jobs, 5U);
}

TEST_F(Study, AShopThatIsOpenedAnewKnowsTheSameJobs) {
  finish_five();
  const LatheRecord kept = shop.lathe_study(lathe);
  Shop again{*store, {.now = [this] { return clock; }, .random = [](std::span<std::uint8_t>) {}}};
  const LatheRecord read = again.lathe_study(lathe);
  ASSERT_EQ(read.cuts.size(), kept.cuts.size());
  EXPECT_EQ(read.study->mean->um_per_mark, kept.study->mean->um_per_mark);
}

TEST_F(Study, OthersAreAnsweredWhileTheFinishedJobsAreRead) {
  constexpr int kJobs = 30;
  for (int k = 0; k < kJobs; ++k) finish(8, 8, 24);
  WatchedStore watched(*store);
  watched.jobs_expected = kJobs;
  Shop again{watched, {.now = [this] { return clock; }, .random = [](std::span<std::uint8_t>) {}}};
  LatheRecord record;
  while_another_asks(again, [&] { record = again.lathe_study(lathe); });
  EXPECT_EQ(record.jobs, std::size_t{kJobs});
  EXPECT_EQ(watched.jobs_read, kJobs);
  EXPECT_GT(watched.answered_between, 0);
}

TEST_F(Study, AnAssessmentThatNeedsTheFinishedJobsLetsOthersBeAnsweredToo) {
  constexpr int kJobs = 30;
  for (int k = 0; k < kJobs; ++k) finish(8, 8, 24);
  const auto next = decided();
  WatchedStore watched(*store);
  watched.jobs_before = 1;  // the one that is asked for
  watched.jobs_expected = kJobs + 1;
  Shop again{watched, {.now = [this] { return clock; }, .random = [](std::span<std::uint8_t>) {}}};
  std::string basis;
  while_another_asks(again, [&] { basis = again.assessment(next.job.id).bench->basis; });
  EXPECT_NE(basis.find("from 30 finished jobs"), std::string::npos);
  EXPECT_GT(watched.answered_between, 0);
}

TEST_F(Study, SeveralWhoAskAtOnceShareTheReading) {
  constexpr int kJobs = 20, kAskers = 4;
  for (int k = 0; k < kJobs; ++k) finish(8, 8, 24);
  WatchedStore watched(*store);
  Shop again{watched, {.now = [this] { return clock; }, .random = [](std::span<std::uint8_t>) {}}};
  std::array<std::size_t, kAskers> jobs{};
  std::vector<std::thread> askers;
  for (auto& count : jobs) askers.emplace_back([&] { count = again.lathe_study(lathe).jobs; });
  for (auto& asker : askers) asker.join();
  for (const auto& count : jobs) EXPECT_EQ(count, std::size_t{kJobs});
  // Each may read again what the others had begun and not ended.
  EXPECT_LE(watched.jobs_read, kJobs + kAskers * (kAskers - 1));
}

TEST_F(Study, ASealThatIsTakenBackLeavesNoTrace) {
  finish_five();
  shop.lathe_study(lathe);
  const auto file = cut_and_measured(8, 8, 24);
  EXPECT_EQ(refusal([&] {
              shop.batch([&] {
                shop.seal(file.job.id, teacher);
                throw InputError("out_of_range", "", "something else in the batch is wrong");
              });
            }),
            "out_of_range");
  EXPECT_EQ(shop.lathe_study(lathe).jobs, 5U);
}

TEST_F(Study, ProofsThatToldTheMountFromThePartSayHowTrueItMounts) {
  for (int k = 0; k < 5; ++k) {
    clock += std::chrono::hours(24);
    const auto file = decided();
    NewMountProof scratch{.id = id(), .part_id = file.parts[0].id, .kind = ProofKind::scratch};
    scratch.marks = {{.centre_deg = 30, .arc_deg = 180, .infeed_um = 20},
                     {.centre_deg = 30, .arc_deg = 180, .infeed_um = 10}};
    scratch.goes_on = true;
    prove(file, scratch);
    cut(file, 4, 4);
    measure(file, 21.35, 0, Stage::after);
    shop.seal(file.job.id, teacher);
  }
  clock += std::chrono::hours(24);
  ASSERT_TRUE(shop.lathe_study(lathe).mount);
  EXPECT_NEAR(shop.lathe_study(lathe).mount->rms_um, 10, 1e-6);
  const auto next = decided();
  EXPECT_NEAR(shop.assessment(next.job.id).bench->mount_rms_um, 10, 1e-6);
}

class Dials : public Study {
 protected:
  dials::DialCheck dials_of(const JobFile& file) { return *shop.assessment(file.job.id).parts.at(0).dial_check; }
};

TEST_F(Dials, ACutThatTookWhatTheDialsSayAgrees) {
  const auto file = cut_and_measured(8, 8, 25.4);
  const auto check = dials_of(file);
  EXPECT_TRUE(check.agrees);
  EXPECT_EQ(check.findings.front().code, "agrees");
  EXPECT_NEAR(check.sum.dialled_um, 16 * 25.4, 1e-9);
  EXPECT_NEAR(check.outboard.touch_loss.um, 0, 1e-6);
  EXPECT_NEAR(check.inboard.touch_loss.um, 20, 0.5);
  EXPECT_NEAR(check.sum.measured->um, 16 * 25.4 - 20, 1);
}

TEST_F(Dials, AFaceThatLostNothingIsNamed) {
  clock += std::chrono::hours(1);
  const auto file = decided();
  prove_flat(file);
  for (const auto& [stage, out, in] : {std::tuple{Stage::before, "7.000", "7.000"}, {Stage::after, "6.797", "7.000"}}) {
    for (const auto& [quantity, text] : {std::pair{Quantity::cheek_outboard, out}, {Quantity::cheek_inboard, in}}) {
      auto read = figure(file, 0, text, stage);
      read.quantity = quantity;
      read.confirmed = true;
      add(file, read);
    }
  }
  cut(file, 8, 8);
  measure(file, 21.5 - 8 * 0.0254, 0.03, Stage::after);
  const auto check = dials_of(file);
  EXPECT_FALSE(check.agrees);
  EXPECT_EQ(check.findings.front().code, "one_side_not_cut");
  EXPECT_EQ(check.findings.front().side, "inboard");
  EXPECT_NEAR(check.outboard.measured->um, 203, 1e-6);
  EXPECT_NEAR(check.inboard.measured->um, 0, 1e-6);
}

TEST_F(Dials, EachDialCountsByItsOwnValue) {
  iron.dial_inboard_um_per_mark = 10;
  shop.put_lathe(iron, teacher);
  clock += std::chrono::hours(1);
  const auto file = decided();
  prove_flat(file);
  cut(file, 4, 10);
  measure(file, 21.5 - (4 * 25.4 + 10 * 10 - 20) / 1000, 0, Stage::after);
  const auto part = shop.assessment(file.job.id).parts.at(0);
  EXPECT_NEAR(part.dial_check->sum.dialled_um, 4 * 25.4 + 100, 1e-9);
  EXPECT_NEAR(*part.check->planned_um, 4 * 25.4 + 100, 1e-9);
  EXPECT_TRUE(part.dial_check->agrees);
}

TEST_F(Dials, BeforeACutIsOnRecordThereIsNothingToHoldThemAgainst) {
  const auto file = decided();
  measure(file, 21.4, 0, Stage::after);
  EXPECT_FALSE(shop.assessment(file.job.id).parts.at(0).dial_check);
}

}  // namespace
}  // namespace brakewright::shop
