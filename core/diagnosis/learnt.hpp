#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/diagnosis/causes.hpp"
#include "core/diagnosis/signs.hpp"

namespace brakewright::diagnosis {

/// A cause shows itself in so many ways, as small and large, slipped or not: signs that go together within a cause are
/// then not counted twice.
inline constexpr std::size_t kWays = 4;
inline constexpr std::size_t kKinds = kCauseCount * kWays;

/// Chance of each level of each sign, for each cause in each of its ways, and how often it comes in that way. The
/// causes are held equally likely before anything is known, as they are drawn.
struct Learnt {
  std::int64_t parts = 0;  ///< learnt from
  std::uint64_t seed = 0;
  std::array<double, kKinds> share{};                                                ///< sums to 1
  std::array<std::array<std::array<double, kMostLevels>, kKinds>, kSigns> chance{};  ///< sums to 1 over a sign's levels

  double of(Sign sign, std::size_t kind, int level) const {
    return chance[static_cast<std::size_t>(sign)][kind][static_cast<std::size_t>(level)];
  }
};

/// The figures that the program goes by, as `learn_diagnosis` wrote them into learnt_figures.cpp.
const Learnt& learnt();

/// One part whose cause is known.
struct Lesson {
  Cause cause = {};
  double size = 0;  ///< [0, 1)
  Signs signs = {};
};

/// Counts, and then finds out how far the counts may be believed.
///
/// Causes that show a sign as a sound part does, as far as a likelihood ratio test at one in a million tells, share one
/// distribution of it, so that chance does not speak for or against them. Every other cause has its own: in each way
/// the lessons of that way, and eight more as all ways of the cause have them. The ways begin as quarters by size and
/// are sorted by what the signs say (expectation and maximisation, Dempster, Laird and Rubin 1977). Half a lesson is
/// added to each level, and 0.2 % of all are taken for blunders. Signs of one way of a cause are then held independent,
/// which they are not quite; so all chances are raised to one power and brought back to a sum of 1: the power at which,
/// among lessons that were kept apart, as many causes on top are right as their probabilities say. In the end all
/// lessons are counted.
/// @param trials  how many, the last ones, are kept apart to find the power; 0 leaves it at 1
/// @throws InputError "unknown_fault"
Learnt learn(std::span<const Lesson> lessons, std::size_t trials, std::uint64_t seed);

}  // namespace brakewright::diagnosis
