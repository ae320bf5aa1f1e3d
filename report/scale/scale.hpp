#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"

/// Thickness, or a drum's diameter, drawn to scale as on a rule: where the part stands between new and scrap.
namespace brakewright::report {

struct ScaleMark {
  std::string name = {};  ///< such as "machine-to"
  std::string figures = {};
  double mm = 0;
  bool measured = false;  ///< a pointer beside the rule; a limit is a line across it
};

struct ThicknessScale {
  std::string title = {};  ///< names the unit of the figures
  std::vector<ScaleMark> marks = {};
  bool grows = false;                        ///< what is worn is larger, as a drum is
  std::optional<double> discard_mm = {};     ///< beyond it the rule is hatched densely
  std::optional<double> machine_to_mm = {};  ///< between discard and this it is hatched lightly
  std::string when_empty = {};
};

/// The enlargement is a whole number or a simple fraction and is written under the rule. Labels that would meet are
/// moved apart and keep their leaders.
void draw_scale(Canvas& canvas, Box box, const ThicknessScale& scale);

/// Upper edges for labels of one height so that none overlap and all stay in [top, bottom], as near as can be to where
/// they are wanted; ascending `wanted` in, same order out. More labels than room: evenly squeezed.
std::vector<double> spread_labels(std::vector<double> wanted, double height, double top, double bottom);

}  // namespace brakewright::report
