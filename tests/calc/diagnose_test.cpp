#include <gtest/gtest.h>

#include "core/diagnosis/learnt.hpp"
#include "tests/calc/asked.hpp"

namespace brakewright::calc {
namespace {

TEST(CalcDiagnose, RanksTheCausesWithWhatSpeaksForAndAgainstEach) {
  const Json answer = run("diagnose", R"({"signs":{"chatter_marks_per_turn":70,"chatter_height_um":4,"howl_heard":true,
      "variation_um":4,"lip_um":null}})");
  const Json& causes = answer.at("causes");
  ASSERT_EQ(causes.size(), diagnosis::kCauseCount);
  const Json& first = causes.at(0);
  EXPECT_EQ(first.at("cause"), "no_band");
  EXPECT_GT(first.at("p").get<double>(), 0.8);
  EXPECT_FALSE(first.at("for").empty());
  EXPECT_NE(first.at("basis").get<std::string>().find("F08"), std::string::npos);
  for (const char* text : {"words", "check", "correction"}) EXPECT_FALSE(first.at(text).get<std::string>().empty());
  double sum = 0;
  for (const Json& cause : causes) sum += cause.at("p").get<double>();
  EXPECT_NEAR(sum, 1, 1e-9);
}

TEST(CalcDiagnose, NamesTheNextCheckAndWhatItIsExpectedToTell) {
  const Json answer = run("diagnose", R"({"signs":{"car_runout_um":70,"car_runout_follows_part":true}})");
  const Json& next = answer.at("next_check");
  EXPECT_GT(next.at("gain_bits").get<double>(), 0.2);
  EXPECT_LT(next.at("gain_bits").get<double>(), answer.at("doubt_bits").get<double>());
  EXPECT_FALSE(next.at("text").get<std::string>().empty());
  EXPECT_NE(next.at("sign"), "car_runout_um");
  EXPECT_EQ(answer.at("learnt").at("parts"), diagnosis::learnt().parts);
  EXPECT_EQ(answer.at("learnt").at("seed"), diagnosis::learnt().seed);
}

TEST(CalcDiagnose, NothingKnownIsAnAnswerToo) {
  const Json answer = run("diagnose", R"({"signs":{}})");
  EXPECT_NEAR(answer.at("causes").at(0).at("p").get<double>(), 1.0 / diagnosis::kCauseCount, 1e-9);
  EXPECT_FALSE(answer.at("next_check").is_null());
}

TEST(CalcDiagnose, RefusalsNameTheField) {
  EXPECT_EQ(refusal("diagnose", R"({})"), "missing signs");
  EXPECT_EQ(refusal("diagnose", R"({"signs":[]})"), "wrong_type signs");
  EXPECT_EQ(refusal("diagnose", R"({"signs":{"taper_um":"ten"}})"), "wrong_type signs.taper_um");
  EXPECT_EQ(refusal("diagnose", R"({"signs":{"howl_heard":1}})"), "wrong_type signs.howl_heard");
  EXPECT_EQ(refusal("diagnose", R"({"signs":{"ra_um":-1}})"), "out_of_range signs.ra_um");
  EXPECT_EQ(refusal("diagnose", R"({"signs":{"taper_mm":1}})"), "unknown_field signs.taper_mm");
  EXPECT_EQ(refusal("diagnose", R"({"signs":{"taper_um":1},"more":1})"), "unknown_field more");
}

}  // namespace
}  // namespace brakewright::calc
