#pragma once

#include <numbers>

namespace brakewright {

inline constexpr double kRadPerDeg = std::numbers::pi / 180;

}  // namespace brakewright
