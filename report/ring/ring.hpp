#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"

/// One face of a rotor seen from outside, coloured by how far each reading lies from the mean.
namespace brakewright::report {

struct RingCell {
  int circle = 0;         ///< counted from the outer edge inwards
  double angle_deg = 0;   ///< from the index mark, in the direction of counting
  double deviation = 0;   ///< from the mean, in the unit of `full_scale`
  std::string text = {};  ///< the same as figures, set into the cell where there is room
};

struct Ring {
  std::string title = {};  ///< such as "Before"
  int points = 8;          ///< how many evenly spaced points were planned
  int circles = 1;
  bool clockwise = true;                   ///< in which way the points count up
  std::vector<RingCell> cells = {};        ///< empty: only the points to be read are drawn
  double full_scale = 1;                   ///< deviation of the deepest colour, > 0
  std::optional<std::size_t> lowest = {};  ///< index into `cells`; of a drum the widest
  std::string centre_value = {};           ///< the figure in the middle
  std::string centre_label = {};           ///< what it is
  std::string caption = {};                ///< under the ring, such as where the lowest reading is
};

/// Height that title and caption take above and below the ring.
inline constexpr double kRingLetteringMm = 10.5;

/// Draws as large as the box allows. A point without a reading keeps its dot and stays uncoloured. Readings below the
/// mean are hatched as well as orange, those above are plain and blue: the picture holds in grey.
void draw_ring(Canvas& canvas, Box box, const Ring& ring);

/// The words at the ends of the scale of colours.
struct RingWords {
  std::string below = "thinner";
  std::string above = "thicker";
};

/// The scale of colours: words and figures at both ends.
void draw_ring_legend(Canvas& canvas, Box box, const std::string& full_scale_text, const RingWords& words = {});

}  // namespace brakewright::report
