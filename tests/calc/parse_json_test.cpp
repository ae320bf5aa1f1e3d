#include "calc/parse_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

struct Refused {
  std::string code;
  std::string field;
  friend bool operator==(const Refused&, const Refused&) = default;
  friend std::ostream& operator<<(std::ostream& out, const Refused& r) { return out << r.code << " at " << r.field; }
};

Refused refusal_of(std::string_view text) {
  try {
    parse_json(text);
  } catch (const InputError& error) {
    return {error.code(), error.field()};
  }
  return {"accepted", ""};
}

TEST(ParseJson, KeepsValuesTypesAndOrder) {
  const Json value = parse_json(R"({"b":[1,2.5,-3,true,null,"x"],"a":{"c":"\u00e9"}})");
  EXPECT_EQ(value.dump(), R"({"b":[1,2.5,-3,true,null,"x"],"a":{"c":"é"}})");
  EXPECT_TRUE(value["b"][0].is_number_integer());
}

TEST(ParseJson, NamesTheValueBeingReadWhenTheTextBreaksOff) {
  EXPECT_EQ(refusal_of(R"({"readings":[{"mm":1},{"mm":)"), (Refused{"not_json", "readings[1].mm"}));
  EXPECT_EQ(refusal_of(""), (Refused{"not_json", ""}));
  EXPECT_EQ(refusal_of("{} {}"), (Refused{"not_json", ""}));
}

TEST(ParseJson, RefusesWhatIsNoNumber) {
  EXPECT_EQ(refusal_of(R"({"x":NaN})").code, "not_json");
  EXPECT_EQ(refusal_of(R"({"x":-Infinity})").code, "not_json");
  EXPECT_EQ(refusal_of(R"({"x":[0,1e999]})"), (Refused{"not_finite", "x[1]"}));
  EXPECT_EQ(refusal_of(R"({"x":01})").code, "not_json");
}

TEST(ParseJson, RefusesANameThatStandsTwice) {
  EXPECT_EQ(refusal_of(R"({"a":{"b":1,"b":2}})"), (Refused{"duplicate_field", "a.b"}));
  EXPECT_EQ(refusal_of(R"({"a":{"b":1},"c":{"b":2}})").code, "accepted");
}

TEST(ParseJson, RefusesDeepNestingHoweverLong) {
  const std::string deepest = std::string(kDeepestJson, '[') + std::string(kDeepestJson, ']');
  EXPECT_EQ(refusal_of(deepest).code, "accepted");
  EXPECT_EQ(refusal_of(std::string("[").append(deepest).append("]")).code, "too_deep");
  EXPECT_EQ(refusal_of(std::string(8'000'000, '[')).code, "too_deep");
}

TEST(ParseJson, RefusesAnObjectOfEndlessFields) {
  std::string text = "{";
  for (int i = 0; i < 500'000; ++i) text.append("\"").append(std::to_string(i)).append("\":0,");
  EXPECT_EQ(refusal_of(text.append("\"z\":0}")).code, "too_many_fields");
}

TEST(ParseJson, RefusesTextThatIsNoText) {
  EXPECT_EQ(refusal_of("{\"a\":\"\xff\xfe\"}").code, "not_json");
  EXPECT_EQ(refusal_of("{\"a\":\"\xed\xa0\x80\"}").code, "not_json") << "a surrogate in UTF-8";
  EXPECT_EQ(refusal_of(R"({"a":"\ud800"})").code, "not_json");
  EXPECT_EQ(refusal_of(R"({"a":["x\u0000y"]})"), (Refused{"bad_character", "a[0]"}));
}

}  // namespace
}  // namespace brakewright::calc
