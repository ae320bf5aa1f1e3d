#include "shop/json.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <functional>
#include <nlohmann/json.hpp>

#include "core/input_error.hpp"
#include "tests/shop/examples.hpp"

namespace brakewright::shop {
namespace {

template <class E>
class JsonOf : public testing::Test {};

using Entities = testing::Types<Settings, Person, Instrument, ZeroCheck, Lathe, KnownPart, Job, Part, MeasuringPlan,
                                Reading, Finding, Decision, Cut, Amendment, JobFile, Change>;

TYPED_TEST_SUITE(JsonOf, Entities);

TYPED_TEST(JsonOf, EveryEntityComesBackTheSameThroughText) {
  EXPECT_TRUE(rc::check([](std::uint64_t seed) {
    const auto entity = examples::make<TypeParam>(seed);
    const auto text = to_json(entity).dump();
    RC_ASSERT(from_json<TypeParam>(parse_json(text)) == entity);
  }));
}

TYPED_TEST(JsonOf, EveryEntityRefusesAFieldThatItDoesNotHave) {
  Json json = to_json(examples::make<TypeParam>(1));
  json["colour"] = "red";
  try {
    from_json<TypeParam>(json);
    FAIL() << "accepted";
  } catch (const InputError& refusal) {
    EXPECT_EQ(refusal.code(), "unknown_field");
    EXPECT_EQ(refusal.field(), "colour");
  }
}

/// The refusal of one changed field of a valid thing.
template <class E>
std::pair<std::string, std::string> refusal_of(const std::string& pointer, const Json& value) {
  Json json = to_json(examples::make<E>(3));
  json[Json::json_pointer(pointer)] = value;
  try {
    from_json<E>(json);
  } catch (const InputError& refusal) {
    return {refusal.code(), refusal.field()};
  }
  return {"accepted", ""};
}

using Refusal = std::pair<std::string, std::string>;

TEST(Json, ARefusalNamesThePathOfTheValue) {
  EXPECT_EQ(refusal_of<JobFile>("/readings/0/value/text", "ten"), Refusal("not_a_length", "readings[0].value.text"));
  EXPECT_EQ(refusal_of<JobFile>("/readings/0/angle_deg", "ten"), Refusal("wrong_type", "readings[0].angle_deg"));
  EXPECT_EQ(refusal_of<JobFile>("/parts/0/side", "upper"), Refusal("out_of_range", "parts[0].side"));
  EXPECT_EQ(refusal_of<JobFile>("/plans/0/circles_from_edge_nm/0", -1),
            Refusal("out_of_range", "plans[0].circles_from_edge_nm[0]"));
  EXPECT_EQ(refusal_of<JobFile>("/job/vehicle", std::string(201, 'x')), Refusal("too_long", "job.vehicle"));
  EXPECT_EQ(refusal_of<Person>("/id", "7"), Refusal("not_an_id", "id"));
  EXPECT_EQ(refusal_of<Person>("/name", nullptr), Refusal("missing", "name"));
  EXPECT_EQ(refusal_of<Person>("/active", 1), Refusal("wrong_type", "active"));
  EXPECT_EQ(refusal_of<Settings>("/points", 3), Refusal("out_of_range", "points"));
  EXPECT_EQ(refusal_of<Settings>("/points", 8.5), Refusal("wrong_type", "points"));
  EXPECT_EQ(refusal_of<Settings>("/cut_margin_nm", 1e300), Refusal("out_of_range", "cut_margin_nm"));
  EXPECT_EQ(refusal_of<Settings>("/shop_name", Json::array()), Refusal("wrong_type", "shop_name"));
}

TEST(Json, AMissingFieldIsNamed) {
  Json json = to_json(examples::make<Finding>(1));
  json.erase("judgement");
  try {
    from_json<Finding>(json, "findings[4]");
    FAIL() << "accepted";
  } catch (const InputError& refusal) {
    EXPECT_EQ(refusal.code(), "missing");
    EXPECT_EQ(refusal.field(), "findings[4].judgement");
  }
}

TEST(Json, AbsurdDaysAndTimesAreRefused) {
  for (const char* text : {"2026-02-30", "2026-13-01", "0026-03-04", "9026-03-04", "2026-3-4", "yesterday", ""}) {
    EXPECT_EQ(refusal_of<Instrument>("/calibrated_on", text), Refusal("not_a_date", "calibrated_on")) << text;
  }
  for (const char* text : {"2026-03-04T25:00:00.000Z", "2026-03-04T09:15:00", "2026-03-04", "1026-03-04T09:15:00.000Z",
                           "2026-03-04T09:15:60.000Z", "2026-03-04T09:15:00.0000Z", "2026-03-04T09:15:00.000+01:00"}) {
    EXPECT_EQ(refusal_of<ZeroCheck>("/at", text), Refusal("not_a_time", "at")) << text;
  }
}

TEST(Json, NamesOfTenThousandCharactersAndControlCharactersAreRefused) {
  EXPECT_EQ(refusal_of<Person>("/name", std::string(10'000, 'x')), Refusal("too_long", "name"));
  EXPECT_EQ(refusal_of<Person>("/name", std::string("a\0b", 3)), Refusal("control_character", "name"));
  EXPECT_EQ(refusal_of<Person>("/name", "two\nlines"), Refusal("control_character", "name"));
  EXPECT_EQ(refusal_of<Person>("/name",
                               "\xE2\x80\xAE"
                               "abc"),
            Refusal("control_character", "name"));
  EXPECT_EQ(refusal_of<Person>("/name", "a\xC3"), Refusal("not_utf8", "name"));
  EXPECT_EQ(refusal_of<Person>("/name", "\xC0\xAF"), Refusal("not_utf8", "name"));
  EXPECT_EQ(refusal_of<Person>("/name", "\xED\xA0\x80"), Refusal("not_utf8", "name"));
  EXPECT_EQ(refusal_of<Person>("/name", "   "), Refusal("missing", "name"));
  EXPECT_EQ(refusal_of<Amendment>("/text", std::string(4001, 'x')), Refusal("too_long", "text"));
}

TEST(Json, MarkupInANameAndLinesInANoteAreText) {
  EXPECT_EQ(refusal_of<Person>("/name", "<script>alert(1)</script>").first, "accepted");
  EXPECT_EQ(refusal_of<Amendment>("/text", "first\nsecond\tthird").first, "accepted");
  EXPECT_EQ(refusal_of<Person>("/name", std::string(200, 'x')).first, "accepted");
}

TEST(Json, ATypedLengthIsWorkedOutFromItsTextWhateverElseIsSaid) {
  const Json json = {{"text", "0.836"}, {"unit", "in"}, {"nm", 5}, {"resolution_nm", 7}};
  const TypedLength length = typed_length_from_json(json, "value");
  EXPECT_EQ(length.value.nm, 21'234'400);
  EXPECT_EQ(length.resolution_nm, 25'400);
}

TEST(Json, TextThatIsNotPlainJsonIsRefused) {
  const auto code_of = [](const std::string& text) -> std::string {
    try {
      parse_json(text);
    } catch (const InputError& refusal) {
      return refusal.code();
    }
    return "accepted";
  };
  EXPECT_EQ(code_of("{"), "not_json");
  EXPECT_EQ(code_of(""), "not_json");
  EXPECT_EQ(code_of("{\"a\":NaN}"), "not_json");
  EXPECT_EQ(code_of("{\"a\":1e999}"), "not_json");
  EXPECT_EQ(code_of("{\"a\":1,\"a\":2}"), "not_json");
  EXPECT_EQ(code_of("{\"a\":\"\xC3\"}"), "not_json");
  EXPECT_EQ(code_of(std::string(33, '[') + std::string(33, ']')), "too_deep");
  EXPECT_EQ(code_of(std::string(100'000, '[')), "too_deep");
  EXPECT_EQ(code_of(std::string(32, '[') + std::string(32, ']')), "accepted");
  EXPECT_EQ(code_of("\"" + std::string(8'000'000, 'x') + "\""), "too_large");
}

TEST(Json, AReadingOfAJobFileCarriesItsState) {
  JobFile file;
  file.readings.resize(2);
  file.readings[0].id = examples::make<Person>(1).id;
  file.readings[1].id = examples::make<Person>(2).id;
  file.readings[1].supersedes_id = file.readings[0].id;
  const Json json = to_json(file);
  EXPECT_EQ(json["readings"][0]["state"], "superseded");
  EXPECT_EQ(json["readings"][1]["state"], "current");
}

}  // namespace
}  // namespace brakewright::shop
