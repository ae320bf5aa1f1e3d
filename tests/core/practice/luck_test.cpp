#include <gtest/gtest.h>

#include <algorithm>

#include "tests/core/practice/hands.hpp"

/// A verdict is marked by what was probable, not by what came of it.
namespace brakewright::practice {
namespace {

/// Eight readings of a part that came, zeroed, wiped and on a true mount.
PartInformation read_as_taught(AtBench& at, const PartInformation& all) {
  PartInformation known;
  at.run.apply(Look{});
  at.run.apply(Wipe{});
  at.run.apply(ZeroMicrometer{"micrometer_fine"});
  for (int k = 0; k < 8; ++k) {
    known.angles_deg.push_back(45.0 * k);
    known.thickness_mm.push_back(*at.run.apply(Measure{"micrometer_fine", at.middle_mm(), 45.0 * k}).shown_mm);
  }
  at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
  const Outcome runout = at.run.apply(ReadRunout{.radius_mm = at.middle_mm(), .points = 24});
  known.runout_angles_deg = runout.angles_deg;
  known.runout_um = runout.shown_um;
  known.scoring_um = all.scoring_um;
  return known;
}

/// What a run gives that was decided so, by the same readings.
MarkedPart verdict_on(const Exercise& exercise, const PartInformation& all, Action action, bool by_point_too = false) {
  AtBench at(exercise);
  read_as_taught(at, all);
  if (by_point_too) at.run.apply(Measure{"micrometer_point", at.middle_mm(), 22.5});
  at.run.apply(Decide{action});
  at.run.apply(Unmount{});
  at.run.apply(Finish{});
  const Mark mark = at.run.mark();
  return *std::find_if(mark.parts.begin(), mark.parts.end(),
                       [](const MarkedPart& part) { return part.code == "verdict"; });
}

/// Parts of which eight readings say plainly one thing, and all that there is says plainly another.
TEST(PracticeLuck, WhatTheReadingsMadeProbableIsRightOnBadLuckAndWhatTheyDidNotIsNotOnGoodLuck) {
  constexpr double kPlainly = 0.25;
  int found = 0;
  for (std::uint64_t seed = 1; seed <= 1500 && found < 3; ++seed) {
    const Exercise exercise{.seed = seed, .difficulty = 2};
    const Truth truth = truth_of(exercise);
    const bool of_bench =
        std::any_of(truth.faults.begin(), truth.faults.end(), [](Fault fault) { return fault >= Fault::dirty_seat; });
    if (of_bench || !truth.part.variation) continue;
    const Bench bench = bench_of(exercise);
    const PartInformation all = all_information(truth, bench_sim::part_of_faults(truth.make, truth.part, 180, 0.5));
    const RightChances by_all = chances_of(bench, all);
    AtBench at(exercise);
    const RightChances by_own = chances_of(bench, read_as_taught(at, all));
    const Action read = by_own.best(), true_one = by_all.best();
    if (by_own.of(read) - by_own.of(true_one) < kPlainly || by_all.of(true_one) - by_all.of(read) < kPlainly) continue;
    ++found;
    const MarkedPart bad_luck = verdict_on(exercise, all, read);
    EXPECT_EQ(bad_luck.points, bad_luck.of) << "seed " << seed;
    EXPECT_NE(bad_luck.why.find("bad luck, not a mistake"), std::string::npos) << bad_luck.why;
    const MarkedPart good_luck = verdict_on(exercise, all, true_one);
    EXPECT_LT(good_luck.points, 0.5 * good_luck.of) << "seed " << seed;
    EXPECT_NE(good_luck.why.find("good luck, not a judgement"), std::string::npos) << good_luck.why;
    const MarkedPart judged_by_more = verdict_on(exercise, all, true_one, true);
    EXPECT_EQ(judged_by_more.points, judged_by_more.of) << judged_by_more.why;
  }
  EXPECT_EQ(found, 3);
}

}  // namespace
}  // namespace brakewright::practice
