#include "report/stack/stack.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright::report {

namespace {

constexpr double kLabelMm = 4.2;

struct Reach {
  double from = 1e9;
  double to = -1e9;
  double radius = 0;
};

Reach reach_of(const StackSection& section) {
  Reach reach;
  for (const StackShape& shape : section.shapes) {
    for (const Point& point : shape.outline) {
      reach.from = std::min(reach.from, point.x_mm);
      reach.to = std::max(reach.to, point.x_mm);
      reach.radius = std::max(reach.radius, point.y_mm);
    }
  }
  return reach;
}

Colour fill_of(StackLook look) {
  switch (look) {
    case StackLook::arbor:
      return {0.93, 0.94, 0.945};
    case StackLook::cone:
      return {0.72, 0.75, 0.77};
    case StackLook::damping:
      return {0.62, 0.60, 0.56};
    case StackLook::part:
      return {0.78, 0.87, 0.94};
    case StackLook::steel:
    case StackLook::spring:
      break;
  }
  return kFaint;
}

class Drawing {
 public:
  Drawing(Canvas& canvas, Box box, const Reach& reach) : canvas_(canvas), reach_(reach) {
    scale_ = std::min(box.width_mm / (reach.to - reach.from), (box.height_mm - kLabelMm) / (2 * reach.radius));
    axis_mm_ = box.y_mm + (box.height_mm - kLabelMm) / 2;
    left_mm_ = box.x_mm + (box.width_mm - scale_ * (reach.to - reach.from)) / 2;
  }

  void shape(const StackShape& shape) {
    for (const double side : {-1.0, 1.0}) {
      std::vector<Point> points;
      for (const Point& point : shape.outline) points.push_back(placed(point, side));
      if (shape.look == StackLook::spring) {
        canvas_.polyline(points, kLine, kInk);
        continue;
      }
      canvas_.polygon(points, fill_of(shape.look));
      points.push_back(points.front());
      canvas_.polyline(points, shape.look == StackLook::part ? kBold : kThin, kInk);
    }
  }

  void label(const StackShape& shape) {
    if (shape.label.empty()) return;
    double from = 1e9;
    double to = -1e9;
    for (const Point& point : shape.outline) {
      from = std::min(from, point.x_mm);
      to = std::max(to, point.x_mm);
    }
    const double x = placed({(from + to) / 2, 0}, 1).x_mm;
    const double y = axis_mm_ + scale_ * reach_.radius + kLabelMm - 0.9;
    canvas_.text({x - 6, y}, 12, shape.label, {.size_pt = 6.2, .bold = true, .align = Align::centre});
    canvas_.line({x, y - 2.4}, {x, y - 3.2}, kHair, kRule);
  }

  void axis() {
    canvas_.line(placed({reach_.from - 2, 0}, 1), placed({reach_.to + 2, 0}, 1), kHair, kInk, {3, 0.8, 0.6, 0.8});
  }

 private:
  Point placed(const Point& point, double side) const {
    return {left_mm_ + scale_ * (point.x_mm - reach_.from), axis_mm_ + side * scale_ * point.y_mm};
  }

  Canvas& canvas_;
  Reach reach_;
  double scale_ = 1;
  double axis_mm_ = 0;
  double left_mm_ = 0;
};

}  // namespace

void draw_stack(Canvas& canvas, Box box, const StackSection& section) {
  const Reach reach = reach_of(section);
  if (section.shapes.empty() || !(reach.to > reach.from) || !(reach.radius > 0)) {
    canvas.text({box.x_mm, box.y_mm + 3}, box.width_mm, section.none, {.size_pt = 6.4, .colour = kQuiet});
    return;
  }
  Drawing drawing(canvas, box, reach);
  for (const StackShape& shape : section.shapes) drawing.shape(shape);
  drawing.axis();
  for (const StackShape& shape : section.shapes) drawing.label(shape);
}

}  // namespace brakewright::report
