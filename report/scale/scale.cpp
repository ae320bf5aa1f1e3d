#include "report/scale/scale.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "report/trace/trace.hpp"

namespace brakewright::report {

namespace {

constexpr double kLabelMm = 5.6;
constexpr double kRuleMm = 6.5;

struct Rule {
  Box bar;
  double low_mm = 0;
  double enlargement = 1;

  double y(double mm) const { return bar.bottom() - (mm - low_mm) * enlargement; }
  double high_mm() const { return low_mm + bar.height_mm / enlargement; }
};

double enlargement_for(double span_mm, double room_mm) {
  for (const double wanted : {50.0, 40.0, 25.0, 20.0, 15.0, 10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.2, 0.1}) {
    if (span_mm * wanted <= room_mm) return wanted;
  }
  return room_mm / span_mm;
}

std::string ratio_text(double enlargement) {
  char text[32];
  if (enlargement >= 1) {
    std::snprintf(text, sizeof text, "scale %.0f : 1", enlargement);
  } else {
    std::snprintf(text, sizeof text, "scale 1 : %.0f", 1 / enlargement);
  }
  return text;
}

void hatch_between(Canvas& canvas, const Rule& rule, double from_mm, double to_mm, double step, Colour colour) {
  const double top = std::clamp(rule.y(std::max(from_mm, to_mm)), rule.bar.y_mm, rule.bar.bottom());
  const double foot = std::clamp(rule.y(std::min(from_mm, to_mm)), rule.bar.y_mm, rule.bar.bottom());
  canvas.hatch(Box{rule.bar.x_mm, top, rule.bar.width_mm, foot - top}, step, kHair, colour);
}

void draw_rule(Canvas& canvas, const Rule& rule, const ThicknessScale& scale) {
  if (scale.discard_mm)
    hatch_between(canvas, rule, scale.grows ? rule.high_mm() : rule.low_mm, *scale.discard_mm, 0.6, kInk);
  if (scale.discard_mm && scale.machine_to_mm) {
    hatch_between(canvas, rule, *scale.discard_mm, *scale.machine_to_mm, 1.5, kQuiet);
  }
  const double fine = nice_step(3.5 / rule.enlargement, 1);
  const auto first = static_cast<long>(std::ceil(rule.low_mm / fine - 1e-9));
  const auto last = static_cast<long>(std::floor(rule.high_mm() / fine + 1e-9));
  for (long k = first; k <= last; ++k) {
    const double y = rule.y(static_cast<double>(k) * fine);
    const double length = k % 10 == 0 ? 3.0 : k % 5 == 0 ? 2.0 : 1.2;
    canvas.line({rule.bar.x_mm, y}, {rule.bar.x_mm + length, y}, kHair, kInk);
  }
  canvas.rectangle(rule.bar, kLine, kInk);
}

void draw_marks(Canvas& canvas, Box box, const Rule& rule, std::vector<ScaleMark> marks) {
  std::stable_sort(marks.begin(), marks.end(), [](const auto& a, const auto& b) { return a.mm > b.mm; });
  std::vector<double> wanted;
  for (const ScaleMark& mark : marks) wanted.push_back(rule.y(mark.mm) - kLabelMm / 2);
  const std::vector<double> tops = spread_labels(wanted, kLabelMm, box.y_mm, rule.bar.bottom() + 1.5);
  const double edge = rule.bar.right();
  const double label_x = edge + 4.8;
  for (std::size_t k = 0; k < marks.size(); ++k) {
    const ScaleMark& mark = marks[k];
    const double y = rule.y(mark.mm);
    const double label_y = tops[k] + kLabelMm / 2;
    if (mark.measured) {
      canvas.polygon({{edge + 0.2, y}, {edge + 2.2, y - 0.9}, {edge + 2.2, y + 0.9}}, kInk);
      canvas.line({rule.bar.x_mm, y}, {edge, y}, kThin, kInk);
    } else {
      canvas.line({rule.bar.x_mm - 0.8, y}, {edge + 1.4, y}, kBold, kInk);
    }
    canvas.polyline({{edge + (mark.measured ? 2.2 : 1.4), y}, {edge + 2.6, y}, {label_x - 0.6, label_y}}, kHair,
                    kQuiet);
    canvas.text({label_x, label_y + 0.1}, box.right() - label_x, mark.figures, {.size_pt = 6.6, .bold = mark.measured});
    canvas.text({label_x, label_y + 2.2}, box.right() - label_x, mark.name, {.size_pt = 5.2, .colour = kQuiet});
  }
}

}  // namespace

std::vector<double> spread_labels(std::vector<double> wanted, double height, double top, double bottom) {
  const double room = bottom - top;
  const auto count = static_cast<double>(wanted.size());
  const double step = count * height > room && count > 1 ? (room - height) / (count - 1) : height;
  double free_from = top;
  for (double& y : wanted) {
    y = std::max(y, free_from);
    free_from = y + step;
  }
  double free_to = bottom - height;
  for (auto y = wanted.rbegin(); y != wanted.rend(); ++y) {
    *y = std::min(*y, free_to);
    free_to = *y - step;
  }
  return wanted;
}

void draw_scale(Canvas& canvas, Box box, const ThicknessScale& scale) {
  canvas.text({box.x_mm, box.y_mm + 2.4}, box.width_mm, scale.title, {.size_pt = 7, .bold = true});
  const Box bar{box.x_mm + 0.9, box.y_mm + 6.4, kRuleMm, box.height_mm - 12};
  if (scale.marks.empty()) {
    canvas.rectangle(bar, kHair, kFaint);
    canvas.paragraph({bar.right() + 2, bar.y_mm}, box.right() - bar.right() - 2, 3, scale.when_empty,
                     {.size_pt = 6.5, .colour = kQuiet});
    return;
  }
  const auto by_mm = [](const ScaleMark& a, const ScaleMark& b) { return a.mm < b.mm; };
  const double low = std::min_element(scale.marks.begin(), scale.marks.end(), by_mm)->mm;
  const double high = std::max_element(scale.marks.begin(), scale.marks.end(), by_mm)->mm;
  const double span = std::max(high - low, 0.2);
  const double enlargement = enlargement_for(span * 1.12, bar.height_mm);
  const double spare = bar.height_mm / enlargement - (high - low);
  const Rule rule{bar, low - spare * (scale.grows ? 0.4 : 0.6), enlargement};
  draw_rule(canvas, rule, scale);
  draw_marks(canvas, {box.x_mm, box.y_mm + 4.6, box.width_mm, box.height_mm - 9}, rule, scale.marks);
  canvas.text({box.x_mm, box.bottom() - 1.4}, box.width_mm, ratio_text(enlargement),
              {.size_pt = 5.2, .colour = kQuiet});
}

}  // namespace brakewright::report
