#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string_view>

namespace brakewright::calc {

using Json = nlohmann::ordered_json;

/// One computation of the core by its public name, JSON object in and JSON object out.
struct Method {
  std::string_view name;
  std::string_view summary;  ///< one line for `calc --list`
  Json (*run)(const Json& input);
};

/// All methods, in alphabetical order.
std::span<const Method> methods();

/// The method of that name, or null when there is none.
const Method* find(std::string_view name);

}  // namespace brakewright::calc
