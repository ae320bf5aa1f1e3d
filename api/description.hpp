#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

/// The one description of the JSON that the program speaks, api/openapi.yaml, as the program carries it inside.
namespace brakewright::api {

using Json = nlohmann::ordered_json;

/// The description as it was written.
std::string_view openapi_yaml();

/// The same as JSON: plain YAML numbers, true, false and null typed, quoted words as text, order kept.
/// Read once, at the first call; safe from several threads.
const Json& openapi();

/// Names of all schemas, in the order of the description.
std::vector<std::string> components();

/// The schema of that name as one self-contained JSON Schema (2020-12): whatever it refers to stands under `$defs`.
/// @throws std::out_of_range  when there is no schema of that name
Json schema_of(std::string_view component);

/// "gauge-study" and "Input" give "CalcGaugeStudyInput", the schema of what that computation takes.
std::string calc_component(std::string_view method, std::string_view input_or_output);

}  // namespace brakewright::api
