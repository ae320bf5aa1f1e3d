#pragma once

#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"
#include "report/content/content.hpp"

/// Sentences under each other, each with its basis in small print.
namespace brakewright::report {

/// A heading over sentences or a table.
inline constexpr double kHeadingMm = 6.2;

struct EntriesLook {
  Type text = {.size_pt = 6.4};
  int text_lines = 3;
  Type basis = {.size_pt = 5.2, .colour = kQuiet};
  int basis_lines = 1;
  double gap_mm = 0.8;  ///< behind each
};

/// Height of `entries`, or of what is said where there are none.
double entries_height(Canvas& canvas, double width_mm, const std::vector<ReasonContent>& entries,
                      const EntriesLook& look);

/// Those that do not fit are counted in a last line. Answers the height used.
/// @param none  said where there are none; empty: nothing is
double draw_entries(Canvas& canvas, Box box, const std::vector<ReasonContent>& entries, const std::string& none,
                    const EntriesLook& look);

}  // namespace brakewright::report
