#include <algorithm>
#include <numeric>

#include "report/sheet/column.hpp"
#include "report/sheet/sheet.hpp"
#include "report/stack/stack.hpp"

namespace brakewright::report {

namespace {

constexpr double kStackMm = 43;
constexpr double kPiecesMm = 46;
constexpr double kProofMm = 30;
constexpr double kDialsHeadMm = 7.8;
constexpr double kLayersMm = 11;
constexpr double kPassesMm = 44;  ///< the most that the passes' table takes
constexpr Type kNumber{.size_pt = 5.6, .align = Align::centre};
constexpr Type kSmall{.size_pt = 5.8};
constexpr EntriesLook kEntries{.text = kSmall, .text_lines = 5, .basis = kBasis, .basis_lines = 2, .gap_mm = 0.6};

/// Both faces' layers to one scale, outermost first, with what stays in between.
void draw_layers(Canvas& canvas, Box box, const LatheWorkContent& work) {
  const double outboard = std::accumulate(work.outboard_um.begin(), work.outboard_um.end(), 0.0);
  const double inboard = std::accumulate(work.inboard_um.begin(), work.inboard_um.end(), 0.0);
  const double most = std::max(outboard, inboard);
  if (!(most > 0)) return;
  const double scale = box.width_mm * 0.32 / most;
  const double top = box.y_mm + 2.6;
  const double height = box.height_mm - 4.2;
  const auto layers = [&](const std::vector<double>& depths_um, double edge, double way) {
    double x = edge;
    // A drum is turned by one tool alone.
    if (std::accumulate(depths_um.begin(), depths_um.end(), 0.0) <= 0) return x;
    for (std::size_t k = 0; k < depths_um.size(); ++k) {
      const double next = x + way * depths_um[k] * scale;
      const Box layer{std::min(x, next), top, std::abs(next - x), height};
      canvas.fill(layer, k + 1 == depths_um.size() ? kFaint : kPaper);
      canvas.rectangle(layer, kThin, kInk);
      const std::string number = std::to_string(k + 1);
      if (canvas.width_of(number, kNumber) + 0.4 < layer.width_mm) {
        canvas.text({layer.x_mm, top + height / 2 + 0.8}, layer.width_mm, number, kNumber);
      }
      x = next;
    }
    return x;
  };
  const double from = layers(work.outboard_um, box.x_mm, 1);
  const double to = layers(work.inboard_um, box.right(), -1);
  const Box ring{from, top, to - from, height};
  canvas.hatch(ring, 1.6, kHair, kRule);
  canvas.rectangle(ring, kBold, kInk);
  const double words = std::min(canvas.width_of(work.layers_note, kSmall) + 2, ring.width_mm - 2);
  canvas.fill({ring.centre().x_mm - words / 2, top + height / 2 - 1.5, words, 3}, kPaper);
  canvas.text({ring.centre().x_mm - words / 2, top + height / 2 + 0.8}, words, work.layers_note,
              {.size_pt = 5.8, .align = Align::centre});
  canvas.text({box.x_mm, box.y_mm + 1.8}, box.width_mm / 2, work.first_surface, kBasis);
  canvas.text({box.centre().x_mm, box.y_mm + 1.8}, box.width_mm / 2, work.last_surface,
              {.size_pt = 5.2, .colour = kQuiet, .align = Align::right});
}

void draw_mounting(Column& column, Canvas& canvas, const RotorContent& rotor) {
  const LatheWorkContent& work = rotor.work;
  column.heading(rotor.title + ": stack on the arbor", "to scale, in section");
  if (!work.stack.shapes.empty()) {
    const Box room = column.left();
    draw_stack(canvas, {room.x_mm, room.y_mm + 1, room.width_mm, kStackMm - 2}, work.stack);
    column.take(kStackMm);
  }
  column.table(work.pieces, kWordsLook, kPiecesMm);
  column.paragraph(work.stack_note, 3, kBasis);
  column.gap();
  column.heading("Mount proven");
  column.entries(work.proof, "not proven", kProofMm);
}

/// Of what is left after the passes, the dials' sums and first finding are sure of their room, the steps of the rest.
void draw_cutting(Column& column, Canvas& canvas, const LatheWorkContent& work) {
  column.heading("Passes", work.passes_note);
  if (!work.outboard_um.empty()) {
    const Box room = column.left();
    draw_layers(canvas, {room.x_mm, room.y_mm, room.width_mm, kLayersMm}, work);
    column.take(kLayersMm);
  }
  column.table(work.passes, kFiguresLook, kPassesMm);
  column.paragraph(work.plan_note, 2, kBasis);
  column.gap();
  column.heading("Steps", work.steps_note);
  const auto second =
      work.dial_check.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(2, work.dial_check.size()));
  const double dials = work.dial_check.empty() ? 0
                                               : kDialsHeadMm + (work.dial_check.size() > 2 ? kLineMm : 0) +
                                                     entries_height(canvas, column.left().width_mm,
                                                                    {work.dial_check.begin(), second}, kEntries);
  column.table(work.steps, kWordsLook, column.left().height_mm - std::min(dials, column.left().height_mm / 2));
  if (work.dial_check.empty()) return;
  column.gap();
  column.heading("Dials against the metal");
  column.entries(work.dial_check, "", column.left().height_mm);
}

}  // namespace

void draw_lathe_work(Canvas& canvas, Box box, const Content& content) {
  const double half = box.width_mm / 2;
  const auto half_of = [&](double x_mm) {
    return Column(canvas, {x_mm + kPaddingMm, box.y_mm + 1.6, half - 2 * kPaddingMm, box.height_mm - 3.2}, kEntries);
  };
  Column left = half_of(box.x_mm);
  Column right = half_of(box.x_mm + half);
  draw_mounting(left, canvas, content.rotors[0]);
  if (content.rotors.size() > 1) {
    left.gap();
    draw_cutting(left, canvas, content.rotors[0].work);
    draw_mounting(right, canvas, content.rotors[1]);
    right.gap();
  }
  draw_cutting(right, canvas, content.rotors.back().work);
  canvas.line({box.centre().x_mm, box.y_mm}, {box.centre().x_mm, box.bottom()}, kThin, kInk);
}

}  // namespace brakewright::report
