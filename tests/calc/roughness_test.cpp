#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/calc/asked.hpp"

namespace brakewright::calc {
namespace {

/// A sine of 2 um every 0.1 mm, read at each micrometre.
Json sine(int points = 4800) {
  Json z_um = Json::array();
  for (int i = 0; i < points; ++i) z_um.push_back(2 * std::sin(2 * std::numbers::pi * i / 100));
  return {{"spacing_um", 1}, {"z_um", std::move(z_um)}};
}

Json with(Json input, const char* field, const Json& value) {
  input[field] = value;
  return input;
}

TEST(CalcRoughness, AnswersWithTheFieldsOfTheContract) {
  Json input = sine();
  input.update(Json::parse(R"({"cutoff_mm":0.8,"short_cutoff_um":null,"filter":"gaussian","discard_ends_mm":0.4})"));
  const Json answer = run("roughness", input);
  // half a cut-off from the ends, the filter is still less than whole
  constexpr double near = 1e-3;
  EXPECT_NEAR(answer.at("Ra_um").get<double>(), 4 / std::numbers::pi, near);
  EXPECT_NEAR(answer.at("Rq_um").get<double>(), std::sqrt(2.0), near);
  EXPECT_NEAR(answer.at("Rp_um").get<double>(), 2, near);
  EXPECT_NEAR(answer.at("Rv_um").get<double>(), 2, near);
  EXPECT_NEAR(answer.at("Rt_um").get<double>(), 4, 2 * near);
  EXPECT_NEAR(answer.at("Rz_um").get<double>(), 4, 2 * near);
  EXPECT_NEAR(answer.at("Rsk").get<double>(), 0, near);
  EXPECT_NEAR(answer.at("Rku").get<double>(), 1.5, near);
  EXPECT_EQ(answer.at("cutoff_source"), "as given");
  EXPECT_EQ(answer.at("sections"), 5);
  EXPECT_NEAR(answer.at("evaluated_mm").get<double>(), 4, 1e-12);
  EXPECT_TRUE(answer.at("drawn").is_null());
}

TEST(CalcRoughness, WithoutACutOffItChoosesOneAndSaysWhereItIsFrom) {
  const Json answer = run("roughness", sine());
  EXPECT_EQ(answer.at("cutoff_mm"), 0.8);
  EXPECT_EQ(answer.at("cutoff_source"), "ISO 4288:1996, table 1, from memory");
}

TEST(CalcRoughness, AFlatProfileHasNoSkewnessAndNoKurtosis) {
  const Json answer = run("roughness", with(sine(), "z_um", Json(std::vector<double>(2000, 3.25))));
  EXPECT_EQ(answer.at("Ra_um"), 0.0);
  EXPECT_TRUE(answer.at("Rsk").is_null());
  EXPECT_TRUE(answer.at("Rku").is_null());
}

TEST(CalcRoughness, DrawnInColumnsItLosesNoPeak) {
  const Json answer = run("roughness", with(sine(), "columns", 17));
  const Json& drawn = answer.at("drawn");
  EXPECT_EQ(drawn.at("x_mm").size(), 17U);
  EXPECT_NEAR(drawn.at("high_um").at(8).get<double>(), 2, 1e-3);
  EXPECT_NEAR(drawn.at("low_um").at(8).get<double>(), -2, 1e-3);
  EXPECT_GT(drawn.at("x_mm").at(0), 0.4);
  EXPECT_LT(drawn.at("x_mm").at(16), 4.4);
}

TEST(CalcRoughness, RefusalsNameTheField) {
  EXPECT_EQ(refusal("roughness", with(sine(), "filter", "cubic")), "out_of_range filter");
  EXPECT_EQ(refusal("roughness", with(sine(), "z_um", Json::parse("[]"))), "missing z_um");
  EXPECT_EQ(refusal("roughness", with(sine(), "z_um", Json::parse("[1,\"2\"]"))), "wrong_type z_um[1]");
  EXPECT_EQ(refusal("roughness", with(sine(700), "cutoff_mm", 0.8)), "too_short z_um");
  EXPECT_EQ(refusal("roughness", with(sine(), "spacing_um", -1)), "out_of_range spacing_um");
  EXPECT_EQ(refusal("roughness", with(sine(), "spacing_um", Json())), "missing spacing_um");
  EXPECT_EQ(refusal("roughness", with(sine(), "cutoff_mm", "0.8")), "wrong_type cutoff_mm");
  EXPECT_EQ(refusal("roughness", with(sine(), "short_cutoff_um", 3)), "out_of_range short_cutoff_um");
  EXPECT_EQ(refusal("roughness", with(sine(), "discard_ends_mm", 3)), "too_short discard_ends_mm");
  EXPECT_EQ(refusal("roughness", with(sine(), "columns", 1e6)), "out_of_range columns");
  EXPECT_EQ(refusal("roughness", with(sine(), "cutoff_um", 800)), "unknown_field cutoff_um");
}

}  // namespace
}  // namespace brakewright::calc
