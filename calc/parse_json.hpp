#pragma once

#include <cstddef>
#include <string_view>

#include "calc/calc.hpp"

namespace brakewright::calc {

/// How deep lists and objects may be nested in what comes from outside.
inline constexpr std::size_t kDeepestJson = 64;

/// How many fields one object may have; looking one up takes as many steps.
inline constexpr std::size_t kMostFields = 256;

/// Reads one JSON text (RFC 8259, UTF-8) from a giver who is not trusted. Everything that reads JSON from outside,
/// the server and the command line alike, reads it here.
///
/// Stricter than the format: a name that stands twice in one object is refused, because two readers could each
/// believe another of the two; so are numbers that no double holds (1e999), NaN and Infinity, nesting deeper than
/// kDeepestJson and the character U+0000 in any text.
/// Whole numbers come back as integers, as long as 64 bits hold them. Memory stays within about 20 times the text.
/// @throws InputError  "not_json" (field: path of the value being read, message: where in the text), "too_deep",
/// "too_many_fields",
///                     "duplicate_field", "not_finite" or "bad_character"
Json parse_json(std::string_view text);

}  // namespace brakewright::calc
