#include <gtest/gtest.h>

#include <cmath>

#include "tests/calc/asked.hpp"

namespace brakewright::calc {
namespace {

TEST(CalcCircle, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("circle", R"({"angles_deg":[0,90,180,270],"values_um":[12,10,8,10],"max_order":3})");
  EXPECT_DOUBLE_EQ(answer.at("mean_um"), 10.0);
  EXPECT_DOUBLE_EQ(answer.at("range_um"), 4.0);
  EXPECT_EQ(answer.at("order_used"), 1);
  EXPECT_EQ(answer.at("order_asked"), 3);
  EXPECT_EQ(answer.at("order_cut"), true);
  EXPECT_EQ(answer.at("dof"), 1);
  EXPECT_DOUBLE_EQ(answer.at("fitted_range_um"), 4.0);
  EXPECT_EQ(answer.at("blind_orders"), Json::parse("[2,4,6,8,10,12]"));
  const Json& wave = answer.at("harmonics").at(0);
  EXPECT_EQ(wave.at("order"), 1);
  EXPECT_DOUBLE_EQ(wave.at("amplitude_um"), 2.0);
  EXPECT_LT(std::abs(std::remainder(wave.at("phase_deg").get<double>(), 360.0)), 1e-9);
  EXPECT_TRUE(wave.at("u_amplitude_um").is_number());
  EXPECT_TRUE(answer.at("residual_sd_um").is_number());
}

TEST(CalcCircle, WhatThreeReadingsCannotSayIsNull) {
  const Json answer = run("circle", R"({"angles_deg":[0,120,240],"values_um":[1,2,3],"max_order":1})");
  EXPECT_TRUE(answer.at("residual_sd_um").is_null());
  EXPECT_TRUE(answer.at("harmonics").at(0).at("u_amplitude_um").is_null());
}

TEST(CalcCircle, RefusalsNameTheField) {
  EXPECT_EQ(refusal("circle", R"({"angles_deg":[0,90],"values_um":[1],"max_order":1})"), "sizes_differ values_um");
  EXPECT_EQ(refusal("circle", R"({"angles_deg":[0,90],"values_um":[1,"2"],"max_order":1})"), "wrong_type values_um[1]");
  EXPECT_EQ(refusal("circle", R"({"angles_deg":[],"values_um":[],"max_order":1})"), "missing angles_deg");
  EXPECT_EQ(refusal("circle", R"({"angles_deg":[0],"values_um":[1],"max_order":-1})"), "out_of_range max_order");
  EXPECT_EQ(refusal("circle", R"({"angles_deg":[0],"values_um":[1],"max_order":1.5})"), "wrong_type max_order");
}

TEST(CalcBudget, TakesStandardUncertaintiesAndHalfWidths) {
  const Json answer = run("budget", R"({"components":[
      {"name":"gauge","value":21.2,"u":3,"sensitivity":1,"dof":4,"distribution":"normal"},
      {"name":"scale","half_width":6.928203230275509,"sensitivity":-1,"dof":null,"distribution":"rectangular"}]})");
  EXPECT_NEAR(answer.at("u").get<double>(), 5.0, 1e-12);
  EXPECT_NEAR(answer.at("dof_effective").get<double>(), 625.0 / (81.0 / 4.0), 1e-9);
  EXPECT_NEAR(answer.at("U").get<double>(), answer.at("k").get<double>() * 5.0, 1e-12);
  EXPECT_EQ(answer.at("contributions").at(1).at("name"), "scale");
}

TEST(CalcBudget, InfiniteDegreesOfFreedomAreNull) {
  EXPECT_TRUE(run("budget", R"({"components":[{"u":1}]})").at("dof_effective").is_null());
}

TEST(CalcBudget, RefusalsNameTheComponent) {
  EXPECT_EQ(refusal("budget", R"({"components":[{"u":1},{"name":"x"}]})"), "missing components[1].u");
  EXPECT_EQ(refusal("budget", R"({"components":[{"u":1,"half_width":2}]})"), "out_of_range components[0].half_width");
  EXPECT_EQ(refusal("budget", R"({"components":[{"half_width":2}]})"), "out_of_range components[0].half_width");
  EXPECT_EQ(refusal("budget", R"({"components":[{"half_width":-2,"distribution":"triangular"}]})"),
            "out_of_range components[0].half_width");
  EXPECT_EQ(refusal("budget", R"({"components":[{"u":1,"distribution":"lognormal"}]})"),
            "out_of_range components[0].distribution");
  EXPECT_EQ(refusal("budget", R"({"components":[{"u":-1}]})"), "out_of_range components[0].u");
  EXPECT_EQ(refusal("budget", R"({"components":[],"confidence":0.95})"), "missing components");
  EXPECT_EQ(refusal("budget", R"({"components":[{"u":1}],"confidence":2})"), "out_of_range confidence");
}

TEST(CalcConformity, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("conformity", R"({"value":5,"u":1,"lower":null,"upper":10,"confidence":0.95})");
  EXPECT_NEAR(answer.at("guard").get<double>(), 1.6449, 5e-5);
  EXPECT_EQ(answer.at("verdict"), "within");
  EXPECT_NEAR(answer.at("p_conform").get<double>(), 0.999999713, 1e-9);
  EXPECT_EQ(run("conformity", R"({"value":5,"u":0,"upper":4})").at("verdict"), "outside");
  EXPECT_EQ(run("conformity", R"({"value":4,"u":1,"upper":4})").at("verdict"), "cannot tell");
}

TEST(CalcConformity, RefusalsNameTheField) {
  EXPECT_EQ(refusal("conformity", R"({"value":5,"u":1})"), "missing upper");
  EXPECT_EQ(refusal("conformity", R"({"value":5,"u":-1,"upper":1})"), "out_of_range u");
  EXPECT_EQ(refusal("conformity", R"({"value":5,"u":1,"upper":1,"confidence":0.2})"), "out_of_range confidence");
  EXPECT_EQ(refusal("conformity", R"({"value":"5","u":1,"upper":1})"), "wrong_type value");
}

TEST(CalcAnova, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("anova", R"({"groups":[[1,2,3],[3,4,5],[8,9,10]]})");
  EXPECT_DOUBLE_EQ(answer.at("ss_between"), 78.0);
  EXPECT_DOUBLE_EQ(answer.at("ss_within"), 6.0);
  EXPECT_EQ(answer.at("df_between"), 2);
  EXPECT_EQ(answer.at("df_within"), 6);
  EXPECT_DOUBLE_EQ(answer.at("ms_between"), 39.0);
  EXPECT_DOUBLE_EQ(answer.at("ms_within"), 1.0);
  EXPECT_DOUBLE_EQ(answer.at("f"), 39.0);
  EXPECT_DOUBLE_EQ(answer.at("r_squared"), 78.0 / 84.0);
  EXPECT_DOUBLE_EQ(answer.at("residual_sd"), 1.0);
  EXPECT_GT(answer.at("p"), 0.0);
}

TEST(CalcAnova, AnInfiniteFIsNullAndNotANumberMadeUp) {
  const Json answer = run("anova", R"({"groups":[[1,1],[2,2]]})");
  EXPECT_TRUE(answer.at("f").is_null());
  EXPECT_EQ(answer.at("p"), 0.0);
}

TEST(CalcAnova, RefusalsNameTheValue) {
  EXPECT_EQ(refusal("anova", R"({"groups":[[1,2],[3,"x"]]})"), "wrong_type groups[1][1]");
  EXPECT_EQ(refusal("anova", R"({"groups":[[1,2],3]})"), "wrong_type groups[1]");
  EXPECT_EQ(refusal("anova", R"({"groups":{"a":1}})"), "wrong_type groups");
  EXPECT_EQ(refusal("anova", R"({"groups":[[1,2],[]]})"), "missing groups[1]");
}

TEST(CalcMethods, AreListedInOrderAndFoundByName) {
  for (std::size_t i = 1; i < methods().size(); ++i) EXPECT_LT(methods()[i - 1].name, methods()[i].name);
  for (const Method& method : methods()) EXPECT_EQ(find(method.name), &method);
  EXPECT_EQ(find("nothing"), nullptr);
}

}  // namespace
}  // namespace brakewright::calc
