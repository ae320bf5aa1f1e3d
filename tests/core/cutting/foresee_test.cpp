#include "core/cutting/foresee.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/cutting/force.hpp"
#include "core/cutting/plan.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::cutting {
namespace {

ForeseeInput two_passes() {
  return {.outer_radius_mm = 140,
          .inner_radius_mm = 90,
          .approach_mm = 2,
          .start_min_mm = 21.6,
          .u_start_min_um = 3,
          .machine_to_mm = 20.4,
          .discard_mm = 20.0,
          .dial_um_per_mark = 25,
          .dial_inboard_um_per_mark = 50,
          .dial_sd_um = 2,
          .speeds_rpm = {100, 150},
          .feeds_mm_per_rev = {0.1, 0.2},
          .nose_radius_mm = 0.8,
          .max_speed_m_per_min = 140,
          .rough_max_um = 200,
          .finish_min_um = 50,
          .finish_max_um = 100,
          .ra_target_um = 1.5,
          .ra_factor = 1.5,
          .passes = {{.outboard_marks = 6, .inboard_marks = 2, .rpm = 150, .feed_mm_per_rev = 0.2},
                     {.outboard_marks = 3, .inboard_marks = 0, .rpm = 100, .feed_mm_per_rev = 0.1}}};
}

std::vector<std::string> codes(const ForeseeInput& in) {
  std::vector<std::string> codes;
  for (const auto& warning : foresee(in).warnings) codes.push_back(warning.code);
  return codes;
}

TEST(Foresee, AnExampleComesOutAsByHand) {
  const Foresight seen = foresee(two_passes());
  ASSERT_EQ(seen.passes.size(), 2U);
  const auto &rough = seen.passes[0], &last = seen.passes[1];
  EXPECT_NEAR(rough.time_s, 104, 1e-9);  // 52 mm at 30 mm a minute
  EXPECT_NEAR(last.time_s, 312, 1e-9);   // 52 mm at 10 mm a minute
  EXPECT_NEAR(seen.time_s, 416, 1e-9);
  EXPECT_NEAR(rough.surface_speed_m_per_min, 131.947, 1e-3);  // 0.28 pi 150
  EXPECT_NEAR(rough.ra_um, 0.0320750 * 0.04 / 0.8 * 1e3, 1e-4);
  EXPECT_NEAR(rough.thickness_after_mm, 21.6 - 0.150 - 0.100, 1e-12);
  EXPECT_NEAR(last.thickness_after_mm, 21.275, 1e-12);
  EXPECT_NEAR(rough.u_thickness_after_um, std::sqrt(9 + 4 + 4), 1e-12);
  EXPECT_NEAR(last.u_thickness_after_um, std::sqrt(9 + 4 + 4 + 4), 1e-12);  // one side is not set again
  EXPECT_NEAR(rough.cut_length_outboard_m, std::numbers::pi * (140 * 140 - 90 * 90) / 0.2 / 1000, 1e-9);
  EXPECT_EQ(last.cut_length_inboard_m, 0);
  EXPECT_NEAR(seen.cut_length_outboard_m, 3 * rough.cut_length_outboard_m, 1e-9);
  EXPECT_NEAR(seen.cut_length_inboard_m, rough.cut_length_inboard_m, 1e-9);
  EXPECT_EQ(seen.final_mm, last.thickness_after_mm);
}

TEST(Foresee, ForceAndPowerAreThoseOfTheNose) {
  const Foresight seen = foresee(two_passes());
  const auto& rough = seen.passes[0];
  const auto outboard = nose_force({.depth_mm = 0.15, .feed_mm_per_rev = 0.2, .nose_radius_mm = 0.8});
  const auto inboard = nose_force({.depth_mm = 0.1, .feed_mm_per_rev = 0.2, .nose_radius_mm = 0.8});
  EXPECT_NEAR(rough.outboard->n, outboard.force_n, 1e-9);
  EXPECT_NEAR(rough.inboard->low_n, inboard.force_low_n, 1e-9);
  EXPECT_NEAR(rough.inboard->high_n, inboard.force_high_n, 1e-9);
  EXPECT_NEAR(*rough.power_w, (outboard.force_n + inboard.force_n) * 131.94689 / 60, 1e-4);
  EXPECT_EQ(seen.passes[1].inboard->n, 0);
  EXPECT_NEAR(*seen.passes[1].power_w, seen.passes[1].outboard->n * 2 * std::numbers::pi * 0.14 * 100 / 60, 1e-9);
}

TEST(Foresee, TheProbabilityIsTheNormalOneOfWhatIsLeft) {
  ForeseeInput in = two_passes();
  in.u_start_min_um = std::sqrt(21.0) * 2;  // with three settings of 2 um: u = sqrt(96)
  in.machine_to_mm = 21.275 - 1.6448536 * std::sqrt(96.0) * 1e-3;
  EXPECT_NEAR(*foresee(in).passes[1].p_over_machine_to, 0.95, 1e-7);
  in.discard_mm = 21.275;
  EXPECT_NEAR(*foresee(in).passes[1].p_over_discard, 0.5, 1e-4);
  in.machine_to_mm.reset();
  EXPECT_FALSE(foresee(in).passes[1].p_over_machine_to.has_value());
}

TEST(Foresee, WithoutUncertaintyOnTheLimitIsOverMachineToAndIsScrap) {
  ForeseeInput in = two_passes();
  in.u_start_min_um = in.dial_sd_um = 0;
  in.machine_to_mm = in.discard_mm = 21.275;
  const auto seen = foresee(in);
  EXPECT_EQ(*seen.passes[1].p_over_machine_to, 1);
  EXPECT_EQ(*seen.passes[1].p_over_discard, 0);
}

TEST(Foresee, OfPassesWithinEveryRuleOneLastPassThatLeavesASideIsTold) {
  // both sides are cut, and the last pass leaves the inboard one
  const auto seen = foresee(two_passes());
  ASSERT_EQ(seen.warnings.size(), 1U);
  EXPECT_EQ(seen.warnings[0].code, "finish_out_of_range");
  EXPECT_EQ(seen.warnings[0].side, "inboard");
  EXPECT_EQ(seen.warnings[0].pass, 1U);
  ForeseeInput in = two_passes();
  in.passes[1].inboard_marks = 1;
  EXPECT_TRUE(codes(in).empty());
}

std::vector<std::string> codes_of(void (*change)(ForeseeInput&)) {
  ForeseeInput in = two_passes();
  in.passes[1].inboard_marks = 1;
  change(in);
  return codes(in);
}

using Codes = std::vector<std::string>;

TEST(Foresee, EachRuleThatIsBrokenIsNamed) {
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.max_speed_m_per_min = 100; }), Codes{"speed_over_insert"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.passes[0].rpm = 120; }), Codes{"speed_not_on_lathe"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.passes[0].feed_mm_per_rev = 0.11; }), Codes{"feed_not_on_lathe"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.rough_max_um = 149; }), Codes{"rough_over_max"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.passes[1].inboard_marks = 3; }), Codes{"finish_out_of_range"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.ra_target_um = 0.6; }), Codes{"ra_over_target"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.machine_to_mm = 21.3; }), Codes{"under_machine_to"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.machine_to_mm = 21.22; }), Codes{"near_machine_to"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) {
              in.discard_mm = 21.225;
              in.machine_to_mm.reset();
            }),
            Codes{"under_discard"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) {
              in.nose_radius_mm = 0.14;
              in.ra_target_um = 9;
            }),
            Codes{"depth_over_nose"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.passes[0].outboard_marks = 1; }), Codes{"rubbing"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.passes[0].outboard_marks = in.passes[0].inboard_marks = 0; }),
            Codes{"nothing_cut"});
  EXPECT_EQ(codes_of([](ForeseeInput& in) {
              in.start_min_mm = 0.3;
              in.machine_to_mm.reset();
              in.discard_mm.reset();
            }),
            Codes{"nothing_left"});
}

TEST(Foresee, ADepthOnItsRuleKeepsIt) {
  EXPECT_EQ(codes_of([](ForeseeInput& in) { in.rough_max_um = 150; }), Codes{});
  EXPECT_EQ(codes_of([](ForeseeInput& in) {
              in.dial_um_per_mark = 0.1;
              in.passes[0].outboard_marks = 1500;
              in.passes[1].outboard_marks = 500;
              in.rough_max_um = 150;
            }),
            Codes{});
}

TEST(Foresee, BeyondTheNoseThereIsNoForceAndThePassSaysSo) {
  ForeseeInput in = two_passes();
  in.nose_radius_mm = 0.14;
  const auto rough = foresee(in).passes[0];
  EXPECT_FALSE(rough.outboard.has_value());
  EXPECT_TRUE(rough.inboard.has_value());
  EXPECT_FALSE(rough.power_w.has_value());
}

TEST(Foresee, WithoutPassesNothingHappens) {
  ForeseeInput in = two_passes();
  in.passes.clear();
  const auto seen = foresee(in);
  EXPECT_EQ(seen.final_mm, in.start_min_mm);
  EXPECT_EQ(seen.u_final_um, in.u_start_min_um);
  EXPECT_EQ(seen.time_s, 0);
  EXPECT_TRUE(seen.warnings.empty());
}

std::string refusal(void (*spoil)(ForeseeInput&)) {
  ForeseeInput in = two_passes();
  spoil(in);
  try {
    foresee(in);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Foresee, NonsenseIsRefusedByTheNameOfItsField) {
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.passes[1].feed_mm_per_rev = 0; }),
            "out_of_range passes[1].feed_mm_per_rev");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.passes[1].feed_mm_per_rev = 1.61; }),
            "out_of_range passes[1].feed_mm_per_rev");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.passes[0].rpm = std::nan(""); }), "out_of_range passes[0].rpm");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.passes[0].inboard_marks = -1; }), "out_of_range passes[0].inboard_marks");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.u_start_min_um = -1; }), "out_of_range u_start_min_um");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.start_min_mm = INFINITY; }), "out_of_range start_min_mm");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.mc = 1; }), "out_of_range material.mc");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.confidence = 1; }), "out_of_range confidence");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.dial_sd_um = std::nan(""); }), "out_of_range lathe.dial_sd_um");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.dial_inboard_um_per_mark = 0; }),
            "out_of_range lathe.dial_inboard_um_per_mark");
  EXPECT_EQ(refusal([](ForeseeInput& in) { in.passes.resize(1001, in.passes[0]); }), "out_of_range passes");
}

/// Some passes on some lathe, every figure within what is accepted.
ForeseeInput drawn(Random& random) {
  ForeseeInput in = two_passes();
  in.passes.clear();
  in.dial_um_per_mark = 5 + 30 * random.uniform();
  in.dial_inboard_um_per_mark = 5 + 30 * random.uniform();
  in.machine_to_mm = 20.5 + random.uniform();
  in.dial_sd_um = 5 * random.uniform();
  for (std::uint64_t k = 1 + random.below(4); k > 0; --k) {
    in.passes.push_back({.outboard_marks = static_cast<std::int64_t>(random.below(12)),
                         .inboard_marks = static_cast<std::int64_t>(random.below(12)),
                         .rpm = 60 + 100 * random.uniform(),
                         .feed_mm_per_rev = 0.05 + 0.2 * random.uniform()});
  }
  return in;
}

TEST(Foresee, AMarkMoreLeavesLessAndPushesHarder) {
  Random random(11);
  for (int i = 0; i < 300; ++i) {
    const ForeseeInput in = drawn(random);
    ForeseeInput deeper = in;
    const std::size_t at = random.below(in.passes.size());
    ++deeper.passes[at].outboard_marks;
    const auto before = foresee(in), after = foresee(deeper);
    EXPECT_LT(after.final_mm, before.final_mm);
    EXPECT_GE(after.u_final_um, before.u_final_um);
    EXPECT_EQ(after.time_s, before.time_s);
    EXPECT_GT(after.passes[at].outboard->n, before.passes[at].outboard->n);
    EXPECT_EQ(after.passes[at].inboard->n, before.passes[at].inboard->n);
    EXPECT_GT(*after.passes[at].power_w, *before.passes[at].power_w);
  }
}

TEST(Foresee, AQuickerFeedIsSoonerAndRougherAndAHigherSpeedSooner) {
  Random random(12);
  for (int i = 0; i < 300; ++i) {
    const ForeseeInput in = drawn(random);
    ForeseeInput fed = in, turned = in;
    const std::size_t at = random.below(in.passes.size());
    fed.passes[at].feed_mm_per_rev *= 1.1;
    turned.passes[at].rpm *= 1.1;
    const auto before = foresee(in), quick = foresee(fed), fast = foresee(turned);
    EXPECT_LT(quick.time_s, before.time_s);
    EXPECT_GT(quick.passes[at].ra_um, before.passes[at].ra_um);
    EXPECT_LE(quick.cut_length_outboard_m, before.cut_length_outboard_m);
    EXPECT_EQ(quick.final_mm, before.final_mm);
    EXPECT_LT(fast.time_s, before.time_s);
    EXPECT_GT(fast.passes[at].surface_speed_m_per_min, before.passes[at].surface_speed_m_per_min);
    EXPECT_EQ(fast.passes[at].ra_um, before.passes[at].ra_um);
  }
}

TEST(Foresee, ThicknessAndItsProbabilityNeverGrowFromPassToPassButDoubtDoes) {
  Random random(13);
  for (int i = 0; i < 300; ++i) {
    ForeseeInput in = drawn(random);
    in.machine_to_mm = 20.0;  // what is left lies above it here, where more doubt lowers the probability
    const auto seen = foresee(in);
    for (std::size_t k = 1; k < seen.passes.size(); ++k) {
      const auto &before = seen.passes[k - 1], &after = seen.passes[k];
      EXPECT_LE(after.thickness_after_mm, before.thickness_after_mm);
      EXPECT_GE(after.u_thickness_after_um, before.u_thickness_after_um);
      EXPECT_LE(*after.p_over_machine_to, *before.p_over_machine_to);
    }
  }
}

TEST(Foresee, APlannedCutComesOutAsPlannedAndBreaksNoRule) {
  Random random(14);
  int planned = 0;
  for (int i = 0; i < 500; ++i) {
    PlanInput job{.outer_radius_mm = 110 + 40 * random.uniform(),
                  .inner_radius_mm = 60 + 30 * random.uniform(),
                  .approach_mm = 3,
                  .needed_outboard_um = 400 * random.uniform(),
                  .needed_inboard_um = random.below(5) == 0 ? 0 : 400 * random.uniform(),
                  .start_min_mm = 22,
                  .machine_to_mm = 21,
                  .speeds_rpm = {60, 100, 150, 200},
                  .feeds_mm_per_rev = {0.05, 0.08, 0.13, 0.2},
                  .dial_um_per_mark = 10 + 15 * random.uniform(),
                  .dial_inboard_um_per_mark = 10 + 15 * random.uniform(),
                  .nose_radius_mm = 0.4,
                  .max_speed_m_per_min = 140,
                  .rough_max_um = 250,
                  .finish_min_um = 50,
                  .finish_max_um = 100,
                  .ra_target_um = 1.5,
                  .ra_factor = 1.5};
    Plan made;
    try {
      made = plan(job);
    } catch (const InputError&) {
      continue;
    }
    ++planned;
    ForeseeInput in{.outer_radius_mm = job.outer_radius_mm,
                    .inner_radius_mm = job.inner_radius_mm,
                    .approach_mm = job.approach_mm,
                    .start_min_mm = job.start_min_mm,
                    .machine_to_mm = job.machine_to_mm,
                    .dial_um_per_mark = job.dial_um_per_mark,
                    .dial_inboard_um_per_mark = job.dial_inboard_um_per_mark,
                    .dial_sd_um = 0,
                    .speeds_rpm = job.speeds_rpm,
                    .feeds_mm_per_rev = job.feeds_mm_per_rev,
                    .nose_radius_mm = job.nose_radius_mm,
                    .max_speed_m_per_min = job.max_speed_m_per_min,
                    .rough_max_um = job.rough_max_um,
                    .finish_min_um = job.finish_min_um,
                    .finish_max_um = job.finish_max_um,
                    .ra_target_um = job.ra_target_um,
                    .ra_factor = job.ra_factor};
    for (const auto& pass : made.passes) {
      in.passes.push_back({.outboard_marks = pass.outboard_marks,
                           .inboard_marks = pass.inboard_marks,
                           .rpm = pass.rpm,
                           .feed_mm_per_rev = pass.feed_mm_per_rev});
    }
    const auto seen = foresee(in);
    EXPECT_NEAR(seen.time_s, made.time_s, 1e-9);
    EXPECT_NEAR(seen.final_mm, made.final_mm, 1e-12);
    for (std::size_t k = 0; k < made.passes.size(); ++k) {
      EXPECT_NEAR(seen.passes[k].ra_um, made.passes[k].ra_um, 1e-12);
      EXPECT_NEAR(seen.passes[k].surface_speed_m_per_min, made.passes[k].surface_speed_m_per_min, 1e-12);
      EXPECT_NEAR(seen.passes[k].time_s, made.passes[k].time_s, 1e-9);
    }
    for (const auto& warning : seen.warnings) {
      // an even share of a rough pass may come out light: that is a hint, not a rule of the plan
      EXPECT_EQ(warning.code, "rubbing") << warning.text;
    }
  }
  EXPECT_GT(planned, 300);
}

}  // namespace
}  // namespace brakewright::cutting
