#pragma once

#include <cstddef>
#include <cstdint>

/// The table that `learn_diagnosis` writes: minus the natural logarithm of each chance, in so many parts of one.
namespace brakewright::diagnosis {

inline constexpr double kLearntPerUnit = 100;
inline constexpr std::size_t kLearntShareCount = 60;     ///< each cause of kCauses, each of its ways
inline constexpr std::size_t kLearntChanceCount = 7740;  ///< each sign, each cause, each of its ways, each level

extern const std::int64_t kLearntParts;
extern const std::uint64_t kLearntSeed;
extern const std::uint16_t kLearntShares[kLearntShareCount];
extern const std::uint16_t kLearntChances[kLearntChanceCount];

}  // namespace brakewright::diagnosis
