#pragma once

#include <string>

#include "core/practice/act.hpp"
#include "shop/json.hpp"

/// Acts at the simulated bench as JSON: {"do": "measure", ...} with the fields of the act's struct.
namespace brakewright::shop {

/// Reads one strictly; fields with a default in core/practice/act.hpp that is not nothing may be left out.
/// @param path  of the act, "act"
/// @throws InputError "unknown_act" naming `path`.do, "missing", "wrong_type", "unknown_field", "out_of_range",
///         "too_long", "too_many" with the path of the value. Ranges are the bench's own to hold.
practice::Act act_from_json(const Json& value, const std::string& path);

/// With every field, so that equal acts have equal texts.
Json act_to_json(const practice::Act& act);

}  // namespace brakewright::shop
