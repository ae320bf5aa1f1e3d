#include "core/thickness/figures.hpp"

#include <cmath>
#include <cstdio>

namespace brakewright {
namespace {

std::string fixed(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  std::string shown = text;
  if (shown.find_first_of("123456789") == std::string::npos && shown[0] == '-') shown.erase(0, 1);
  return shown;
}

/// Without the zeros at its end, but with at least `least` decimals.
std::string trimmed(std::string text, std::size_t least) {
  const std::size_t point = text.find('.');
  while (text.back() == '0' && text.size() - point - 1 > least) text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace

std::string mm_text(double value_mm) { return trimmed(fixed(value_mm, 4), 2); }

std::string um_text(double value_um) { return fixed(std::round(value_um), 0); }

std::string angle_text(double angle_deg) { return trimmed(fixed(angle_deg, 1), 0); }

std::string percent_text(double p) {
  if (p > 0.999) return "over 99.9 %";
  if (p < 0.001) return "under 0.1 %";
  return fixed(100 * p, 1) + " %";
}

}  // namespace brakewright
