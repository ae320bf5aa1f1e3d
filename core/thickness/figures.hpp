#pragma once

#include <string>

namespace brakewright {

/// Figures as sentences carry them. A length in mm with as many decimals as it has, four at most: "21.23", "0.0127".
std::string mm_text(double value_mm);

/// Whole micrometres: "24".
std::string um_text(double value_um);

/// An angle with one decimal at most: "45", "22.5".
std::string angle_text(double angle_deg);

/// A probability as per cent; never 0 or 100 by rounding alone: "97.3 %", "over 99.9 %", "under 0.1 %".
std::string percent_text(double p);

}  // namespace brakewright
