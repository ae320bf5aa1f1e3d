#include "calc/reader.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <nlohmann/json.hpp>

#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

std::string refused_by(const std::function<void(Reader&)>& ask, const char* text) {
  const Json object = Json::parse(text);
  try {
    Reader reader(object, "job");
    ask(reader);
  } catch (const InputError& error) {
    EXPECT_STRNE(error.what(), "");
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Reader, ReadsEachKindOfField) {
  const Json object = Json::parse(
      R"({"n":1.5,"i":7,"t":"word","b":true,"l":[1,2],"ll":[[1],[2,3]],"o":{"x":1},"os":[{"x":1},{"x":2}],"z":null})");
  Reader reader(object);
  EXPECT_EQ(reader.number("n"), 1.5);
  EXPECT_EQ(reader.integer("i", 0, 9), 7);
  EXPECT_EQ(reader.text("t"), "word");
  EXPECT_TRUE(reader.boolean_or("b", false));
  EXPECT_EQ(reader.numbers("l"), (std::vector<double>{1, 2}));
  EXPECT_EQ(reader.number_lists("ll"), (std::vector<std::vector<double>>{{1}, {2, 3}}));
  EXPECT_EQ(reader.object("o").number("x"), 1.0);
  EXPECT_EQ(reader.objects("os").at(1).number("x"), 2.0);
  EXPECT_FALSE(reader.optional_number("z"));
  EXPECT_FALSE(reader.optional_text("absent"));
  EXPECT_EQ(reader.number_or("absent", 3.0), 3.0);
  EXPECT_NO_THROW(reader.done());
}

TEST(Reader, ARefusalNamesTheVeryValue) {
  EXPECT_EQ(refused_by([](Reader& r) { r.number("a"); }, "{}"), "missing job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.number("a"); }, R"({"a":null})"), "missing job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.number("a"); }, R"({"a":"1"})"), "wrong_type job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.above("a", 0); }, R"({"a":0})"), "out_of_range job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.at_least("a", 0); }, R"({"a":-0.1})"), "out_of_range job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.integer("a", 0, 5); }, R"({"a":1.5})"), "wrong_type job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.integer("a", 0, 5); }, R"({"a":6})"), "out_of_range job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.integer("a", 0, 5); }, R"({"a":1e300})"), "out_of_range job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.one_of("a", {"x", "y"}); }, R"({"a":"z"})"), "out_of_range job.a");
  EXPECT_EQ(refused_by([](Reader& r) { r.numbers("a"); }, R"({"a":[1,null]})"), "wrong_type job.a[1]");
  EXPECT_EQ(refused_by([](Reader& r) { r.number_lists("a"); }, R"({"a":[[1],[2,true]]})"), "wrong_type job.a[1][1]");
  EXPECT_EQ(refused_by([](Reader& r) { r.objects("a").at(1).number("b"); }, R"({"a":[{},{}]})"), "missing job.a[1].b");
  EXPECT_EQ(refused_by([](Reader& r) { r.objects("a"); }, R"({"a":[{},5]})"), "wrong_type job.a[1]");
  EXPECT_EQ(refused_by([](Reader& r) { r.boolean_or("a", true); }, R"({"a":1})"), "wrong_type job.a");
}

TEST(Reader, WhatIsNoObjectIsRefused) {
  EXPECT_EQ(refused_by([](Reader&) {}, "[1]"), "wrong_type job");
  EXPECT_EQ(refused_by([](Reader&) {}, "null"), "wrong_type job");
}

TEST(Reader, AMisspeltFieldIsNeverSilentlyIgnored) {
  EXPECT_EQ(refused_by([](Reader& r) { r.number("value"), r.done(); }, R"({"value":1,"vlaue":2})"),
            "unknown_field job.vlaue");
}

}  // namespace
}  // namespace brakewright::calc
