#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "shop/entities.hpp"
#include "shop/requests.hpp"

/// The JSON of everything that a shop remembers, by the field lists of shop/fields.hpp and the schemas of the API.
namespace brakewright::shop {

using Json = nlohmann::ordered_json;

/// Parses a JSON text from outside.
/// @param deepest  most levels of lists and objects inside each other
/// @throws InputError "not_json" (field empty) for text that is no JSON, not UTF-8, or names a field twice in one
///         object; "too_deep"; "too_large" over `most_bytes`
Json parse_json(std::string_view text, std::size_t most_bytes = 8'000'000, int deepest = 32);

/// JSON of an entity or of a request. Absent optional values are null; times, days, ids and enumerators are text;
/// lengths are whole nanometres under `<name>_nm`; a typed length is {text, unit, nm, resolution_nm}.
/// A reading's `state` depends on the other readings of its job: give it, or it is `withdrawn` or `current` by the
/// reading alone. In a JobFile each reading carries its own.
template <class E>
Json to_json(const E& entity);
Json to_json(const Reading& reading, ReadingState state);
Json to_json(const TypedLength& length);
Json to_json(const Limits& limits);

/// The same as text on one line.
template <class E>
std::string json_text(const E& entity);

/// Reads one strictly: "missing", "wrong_type", "out_of_range", "unknown_field", "not_an_id", "not_a_time",
/// "not_a_date", "not_a_length", "too_long", "not_utf8", "control_character".
/// A typed length is worked out from `text` and `unit` alone; its `nm` and `resolution_nm`, and a reading's `state`,
/// may be there and do not count.
/// @param path  put before the field in every refusal, such as "parts[1]"
/// @throws InputError  with the path of the value
template <class E>
E from_json(const Json& value, const std::string& path = "");
TypedLength typed_length_from_json(const Json& value, const std::string& path);

/// The rules that from_json holds an entity to, for one that came another way (a command line, a CSV).
/// @throws InputError  with the field's path
template <class E>
void check(const E& entity, const std::string& path = "");

// All of them exist for every type of shop/json_all.hpp.

}  // namespace brakewright::shop
