#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "calc/calc.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

Json answer(const char* input) { return find("length")->run(Json::parse(input)); }

std::string refused_field(const char* input, const char* code) {
  try {
    answer(input);
  } catch (const InputError& error) {
    EXPECT_EQ(error.code(), code) << input;
    return error.field();
  }
  return "not refused";
}

TEST(CalcLength, AnswersAsTheContractShows) {
  EXPECT_EQ(answer(R"({"text":"836 thou","default_unit":"mm"})"),
            Json::parse(R"({"nm":21234400,"mm":21.2344,"in":0.836,"unit":"in","resolution_nm":25400})"));
}

TEST(CalcLength, ABareNumberTakesTheDefaultUnit) {
  EXPECT_EQ(answer(R"({"text":"0.836","default_unit":"in"})").at("nm"), 21234400);
  EXPECT_EQ(answer(R"({"text":"0.836","default_unit":"mm"})").at("nm"), 836000);
}

TEST(CalcLength, AsksAboutTheOtherUnitOnlyWhereARangeIsGiven) {
  const Json asked = answer(R"({"text":"0.836","default_unit":"mm","plausible_mm":[5,50]})");
  EXPECT_EQ(asked.at("ask"), "in");
  EXPECT_EQ(asked.at("mm"), 0.836);
  EXPECT_FALSE(answer(R"({"text":"21.2","default_unit":"mm","plausible_mm":[5,50]})").contains("ask"));
}

TEST(CalcLength, RefusalsNameTheField) {
  EXPECT_EQ(refused_field(R"({"text":"1,234.5","default_unit":"mm"})", "not_a_length"), "text");
  EXPECT_EQ(refused_field(R"({"default_unit":"mm"})", "missing"), "text");
  EXPECT_EQ(refused_field(R"({"text":5})", "wrong_type"), "text");
  EXPECT_EQ(refused_field(R"({"text":"5","default_unit":"ft"})", "out_of_range"), "default_unit");
  EXPECT_EQ(refused_field(R"({"text":"5","plausible_mm":[5]})", "sizes_differ"), "plausible_mm");
  EXPECT_EQ(refused_field(R"({"text":"5","plausible_mm":[50,5]})", "out_of_range"), "plausible_mm");
  EXPECT_EQ(refused_field(R"({"text":"5","plausible_mm":[5,1e300]})", "out_of_range"), "plausible_mm");
  EXPECT_EQ(refused_field(R"({"text":"5","plausible_mm":[5,"x"]})", "wrong_type"), "plausible_mm[1]");
  EXPECT_EQ(refused_field(R"({"text":"5","unit":"mm"})", "unknown_field"), "unit");
}

}  // namespace
}  // namespace brakewright::calc
