#pragma once

#include <cmath>
#include <string>
#include <string_view>

#include "core/input_error.hpp"

namespace brakewright {

/// Refuses a number that is none, or lies outside its range.
/// @param field     path of the value in the caller's own input
/// @param accepted  one sentence: what the range is
/// @throws InputError "not_finite" or "out_of_range", naming the field
inline void want(double value, double low, double high, std::string_view field, const char* accepted) {
  if (!std::isfinite(value)) throw InputError("not_finite", std::string(field), "a finite number is needed here");
  if (value < low || value > high) throw InputError("out_of_range", std::string(field), accepted);
}

/// The same of what is no range.
/// @throws InputError "out_of_range", naming the field, unless `good`
inline void want(bool good, std::string_view field, std::string_view accepted) {
  if (!good) throw InputError("out_of_range", std::string(field), std::string(accepted));
}

}  // namespace brakewright
