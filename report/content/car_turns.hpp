#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/circle/circle.hpp"
#include "shop/entities.hpp"

/// The turns of the indicator that were read on the car, in their order.
namespace brakewright::report {

/// When a turn was read: as the car came, before the part went back on for good, or after that.
enum class CarTime { as_it_came, to_refit, after_refit };

/// One turn with the part in one position, or of the bare hub. Angles from the hub's mark.
struct CarTurn {
  CarTime time = CarTime::as_it_came;
  std::optional<std::int64_t> turned = {};  ///< by how many studs; nothing for the bare hub
  int points = 8;                           ///< that were planned
  Trace trace = {};                         ///< mean of each angle's readings, by angle
  std::optional<double> runout_um = {};     ///< highest less lowest mean; nothing below three angles
  double high_deg = 0;                      ///< where the highest mean is
  int angles = 0;                           ///< that were read
};

std::vector<CarTurn> car_turns_of(const shop::JobFile& file, const shop::Part& part);

/// The bearing's play as it was last read, micrometres.
std::optional<double> bearing_play_um(const shop::JobFile& file, const shop::Part& part);

/// The last word on how the part went back on; null where there is none.
const shop::Refit* last_refit(const shop::JobFile& file, const shop::Part& part);

}  // namespace brakewright::report
