#include <gtest/gtest.h>

#include <cmath>

#include "tests/calc/asked.hpp"

namespace brakewright::calc {
namespace {

/// Two parts, two operators, two repeats: 1 3 | 5 7 and 9 11 | 17 19.
Json study() {
  Json rows = Json::array();
  const double values[] = {1, 3, 5, 7, 9, 11, 17, 19};
  for (int i = 0; i < 8; ++i) {
    rows.push_back({{"part", 1 + i / 4}, {"operator", i / 2 % 2 == 0 ? "Ann" : "Ben"}, {"value", values[i]}});
  }
  return {{"rows", rows}, {"tolerance", 50}, {"alpha_pool", 0.1}};
}

TEST(CalcGaugeStudy, AnswersWithTheFieldsOfTheContract) {
  const Json answer = run("gauge-study", study());
  // By hand: 200, 72, 8, 8; pooled 16 / 5 = 3.2 for repeatability, operators (72 - 3.2) / 4, parts (200 - 3.2) / 4.
  EXPECT_EQ(answer.at("anova").size(), 5U);
  EXPECT_EQ(answer.at("anova").at(2).at("source"), "interaction");
  EXPECT_DOUBLE_EQ(answer.at("anova").at(2).at("f"), 4.0);
  EXPECT_EQ(answer.at("anova_pooled").size(), 4U);
  EXPECT_TRUE(answer.at("interaction_pooled"));
  EXPECT_DOUBLE_EQ(answer.at("variance_components").at("full").at("interaction"), 3.0);
  EXPECT_DOUBLE_EQ(answer.at("variance_components").at("pooled").at("operator"), 17.2);
  EXPECT_DOUBLE_EQ(answer.at("repeatability_sd"), std::sqrt(3.2));
  EXPECT_DOUBLE_EQ(answer.at("reproducibility_sd"), std::sqrt(17.2));
  EXPECT_DOUBLE_EQ(answer.at("grr_sd"), std::sqrt(20.4));
  EXPECT_DOUBLE_EQ(answer.at("part_sd"), std::sqrt(49.2));
  EXPECT_DOUBLE_EQ(answer.at("total_sd"), std::sqrt(69.6));
  EXPECT_DOUBLE_EQ(answer.at("percent_grr"), 100 * std::sqrt(20.4 / 69.6));
  EXPECT_DOUBLE_EQ(answer.at("percent_tolerance"), 12 * std::sqrt(20.4));
  EXPECT_EQ(answer.at("ndc"), 2);
  for (const char* figure : {"repeatability_sd", "reproducibility_sd", "grr_sd", "part_sd", "total_sd", "percent_grr",
                             "percent_tolerance", "ndc"}) {
    EXPECT_LE(answer.at("intervals").at(figure).at("low95"), answer.at(figure)) << figure;
    EXPECT_GE(answer.at("intervals").at(figure).at("high95"), answer.at(figure)) << figure;
  }
  EXPECT_EQ(answer.at("parts"), Json({"1", "2"}));
  EXPECT_EQ(answer.at("by_operator").at(1).at("name"), "Ben");
  EXPECT_TRUE(answer.at("by_instrument").is_null());
}

TEST(CalcGaugeStudy, TheLevelOfPoolingIsAQuarterUnlessSaid) {
  Json input = study();
  input.erase("alpha_pool");  // p is 0.116
  EXPECT_FALSE(run("gauge-study", input).at("interaction_pooled"));
}

TEST(CalcGaugeStudy, RefusalsNameTheValue) {
  const auto refused = [](const auto& spoil) {
    Json input = study();
    spoil(input);
    return refusal("gauge-study", input);
  };
  EXPECT_EQ(refused([](Json& in) { in["rows"][3]["value"] = "x"; }), "wrong_type rows[3].value");
  EXPECT_EQ(refused([](Json& in) { in["rows"][3]["part"] = 1.5; }), "wrong_type rows[3].part");
  EXPECT_EQ(refused([](Json& in) { in["rows"][3].erase("operator"); }), "missing rows[3].operator");
  EXPECT_EQ(refused([](Json& in) { in["rows"][3]["appraiser"] = "x"; }), "unknown_field rows[3].appraiser");
  EXPECT_EQ(refused([](Json& in) { in["rows"].erase(3); }), "missing rows");
  EXPECT_EQ(refused([](Json& in) { in["rows"].push_back(in["rows"][0]); }), "too_many rows[8].value");
  EXPECT_EQ(refused([](Json& in) { in["rows"] = Json::array(); }), "missing rows");
  EXPECT_EQ(refused([](Json& in) { in["tolerance"] = -1; }), "out_of_range tolerance");
  EXPECT_EQ(refused([](Json& in) { in["alpha_pool"] = 2; }), "out_of_range alpha_pool");
  EXPECT_EQ(refused([](Json& in) {
              in["references"] = {{{"part", 7}, {"value", 1}, {"u", 0}}};
            }),
            "out_of_range references[0].part");
  EXPECT_EQ(refused([](Json& in) { in["references"] = {{{"part", 1}, {"value", 1}}}; }), "missing references[0].u");
}

TEST(CalcGaugePlan, NamesTheTurnsOfEach) {
  const Json answer = run("gauge-plan", R"({"parts":["a","b"],"operators":["Ann",2],"repeats":2,"seed":1})");
  ASSERT_EQ(answer.at("orders").size(), 2U);
  EXPECT_EQ(answer.at("orders").at(1).at("operator"), "2");
  const Json& turns = answer.at("orders").at(0).at("turns");
  ASSERT_EQ(turns.size(), 4U);
  EXPECT_NE(turns.at(0).at("part"), turns.at(1).at("part"));
  EXPECT_NE(turns.at(1).at("part"), turns.at(2).at("part"));
  EXPECT_EQ(turns.at(3).at("repeat"), 1);
}

TEST(CalcGaugePlan, RefusalsNameTheValue) {
  EXPECT_EQ(refusal("gauge-plan", R"({"parts":["a","a"],"operators":["x"],"repeats":2})"), "duplicate parts[1]");
  EXPECT_EQ(refusal("gauge-plan", R"({"parts":["a",""],"operators":["x"],"repeats":2})"), "missing parts[1]");
  EXPECT_EQ(refusal("gauge-plan", R"({"parts":["a",{}],"operators":["x"],"repeats":2})"), "wrong_type parts[1]");
  EXPECT_EQ(refusal("gauge-plan", R"({"parts":["a"],"operators":["x"],"repeats":2})"), "out_of_range parts");
  EXPECT_EQ(refusal("gauge-plan", R"({"parts":["a","b"],"operators":[],"repeats":2})"), "out_of_range operators");
  EXPECT_EQ(refusal("gauge-plan", R"({"parts":["a","b"],"operators":["x"],"repeats":0})"), "out_of_range repeats");
}

}  // namespace
}  // namespace brakewright::calc
