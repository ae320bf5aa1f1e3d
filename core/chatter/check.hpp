#pragma once

#include <string>

namespace brakewright::chatter {

/// The cutting force for each metre of depth and of chip: 1 to 1e15 N/m2.
void check_force(double n_per_m2, const std::string& field);

/// A spindle's speed: 0.01 to 1e6 turns a minute.
void check_speed(double rpm, const std::string& field);

}  // namespace brakewright::chatter
