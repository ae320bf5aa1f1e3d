#pragma once

#include <string>

namespace brakewright {

/// A tyre by its size, and how far it rolls in a turn.
struct Tyre {
  double section_mm = 0;
  double aspect_percent = 0;
  double rim_in = 0;
  double free_circumference_mm = 0;  ///< of the new tyre without load
  double rolling_mm = 0;             ///< the middle of what one turn covers
  double rolling_low_mm = 0;
  double rolling_high_mm = 0;
};

/// A loaded radial tyre, new to worn, covers this share of its free circumference in a turn. From memory, no source
/// read.
inline constexpr double kRollsLow = 0.945, kRollsHigh = 0.985;
inline constexpr const char* kRollingSource =
    "a loaded radial tyre rolls 94.5 to 98.5 % of its free circumference, worn to new: from memory, no source read";

/// Reads a size as "205/55 R16", "P205/55ZR16 91V", "LT245/75R16": section width in mm, height in per cent of it, rim
/// in inches.
/// @throws InputError "not_a_tyre" with an empty field; "out_of_range" for sizes that no road tyre has
Tyre read_tyre(const std::string& text);

}  // namespace brakewright
