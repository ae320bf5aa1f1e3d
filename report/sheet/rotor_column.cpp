#include <algorithm>

#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr double kGapMm = 3;
constexpr double kNoteMm = 2.3;

Box draw_title(Canvas& canvas, Box box, const RotorContent& rotor) {
  canvas.text({box.x_mm, box.y_mm + 5.6}, box.width_mm * 0.5, rotor.title, {.size_pt = 11.5, .bold = true});
  canvas.text({box.x_mm, box.y_mm + 9}, box.width_mm, rotor.description, {.size_pt = 6, .colour = kQuiet});
  if (!rotor.check.word.empty()) {
    const double half = box.width_mm / 2;
    const double word = canvas.text({box.x_mm + half, box.y_mm + 5.6}, half, rotor.check.word,
                                    {.size_pt = 9, .bold = true, .align = Align::right});
    canvas.text({box.x_mm + half, box.y_mm + 5.6}, half - word - 1.6, "after the cut",
                {.size_pt = 5.4, .colour = kQuiet, .align = Align::right});
  }
  return {box.x_mm, box.y_mm + 11, box.width_mm, box.height_mm - 11};
}

struct FigureColumns {
  double name_x = 0;
  double name_mm = 0;
  double before_right = 0;
  double after_right = 0;
  double value_mm = 0;
};

void draw_figure(Canvas& canvas, const FigureColumns& at, double baseline, const FigureContent& figure) {
  const Type number{.size_pt = figure.large ? 11.0 : 7.6, .bold = figure.large, .align = Align::right};
  const Type note{.size_pt = 5.2, .colour = kQuiet, .align = Align::right};
  canvas.text({at.name_x, baseline}, at.name_mm, figure.name, {.size_pt = 6.8});
  canvas.text({at.name_x, baseline + kNoteMm}, at.name_mm, figure.limit, {.size_pt = 5.2, .colour = kQuiet});
  canvas.text({at.before_right - at.value_mm, baseline}, at.value_mm, figure.before, number);
  canvas.text({at.before_right - at.value_mm, baseline + kNoteMm}, at.value_mm, figure.before_note, note);
  canvas.text({at.after_right - at.value_mm, baseline}, at.value_mm, figure.after, number);
  canvas.text({at.after_right - at.value_mm, baseline + kNoteMm}, at.value_mm, figure.after_note, note);
}

void draw_figures(Canvas& canvas, Box box, const RotorContent& rotor) {
  const double name = box.width_mm * 0.34;
  const double value = (box.width_mm - name) / 2;
  const FigureColumns at{box.x_mm, name - 1, box.x_mm + name + value - 0.8, box.right(), value - 1};
  const Type head{.size_pt = 5.4, .colour = kQuiet, .align = Align::right};
  canvas.text({box.x_mm, box.y_mm + 2.4}, name, rotor.figures_unit, {.size_pt = 7, .bold = true});
  canvas.text({at.before_right - value, box.y_mm + 2.4}, value, "before", head);
  canvas.text({at.after_right - value, box.y_mm + 2.4}, value, "after the cut", head);
  double y = box.y_mm + 3.6;
  canvas.line({box.x_mm, y}, {box.right(), y}, kLine, kInk);
  double weight = 0;
  for (const FigureContent& figure : rotor.figures) weight += figure.large ? 1.3 : 1;
  const double unit = std::min(8.0, (box.bottom() - y) / std::max(1.0, weight));
  for (const FigureContent& figure : rotor.figures) {
    const double row = unit * (figure.large ? 1.3 : 1);
    const double lettering = (figure.large ? 2.9 : 2.0) + kNoteMm;
    draw_figure(canvas, at, y + (row - lettering) / 2 + lettering - kNoteMm, figure);
    y += row;
    canvas.line({box.x_mm, y}, {box.right(), y}, kHair, kFaint);
  }
}

void draw_rings(Canvas& canvas, Box box, const RotorContent& rotor) {
  const double half = box.width_mm / 2;
  draw_ring(canvas, {box.x_mm, box.y_mm, half - 1, box.height_mm - 6}, rotor.before);
  draw_ring(canvas, {box.x_mm + half + 1, box.y_mm, half - 1, box.height_mm - 6}, rotor.after);
  draw_ring_legend(canvas, {box.x_mm, box.bottom() - 4.8, box.width_mm, 5}, rotor.full_scale_text, rotor.ring_words);
}

}  // namespace

void draw_rotor(Canvas& canvas, Box box, const RotorContent& rotor, bool wide) {
  const Box rest = draw_title(canvas, box, rotor);
  const double figures = std::clamp(rest.height_mm * 0.34, 54.0, 70.0);
  const double upper = rest.height_mm - figures - 2 * kGapMm - 1;
  const double rings = wide ? upper - std::clamp(upper * 0.32, 30.0, 44.0)
                            : std::min(rest.width_mm / 2 + kRingLetteringMm + 1, upper - 44);
  const double traces = upper - rings;
  draw_rings(canvas, {rest.x_mm, rest.y_mm, rest.width_mm, rings}, rotor);
  double y = rest.y_mm + rings + kGapMm;
  if (wide) {
    const double half = rest.width_mm / 2 - 4;
    draw_trace(canvas, {rest.x_mm, y, half, traces}, rotor.thickness);
    draw_trace(canvas, {rest.right() - half, y, half, traces}, rotor.runout);
  } else {
    draw_trace(canvas, {rest.x_mm, y, rest.width_mm, traces / 2}, rotor.thickness);
    draw_trace(canvas, {rest.x_mm, y + traces / 2 + 0.5, rest.width_mm, traces / 2}, rotor.runout);
  }
  y += traces + kGapMm;
  const double scale = wide ? 36 : 24;
  draw_figures(canvas, {rest.x_mm, y, rest.width_mm - scale - (wide ? 10 : 4), figures}, rotor);
  draw_scale(canvas, {rest.right() - scale, y, scale, figures}, rotor.scale);
}

void draw_blank_rotor(Canvas& canvas, Box box, const RotorContent& rotor) {
  constexpr TableLook look{.size_pt = 6.4, .row_mm = 4.2};
  const Box rest = draw_title(canvas, box, rotor);
  const double limits = 5 + table_height(canvas, rest.width_mm, rotor.limits, look) + 2;
  const double ring = std::min(rest.height_mm - limits, 96.0);
  draw_ring(canvas, {rest.x_mm, rest.y_mm, rest.width_mm, ring - 2}, rotor.before);
  const Box below = draw_heading(canvas, {rest.x_mm, rest.bottom() - limits, rest.width_mm, limits}, "Limits");
  draw_table(canvas, below, rotor.limits, look);
}

}  // namespace brakewright::report
