#include <algorithm>

#include "report/bar/bar.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

constexpr Type kLabel{.size_pt = 5.4, .colour = kQuiet};

void draw_word(Canvas& canvas, Box box, const VerdictContent& verdict) {
  canvas.text({box.x_mm, box.y_mm + 4.4}, box.width_mm, "Verdict from the readings", kLabel);
  const bool long_word = verdict.word.size() > 8;
  canvas.text({box.x_mm - 0.3, box.y_mm + 15.4}, box.width_mm, verdict.word,
              {.size_pt = long_word ? 19.0 : 29.0, .bold = true});
  if (!verdict.p) return;
  canvas.text({box.x_mm, box.y_mm + 25.2}, 24, verdict.p_text, {.size_pt = 13, .bold = true});
  canvas.text({box.x_mm, box.y_mm + 28.4}, 24, "probability", kLabel);
  draw_probability(canvas, {box.x_mm + 24, box.y_mm + 22.4, box.width_mm - 25, 8}, *verdict.p, verdict.asked);
}

void draw_reasons(Canvas& canvas, Box box, const VerdictContent& verdict) {
  double y = box.y_mm + 2.2;
  if (!verdict.reasons.empty()) {
    canvas.text({box.x_mm, box.y_mm + 4.4}, box.width_mm, "Why", kLabel);
    y = box.y_mm + 5.4;
  }
  const double foot = box.bottom() - 0.7;
  const Type text{.size_pt = 6.5};
  const Type basis{.size_pt = 5.2, .colour = kQuiet};
  const double next = verdict.next.empty() ? 0 : 3 + canvas.height_of(box.width_mm, 3, verdict.next, text);
  std::size_t shown = 0;
  for (const ReasonContent& reason : verdict.reasons) {
    const double need = canvas.height_of(box.width_mm, 3, reason.text, text) +
                        canvas.height_of(box.width_mm, 1, reason.basis, basis) + 0.8;
    const double kept = next + (shown + 1 < verdict.reasons.size() ? 2.5 : 0);
    if (y + need > foot - kept && shown > 0) break;
    y += canvas.paragraph({box.x_mm, y}, box.width_mm, 3, reason.text, text);
    y += canvas.paragraph({box.x_mm, y}, box.width_mm, 1, reason.basis, basis) + 0.8;
    ++shown;
  }
  if (shown < verdict.reasons.size()) {
    canvas.text({box.x_mm, y + 1.8}, box.width_mm,
                "… and " + std::to_string(verdict.reasons.size() - shown) + " more, see the job", basis);
    y += 2.5;
  }
  if (!verdict.next.empty() && y + 5 < foot) {
    canvas.text({box.x_mm, y + 2.2}, box.width_mm, verdict.next_label, kLabel);
    canvas.paragraph({box.x_mm, y + 3}, box.width_mm, std::max(1, static_cast<int>((foot - y - 3) / 2.7)), verdict.next,
                     text);
  }
}

void draw_decision(Canvas& canvas, Box box, const VerdictContent& verdict) {
  canvas.text({box.x_mm, box.y_mm + 4.4}, box.width_mm, "Decided in the shop", kLabel);
  if (verdict.decision.empty()) {
    canvas.text({box.x_mm, box.y_mm + 10.6}, box.width_mm, "no decision yet", {.size_pt = 8.5, .colour = kQuiet});
    canvas.line({box.x_mm, box.y_mm + 22}, {box.right(), box.y_mm + 22}, kThin, kInk);
    canvas.text({box.x_mm, box.y_mm + 24.6}, box.width_mm, "name, date", kLabel);
    return;
  }
  canvas.text({box.x_mm, box.y_mm + 11.6}, box.width_mm, verdict.decision, {.size_pt = 15, .bold = true});
  double y = box.y_mm + 13.4;
  y += canvas.paragraph({box.x_mm, y}, box.width_mm, 2, verdict.decided_by, {.size_pt = 6.6});
  const int room = std::max(1, static_cast<int>((box.bottom() - y - 1.5) / 2.7));
  if (!verdict.decision_note.empty()) {
    y += canvas.paragraph({box.x_mm, y + 0.6}, box.width_mm, 2, verdict.decision_note, {.size_pt = 6.2, .bold = true});
    canvas.paragraph({box.x_mm, y + 0.8}, box.width_mm, std::max(1, std::min(3, room - 2)), verdict.decision_reason,
                     {.size_pt = 6.2});
  } else if (!verdict.decision_reason.empty()) {
    canvas.paragraph({box.x_mm, y + 0.6}, box.width_mm, std::min(3, room), verdict.decision_reason, {.size_pt = 6.2});
  }
}

}  // namespace

void draw_verdict(Canvas& canvas, Box box, const VerdictContent& verdict) {
  const double gap = 4;
  const double word = box.width_mm * 0.33;
  const double decision = box.width_mm * 0.25;
  const double reasons = box.width_mm - word - decision;
  draw_word(canvas, {box.x_mm, box.y_mm, word - gap, box.height_mm}, verdict);
  canvas.line({box.x_mm + word - gap / 2, box.y_mm + 2.5}, {box.x_mm + word - gap / 2, box.bottom() - 2.5}, kHair,
              kRule);
  draw_reasons(canvas, {box.x_mm + word, box.y_mm, reasons - gap, box.height_mm}, verdict);
  canvas.line({box.x_mm + word + reasons - gap / 2, box.y_mm + 2.5},
              {box.x_mm + word + reasons - gap / 2, box.bottom() - 2.5}, kHair, kRule);
  draw_decision(canvas, {box.x_mm + word + reasons, box.y_mm, decision, box.height_mm}, verdict);
}

}  // namespace brakewright::report
