#include "core/cutting/plan.hpp"

#include <gtest/gtest.h>

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>
#include <cmath>
#include <numbers>
#include <tuple>

#include "core/input_error.hpp"

namespace brakewright::cutting {
namespace {

using Draw = boost::random::mt19937_64;

int between(Draw& draw, int low, int high) { return boost::random::uniform_int_distribution<int>(low, high)(draw); }

/// Every third job is on a lathe whose two dials differ.
PlanInput random_input(std::uint64_t seed) {
  Draw draw(seed);
  PlanInput in;
  in.inner_radius_mm = 70 + 5 * between(draw, 0, 4);
  in.outer_radius_mm = in.inner_radius_mm + 10 * between(draw, 2, 6);
  in.approach_mm = between(draw, 0, 3);
  in.dial_um_per_mark = 10 * between(draw, 1, 5);
  in.needed_outboard_um = between(draw, 0, 4) == 0 ? 0 : 10 * between(draw, 1, 50);
  in.needed_inboard_um = between(draw, 0, 4) == 0 ? 0 : 10 * between(draw, 1, 50);
  in.start_min_mm = 22;
  if (between(draw, 0, 2) > 0) in.machine_to_mm = 21.1 + 0.1 * between(draw, 0, 8);
  for (int i = between(draw, 1, 3); i > 0; --i) in.speeds_rpm.push_back(50 * between(draw, 1, 6));
  for (int i = between(draw, 1, 4); i > 0; --i) in.feeds_mm_per_rev.push_back(0.05 * between(draw, 1, 8));
  in.nose_radius_mm = 0.2 * between(draw, 1, 4);
  in.max_speed_m_per_min = 20 * between(draw, 2, 10);
  in.rough_max_um = 10 * between(draw, 0, 25);
  in.finish_min_um = 10 * between(draw, 0, 6);
  in.finish_max_um = in.finish_min_um + 10 * between(draw, 1, 6);
  in.ra_target_um = 0.5 * between(draw, 1, 8);
  in.ra_factor = 1 + 0.5 * between(draw, 0, 2);
  if (seed % 3 == 0) in.dial_inboard_um_per_mark = 5 * between(draw, 1, 12);
  return in;
}

double inboard_dial(const PlanInput& in) { return in.dial_inboard_um_per_mark.value_or(in.dial_um_per_mark); }

/// Everything tried: every total of marks, every number of passes, every gear, on a scale of whole marks.
class BruteForce {
 public:
  struct Best {
    int outboard = 0, inboard = 0, passes = 0;
    double time_s = 0, rpm_sum = 0, final_mm = 0;
  };

  explicit BruteForce(const PlanInput& in) : in_(in) {}

  std::optional<Best> solve() const {
    Best best;
    const double dial_out = in_.dial_um_per_mark, dial_in = inboard_dial(in_);
    best.outboard = fewest(in_.needed_outboard_um, dial_out);
    best.inboard = fewest(in_.needed_inboard_um, dial_in);
    if (best.outboard < 0 || best.inboard < 0) return std::nullopt;
    best.final_mm = in_.start_min_mm - (best.outboard * dial_out + best.inboard * dial_in) / 1000;
    if (best.outboard + best.inboard == 0) return best;
    if (in_.machine_to_mm && best.final_mm < *in_.machine_to_mm - 1e-9) return std::nullopt;
    bool found = false;
    for (int passes = 1; passes <= kMostPasses; ++passes) {
      if (!divides(best.outboard, passes, dial_out) || !divides(best.inboard, passes, dial_in)) continue;
      for (const auto& finish : gears(true)) {
        for (const auto& rough : passes > 1 ? gears(false) : std::vector<Gear>{{}}) {
          const double time = finish.time_s + (passes - 1) * rough.time_s;
          const double rpm = finish.rpm + (passes - 1) * rough.rpm;
          if (!found || std::make_tuple(tidy(time), passes, rpm) <
                            std::make_tuple(tidy(best.time_s), best.passes, best.rpm_sum)) {
            found = true;
            best.time_s = time;
            best.passes = passes;
            best.rpm_sum = rpm;
          }
        }
      }
    }
    return found ? std::optional(best) : std::nullopt;
  }

 private:
  static constexpr int kMostPasses = 60;
  struct Gear {
    double rpm = 0, time_s = 0;
  };
  static double tidy(double time) { return std::round(time * 1e6); }

  bool in_last_pass(int marks, double dial) const {
    const double um = marks * dial;
    return marks > 0 && um >= in_.finish_min_um - 1e-6 && um <= in_.finish_max_um + 1e-6;
  }
  /// Whether so many marks can be taken in so many passes.
  bool divides(int total, int passes, double dial) const {
    if (total == 0) return true;
    int rough_most = 0;
    while ((rough_most + 1) * dial <= in_.rough_max_um + 1e-6) ++rough_most;
    for (int last = 1; last <= total; ++last) {
      if (in_last_pass(last, dial) && total - last <= (passes - 1) * rough_most) return true;
    }
    return false;
  }
  int fewest(double needed_um, double dial) const {
    if (needed_um <= 0) return 0;
    for (int total = 1; total <= 200; ++total) {
      if (total * dial < needed_um - 1e-6) continue;
      for (int passes = 1; passes <= kMostPasses; ++passes) {
        if (divides(total, passes, dial)) return total;
      }
    }
    return -1;
  }
  std::vector<Gear> gears(bool finish) const {
    std::vector<Gear> gears;
    for (const double rpm : in_.speeds_rpm) {
      if (2 * std::numbers::pi * in_.outer_radius_mm / 1000 * rpm > in_.max_speed_m_per_min + 1e-6) continue;
      for (const double feed : in_.feeds_mm_per_rev) {
        const double ra = 1000 * feed * feed / (18 * std::sqrt(3.0) * in_.nose_radius_mm);
        if (feed > 2 * in_.nose_radius_mm + 1e-12) continue;
        if (finish && ra * in_.ra_factor > in_.ra_target_um + 1e-9) continue;
        const double travel = in_.outer_radius_mm - in_.inner_radius_mm + in_.approach_mm;
        gears.push_back({.rpm = rpm, .time_s = 60 * travel / (feed * rpm)});
      }
    }
    return gears;
  }

  const PlanInput& in_;
};

struct Sums {
  int outboard = 0, inboard = 0;
};

Sums sums_within_the_rules(const PlanInput& in, const Plan& plan) {
  Sums sums;
  for (std::size_t i = 0; i < plan.passes.size(); ++i) {
    const bool last = i + 1 == plan.passes.size();
    for (const bool outboard : {true, false}) {
      const auto marks = outboard ? plan.passes[i].outboard_marks : plan.passes[i].inboard_marks;
      const double um = static_cast<double>(marks) * (outboard ? in.dial_um_per_mark : inboard_dial(in));
      EXPECT_GE(marks, 0);
      if (!last) {
        EXPECT_LE(um, in.rough_max_um + 1e-6);
      } else if (marks > 0) {
        EXPECT_GE(um, in.finish_min_um - 1e-6);
        EXPECT_LE(um, in.finish_max_um + 1e-6);
      }
    }
    sums.outboard += static_cast<int>(plan.passes[i].outboard_marks);
    sums.inboard += static_cast<int>(plan.passes[i].inboard_marks);
  }
  if (!plan.passes.empty()) {
    EXPECT_EQ(plan.passes.back().outboard_marks > 0, sums.outboard > 0);
    EXPECT_EQ(plan.passes.back().inboard_marks > 0, sums.inboard > 0);
  }
  return sums;
}

TEST(CutPlan, TwoThousandRandomJobsGiveWhatTryingEverythingGives) {
  int planned = 0, planned_with_two_dials = 0, refused = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    const PlanInput in = random_input(seed);
    const auto expected = BruteForce(in).solve();
    std::optional<Plan> made;
    try {
      made = plan(in);
    } catch (const InputError& error) {
      ASSERT_EQ(error.code(), "no_plan") << "seed " << seed;
      ++refused;
    }
    ASSERT_EQ(made.has_value(), expected.has_value()) << "seed " << seed;
    if (!made) continue;
    ++planned;
    planned_with_two_dials += inboard_dial(in) == in.dial_um_per_mark ? 0 : 1;
    const Sums sums = sums_within_the_rules(in, *made);
    ASSERT_EQ(sums.outboard, expected->outboard) << "seed " << seed;
    ASSERT_EQ(sums.inboard, expected->inboard) << "seed " << seed;
    ASSERT_EQ(made->passes.size(), static_cast<std::size_t>(expected->passes)) << "seed " << seed;
    ASSERT_NEAR(made->time_s, expected->time_s, 1e-6) << "seed " << seed;
    ASSERT_NEAR(made->final_mm, expected->final_mm, 1e-9) << "seed " << seed;
    double rpm_sum = 0;
    for (const auto& pass : made->passes) rpm_sum += pass.rpm;
    ASSERT_NEAR(rpm_sum, expected->rpm_sum, 1e-9) << "seed " << seed;
  }
  EXPECT_GT(planned, 400);
  EXPECT_GT(planned_with_two_dials, 100);
  EXPECT_GT(refused, 400);
}

PlanInput bench_example() {
  return {.outer_radius_mm = 140,
          .inner_radius_mm = 90,
          .approach_mm = 2,
          .needed_outboard_um = 180,
          .needed_inboard_um = 90,
          .start_min_mm = 21.6,
          .machine_to_mm = 20.4,
          .speeds_rpm = {100, 150},
          .feeds_mm_per_rev = {0.05, 0.1, 0.15, 0.2},
          .dial_um_per_mark = 25.4,
          .nose_radius_mm = 0.8,
          .max_speed_m_per_min = 140,
          .rough_max_um = 200,
          .finish_min_um = 50,
          .finish_max_um = 102,
          .ra_target_um = 1.5,
          .ra_factor = 1.5};
}

TEST(CutPlan, ABenchJobIsCutByARoughPassAndALightOne) {
  const Plan made = plan(bench_example());
  // 180 um is 8 marks of 25.4; the last pass takes 2 to 4 marks; 90 um is 4 marks.
  ASSERT_EQ(made.passes.size(), 2U);
  EXPECT_EQ(made.passes[0].outboard_marks + made.passes[1].outboard_marks, 8);
  EXPECT_EQ(made.passes[0].inboard_marks + made.passes[1].inboard_marks, 4);
  EXPECT_DOUBLE_EQ(made.passes[1].feed_mm_per_rev, 0.15);  // 0.15 leaves 0.90 um, times 1.5 is under 1.5; 0.2 is not
  EXPECT_DOUBLE_EQ(made.passes[0].feed_mm_per_rev, 0.2);
  EXPECT_DOUBLE_EQ(made.passes[0].rpm, 150);
  EXPECT_NEAR(made.final_mm, 21.6 - 12 * 0.0254, 1e-12);
  EXPECT_NEAR(made.passes[0].time_s, 52 / (0.2 * 150) * 60, 1e-9);
}

TEST(CutPlan, EachFaceIsCutByTheMarksOfItsOwnDial) {
  PlanInput in = bench_example();
  in.dial_inboard_um_per_mark = 50;
  const Plan made = plan(in);
  // 180 um is 8 marks of 25.4, 90 um is 2 marks of 50; a last pass of at most 102 um takes both of them
  ASSERT_EQ(made.passes.size(), 2U);
  EXPECT_EQ(made.passes[0].outboard_marks + made.passes[1].outboard_marks, 8);
  EXPECT_EQ(made.passes[0].inboard_marks + made.passes[1].inboard_marks, 2);
  EXPECT_NEAR(made.final_mm, 21.6 - 8 * 0.0254 - 2 * 0.05, 1e-12);
}

TEST(CutPlan, ADialThatTurnsTheOtherFaceOnlyIsNotInTheWayOfThisOne) {
  PlanInput in = bench_example();
  in.dial_inboard_um_per_mark = 300;  // no mark of it lies in the last pass
  in.needed_inboard_um = 0;
  EXPECT_EQ(plan(in).passes.size(), 2U);
  in.needed_inboard_um = 10;
  EXPECT_THROW(plan(in), InputError);
}

std::string rule_in_the_way(void (*spoil)(PlanInput&)) {
  PlanInput in = bench_example();
  spoil(in);
  try {
    plan(in);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "planned";
}

TEST(CutPlan, ARefusalNamesTheRuleInTheWay) {
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.machine_to_mm = 21.5; }), "no_plan machine_to_mm");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.max_speed_m_per_min = 60; }), "no_plan insert.max_speed_m_per_min");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.ra_target_um = 0.05; }), "no_plan rules.ra_target_um");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.rough_max_um = 20; }), "no_plan rules.rough_max_um");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.finish_max_um = 50; }), "no_plan rules.finish_max_um");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.feeds_mm_per_rev = {3}; }), "no_plan lathe.feeds_mm_per_rev");
}

TEST(CutPlan, NonsenseIsRefusedByTheNameOfItsField) {
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) {
              in.feeds_mm_per_rev = {0.1, 0};
            }),
            "out_of_range lathe.feeds_mm_per_rev[1]");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.speeds_rpm.clear(); }), "out_of_range lathe.speeds_rpm");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.inner_radius_mm = 150; }), "out_of_range ring.outer_radius_mm");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.needed_inboard_um = std::nan(""); }),
            "out_of_range needed_um.inboard");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.dial_inboard_um_per_mark = 0; }),
            "out_of_range lathe.dial_inboard_um_per_mark");
  EXPECT_EQ(rule_in_the_way([](PlanInput& in) { in.dial_um_per_mark = 1e-9; }), "out_of_range lathe.dial_um_per_mark");
}

TEST(CutPlan, AFaceThatNeedsNothingIsLeftAlone) {
  PlanInput in = bench_example();
  in.needed_inboard_um = 0;
  for (const auto& pass : plan(in).passes) EXPECT_EQ(pass.inboard_marks, 0);
  in.needed_outboard_um = 0;
  EXPECT_TRUE(plan(in).passes.empty());
  EXPECT_DOUBLE_EQ(plan(in).final_mm, in.start_min_mm);
}

TEST(CutPlan, ThreeTenthsByTenthsAreThreeMarks) {
  PlanInput in = bench_example();
  in.dial_um_per_mark = 0.1;
  in.needed_outboard_um = 0.3;
  in.needed_inboard_um = 0;
  in.finish_min_um = 0;
  in.finish_max_um = 0.3;
  const Plan made = plan(in);
  ASSERT_EQ(made.passes.size(), 1U);
  EXPECT_EQ(made.passes[0].outboard_marks, 3);
}

}  // namespace
}  // namespace brakewright::cutting
