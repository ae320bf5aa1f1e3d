#include "report/trace/trace.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace brakewright::report {

namespace {

struct Range {
  double low = 0;
  double high = 0;
};

std::optional<Range> range_of(const TracePlot& plot) {
  std::optional<Range> range;
  for (const TraceLine& line : plot.lines) {
    for (const TraceReading& reading : line.readings) {
      if (!range) range = Range{reading.value, reading.value};
      range->low = std::min(range->low, reading.value);
      range->high = std::max(range->high, reading.value);
    }
  }
  return range;
}

std::string figure(double value, double step) {
  const int places = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
  char text[40];
  std::snprintf(text, sizeof text, "%.*f", places, std::abs(value) < step / 1000 ? 0.0 : std::abs(value));
  return (value < -step / 1000 ? "−" : "") + std::string(text);
}

struct Axes {
  Box area;
  Range range;

  Point at(double angle_deg, double value) const {
    return {area.x_mm + area.width_mm * angle_deg / 360,
            area.bottom() - area.height_mm * (value - range.low) / (range.high - range.low)};
  }
};

void draw_mark(Canvas& canvas, Point at, TraceMark mark, bool filled) {
  const double r = 0.62;
  if (mark == TraceMark::round) {
    canvas.disc(at, r, filled ? kInk : kPaper);
    canvas.circle(at, r, kThin, kInk);
    return;
  }
  std::vector<Point> corners;
  if (mark == TraceMark::square) {
    corners = {
        {at.x_mm - r, at.y_mm - r}, {at.x_mm + r, at.y_mm - r}, {at.x_mm + r, at.y_mm + r}, {at.x_mm - r, at.y_mm + r}};
  } else {
    corners = {{at.x_mm, at.y_mm - 0.85}, {at.x_mm + 0.75, at.y_mm + 0.5}, {at.x_mm - 0.75, at.y_mm + 0.5}};
  }
  canvas.polygon(corners, filled ? kInk : kPaper);
  corners.push_back(corners.front());
  corners.push_back(corners[1]);
  canvas.polyline(corners, kThin, kInk);
}

void draw_stroke(Canvas& canvas, const std::vector<Point>& path, bool after) {
  if (after) {
    canvas.polyline(path, kBold, kInk);
  } else {
    canvas.polyline(path, kLine, kQuiet, {1.3, 0.8});
  }
}

/// The part of a straight stroke that lies between 0 and 360 degrees.
void draw_piece(Canvas& canvas, const Axes& axes, TraceReading from, TraceReading to, bool after) {
  const auto at = [&](double angle_deg) {
    const double share = (angle_deg - from.angle_deg) / (to.angle_deg - from.angle_deg);
    return axes.at(angle_deg, from.value + (to.value - from.value) * share);
  };
  draw_stroke(canvas, {at(std::max(0.0, from.angle_deg)), at(std::min(360.0, to.angle_deg))}, after);
}

void draw_line(Canvas& canvas, const Axes& axes, const TraceLine& line) {
  std::vector<TraceReading> readings = line.readings;
  std::sort(readings.begin(), readings.end(),
            [](const TraceReading& a, const TraceReading& b) { return a.angle_deg < b.angle_deg; });
  const std::size_t count = readings.size();
  for (std::size_t k = 0; k < count; ++k) {
    const bool closing = k + 1 == count;
    const TraceReading from = readings[k];
    TraceReading to = readings[closing ? 0 : k + 1];
    if (closing) to.angle_deg += 360;
    const double gap = to.angle_deg - from.angle_deg;
    if (gap < 1e-9 || gap > 1.5 * line.step_deg) continue;
    draw_piece(canvas, axes, from, to, line.after);
    if (closing && readings.front().angle_deg > 1e-6) {
      draw_piece(canvas, axes, {from.angle_deg - 360, from.value}, {to.angle_deg - 360, to.value}, line.after);
    }
  }
  for (const TraceReading& reading : readings) {
    draw_mark(canvas, axes.at(reading.angle_deg, reading.value), line.mark, line.after);
  }
}

void draw_grid(Canvas& canvas, const Axes& axes, double step) {
  const Type small{.size_pt = 5.2, .colour = kQuiet, .align = Align::right};
  for (double value = std::ceil(axes.range.low / step - 1e-9) * step; value <= axes.range.high + step * 1e-9;
       value += step) {
    const double y = axes.at(0, value).y_mm;
    canvas.line({axes.area.x_mm, y}, {axes.area.right(), y}, kHair, std::abs(value) < step / 2 ? kRule : kFaint);
    canvas.text({axes.area.x_mm - 9.2, y + 0.65}, 8.4, figure(value, step), small);
  }
  for (int deg = 0; deg <= 360; deg += 30) {
    const double x = axes.at(deg, 0).x_mm;
    const bool named = deg % 90 == 0;
    canvas.line({x, axes.area.bottom()}, {x, axes.area.bottom() + (named ? 1.2 : 0.7)}, kHair, kQuiet);
    if (named) {
      canvas.text({x - 5, axes.area.bottom() + 3.3}, 10, std::to_string(deg) + "°",
                  {.size_pt = 5.2, .colour = kQuiet, .align = Align::centre});
    }
  }
  canvas.line({axes.area.x_mm, axes.area.bottom()}, {axes.area.right(), axes.area.bottom()}, kThin, kInk);
}

void draw_limit(Canvas& canvas, const Axes& axes, const TracePlot& plot) {
  const double x = axes.area.right() + 2.0;
  const Type type{.size_pt = 5.2, .colour = kInk};
  const double span = axes.range.high - axes.range.low;
  double label_y = axes.area.centre().y_mm;
  if (*plot.limit <= span * 1.0001) {
    const double middle = (axes.range.high + axes.range.low) / 2;
    const Point top = axes.at(0, middle + *plot.limit / 2);
    const Point foot = axes.at(0, middle - *plot.limit / 2);
    canvas.line({x - 1.4, top.y_mm}, {x + 0.8, top.y_mm}, kThin, kInk);
    canvas.line({x - 1.4, foot.y_mm}, {x + 0.8, foot.y_mm}, kThin, kInk);
    canvas.line({x, top.y_mm}, {x, foot.y_mm}, kThin, kInk);
    label_y = (top.y_mm + foot.y_mm) / 2;
  }
  canvas.text({x + 1.4, label_y - 0.5}, 10.5, "limit", type);
  canvas.text({x + 1.4, label_y + 1.9}, 10.5, plot.limit_text, type);
}

/// From right to left: the marks, then which line is before and which after. Answers where it begins.
double draw_key(Canvas& canvas, Box box, const TracePlot& plot) {
  const Type type{.size_pt = 5.2, .colour = kQuiet};
  const double y = box.y_mm + 1.5;
  double right = box.right();
  for (auto key = plot.keys.rbegin(); key != plot.keys.rend(); ++key) {
    const double width = canvas.width_of(key->name, type);
    canvas.text({right - width, y + 0.7}, width + 0.5, key->name, type);
    draw_mark(canvas, {right - width - 1.6, y}, key->mark, false);
    right -= width + 4.2;
  }
  for (const bool after : {true, false}) {
    const auto is_drawn = [&](const TraceLine& line) { return line.after == after && !line.readings.empty(); };
    if (std::none_of(plot.lines.begin(), plot.lines.end(), is_drawn)) continue;
    const std::string& name = after ? plot.after_name : plot.before_name;
    const double width = canvas.width_of(name, type);
    canvas.text({right - width, y + 0.7}, width + 0.5, name, type);
    draw_stroke(canvas, {{right - width - 5.4, y}, {right - width - 1, y}}, after);
    right -= width + 7.6;
  }
  return right;
}

}  // namespace

double nice_step(double span, int wanted) {
  const double rough = span / wanted * (1 + 1e-9);
  const double power = std::pow(10, std::floor(std::log10(rough)));
  for (const double factor : {5.0, 2.0}) {
    if (power * factor <= rough) return power * factor;
  }
  return power;
}

void draw_trace(Canvas& canvas, Box box, const TracePlot& plot) {
  const double key = draw_key(canvas, box, plot);
  const double title =
      canvas.text({box.x_mm, box.y_mm + 2.4}, key - box.x_mm, plot.title, {.size_pt = 7, .bold = true});
  canvas.text({box.x_mm + title + 1.5, box.y_mm + 2.4}, key - box.x_mm - title - 1.5, plot.unit,
              {.size_pt = 5.2, .colour = kQuiet});
  const Box area{box.x_mm + 9.5, box.y_mm + 5, box.width_mm - 9.5 - (plot.limit ? 13.5 : 1.5), box.height_mm - 9.2};
  std::optional<Range> range = range_of(plot);
  if (!range) {
    canvas.rectangle(area, kHair, kFaint);
    canvas.text({area.x_mm, area.centre().y_mm + 1}, area.width_mm, plot.when_empty,
                {.size_pt = 7, .colour = kQuiet, .align = Align::centre});
    return;
  }
  double span = std::max(range->high - range->low, 1e-9);
  const double middle = (range->high + range->low) / 2;
  if (plot.limit && *plot.limit > span && *plot.limit < 4 * span) span = *plot.limit;
  span *= 1.12;
  const double step = nice_step(span, 3);
  const Axes axes{area, {middle - span / 2, middle + span / 2}};
  draw_grid(canvas, axes, step);
  for (const bool after : {false, true}) {
    for (const TraceLine& line : plot.lines) {
      if (line.after == after && !line.readings.empty()) draw_line(canvas, axes, line);
    }
  }
  if (plot.limit) draw_limit(canvas, axes, plot);
}

}  // namespace brakewright::report
