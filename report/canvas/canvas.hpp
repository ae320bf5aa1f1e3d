#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "report/canvas/colour.hpp"

using cairo_t = struct _cairo;

/// A sheet that is drawn on in millimetres, y downwards from the upper left corner. The one place that knows the
/// drawing library: everything above says what to draw, not on what.
namespace brakewright::report {

struct Point {
  double x_mm = 0;
  double y_mm = 0;
};

struct Box {
  double x_mm = 0;
  double y_mm = 0;
  double width_mm = 0;
  double height_mm = 0;

  double right() const { return x_mm + width_mm; }
  double bottom() const { return y_mm + height_mm; }
  Point centre() const { return {x_mm + width_mm / 2, y_mm + height_mm / 2}; }
};

/// Line widths, after the series of ISO 128 (0.13, 0.18, 0.25, 0.35, 0.5 mm; from memory).
inline constexpr double kHair = 0.13;
inline constexpr double kThin = 0.18;
inline constexpr double kLine = 0.25;
inline constexpr double kBold = 0.35;
inline constexpr double kFrame = 0.5;

enum class Align { left, centre, right };

struct Type {
  double size_pt = 7.5;
  bool bold = false;
  bool mono = false;  ///< B612's own figures are all of one width already; mono is for long codes
  bool italic = false;
  Colour colour = kInk;
  Align align = Align::left;
};

/// Typefaces: B612 and B612 Mono (Debian's fonts-b612); what they lack comes from what the machine has.
class Canvas {
 public:
  /// @param cairo  in points (1/72 in), as the library's paper surfaces are; not owned, outlives the canvas
  explicit Canvas(cairo_t* cairo);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  void line(Point from, Point to, double width_mm, Colour colour, std::vector<double> dashes_mm = {});
  void polyline(const std::vector<Point>& points, double width_mm, Colour colour, std::vector<double> dashes_mm = {});
  void polygon(const std::vector<Point>& points, Colour fill);
  void rectangle(Box box, double width_mm, Colour colour);
  void fill(Box box, Colour colour);
  void circle(Point centre, double radius_mm, double width_mm, Colour colour, std::vector<double> dashes_mm = {});
  void disc(Point centre, double radius_mm, Colour fill);

  /// Part of a ring; angles in degrees, 0 at the top, clockwise.
  struct Sector {
    Point centre;
    double inner_mm = 0;
    double outer_mm = 0;
    double from_deg = 0;
    double to_deg = 0;
  };
  void sector(const Sector& sector, Colour fill);
  void sector_edge(const Sector& sector, double width_mm, Colour colour);
  /// Slanting hatch lines inside a sector or a box, as on a cut face of a drawing.
  void hatch(const Sector& sector, double step_mm, double width_mm, Colour colour);
  void hatch(Box box, double step_mm, double width_mm, Colour colour);

  /// Many squares as one shape, so that no seam shows between neighbours.
  void squares(Point corner, double side_mm, int columns, const std::vector<bool>& filled);

  /// One line of text on its baseline, shortened with an ellipsis where it is wider than `width_mm`. Line breaks and
  /// control characters become blanks; right-to-left text reads its own way and keeps to the side asked for.
  /// Answers the width used.
  double text(Point baseline, double width_mm, std::string_view utf8, const Type& type);

  /// Wrapped text from its upper edge down, at most `max_lines`, the last one shortened with an ellipsis.
  /// Answers the height used.
  double paragraph(Point upper_left, double width_mm, int max_lines, std::string_view utf8, const Type& type);

  double width_of(std::string_view utf8, const Type& type);
  /// Height that `paragraph` would use.
  double height_of(double width_mm, int max_lines, std::string_view utf8, const Type& type);

  /// Makes an area lead to an address where the sheet is a PDF; elsewhere nothing happens.
  void link(Box area, const std::string& address);

 private:
  struct Letters;
  cairo_t* cairo_;
  std::unique_ptr<Letters> letters_;
};

/// Valid UTF-8 without control characters, at most `max_bytes` long: what may be handed to the drawing library.
std::string drawable(std::string_view text, std::size_t max_bytes = 2000);

}  // namespace brakewright::report
