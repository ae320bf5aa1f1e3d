#include <gtest/gtest.h>

#include "core/cutting/finish.hpp"
#include "core/cutting/foresee.hpp"
#include "core/runout/scratch.hpp"
#include "shop/entities.hpp"
#include "tests/outside/table.hpp"

namespace brakewright {
namespace {

using outside::Table;

struct Range {
  double low = 0, high = 0;
  std::string quantity, basis;
};

/// A row of tolerances.csv; an end that is not there is 0.
Range row_of(const char* id) {
  static const Table table("tolerances.csv");
  const std::size_t row = table.row_of(id);
  const auto end = [&](const char* column) { return table.text(row, column).empty() ? 0 : table.number(row, column); };
  return {.low = end("low"),
          .high = end("high"),
          .quantity = table.text(row, "quantity"),
          .basis = table.text(row, "basis")};
}

// tolerances.csv T46, T47 (depth of a rough and of a last pass), T12 (roughness of a refinished rotor), T24 (runout on
// the arbor before cutting): all common practice, no source, and the shop's own rules must say the same of themselves.
TEST(OutsideTrade, TheShopsRulesOfTheCutLieInTheTradesRanges) {
  const shop::CuttingRules rules;
  const Range rough = row_of("T46"), last = row_of("T47"), roughness = row_of("T12"), runout = row_of("T24");
  ASSERT_EQ(rough.quantity, "rotor_rough_depth_per_side");
  EXPECT_GE(rules.rough_max_um, 1e3 * rough.low);
  EXPECT_LE(rules.rough_max_um, 1e3 * rough.high);
  ASSERT_EQ(last.quantity, "rotor_finish_depth_per_side");
  EXPECT_GE(rules.finish_min_um, 1e3 * last.low);
  EXPECT_LE(rules.finish_max_um, 1e3 * last.high);
  EXPECT_LT(rules.finish_min_um, rules.finish_max_um);
  ASSERT_EQ(roughness.quantity, "surface_roughness_Ra");
  EXPECT_GE(rules.ra_target_um, roughness.low);
  EXPECT_LE(rules.ra_target_um, roughness.high);
  ASSERT_EQ(runout.quantity, "lateral_runout");
  EXPECT_LE(rules.mount_runout_max_um, 1e3 * runout.high);
  for (const Range& row : {rough, last, roughness, runout}) EXPECT_EQ(row.basis, "common practice, no source");
  for (const auto& basis : {rules.depth_basis, rules.ra_basis, rules.mount_basis}) {
    EXPECT_EQ(basis, "common practice, no source");
  }
}

// tolerances.csv T50 and T51 (feed of a rough and of a last pass), common practice, no source, against the shop's
// roughness rule: on a nose of 0.4 mm every rough feed misses it and every feed of a last pass keeps it.
TEST(OutsideTrade, TheTradesFeedsFitTheShopsRoughnessRule) {
  const shop::CuttingRules rules;
  const Range rough = row_of("T50"), last = row_of("T51");
  ASSERT_EQ(rough.quantity, "feed_rough");
  ASSERT_EQ(last.quantity, "feed_finish");
  for (const double feed : {rough.low, rough.high}) {
    EXPECT_GT(cutting::finish(feed, 0.4).ra_um * rules.ra_factor, rules.ra_target_um);
  }
  EXPECT_LT(cutting::finish(last.high, 0.4).ra_um * rules.ra_factor, rules.ra_target_um);
  EXPECT_LE(cutting::finish(last.high, 0.4).ra_high_um, rules.ra_target_um);
}

// tolerances.csv T52 to T54 (spindle speed by diameter), common practice, no source. T52's note gives 94 to 151 m/min
// at 200 to 240 mm; all of them stay under the 170 m/min at which toolmakers' range for coated carbide in grey iron
// begins.
TEST(OutsideTrade, TheTradesSpindleSpeedsMakeTheSurfaceSpeedsThatAreForeseen) {
  const auto surface_speed = [](double diameter_mm, double rpm) {
    const shop::CuttingRules rules;
    return cutting::foresee(
        {.outer_radius_mm = diameter_mm / 2,
         .inner_radius_mm = diameter_mm / 4,
         .start_min_mm = 20,
         .dial_um_per_mark = 25.4,
         .nose_radius_mm = 0.8,
         .max_speed_m_per_min = 170,
         .rough_max_um = rules.rough_max_um,
         .finish_min_um = rules.finish_min_um,
         .finish_max_um = rules.finish_max_um,
         .ra_target_um = rules.ra_target_um,
         .ra_factor = rules.ra_factor,
         .passes = {{.outboard_marks = 3, .inboard_marks = 3, .rpm = rpm, .feed_mm_per_rev = 0.05}}});
  };
  const Range small = row_of("T52"), middle = row_of("T53"), large = row_of("T54");
  EXPECT_NEAR(surface_speed(200, small.low).passes[0].surface_speed_m_per_min, 94, 0.5);
  EXPECT_NEAR(surface_speed(240, small.high).passes[0].surface_speed_m_per_min, 151, 0.5);
  struct Case {
    double diameter_mm, rpm;
  };
  for (const auto& [diameter_mm, rpm] : {Case{250, small.high}, Case{330, middle.high}, Case{400, large.high}}) {
    EXPECT_TRUE(surface_speed(diameter_mm, rpm).warnings.empty()) << diameter_mm;
  }
}

// tolerances.csv T55 (a mark over three quarters of the turn counts as well mounted), common practice, no source: with
// an infeed of up to 42 um such a mark proves the runout of T24.
TEST(OutsideTrade, AMarkOverThreeQuartersOfTheTurnProvesTheRunoutOnTheArbor) {
  const double arc_deg = 360 * row_of("T55").low, most_um = 1e3 * row_of("T24").high;
  EXPECT_LT(read_scratches({{.centre_deg = 0, .arc_deg = arc_deg, .infeed_um = 42}}).marks[0].runout_um, most_um);
  EXPECT_GT(read_scratches({{.centre_deg = 0, .arc_deg = arc_deg, .infeed_um = 43}}).marks[0].runout_um, most_um);
}

}  // namespace
}  // namespace brakewright
