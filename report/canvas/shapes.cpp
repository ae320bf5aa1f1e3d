#include <cairo-pdf.h>
#include <cairo.h>

#include <cmath>
#include <numbers>

#include "report/canvas/canvas.hpp"

namespace brakewright::report {

namespace {

double radians(double clock_deg) { return (clock_deg - 90) * std::numbers::pi / 180; }

void ink(cairo_t* cairo, Colour colour) { cairo_set_source_rgb(cairo, colour.red, colour.green, colour.blue); }

void stroke(cairo_t* cairo, double width_mm, Colour colour, const std::vector<double>& dashes_mm) {
  ink(cairo, colour);
  cairo_set_line_width(cairo, width_mm);
  cairo_set_dash(cairo, dashes_mm.data(), static_cast<int>(dashes_mm.size()), 0);
  cairo_stroke(cairo);
}

void trace_path(cairo_t* cairo, const std::vector<Point>& points) {
  cairo_new_path(cairo);
  for (const Point& point : points) cairo_line_to(cairo, point.x_mm, point.y_mm);
}

void sector_path(cairo_t* cairo, const Canvas::Sector& s) {
  cairo_new_path(cairo);
  cairo_arc(cairo, s.centre.x_mm, s.centre.y_mm, s.outer_mm, radians(s.from_deg), radians(s.to_deg));
  cairo_arc_negative(cairo, s.centre.x_mm, s.centre.y_mm, s.inner_mm, radians(s.to_deg), radians(s.from_deg));
  cairo_close_path(cairo);
}

void hatch_inside_clip(cairo_t* cairo, double step_mm, double width_mm, Colour colour) {
  double left = 0, top = 0, right = 0, bottom = 0;
  cairo_clip_extents(cairo, &left, &top, &right, &bottom);
  const double slant = step_mm * std::numbers::sqrt2;
  const double first = std::floor((left - bottom) / slant) * slant;
  cairo_new_path(cairo);
  for (double offset = first; offset < right - top; offset += slant) {
    cairo_move_to(cairo, offset + top, top);
    cairo_line_to(cairo, offset + bottom, bottom);
  }
  stroke(cairo, width_mm, colour, {});
}

}  // namespace

void Canvas::line(Point from, Point to, double width_mm, Colour colour, std::vector<double> dashes_mm) {
  polyline({from, to}, width_mm, colour, std::move(dashes_mm));
}

void Canvas::polyline(const std::vector<Point>& points, double width_mm, Colour colour, std::vector<double> dashes_mm) {
  trace_path(cairo_, points);
  stroke(cairo_, width_mm, colour, dashes_mm);
}

void Canvas::polygon(const std::vector<Point>& points, Colour colour) {
  trace_path(cairo_, points);
  cairo_close_path(cairo_);
  ink(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::rectangle(Box box, double width_mm, Colour colour) {
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x_mm, box.y_mm, box.width_mm, box.height_mm);
  stroke(cairo_, width_mm, colour, {});
}

void Canvas::fill(Box box, Colour colour) {
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x_mm, box.y_mm, box.width_mm, box.height_mm);
  ink(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::circle(Point centre, double radius_mm, double width_mm, Colour colour, std::vector<double> dashes_mm) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, centre.x_mm, centre.y_mm, radius_mm, 0, 2 * std::numbers::pi);
  cairo_close_path(cairo_);
  stroke(cairo_, width_mm, colour, dashes_mm);
}

void Canvas::disc(Point centre, double radius_mm, Colour colour) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, centre.x_mm, centre.y_mm, radius_mm, 0, 2 * std::numbers::pi);
  ink(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::sector(const Sector& s, Colour colour) {
  sector_path(cairo_, s);
  ink(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::sector_edge(const Sector& s, double width_mm, Colour colour) {
  sector_path(cairo_, s);
  stroke(cairo_, width_mm, colour, {});
}

void Canvas::hatch(const Sector& s, double step_mm, double width_mm, Colour colour) {
  cairo_save(cairo_);
  sector_path(cairo_, s);
  cairo_clip(cairo_);
  hatch_inside_clip(cairo_, step_mm, width_mm, colour);
  cairo_restore(cairo_);
}

void Canvas::hatch(Box box, double step_mm, double width_mm, Colour colour) {
  if (box.width_mm <= 0 || box.height_mm <= 0) return;
  cairo_save(cairo_);
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x_mm, box.y_mm, box.width_mm, box.height_mm);
  cairo_clip(cairo_);
  hatch_inside_clip(cairo_, step_mm, width_mm, colour);
  cairo_restore(cairo_);
}

void Canvas::squares(Point corner, double side_mm, int columns, const std::vector<bool>& filled) {
  const double overlap = side_mm * 0.02;
  cairo_new_path(cairo_);
  for (std::size_t start = 0; start < filled.size(); ++start) {
    if (!filled[start]) continue;
    const std::size_t width = static_cast<std::size_t>(columns);
    const std::size_t row = start / width;
    std::size_t end = start;
    while (end + 1 < (row + 1) * width && filled[end + 1]) ++end;
    cairo_rectangle(cairo_, corner.x_mm + side_mm * static_cast<double>(start % width),
                    corner.y_mm + side_mm * static_cast<double>(row), side_mm * static_cast<double>(end - start + 1),
                    side_mm + overlap);
    start = end;
  }
  ink(cairo_, {0, 0, 0});
  cairo_fill(cairo_);
}

void Canvas::link(Box area, const std::string& address) {
  if (cairo_surface_get_type(cairo_get_target(cairo_)) != CAIRO_SURFACE_TYPE_PDF) return;
  std::string quoted;
  for (const char c : drawable(address)) {
    if (c == '\'' || c == '\\') quoted += '\\';
    quoted += c;
  }
  constexpr double mm = 72 / 25.4;
  const auto number = [](double v) { return std::to_string(v); };
  const std::string where = "rect=[" + number(area.x_mm * mm) + ' ' + number(area.y_mm * mm) + ' ' +
                            number(area.width_mm * mm) + ' ' + number(area.height_mm * mm) + "] uri='" + quoted + "'";
  cairo_tag_begin(cairo_, CAIRO_TAG_LINK, where.c_str());
  cairo_tag_end(cairo_, CAIRO_TAG_LINK);
}

}  // namespace brakewright::report
