#include "api/description.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

namespace brakewright::api {
namespace {

void collect_references(const Json& schema, std::vector<std::string>& references) {
  if (schema.is_object() && schema.contains("$ref")) references.push_back(schema["$ref"]);
  if (schema.is_structured()) {
    for (const Json& inner : schema) collect_references(inner, references);
  }
}

TEST(Description, QuotedWordsStayTextAndPlainNumbersAreNumbers) {
  EXPECT_EQ(openapi()["openapi"], "3.1.0");
  EXPECT_TRUE(openapi()["paths"]["/health"]["get"]["responses"].contains("200"));
  EXPECT_EQ(openapi()["components"]["parameters"]["limit"]["schema"]["maximum"], 500);
  EXPECT_TRUE(openapi()["components"]["parameters"]["by"]["required"].is_boolean());
  EXPECT_EQ(openapi()["components"]["schemas"]["Job"]["properties"]["odometer"]["type"][1], "null");
}

TEST(Description, ASchemaCarriesAllItRefersTo) {
  for (const std::string& component : components()) {
    const Json schema = schema_of(component);
    std::vector<std::string> references;
    collect_references(schema, references);
    for (const std::string& reference : references) {
      EXPECT_TRUE(schema.contains(Json::json_pointer(reference.substr(1)))) << component << " needs " << reference;
    }
  }
  EXPECT_TRUE(schema_of("JobFile")["$defs"].contains("TypedLength")) << "three references away";
}

TEST(Description, AnUnknownSchemaIsNamed) { EXPECT_THROW(schema_of("Nobody"), std::out_of_range); }

TEST(Description, EveryReferenceInTheWholeDescriptionLeadsSomewhere) {
  std::vector<std::string> references;
  collect_references(openapi(), references);
  ASSERT_FALSE(references.empty());
  for (const std::string& reference : references) {
    EXPECT_TRUE(openapi().contains(Json::json_pointer(reference.substr(1)))) << reference;
  }
}

TEST(Description, ComputationsAreNamedAfterTheirMethods) {
  EXPECT_EQ(calc_component("gauge-study", "Input"), "CalcGaugeStudyInput");
}

}  // namespace
}  // namespace brakewright::api
