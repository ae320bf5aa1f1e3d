#include "core/verdict/drum_reasons.hpp"

#include <cmath>

#include "core/thickness/figures.hpp"

namespace brakewright::drum_reasons {
namespace {

constexpr const char* kPractice = "common practice, no source";

/// One sentence with its two figures.
Reason said(std::string code, std::string text, std::string source, std::optional<double> value = {},
            std::optional<double> limit = {}, std::optional<double> p = {}) {
  Reason reason;
  reason.code = std::move(code);
  reason.text = std::move(text);
  reason.source = std::move(source);
  reason.value = value;
  reason.limit = limit;
  reason.p = p;
  if (value) reason.unit = "mm";
  return reason;
}

std::string code_of(const char* about, Standing standing) {
  const char* ending = standing == Standing::within    ? "_within"
                       : standing == Standing::outside ? "_outside"
                                                       : "_unclear";
  return std::string(about) + ending;
}

std::string word_of(Standing standing) {
  if (standing == Standing::within) return "within";
  return standing == Standing::outside ? "over" : "too near to tell from";
}

std::string bracketed(double p) { return " (probability " + percent_text(p) + ")"; }

double diameter(const PartVerdict& numbers, double mirrored_mm) { return numbers.mirror_mm - mirrored_mm; }

double largest(const PartVerdict& numbers) { return diameter(numbers, numbers.thickness.min_mm); }

double final_diameter(const PartVerdict& numbers) { return diameter(numbers, numbers.cleanup.final_whole_marks_mm); }

}  // namespace

Reason discard(const PartVerdict& numbers, const LengthLimit& limit, Standing standing) {
  const double read = largest(numbers), most = diameter(numbers, limit.value_mm),
               p = numbers.p_above_discard.value_or(0);
  std::string text = "The largest diameter read, " + mm_text(read) + " mm at " +
                     angle_text(numbers.thickness.min_angle_deg / 2) + " degrees, is ";
  text += read < most ? mm_text(most - read) + " mm under" : read > most ? mm_text(read - most) + " mm over" : "at";
  text += " the discard diameter of " + mm_text(most) +
          " mm; probability that the widest spot is under it: " + percent_text(p) + ".";
  const char* code = standing == Standing::within    ? "under_discard"
                     : standing == Standing::outside ? "over_discard"
                                                     : "discard_unclear";
  return said(code, text, limit.source, read, most, p);
}

Reason between_limits(const PartVerdict& numbers, const LengthLimit& discard) {
  const double read = largest(numbers), machine_to = diameter(numbers, numbers.machine_to->value_mm);
  return said("between_limits",
              "At " + mm_text(read) + " mm the drum is under discard (" + mm_text(diameter(numbers, discard.value_mm)) +
                  " mm) but not under machine-to (" + mm_text(machine_to) +
                  " mm): it may stay if all else passes, but it may not be turned.",
              numbers.machine_to->source, read, machine_to);
}

Reason variation(const PartVerdict& numbers, const LengthLimit& limit, Standing standing) {
  const Thickness& thickness = numbers.thickness;
  const Posterior& truth = thickness.true_variation_mm;
  return said(code_of("out_of_round", standing),
              "Largest less least diameter at one depth is " + mm_text(thickness.variation_mm) +
                  " mm; the drum's own, " + mm_text(truth.low95) + " to " + mm_text(truth.high95) + " mm, is " +
                  word_of(standing) + " the limit of " + mm_text(limit.value_mm) + " mm" +
                  bracketed(*numbers.p_variation_within) + ".",
              limit.source, thickness.variation_mm, limit.value_mm, numbers.p_variation_within);
}

Reason taper(const PartVerdict& numbers, const LengthLimit& limit, Standing standing) {
  return said(code_of("taper", standing),
              "The mean diameters at its depths differ by " + mm_text(numbers.taper_mm) + " mm, " + word_of(standing) +
                  " the limit of " + mm_text(limit.value_mm) + " mm" + bracketed(*numbers.p_taper_within) + ".",
              limit.source, numbers.taper_mm, limit.value_mm, numbers.p_taper_within);
}

Reason after_cut(const PartVerdict& numbers, Standing standing) {
  const Cleanup& cut = numbers.cleanup;
  const double left = final_diameter(numbers), limit = diameter(numbers, numbers.machine_to->value_mm);
  const std::string text = "The least cut of " + um_text(cut.outboard_cut_um) + " um on the radius takes " +
                           std::to_string(cut.outboard_marks) + " marks and leaves " + mm_text(left) +
                           " mm: " + mm_text(std::abs(limit - left)) + " mm " + (left <= limit ? "under" : "over") +
                           " the machine-to diameter, " + mm_text(limit) + " mm" +
                           bracketed(*numbers.p_final_over_machine_to) + ".";
  const char* code = standing == Standing::within    ? "final_under_machine_to"
                     : standing == Standing::outside ? "final_over_machine_to"
                                                     : "final_unclear";
  return said(code, text, numbers.machine_to->source, left, limit, numbers.p_final_over_machine_to);
}

Reason final_over_discard(const PartVerdict& numbers, const LengthLimit& discard) {
  const double left = final_diameter(numbers), limit = diameter(numbers, discard.value_mm);
  return said("final_over_discard",
              "The least cut would leave " + mm_text(left) + " mm, over the discard diameter of " + mm_text(limit) +
                  " mm: there is nothing to turn, whatever machine-to is.",
              discard.source, left, limit, numbers.p_final_over_discard);
}

Reason machine_to_unknown(const PartVerdict& numbers) {
  const double left = final_diameter(numbers);
  return said("machine_to_unknown",
              "The machine-to diameter is unknown for this drum: the least cut would leave " + mm_text(left) +
                  " mm, and nothing says whether that is too much.",
              "", left);
}

Reason no_limits() {
  return said("no_limits",
              "No limit was given for out-of-round, taper or scoring: nothing says whether a cut is called for.", "");
}

Reason house_rule(const PartVerdict& numbers, const LengthLimit& allowance) {
  const double machine_to = diameter(numbers, numbers.machine_to->value_mm);
  return said("house_rule",
              "Machine-to is unknown for this drum; the shop's house rule stands in: " + mm_text(allowance.value_mm) +
                  " mm under the discard diameter, " + mm_text(machine_to) + " mm (common practice, no source).",
              allowance.source, allowance.value_mm, machine_to);
}

Reason runout_assumed() {
  return said("runout_assumed",
              "The drum was not read with an indicator on the lathe, and a gauge across the diameter sees neither "
              "eccentricity nor odd lobes: what one mounting usually adds and three lobes half as high as the two seen "
              "are assumed.",
              kPractice);
}

Reason pulsation(const PartVerdict& numbers) {
  return said("pulsation",
              "The complaint is pulsation, and the drum is more likely than not over its limit for out-of-round" +
                  bracketed(1 - numbers.p_variation_within.value_or(0.5)) + ".",
              kPractice);
}

Reason partner_cannot(const PartVerdict& partner) {
  std::optional<double> limit;
  if (partner.machine_to) limit = diameter(partner, partner.machine_to->value_mm);
  Reason reason = said("partner_cannot_be_cut",
                       "Both drums of an axle are turned or neither, and the partner (" + partner.name +
                           ") would come to " + mm_text(final_diameter(partner)) + " mm, which is not surely within.",
                       kPractice, final_diameter(partner), limit, partner.p_final_over_machine_to);
  reason.part = partner.name;
  return reason;
}

}  // namespace brakewright::drum_reasons
