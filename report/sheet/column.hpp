#pragma once

#include <string>
#include <vector>

#include "report/canvas/canvas.hpp"
#include "report/content/content.hpp"
#include "report/sheet/entries.hpp"

namespace brakewright::report {

inline constexpr TableLook kWordsLook{.size_pt = 5.8, .row_mm = 3.5};
inline constexpr TableLook kFiguresLook{.size_pt = 6.2, .row_mm = 3.7};
inline constexpr Type kBasis{.size_pt = 5.4, .colour = kQuiet};
inline constexpr double kLineMm = 2.6;

/// A column that is filled from above; nothing leaves its box.
class Column {
 public:
  Column(Canvas& canvas, Box box, EntriesLook entries) : canvas_(canvas), box_(box), entries_(entries) {}

  Box left() const { return box_; }
  void take(double height_mm);
  void heading(const std::string& words, const std::string& aside = "");
  void paragraph(const std::string& text, int most_lines, const Type& type);
  void table(const Table& table, const TableLook& look, double most_mm);
  void entries(const std::vector<ReasonContent>& entries, const std::string& none, double most_mm);
  void gap() { take(2.2); }

 private:
  Canvas& canvas_;
  Box box_;
  EntriesLook entries_;
};

}  // namespace brakewright::report
