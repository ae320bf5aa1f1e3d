#include "core/gauge_study/gauge_study.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>

#include "tests/core/gauge_study/simulated_study.hpp"

/// How often the intervals of a gauge study hold the truth: over 1500 simulated studies of each design.
namespace brakewright::gauge_study {
namespace {

constexpr int kStudies = 1500;

double square(double x) { return x * x; }

/// How often one figure's interval held it.
struct Count {
  const char* name;
  double truth;
  bool at_zero;  ///< the lower end alone can miss it
  int held = 0;

  void see(const std::optional<Interval>& interval) {
    ASSERT_TRUE(interval.has_value()) << name;
    held += interval->low95 <= truth && truth <= interval->high95 ? 1 : 0;
  }
  double share() const { return held / static_cast<double>(kStudies); }
};

struct Design {
  const char* name;
  Truth truth;
};

const Design kDesigns[] = {
    {"a class", {.parts = 10, .operators = 6, .repeats = 3, .operator_sd = 0.7, .interaction_sd = 0.4, .part_sd = 3}},
    {"the usual study",
     {.parts = 10, .operators = 3, .repeats = 3, .operator_sd = 0.7, .interaction_sd = 0.45, .part_sd = 3}},
    {"a hidden interaction",
     {.parts = 20, .operators = 5, .repeats = 2, .operator_sd = 0.7, .interaction_sd = 0.2, .part_sd = 3}},
    {"a small study",
     {.parts = 4, .operators = 4, .repeats = 3, .operator_sd = 1, .interaction_sd = 0.5, .part_sd = 2}},
    {"many people, few parts",
     {.parts = 5, .operators = 20, .repeats = 2, .operator_sd = 1.5, .interaction_sd = 1, .part_sd = 2}},
    {"operators and interaction at 0", {.parts = 10, .operators = 4, .repeats = 3, .part_sd = 3}},
};

std::vector<Count> counts_of(const Truth& truth) {
  const double reproducibility = square(truth.operator_sd) + square(truth.interaction_sd);
  const double grr = reproducibility + square(truth.repeatability_sd);
  const double total = grr + square(truth.part_sd);
  return {{"repeatability_sd", truth.repeatability_sd, false},
          {"operator_sd", truth.operator_sd, truth.operator_sd == 0},
          {"interaction_sd", truth.interaction_sd, truth.interaction_sd == 0},
          {"reproducibility_sd", std::sqrt(reproducibility), reproducibility == 0},
          {"grr_sd", std::sqrt(grr), false},
          {"part_sd", truth.part_sd, false},
          {"total_sd", std::sqrt(total), false},
          {"percent_grr", 100 * std::sqrt(grr / total), false},
          {"ndc_uncut", 1.41 * truth.part_sd / std::sqrt(grr), false}};
}

TEST(GaugeStudyIntervals, HoldTheTruthInNinetyFiveOfAHundredStudies) {
  for (const auto& [name, truth] : kDesigns) {
    SCOPED_TRACE(name);
    Random random(2026);
    auto counts = counts_of(truth);
    int pooled = 0;
    for (int i = 0; i < kStudies; ++i) {
      Input input = simulated(truth, random);
      input.draws = 2000;
      input.seed = static_cast<std::uint64_t>(i);
      const Study study = study_gauge(input);
      pooled += study.is_pooled ? 1 : 0;
      const Intervals& found = study.intervals;
      const std::optional<Interval> intervals[] = {found.repeatability_sd,   found.operator_sd, found.interaction_sd,
                                                   found.reproducibility_sd, found.grr_sd,      found.part_sd,
                                                   found.total_sd,           found.percent_grr, found.ndc_uncut};
      for (std::size_t k = 0; k < counts.size(); ++k) counts[k].see(intervals[k]);
    }
    std::printf("%s (%zu x %zu x %zu, pooled in %.0f %%):", name, truth.parts, truth.operators, truth.repeats,
                100.0 * pooled / kStudies);
    for (const Count& count : counts) {
      std::printf(" %s %.1f", count.name, 100 * count.share());
      EXPECT_GE(count.share(), 0.93) << count.name;
      EXPECT_LE(count.share(), count.at_zero ? 0.99 : 0.975) << count.name;
    }
    std::printf("\n");
  }
}

/// Offsets, biases and own repeatability of the first of four people, who scatters and reads as the others do but for
/// what the simulation gives everyone.
TEST(GaugeStudyIntervals, OfEachPersonHoldTheTruthToo) {
  Random random(11);
  const Truth truth{
      .parts = 8, .operators = 4, .repeats = 3, .repeatability_sd = 1, .interaction_sd = 0.5, .part_sd = 0};
  int repeatability = 0, offset = 0, bias = 0, en = 0, errors = 0;
  for (int i = 0; i < kStudies; ++i) {
    Input input = simulated(truth, random);
    input.draws = 1000;
    // References that are off by what their own uncertainty says, all alike.
    const double off = 0.2 * random.normal();
    for (std::size_t p = 1; p <= truth.parts; ++p) {
      input.references.push_back({"part " + std::to_string(p), off, 0.2});
    }
    const Study study = study_gauge(input);
    const Group& group = study.by_operator.front();
    const auto holds = [](const std::optional<Interval>& interval, double value) {
      return interval && interval->low95 <= value && value <= interval->high95 ? 1 : 0;
    };
    repeatability += holds(group.repeatability_interval, 1.0);
    offset += holds(group.offset_interval, 0.0);
    bias += holds(group.bias_interval, 0.0);
    for (const PartError& error : group.errors) {
      ++errors;
      en += std::abs(error.en.value()) <= 1 ? 1 : 0;
    }
  }
  const double studies = kStudies;
  std::printf("repeatability %.1f, offset %.1f, bias %.1f; normalised errors within 1: %.1f of 100\n",
              100 * repeatability / studies, 100 * offset / studies, 100 * bias / studies, 100.0 * en / errors);
  EXPECT_NEAR(repeatability / studies, 0.95, 0.02);
  EXPECT_NEAR(offset / studies, 0.95, 0.02);
  EXPECT_NEAR(bias / studies, 0.95, 0.02);
  // The interaction is a person's own error on a part, which a normalised error is there to show.
  EXPECT_GT(en / static_cast<double>(errors), 0.7);
  EXPECT_LT(en / static_cast<double>(errors), 0.95);
}

}  // namespace
}  // namespace brakewright::gauge_study
