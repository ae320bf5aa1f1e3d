#include "core/dials/wording.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace brakewright::dials {
namespace {

template <class... Figures>
std::string text_of(const char* format, Figures... figures) {
  char text[500];
  std::snprintf(text, sizeof text, format, figures...);
  return text;
}

std::string less_or_more(double difference_um) {
  return text_of("%.1f um %s", std::abs(difference_um), difference_um < 0 ? "less" : "more");
}

std::string which(const std::string& side) {
  if (side.empty()) return "one dial, these numbers cannot say which";
  return side == "both" ? "both dials" : "the " + side + " dial";
}

std::string balance_line(const DialCheck& check) {
  const Balance& sum = check.sum;
  std::string line = text_of("The dials took %.1f um", sum.dialled_um);
  if (sum.touch_loss.um > 0) line += text_of(", %.1f um of it through air above the faces", sum.touch_loss.um);
  if (check.temperature_shift_um != 0) {
    line += text_of(", and the part reads %.1f um %s for its temperature", std::abs(check.temperature_shift_um),
                    check.temperature_shift_um > 0 ? "thicker" : "thinner");
  }
  return line + text_of("; %.1f um should be gone and %.1f um are: ", sum.expected.um, sum.measured->um) +
         less_or_more(*sum.difference_um);
}

std::string spread_line(const DialCheck& check) {
  const double u = std::hypot(check.sum.expected.u_um, check.sum.measured->u_um);
  return text_of("; twice the standard uncertainty of that difference is %.1f um.", 2 * u);
}

std::string warm_text(const DialFinding& finding, const DialCheckInput& input, const DialCheck& check) {
  const double per_k = growth_um(input.thickness_mm, 1);
  if (!input.temperature_rise_k) {
    return text_of(
        "A part that was %.0f K warmer than before would read %.1f um thicker: iron grows %.3f um per K on "
        "%.1f mm.",
        *finding.amount_um / per_k, *finding.amount_um, per_k, input.thickness_mm);
  }
  const double unexplained = *check.sum.difference_um - check.temperature_shift_um;
  return "As read, " + less_or_more(unexplained) +
         text_of(" is gone than was dialled; %.1f K on %.1f mm at %.3f um per K are %.1f um of it, which leaves ",
                 *input.temperature_rise_k, input.thickness_mm, per_k, check.temperature_shift_um) +
         less_or_more(*check.sum.difference_um) + spread_line(check);
}

std::string misread_text(const DialFinding& finding, const DialCheckInput& input, const DialCheck& check) {
  const bool inboard = finding.side == "inboard";
  const double dial = (inboard ? input.inboard : input.outboard).dial_um_per_mark;
  if (!finding.marks) return balance_line(check) + "; some marks of one dial would make that.";
  const double made = *finding.marks * dial;
  return text_of("%+.1f um, and %+d %s of %.1f um make %+.1f um: %.1f um beside it, on ", *check.sum.difference_um,
                 *finding.marks, std::abs(*finding.marks) == 1 ? "mark" : "marks", dial, made,
                 std::abs(*check.sum.difference_um - made)) +
         which(finding.side) + ".";
}

std::string uncut_text(const DialFinding& finding, const DialCheckInput& input, const DialCheck& check) {
  if (finding.side.empty()) {
    return text_of(
        "%.1f um are gone; the outboard dial alone should have taken %.1f um, the inboard one alone %.1f um.",
        check.sum.measured->um, check.outboard.expected.um, check.inboard.expected.um);
  }
  const bool outboard = finding.side == "outboard";
  const Balance& other = outboard ? check.inboard : check.outboard;
  if ((outboard ? input.inboard : input.outboard).marks <= 0) {
    return text_of("%.1f um are gone of the only face that was dialled.", check.sum.measured->um);
  }
  return text_of("%.1f um are gone, and %.1f um is what the %s dial alone should have taken.", check.sum.measured->um,
                 other.expected.um, outboard ? "inboard" : "outboard");
}

std::string text_for(CauseKind kind, const DialFinding& finding, const DialCheckInput& input, const DialCheck& check) {
  switch (kind) {
    case CauseKind::agrees:
      return balance_line(check) + spread_line(check);
    case CauseKind::backlash:
      return balance_line(check) +
             text_of(
                 "; slack in a screw (25 to 150 um, from memory, no source) loses the same whatever the depth, here "
                 "about %.1f um on ",
                 *finding.amount_um) +
             which(finding.side) + ".";
    case CauseKind::spring:
      return balance_line(check) +
             text_of(
                 "; where tool or part gives way, the loss goes with the depth, here about %.1f %% of what was "
                 "dialled.",
                 100 * *finding.amount_um / check.sum.dialled_um);
    case CauseKind::misread_mark:
      return misread_text(finding, input, check);
    case CauseKind::one_side_not_cut:
      return uncut_text(finding, input, check);
    case CauseKind::hot_part:
      return warm_text(finding, input, check);
    case CauseKind::other:
      return balance_line(check) + "; none of the other explanations fits that well.";
  }
  return {};
}

}  // namespace

void put_words(DialFinding& finding, CauseKind kind, const DialCheckInput& input, const DialCheck& check) {
  struct NextCheck {
    const char* check;
    const char* basis;
  };
  static constexpr NextCheck kNextChecks[kCauseKinds] = {
      {"Keep the cut in the record: after five jobs the lathe's own dial values are told.", "our own habit"},
      {"Put an indicator on the tool post, turn the dial back one turn and in again: the marks during which the "
       "indicator stands still are the slack. Come in from one side only.",
       "common practice, no source"},
      {"Take one more pass without touching the dials: what it still takes is what gave way. Measure at two or three "
       "radii, swap the edges and repeat.",
       "common practice"},
      {"Read both dials as they stand and add the marks of all passes again: final = first - (sum of outboard depths) "
       "- "
       "(sum of inboard depths).",
       "common practice, no source"},
      {"Measure from the outer face to the vent slot on each side, and look for old surface on the face that should be "
       "bare.",
       "common practice, no source"},
      {"Let the part cool and measure again: hand-hot, 50 K, makes 0.014 mm in 25 mm.", "calculated"},
      {"Measure again: a reading that is off by a whole turn of the thimble (0.5 mm, 0.025 in), on the wrong side or "
       "in "
       "the other unit, shows against its neighbours.",
       "common practice"}};
  const auto& to_do = kNextChecks[static_cast<std::size_t>(kind)];
  finding.text = text_for(kind, finding, input, check);
  finding.check = to_do.check;
  finding.basis = to_do.basis;
}

std::vector<std::string> notes_of(const DialCheckInput& input) {
  std::vector<std::string> notes;
  const FaceCut* faces[] = {&input.outboard, &input.inboard};
  for (const bool outboard : {true, false}) {
    const FaceCut& face = *faces[outboard ? 0 : 1];
    const std::string name = outboard ? "outboard" : "inboard";
    if (face.marks <= 0) continue;
    if (!face.touched_all.value_or(true)) {
      notes.push_back("The " + name + " face was not touched all round: what it lost says little of its dial.");
    } else if (!face.touch_loss) {
      notes.push_back(
          "How much of the " + name +
          " depth was air is not known; 0 to 60 um is taken, each as likely. A trace of the face before the "
          "cut would say.");
    }
  }
  if (!input.outboard.removed && !input.inboard.removed && input.outboard.marks > 0 && input.inboard.marks > 0) {
    notes.emplace_back(
        "Only the sum was measured: a cheek's thickness from outer face to vent, before and after, tells the sides "
        "apart.");
  }
  return notes;
}

}  // namespace brakewright::dials
