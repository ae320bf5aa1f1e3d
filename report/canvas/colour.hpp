#pragma once

#include <algorithm>

namespace brakewright::report {

struct Colour {
  double red = 0;
  double green = 0;
  double blue = 0;
};

inline constexpr Colour kPaper{1, 1, 1};
inline constexpr Colour kInk{0.071, 0.137, 0.169};
inline constexpr Colour kQuiet{0.278, 0.341, 0.369};  ///< labels and small print, 7.5:1 on white
inline constexpr Colour kRule{0.55, 0.58, 0.61};      ///< thin rules and marks
inline constexpr Colour kFaint{0.84, 0.86, 0.875};    ///< grids behind figures

/// The two ends of the diverging scale, orange below and blue above as on the page, from the palette of M. Okabe and K.
/// Ito (2008), which people with any of the usual forms of colour blindness tell apart: below the mean is orange
/// (#D55E00), above it blue (#0072B2).
inline constexpr Colour kLow{0.835, 0.369, 0.0};
inline constexpr Colour kHigh{0.0, 0.447, 0.698};

/// Colour of a deviation. @param share  deviation over the full scale; held to -1 .. 1; 0 is near white
inline Colour diverging(double share) {
  const double s = std::clamp(share, -1.0, 1.0);
  const Colour end = s < 0 ? kLow : kHigh;
  const double t = s < 0 ? -s : s;
  constexpr Colour middle{0.955, 0.955, 0.945};
  return {middle.red + (end.red - middle.red) * t, middle.green + (end.green - middle.green) * t,
          middle.blue + (end.blue - middle.blue) * t};
}

}  // namespace brakewright::report
