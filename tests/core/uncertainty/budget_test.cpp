#include "core/uncertainty/budget.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

TEST(Budget, HalfWidthsBecomeStandardUncertaintiesByTheirShape) {
  EXPECT_DOUBLE_EQ(standard_uncertainty(0.6, Distribution::rectangular), 0.6 / std::sqrt(3.0));
  EXPECT_DOUBLE_EQ(standard_uncertainty(0.6, Distribution::triangular), 0.6 / std::sqrt(6.0));
  EXPECT_DOUBLE_EQ(standard_uncertainty(0.6, Distribution::u_shaped), 0.6 / std::sqrt(2.0));
  EXPECT_THROW(standard_uncertainty(0.6, Distribution::normal), InputError);
  EXPECT_THROW(standard_uncertainty(-1.0, Distribution::rectangular), InputError);
}

TEST(Budget, ComponentsAddInSquaresThroughTheirSensitivities) {
  const Budget budget =
      combine(std::vector<Component>{{.name = "a", .u = 3.0}, {.name = "b", .u = 2.0, .sensitivity = -2.0}}, 0.95);
  EXPECT_DOUBLE_EQ(budget.u, 5.0);
  EXPECT_FALSE(budget.dof_effective);
  EXPECT_NEAR(budget.k, 1.959963985, 1e-9);
  EXPECT_NEAR(budget.expanded, 9.799819923, 1e-8);
  EXPECT_DOUBLE_EQ(budget.contributions[1].u, 4.0);
  EXPECT_DOUBLE_EQ(budget.contributions[1].share, 16.0 / 25.0);
}

TEST(Budget, DegreesOfFreedomAreCutToWholeForTheFactor) {
  EXPECT_DOUBLE_EQ(coverage_factor(16.9, 0.99), coverage_factor(16.0, 0.99));
  EXPECT_DOUBLE_EQ(coverage_factor(18.0 - 1e-13, 0.99), coverage_factor(18.0, 0.99));
  EXPECT_LT(coverage_factor(17.0, 0.99), coverage_factor(16.0, 0.99));
}

TEST(Budget, OneComponentKeepsItsOwnDegreesOfFreedom) {
  for (const double dof : {1.0, 2.0, 7.0, 18.0, 49.0}) {
    const Budget budget = combine(std::vector<Component>{{.u = 0.3, .sensitivity = 7.0, .dof = dof}}, 0.95);
    EXPECT_NEAR(budget.dof_effective.value(), dof, 1e-9);
    EXPECT_DOUBLE_EQ(budget.k, coverage_factor(dof, 0.95));
  }
}

TEST(Budget, NothingUncertainIsNotUncertain) {
  const Budget budget = combine(std::vector<Component>{{.u = 0.0, .dof = 3.0}, {.u = 1.0, .sensitivity = 0.0}}, 0.95);
  EXPECT_EQ(budget.u, 0.0);
  EXPECT_EQ(budget.expanded, 0.0);
  EXPECT_FALSE(budget.dof_effective);
  EXPECT_EQ(budget.contributions[0].share, 0.0);
}

TEST(Budget, HugeAndTinyUnitsDoNotOverflow) {
  EXPECT_NEAR(combine(std::vector<Component>{{.u = 3e200}, {.u = 4e200}}, 0.95).u / 5e200, 1.0, 1e-14);
  EXPECT_NEAR(combine(std::vector<Component>{{.u = 3e-200}, {.u = 4e-200}}, 0.95).u / 5e-200, 1.0, 1e-14);
}

std::string refusal(const std::vector<Component>& components, double confidence = 0.95) {
  try {
    combine(components, confidence);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Budget, BadComponentsAreRefusedWithTheirPath) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal({}), "missing components");
  EXPECT_EQ(refusal({{.u = 1.0}, {.u = -1.0}}), "out_of_range components[1].u");
  EXPECT_EQ(refusal({{.u = nan}}), "not_finite components[0].u");
  EXPECT_EQ(refusal({{.u = 1.0, .sensitivity = nan}}), "not_finite components[0].sensitivity");
  EXPECT_EQ(refusal({{.u = 1.0, .dof = 0.5}}), "out_of_range components[0].dof");
  EXPECT_EQ(refusal({{.u = 1.0, .dof = nan}}), "out_of_range components[0].dof");
  EXPECT_EQ(refusal({{.u = 1e300, .sensitivity = 1e300}}), "out_of_range components[0]");
  EXPECT_EQ(refusal({{.u = 1.7e308}, {.u = 1.7e308}}), "out_of_range components");
  EXPECT_EQ(refusal({{.u = 1.0}}, 1.0), "out_of_range confidence");
  EXPECT_EQ(refusal({{.u = 1.0}}, 0.0), "out_of_range confidence");
  EXPECT_EQ(refusal({{.u = 1.0}}, nan), "out_of_range confidence");
}

RC_GTEST_PROP(Budget, AnotherUnitScalesTheResultAndLeavesTheFactor, ()) {
  std::vector<Component> in_mm;
  const int count = *rc::gen::inRange(1, 6);
  for (int i = 0; i < count; ++i) {
    in_mm.push_back({.u = *rc::gen::inRange(1, 1000) / 1000.0, .dof = *rc::gen::inRange(1, 50)});
  }
  std::vector<Component> in_inches = in_mm;
  for (Component& component : in_inches) component.u /= 25.4;
  const Budget first = combine(in_mm, 0.95);
  const Budget second = combine(in_inches, 0.95);
  RC_ASSERT(std::abs(second.expanded * 25.4 / first.expanded - 1.0) < 1e-12);
  RC_ASSERT(first.k == second.k);
  RC_ASSERT(*first.dof_effective >= 1.0 - 1e-9);
}

}  // namespace
}  // namespace brakewright
