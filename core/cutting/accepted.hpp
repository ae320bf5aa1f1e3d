#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/input_error.hpp"

/// What is taken as a figure: within these ends no answer overflows or vanishes.
namespace brakewright::cutting {

struct Accepted {
  double low = 0, high = 0;
  const char* message = "";
};

inline constexpr Accepted kPositive{1e-9, 1e12, "must be more than 0 (1e-9 to 1e12)"};
inline constexpr Accepted kNotNegative{0, 1e12, "must be 0 or more (to 1e12)"};
inline constexpr Accepted kFactor{1, 1e12, "must be 1 or more (to 1e12)"};

/// @throws InputError "out_of_range" where a value is not within, or not a number
inline void want_within(double value, const Accepted& accepted, const std::string& field) {
  if (!(value >= accepted.low && value <= accepted.high)) throw InputError("out_of_range", field, accepted.message);
}

/// As above for each one of a list
inline void want_all_within(const std::vector<double>& values, const Accepted& accepted, const std::string& field) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    want_within(values[i], accepted, field + "[" + std::to_string(i) + "]");
  }
}

}  // namespace brakewright::cutting
