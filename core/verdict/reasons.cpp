#include "core/verdict/reasons.hpp"

#include <cmath>

#include "core/thickness/figures.hpp"
#include "core/verdict/drum_reasons.hpp"

namespace brakewright::reasons {
namespace {

constexpr const char* kPractice = "common practice, no source";

std::string code_of(const char* about, Standing standing) {
  switch (standing) {
    case Standing::within:
      return std::string(about) + "_within";
    case Standing::outside:
      return std::string(about) + "_outside";
    case Standing::cannot_tell:
      break;
  }
  return std::string(about) + "_unclear";
}

std::string word_of(Standing standing) {
  if (standing == Standing::within) return "within";
  return standing == Standing::outside ? "over" : "too near to tell from";
}

std::string bracketed(double p) { return " (probability " + percent_text(p) + ")"; }

Reason said(std::string code, std::string text, std::string source = "") {
  Reason reason;
  reason.code = std::move(code);
  reason.text = std::move(text);
  reason.source = std::move(source);
  return reason;
}

Reason measured(Reason reason, double value, double limit, const char* unit, std::optional<double> p) {
  reason.value = value;
  reason.limit = limit;
  reason.unit = unit;
  reason.p = p;
  return reason;
}

}  // namespace

Reason finding(const Finding& finding) {
  return said("finding_reject",
              "A " + finding.kind +
                  " was found: the shop's rule for it is to reject the part, "
                  "whatever it measures.",
              kPractice);
}

Reason discard(const PartVerdict& numbers, const LengthLimit& limit, Standing standing) {
  if (numbers.kind == PartKind::drum) return drum_reasons::discard(numbers, limit, standing);
  const double low = numbers.thickness.min_mm;
  const double p = numbers.p_above_discard.value_or(0);
  std::string text =
      "The lowest reading, " + mm_text(low) + " mm at " + angle_text(numbers.thickness.min_angle_deg) + " degrees, is ";
  text += low > limit.value_mm   ? mm_text(low - limit.value_mm) + " mm over"
          : low < limit.value_mm ? mm_text(limit.value_mm - low) + " mm under"
                                 : "at";
  text += " the discard limit of " + mm_text(limit.value_mm) +
          " mm; probability that the thinnest spot is over it: " + percent_text(p) + ".";
  const char* code = standing == Standing::within    ? "above_discard"
                     : standing == Standing::outside ? "below_discard"
                                                     : "discard_unclear";
  return measured(said(code, text, limit.source), low, limit.value_mm, "mm", p);
}

Reason between_limits(const PartVerdict& numbers, const LengthLimit& discard) {
  if (numbers.kind == PartKind::drum) return drum_reasons::between_limits(numbers, discard);
  const double low = numbers.thickness.min_mm;
  return measured(said("between_limits",
                       "At " + mm_text(low) + " mm the part is over discard (" + mm_text(discard.value_mm) +
                           " mm) but not over machine-to (" + mm_text(numbers.machine_to->value_mm) +
                           " mm): it may stay if all else passes, but it may not be cut.",
                       numbers.machine_to->source),
                  low, numbers.machine_to->value_mm, "mm", std::nullopt);
}

Reason variation(const PartVerdict& numbers, const LengthLimit& limit, Standing standing) {
  if (numbers.kind == PartKind::drum) return drum_reasons::variation(numbers, limit, standing);
  const Thickness& thickness = numbers.thickness;
  const Posterior& truth = thickness.true_variation_mm;
  return measured(
      said(code_of("variation", standing),
           "Highest less lowest reading is " + mm_text(thickness.variation_mm) + " mm; the part's own variation, " +
               mm_text(truth.low95) + " to " + mm_text(truth.high95) + " mm, is " + word_of(standing) +
               " the limit of " + mm_text(limit.value_mm) + " mm" + bracketed(*numbers.p_variation_within) + ".",
           limit.source),
      thickness.variation_mm, limit.value_mm, "mm", numbers.p_variation_within);
}

Reason runout(const PartVerdict& numbers, const LengthLimit& limit, Standing standing) {
  const Runout& runout = *numbers.runout;
  return measured(
      said(code_of("runout", standing),
           "Runout on the car reads " + mm_text(runout.runout_um / 1000) + " mm, " + word_of(standing) +
               " the limit of " + mm_text(limit.value_mm) + " mm" + bracketed(*numbers.p_runout_within) + ".",
           limit.source),
      runout.runout_um / 1000, limit.value_mm, "mm", numbers.p_runout_within);
}

Reason scoring(const PartReadings& part, const LengthLimit& limit, double p, Standing standing) {
  const double deepest = std::max(part.scoring.outboard_um, part.scoring.inboard_um) / 1000;
  return measured(said(code_of("scoring", standing),
                       "The deepest groove is " + mm_text(deepest) + " mm, " + word_of(standing) + " the " +
                           mm_text(limit.value_mm) + " mm that may stay" + bracketed(p) + ".",
                       limit.source),
                  deepest, limit.value_mm, "mm", p);
}

Reason after_cut(const PartVerdict& numbers, Standing standing) {
  if (numbers.kind == PartKind::drum) return drum_reasons::after_cut(numbers, standing);
  const Cleanup& cut = numbers.cleanup;
  const double limit = numbers.machine_to->value_mm;
  const double over = cut.final_whole_marks_mm - limit;
  const std::string text = "The least cut, " + std::to_string(cut.outboard_marks) + " marks outboard and " +
                           std::to_string(cut.inboard_marks) + " inboard, leaves " + mm_text(cut.final_whole_marks_mm) +
                           " mm: " + mm_text(std::abs(over)) + " mm " + (over >= 0 ? "over" : "under") +
                           " machine-to, " + mm_text(limit) + " mm" + bracketed(*numbers.p_final_over_machine_to) + ".";
  const char* code = standing == Standing::within    ? "final_over_machine_to"
                     : standing == Standing::outside ? "final_under_machine_to"
                                                     : "final_unclear";
  return measured(said(code, text, numbers.machine_to->source), cut.final_whole_marks_mm, limit, "mm",
                  numbers.p_final_over_machine_to);
}

Reason final_under_discard(const PartVerdict& numbers, const LengthLimit& discard) {
  if (numbers.kind == PartKind::drum) return drum_reasons::final_over_discard(numbers, discard);
  const double final_mm = numbers.cleanup.final_whole_marks_mm;
  return measured(said("final_under_discard",
                       "The least cut would leave " + mm_text(final_mm) + " mm, under the discard limit of " +
                           mm_text(discard.value_mm) + " mm: there is nothing to cut, whatever machine-to is.",
                       discard.source),
                  final_mm, discard.value_mm, "mm", numbers.p_final_over_discard);
}

Reason machine_to_unknown(const PartVerdict& numbers) {
  if (numbers.kind == PartKind::drum) return drum_reasons::machine_to_unknown(numbers);
  Reason reason = said("machine_to_unknown", "Machine-to is unknown for this part: the least cut would leave " +
                                                 mm_text(numbers.cleanup.final_whole_marks_mm) +
                                                 " mm, and nothing says whether that is enough.");
  reason.value = numbers.cleanup.final_whole_marks_mm;
  reason.unit = "mm";
  return reason;
}

Reason discard_unknown() {
  return said("discard_unknown", "The discard limit is unknown for this part: nothing says whether it may stay.");
}

Reason no_limits(const PartVerdict& numbers) {
  if (numbers.kind == PartKind::drum) return drum_reasons::no_limits();
  return said("no_limits",
              "No limit was given for variation, runout or scoring: nothing says whether a cut is called "
              "for.");
}

Reason house_rule(const PartVerdict& numbers, const LengthLimit& allowance) {
  if (numbers.kind == PartKind::drum) return drum_reasons::house_rule(numbers, allowance);
  Reason reason = said("house_rule",
                       "Machine-to is unknown for this part; the shop's house rule stands in: discard and " +
                           mm_text(allowance.value_mm) + " mm more, " + mm_text(numbers.machine_to->value_mm) +
                           " mm (common practice, no source).",
                       allowance.source);
  reason.value = allowance.value_mm;
  reason.limit = numbers.machine_to->value_mm;
  reason.unit = "mm";
  return reason;
}

Reason runout_assumed(const PartReadings& part) {
  if (part.kind == PartKind::drum) return drum_reasons::runout_assumed();
  return said("runout_assumed",
              part.car_runout
                  ? "Runout was read on the car only: the cut is reckoned from it and from what one mounting "
                    "on the lathe usually adds."
                  : "The face was not read with an indicator: the cut is reckoned from thickness alone and "
                    "from what one mounting on the lathe usually adds.");
}

Reason runout_whose() {
  return said("runout_whose",
              "Runout on the car is hub and part together: clean and check the hub's face and try the part in another "
              "position on its studs before cutting for runout alone.",
              kPractice);
}

Reason pulsation(const PartVerdict& numbers) {
  if (numbers.kind == PartKind::drum) return drum_reasons::pulsation(numbers);
  std::string seen;
  if (numbers.p_variation_within) seen = "variation" + bracketed(1 - *numbers.p_variation_within);
  if (numbers.p_runout_within) {
    seen += (seen.empty() ? "runout" : " or runout") + bracketed(1 - *numbers.p_runout_within);
  }
  return said("pulsation",
              "The complaint is pulsation, and the part is more likely than not over its limit for " + seen + ".",
              kPractice);
}

Reason pulsation_elsewhere() {
  return said("pulsation_elsewhere",
              "The complaint is pulsation, but this part is within its limits: look at the hub, the other parts of the "
              "axle, bearings and tyres.",
              kPractice);
}

Reason no_cut_called_for() {
  return said("no_cut_called_for",
              "All that was measured is within the limits given: no cut is called for. Wash it and "
              "refit it.",
              kPractice);
}

Reason partner(Action action, const std::string& needs, const std::string& other) {
  const std::string why = action == Action::replace ? "one must be replaced" : "one must be cut";
  return said(
      action == Action::replace ? "partner_replace" : "partner_cut",
      "Both parts of an axle are treated alike, and " + why + " (" + needs + "): so is the other (" + other + ").",
      kPractice);
}

Reason partner_cannot(const PartVerdict& partner) {
  if (partner.kind == PartKind::drum) return drum_reasons::partner_cannot(partner);
  Reason reason = said("partner_cannot_be_cut",
                       "Both parts of an axle are cut or neither, and the partner (" + partner.name +
                           ") would be left with " + mm_text(partner.cleanup.final_whole_marks_mm) +
                           " mm, which is not "
                           "surely enough.",
                       kPractice);
  reason.part = partner.name;
  reason.value = partner.cleanup.final_whole_marks_mm;
  if (partner.machine_to) reason.limit = partner.machine_to->value_mm;
  reason.unit = "mm";
  reason.p = partner.p_final_over_machine_to;
  return reason;
}

}  // namespace brakewright::reasons
