#pragma once

#include <cstdint>

namespace brakewright::bench_sim {

/// What a seed is asked for. Each has its own stream of draws, so that one that is chosen instead of drawn leaves the
/// others as they were, and the same number of the same kind always gives the same.
enum class Purpose : std::uint64_t {
  make = 1,
  thickness,
  wobble,
  variation,
  taper,
  grooves,
  lip,
  hard_spots,
  cheeks,
  seat,
  mounting,
  slips,
  micrometer,
  indicator,
  hub,
};

/// @param number  of the mounting or of the reading; 0 for what a part has once
constexpr std::uint64_t stream_of(Purpose purpose, std::uint64_t number = 0) {
  return (static_cast<std::uint64_t>(purpose) << 40) + number;
}

}  // namespace brakewright::bench_sim
