#include "report/stack/stack.hpp"

#include <algorithm>

namespace brakewright::report {

namespace {

constexpr Type kLabel{.size_pt = 6.2, .bold = true, .align = Align::centre};

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

/// Both halves of a shape. What lies on the axis is inside the piece and gets no line.
void draw_shape(Canvas& canvas, const StackFrame& frame, const StackShape& shape) {
  for (const double side : {-1.0, 1.0}) {
    std::vector<Point> points;
    for (const Point& point : shape.outline) points.push_back(frame.at(point, side));
    if (shape.look == StackLook::spring) {
      canvas.polyline(points, kLine, kInk);
      continue;
    }
    canvas.polygon(points, fill_of(shape.look));
    if (shape.outline.size() > 1 && shape.outline[0].y_mm == 0 && shape.outline[1].y_mm == 0) {
      std::rotate(points.begin(), points.begin() + 1, points.end());
    } else {
      points.push_back(points.front());
    }
    canvas.polyline(points, shape.look == StackLook::part ? kBold : kThin, kInk);
  }
}

void draw_label(Canvas& canvas, const StackFrame& frame, const StackLabel& label) {
  const double x = label.box.centre().x_mm;
  canvas.polyline({label.anchor, {label.anchor.x_mm, frame.foot_mm + 0.4}, {x, label.box.y_mm - 0.2}}, kHair, kInk);
  canvas.disc(label.anchor, 0.35, kInk);
  canvas.text({label.box.x_mm - 1, label.box.bottom() - 0.4}, label.box.width_mm + 2, label.text, kLabel);
}

}  // namespace

void draw_stack(Canvas& canvas, Box box, const StackSection& section) {
  const StackPlan plan = plan_stack(box, section, [&](std::string_view text) { return canvas.width_of(text, kLabel); });
  if (!(plan.frame.scale > 0)) {
    canvas.text({box.x_mm, box.y_mm + 3}, box.width_mm, section.none, {.size_pt = 6.4, .colour = kQuiet});
    return;
  }
  double from = 0, to = 0;
  for (const StackShape& shape : section.shapes) {
    draw_shape(canvas, plan.frame, shape);
    for (const Point& point : shape.outline) {
      from = std::min(from, point.x_mm);
      to = std::max(to, point.x_mm);
    }
  }
  canvas.line(plan.frame.at({from - 2, 0}, 1), plan.frame.at({to + 2, 0}, 1), kHair, kInk, {3, 0.8, 0.6, 0.8});
  for (const StackLabel& label : plan.labels) draw_label(canvas, plan.frame, label);
}

}  // namespace brakewright::report
