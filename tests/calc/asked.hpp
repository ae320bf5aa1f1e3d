#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "calc/calc.hpp"
#include "core/input_error.hpp"

/// A method of calc, asked in a test.
namespace brakewright::calc {

inline Json run(const char* name, const Json& input) { return find(name)->run(input); }
inline Json run(const char* name, const char* input) { return run(name, Json::parse(input)); }

/// "code field" of the refusal, or "accepted".
inline std::string refusal(const char* name, const Json& input) {
  try {
    run(name, input);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}
inline std::string refusal(const char* name, const char* input) { return refusal(name, Json::parse(input)); }

}  // namespace brakewright::calc
