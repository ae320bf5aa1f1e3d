#include <algorithm>
#include <cmath>
#include <limits>

#include "report/stack/stack.hpp"

namespace brakewright::report {

namespace {

constexpr double kRowMm = 3.4;
constexpr double kLettersMm = 2.4;
constexpr double kGapMm = 1.2;       ///< between labels
constexpr double kLeaderMm = 2.0;    ///< between the section and the first row
constexpr double kApartMm = 1.4;     ///< that two leaders want to be
constexpr double kOutOfOrder = 0.5;  ///< what it is worth that labels stand in the order of the shapes
constexpr std::size_t kMostRows = 3;

struct Reach {
  double from = std::numeric_limits<double>::infinity();
  double to = -std::numeric_limits<double>::infinity();
  double radius = 0;

  void take(const std::vector<Point>& outline) {
    for (const Point& point : outline) {
      from = std::min(from, point.x_mm);
      to = std::max(to, point.x_mm);
      radius = std::max(radius, point.y_mm);
    }
  }
};

bool is_inside(const std::vector<Point>& outline, const Point& point) {
  bool inside = false;
  for (std::size_t k = 0, last = outline.size() - 1; k < outline.size(); last = k++) {
    const Point& a = outline[k];
    const Point& b = outline[last];
    if ((a.y_mm > point.y_mm) != (b.y_mm > point.y_mm) &&
        point.x_mm < (b.x_mm - a.x_mm) * (point.y_mm - a.y_mm) / (b.y_mm - a.y_mm) + a.x_mm) {
      inside = !inside;
    }
  }
  return inside;
}

double distance(const Point& point, const Point& a, const Point& b) {
  const double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm;
  const double length2 = dx * dx + dy * dy;
  const double along = length2 > 0 ? ((point.x_mm - a.x_mm) * dx + (point.y_mm - a.y_mm) * dy) / length2 : 0;
  const double t = std::clamp(along, 0.0, 1.0);
  return std::hypot(point.x_mm - a.x_mm - t * dx, point.y_mm - a.y_mm - t * dy);
}

/// How far a point of a shape is from its edge and from whatever is drawn over it; 0 where it is hidden.
double clearance(const std::vector<StackShape>& shapes, std::size_t of, const Point& point) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t k = of; k < shapes.size(); ++k) {
    const auto& outline = shapes[k].outline;
    const bool coil = shapes[k].look == StackLook::spring;
    if (outline.empty() || (!coil && is_inside(outline, point) != (k == of))) return 0;
    for (std::size_t n = coil ? 1 : 0; n < outline.size(); ++n) {
      least = std::min(least, distance(point, outline[n], outline[n == 0 ? outline.size() - 1 : n - 1]));
    }
  }
  return least;
}

/// Where a leader ends on a shape: well inside it, in sight, near its middle and outer edge, apart from the other
/// leaders and behind those of the shapes before it.
Point anchor_of(const std::vector<StackShape>& shapes, std::size_t of, const std::vector<Point>& taken, double scale) {
  constexpr int kSteps = 24;
  const StackShape& shape = shapes[of];
  Reach reach;
  reach.take(shape.outline);
  const auto worth = [&](const Point& point, double clear_mm) {
    const double off_middle_mm = std::abs(point.x_mm - (reach.from + reach.to) / 2);
    double value = std::min(clear_mm * scale, 1.0) + (0.03 * point.y_mm - 0.04 * off_middle_mm) * scale;
    for (const Point& other : taken) {
      value -= std::max(0.0, kApartMm - std::abs(other.x_mm - point.x_mm) * scale);
      if (other.x_mm > point.x_mm) value -= kOutOfOrder;
    }
    return value;
  };
  Point best = shape.outline.front();
  double most = -std::numeric_limits<double>::infinity();
  const auto offer = [&](const Point& point, double clear_mm) {
    const double value = clear_mm > 0 ? worth(point, clear_mm) : -1000;
    if (value > most) most = value, best = point;
  };
  if (shape.look == StackLook::spring) {
    for (std::size_t k = 1; k + 1 < shape.outline.size(); ++k) offer(shape.outline[k], 1);
    return best;
  }
  for (int across = 1; across < kSteps; ++across) {
    for (int up = 1; up < kSteps; ++up) {
      const Point point{reach.from + (reach.to - reach.from) * across / kSteps, reach.radius * up / kSteps};
      if (is_inside(shape.outline, point)) offer(point, clearance(shapes, of, point));
    }
  }
  return best;
}

/// Left edges, as near to where they are wanted as can be, so that none overlap.
std::vector<double> spread(const std::vector<StackLabel>& row, double left, double right) {
  std::vector<double> edges;
  double free_from = left;
  for (const StackLabel& label : row) {
    edges.push_back(std::max(label.anchor.x_mm - label.box.width_mm / 2, free_from));
    free_from = edges.back() + label.box.width_mm + kGapMm;
  }
  double free_to = right;
  for (std::size_t k = row.size(); k-- > 0;) {
    edges[k] = std::min(edges[k], free_to - row[k].box.width_mm);
    free_to = edges[k] - kGapMm;
  }
  return edges;
}

double width_with_gaps(const std::vector<StackLabel>& labels) {
  double width = 0;
  for (const StackLabel& label : labels) width += label.box.width_mm + kGapMm;
  return width;
}

}  // namespace

StackPlan plan_stack(Box box, const StackSection& section, const std::function<double(std::string_view)>& width_of) {
  Reach reach;
  std::vector<StackLabel> labels;
  for (const StackShape& shape : section.shapes) {
    reach.take(shape.outline);
    if (!shape.label.empty()) labels.push_back({.text = shape.label, .box = {0, 0, width_of(shape.label), kLettersMm}});
  }
  if (!(reach.to > reach.from) || !(reach.radius > 0)) return {};
  const auto rows = static_cast<std::size_t>(
      std::clamp(std::ceil(width_with_gaps(labels) / box.width_mm), 1.0, static_cast<double>(kMostRows)));
  const double below = kLeaderMm + static_cast<double>(rows) * kRowMm;
  StackPlan plan;
  StackFrame& frame = plan.frame;
  frame.scale = std::min(box.width_mm / (reach.to - reach.from), (box.height_mm - below) / (2 * reach.radius));
  frame.left_mm = box.x_mm + (box.width_mm - frame.scale * (reach.to + reach.from)) / 2;
  frame.axis_mm = box.y_mm + (box.height_mm - below) / 2;
  frame.foot_mm = frame.axis_mm + frame.scale * reach.radius;
  std::vector<Point> taken;
  std::size_t next = 0;
  for (std::size_t k = 0; k < section.shapes.size(); ++k) {
    if (section.shapes[k].label.empty()) continue;
    taken.push_back(anchor_of(section.shapes, k, taken, frame.scale));
    labels[next++].anchor = frame.at(taken.back(), 1);
  }
  std::stable_sort(labels.begin(), labels.end(),
                   [](const StackLabel& a, const StackLabel& b) { return a.anchor.x_mm < b.anchor.x_mm; });
  std::vector<std::vector<StackLabel>> of_row(rows);
  for (std::size_t k = 0; k < labels.size(); ++k) {
    auto& row = of_row[k % rows];
    row.push_back(std::move(labels[k]));
    if (width_with_gaps(row) - kGapMm > box.width_mm) row.pop_back();
  }
  for (std::size_t k = 0; k < rows; ++k) {
    const std::vector<double> edges = spread(of_row[k], box.x_mm, box.right());
    for (std::size_t n = 0; n < edges.size(); ++n) {
      StackLabel& label = of_row[k][n];
      label.box.x_mm = edges[n];
      label.box.y_mm = frame.foot_mm + kLeaderMm + static_cast<double>(k) * kRowMm;
      plan.labels.push_back(std::move(label));
    }
  }
  return plan;
}

}  // namespace brakewright::report
