#include "core/drum/drum.hpp"

#include <cmath>

#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

constexpr double kInch_mm = 25.4;

/// A round drum of this diameter under the limits of a row.
drum::Drums judged(const Table& table, std::size_t row, double diameter_mm, double ovality_mm) {
  drum::Drum part;
  part.name = table.text(row, "id");
  const auto limit = [&](const char* column) {
    return LengthLimit{.value_mm = table.number(row, column), .source = table.text(row, "source_tag")};
  };
  part.limits.machine_to = limit("refinish_limit_mm");
  part.limits.discard = limit("discard_limit_mm");
  part.limits.out_of_round = LengthLimit{.value_mm = 0.076, .source = "TM279"};
  for (const double depth : {5.0, 60.0}) {
    for (int i = 0; i < 4; ++i) {
      part.readings.push_back({.depth_mm = depth,
                               .angle_deg = 45.0 * i,
                               .values_mm = {diameter_mm + (i % 2 == 0 ? ovality_mm : -ovality_mm) / 2}});
    }
  }
  part.gauge = {.resolution_mm = 0.01, .mpe_mm = 0.01, .repeatability_mm = 0.005, .zero_error_mm = 0};
  drum::DrumInput input;
  input.parts = {part};
  input.draws = 1000;
  return drum::judge_drums(input);
}

// Source: public_rotor_specs.csv, the drums that have both limits (TM289, TM279, TM384, TM389): a drum a little oval
// with a millimetre of room on the diameter is cut, one over discard is replaced.
TEST(PublicDrums, EachIsCutWithRoomAndReplacedOverDiscard) {
  const Table table("public_rotor_specs.csv");
  int judged_rows = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.text(row, "part") != "drum" || table.text(row, "refinish_limit_mm").empty()) continue;
    const double machine_to = table.number(row, "refinish_limit_mm"), discard = table.number(row, "discard_limit_mm");
    const drum::Drums roomy = judged(table, row, machine_to - 1, 0.3);
    EXPECT_EQ(roomy.action, Action::cut) << table.text(row, "id");
    EXPECT_LT(roomy.parts[0].final_mm, machine_to);
    EXPECT_EQ(judged(table, row, discard + 0.2, 0.02).action, Action::replace) << table.text(row, "id");
    EXPECT_EQ(judged(table, row, machine_to - 1, 0.01).action, Action::leave) << table.text(row, "id");
    ++judged_rows;
  }
  EXPECT_EQ(judged_rows, 5);
}

// Source: public_rotor_specs.csv: inches and millimetres of the drums' limits agree, but for row P08, whose manual
// prints 16.51 in as 419.36 mm and 16.59 in as 421.36 mm.
TEST(PublicDrums, InchesAndMillimetresAgree) {
  const Table table("public_rotor_specs.csv");
  int compared = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.text(row, "part") != "drum") continue;
    for (const std::string which : {"nominal", "refinish_limit", "discard_limit"}) {
      if (table.text(row, which + "_mm").empty() || table.text(row, which + "_in").empty()) continue;
      EXPECT_NEAR(table.number(row, which + "_mm"), kInch_mm * table.number(row, which + "_in"), 0.006)
          << table.text(row, "id") << ' ' << which;
      ++compared;
    }
  }
  EXPECT_GE(compared, 10);
}

// Source: TM289 by public_rotor_specs.csv rows P06 and P07: 0.060 in over nominal may be turned to, 0.090 in is scrap;
// the house rule of 0.030 in under discard gives the printed machine-to.
TEST(PublicDrums, TheHouseRuleOfThirtyThousandthsGivesThePrintedMachineTo) {
  const Table table("public_rotor_specs.csv");
  for (const char* id : {"P06", "P07"}) {
    const std::size_t row = table.row_of(id);
    const double nominal = table.number(row, "nominal_mm"), discard = table.number(row, "discard_limit_mm");
    EXPECT_NEAR(table.number(row, "refinish_limit_mm") - nominal, 0.060 * kInch_mm, 1e-3);
    EXPECT_NEAR(discard - nominal, 0.090 * kInch_mm, 1e-3);
    EXPECT_NEAR(discard - 0.030 * kInch_mm, table.number(row, "refinish_limit_mm"), 1e-3);
  }
}

}  // namespace
}  // namespace brakewright::outside
