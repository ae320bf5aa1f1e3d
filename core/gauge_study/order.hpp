#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "core/uncertainty/random.hpp"

namespace brakewright::gauge_study {

/// Puts things into a random order, each equally likely. Source: Durstenfeld (1964).
template <class T>
void shuffle(std::vector<T>& things, Random& random) {
  for (std::size_t left = things.size(); left > 1; --left) std::swap(things[left - 1], things[random.below(left)]);
}

/// One reading to take.
struct Turn {
  std::size_t part = 0;    ///< index into the parts
  std::size_t repeat = 0;  ///< from 0; it is also the round
};

/// Who reads what in which order: for each operator, in their order, all turns.
///
/// Each round is a fresh random order of all parts, and no part comes twice running, not even from one round to the
/// next: of all orders that begin with another part than the last one each is equally likely. An operator who is shown
/// only the number of the turn, the part being handed over, cannot know which part it is. Operators' orders are
/// independent, and the same for a seed on every machine; a further operator or repeat changes none that was there.
/// @param parts      two or more with several repeats, else one or more; at most 1000
/// @param operators  from 1 to 1000
/// @param repeats    from 1 to 100
/// @throws InputError "out_of_range" naming `parts`, `operators` or `repeats`
/// Source: randomising a study in blocks is common practice.
std::vector<std::vector<Turn>> plan_study(std::size_t parts, std::size_t operators, std::size_t repeats,
                                          std::uint64_t seed);

}  // namespace brakewright::gauge_study
