#include <gtest/gtest.h>

#include <string>

#include "core/length/length.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

TypedLength typed(const std::string& text) { return parse_length(text, Unit::mm).typed; }

// Source: limits from public technical manuals; the mm columns are the exact conversions of the inches.
TEST(PublicLimits, InchesAndMillimetresAreTheSameWholeNanometres) {
  const Table specs("public_rotor_specs.csv");
  int checked = 0;
  for (std::size_t row = 0; row < specs.size(); ++row) {
    for (const std::string limit : {"nominal", "refinish_limit", "discard_limit"}) {
      const std::string& inches = specs.text(row, limit + "_in");
      const std::string& millimetres = specs.text(row, limit + "_mm");
      if (inches.empty() || millimetres.empty()) continue;
      EXPECT_EQ(typed(inches + " in").value, typed(millimetres + " mm").value) << specs.text(row, "id") << " " << limit;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 23);
}

struct Printed {
  const char* id;
  const char* limit;   // column of the table, in inches
  const char* metric;  // as the manual prints it beside the inches
};

// Source: the manuals' own conversions, column source_mm_as_printed of the same table.
constexpr Printed kPrinted[] = {{"P01", "discard_limit_in", "20.6 mm"},    {"P02", "discard_limit_in", "24.6 mm"},
                                {"P03", "discard_limit_in", "20.701 mm"},  {"P04", "refinish_limit_in", "31.24 mm"},
                                {"P04", "discard_limit_in", "30.86 mm"},   {"P05", "refinish_limit_in", "37.59 mm"},
                                {"P05", "discard_limit_in", "37.21 mm"},   {"P06", "nominal_in", "283.21 mm"},
                                {"P06", "refinish_limit_in", "284.73 mm"}, {"P06", "discard_limit_in", "285.50 mm"},
                                {"P07", "nominal_in", "330.20 mm"},        {"P07", "refinish_limit_in", "331.72 mm"},
                                {"P07", "discard_limit_in", "332.49 mm"},  {"P08", "nominal_in", "419.36 mm"},
                                {"P08", "refinish_limit_in", "421.36 mm"}, {"P09", "refinish_limit_in", "42.11 cm"},
                                {"P09", "discard_limit_in", "42.21 cm"},   {"P11", "refinish_limit_in", "30.71 cm"}};

TEST(PublicLimits, TheMisprintedRowAloneIsQuestioned) {
  const Table specs("public_rotor_specs.csv");
  for (const Printed& printed : kPrinted) {
    const auto row = specs.row_of(printed.id);
    const Agreement agreement = compare(typed(specs.text(row, printed.limit) + " in"), typed(printed.metric));
    EXPECT_EQ(agreement.agree, std::string(printed.id) != "P08") << printed.id << " " << printed.limit;
  }
}

// Common practice, no source: a rotor read at 0.836 in and cut to 0.824 in lost 0.012 in, 0.006 in per side when equal.
TEST(CommonPractice, TwelveThouOffInAllAreSixPerSide) {
  const Length before = parse_length("0.836", Unit::in).typed.value;
  const Length after = parse_length("824 thou", Unit::mm).typed.value;
  const Length removed = before - after;
  EXPECT_EQ(removed, parse_length("0.012 in", Unit::mm).typed.value);
  EXPECT_EQ(removed.nm % 2, 0);
  EXPECT_EQ(format({removed.nm / 2}, Unit::in, 25400), "0.006 in");
  EXPECT_EQ(format(removed, Unit::mm, 1000), "0.305 mm");
}

}  // namespace
}  // namespace brakewright::outside
