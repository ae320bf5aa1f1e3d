#include "core/uncertainty/conformity.hpp"

#include <gtest/gtest.h>

#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

std::optional<double> limit(const Table& table, std::size_t row, const char* column) {
  if (table.text(row, column).empty()) return std::nullopt;
  return table.number(row, column);
}

// Source: JCGM 106:2012, clause 7 (two examples, from memory and recomputed) and a calculator's manual.
TEST(ConformanceProbability, IsThatOfThePublishedExamples) {
  const Table examples("risk_specific.csv");
  for (std::size_t row = 0; row < examples.size(); ++row) {
    const Limits limits{.lower = limit(examples, row, "lower_tol"), .upper = limit(examples, row, "upper_tol")};
    const double p =
        judge_conformity(examples.number(row, "estimate"), examples.number(row, "std_uncertainty"), limits, 0.95)
            .p_conform;
    EXPECT_NEAR(p, examples.number(row, "computed_pc"), 1e-9) << examples.text(row, "case");
    const std::string& published = examples.text(row, "published_pc");
    EXPECT_NEAR(p, std::stod(published), half_last_place(published)) << examples.text(row, "case");
  }
}

// Source: ILAC-G8:09/2019 Table 1, JCGM 106:2012, ISO 14253-1 (guard bands as parts of U, from memory; risks computed).
TEST(GuardBands, LeaveTheRiskThatTheRulesSay) {
  const Table rules("decision_rule_guard_factors.csv");
  for (std::size_t row = 0; row < rules.size(); ++row) {
    for (const auto& [column, k] : {std::pair{"risk_at_limit_k2", 2.0}, std::pair{"risk_at_limit_k1.96", 1.96}}) {
      const double u = 0.3;
      const double guard = rules.number(row, "guard_w_over_U") * k * u;
      // The risk is the chance that the value is above the limit: the conformance of a lower one.
      const double risk = judge_conformity(10.0 - guard, u, {.lower = 10.0}, 0.95).p_conform;
      EXPECT_GT(matching_digits(risk, rules.number(row, column)), 7.0) << rules.text(row, "rule") << " " << column;
    }
  }
}

// Source: the same table: 0.83 U at k = 2 is the one-sided 95 % rule rounded to two digits; exact is 1.6449 u.
TEST(GuardBands, OursAtNinetyFivePercentIsTheOneSidedRule) {
  EXPECT_NEAR(judge_conformity(0.0, 1.0, {.upper = 1.0}, 0.95).guard, 1.6449, 5e-5);
  EXPECT_NEAR(judge_conformity(0.0, 1.0, {.upper = 1.0}, 0.95).guard / 2.0, 0.83, 0.01);
}

}  // namespace
}  // namespace brakewright::outside
