#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"

/// Readings unrolled round the circle.
namespace brakewright::report {

enum class TraceMark { round, square, triangle };

struct TraceReading {
  double angle_deg = 0;
  double value = 0;  ///< in the unit of the plot
};

struct TraceLine {
  bool after = false;  ///< after: full line and filled marks; before: dashed and open
  TraceMark mark = TraceMark::round;
  double step_deg = 45;                     ///< between neighbouring points
  std::vector<TraceReading> readings = {};  ///< in any order
};

/// A mark and what it stands for, such as "outboard" or "outer circle".
struct TraceKey {
  TraceMark mark = TraceMark::round;
  std::string name = {};
};

struct TracePlot {
  std::string title = {};
  std::string unit = {};              ///< of the values
  std::vector<TraceLine> lines = {};  ///< those without readings are left out
  std::vector<TraceKey> keys = {};    ///< empty where every line has the same mark
  std::optional<double> limit = {};   ///< largest highest-less-lowest allowed, drawn as a dimension where it fits
  std::string limit_text = {};        ///< the limit as figures with its unit
  std::string when_empty = {};        ///< said in place of lines
  std::string before_name = "before";
  std::string after_name = "after";
};

/// Neighbouring points are joined by straight lines, the last one with the first; where a point was not read the line
/// is broken. Nothing is drawn that was not read.
void draw_trace(Canvas& canvas, Box box, const TracePlot& plot);

/// The largest step of 1, 2 or 5 times a power of ten that still divides `span` into `wanted` parts or more. span > 0
double nice_step(double span, int wanted);

}  // namespace brakewright::report
