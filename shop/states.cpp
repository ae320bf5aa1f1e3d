#include "shop/states.hpp"

#include <cstddef>
#include <map>

namespace brakewright::shop {

std::vector<ReadingState> states_of(const std::vector<Reading>& readings) {
  std::map<Uuid, std::size_t> places;
  for (std::size_t k = 0; k < readings.size(); ++k) places.emplace(readings[k].id, k);

  std::vector<bool> overtaken(readings.size(), false);
  for (const Reading& standing : readings) {
    if (standing.withdrawn_at) continue;
    for (auto earlier = standing.supersedes_id; earlier;) {
      const auto found = places.find(*earlier);
      if (found == places.end() || overtaken[found->second]) break;
      overtaken[found->second] = true;
      earlier = readings[found->second].supersedes_id;
    }
  }

  std::vector<ReadingState> states(readings.size(), ReadingState::current);
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].withdrawn_at) {
      states[k] = ReadingState::withdrawn;
    } else if (overtaken[k]) {
      states[k] = ReadingState::superseded;
    }
  }
  return states;
}

}  // namespace brakewright::shop
