#include "core/drum/drum.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/drum/mirror.hpp"
#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"

namespace brakewright::drum {
namespace {

Posterior turned(const Posterior& mirrored, double mirror_mm) {
  return {.median = mirror_mm - mirrored.median,
          .low95 = mirror_mm - mirrored.high95,
          .high95 = mirror_mm - mirrored.low95};
}

void put_cut(const PartVerdict& part, double dial_um, DrumVerdict& drum) {
  const Cleanup& cut = part.cleanup;
  drum.cut_on_radius_um = cut.outboard_cut_um;
  drum.change_on_diameter_um = 2 * cut.outboard_cut_um;
  drum.marks = cut.outboard_marks;
  drum.marks_on_radius_um = static_cast<double>(cut.outboard_marks) * dial_um;
  drum.marks_on_diameter_um = 2 * drum.marks_on_radius_um;
  drum.final_mm = part.mirror_mm - cut.final_whole_marks_mm;
  drum.true_final_mm = turned(part.final_mm, part.mirror_mm);
}

DrumVerdict drum_of(const DrumInput& input, const PartVerdict& part) {
  DrumVerdict drum;
  static_cast<Shape&>(drum) = shape_of(part.thickness, part.mirror_mm);
  drum.name = part.name;
  drum.action = part.action;
  drum.p = part.p;
  drum.reasons = part.reasons;
  put_cut(part, input.lathe.dial_um_per_mark, drum);
  drum.runout_assumed = part.runout_assumed;
  if (part.machine_to) {
    drum.machine_to =
        LengthLimit{.value_mm = part.mirror_mm - part.machine_to->value_mm, .source = part.machine_to->source};
  }
  drum.machine_to_is_house_rule = part.machine_to_is_house_rule;
  drum.p_under_discard = part.p_above_discard;
  drum.p_out_of_round_within = part.p_variation_within;
  drum.p_taper_within = part.p_taper_within;
  drum.p_scoring_within = part.p_scoring_within;
  drum.p_final_within_machine_to = part.p_final_over_machine_to;
  drum.p_final_under_discard = part.p_final_over_discard;
  drum.cut_called_for = part.cut_called_for;
  drum.wear_room_uncut = part.wear_room_uncut;
  drum.wear_room_cut = part.wear_room_cut;
  if (input.shoe) {
    drum.shoe_before = shoe_contact(drum.mean_mm / 2, *input.shoe);
    drum.shoe_after = shoe_contact(drum.final_mm / 2, *input.shoe);
  }
  return drum;
}

PairSize pair_of(const Drums& drums) {
  PairSize pair;
  for (const DrumVerdict& drum : drums.parts) pair.final_mm = std::max(pair.final_mm, drum.final_mm);
  bool limited = true;
  double p = 1;
  for (const DrumVerdict& drum : drums.parts) {
    pair.extra_um.push_back((pair.final_mm - drum.final_mm) * 500);
    limited = limited && drum.machine_to.has_value();
    if (!drum.machine_to) continue;
    const double u = std::max(1e-6, (drum.true_final_mm.high95 - drum.true_final_mm.low95) / (2 * 1.96));
    const double ahead = drum.machine_to->value_mm - drum.true_final_mm.median - pair.extra_um.back() / 500;
    // The two share their gauge: the joint probability is at most that of the worse one, which is what is said.
    p = std::min(p, judge_conformity(-ahead, u, {.lower = {}, .upper = 0.0}, 0.95).p_conform);
  }
  if (limited) pair.p_within = p;
  return pair;
}

void advise(const DrumInput& input, Drums& drums) {
  drums.advice.push_back({"two_point_gauge",
                          "A gauge across the diameter sees ovality and other even shapes; eccentricity and odd lobes "
                          "come out only with an indicator inside the drum on the lathe."});
  for (const DrumVerdict& drum : drums.parts) {
    if (!drum.shoe_after) continue;
    if (drum.shoe_after->contact == Contact::mid_shoe) {
      drums.advice.push_back({"mid_shoe", drum.name + ": after the cut the lining touches at mid-shoe, " +
                                              um_text(drum.shoe_after->gap_um) +
                                              " um off at heel and toe, until it is worn in (common practice, no "
                                              "source)."});
    } else if (drum.shoe_after->contact == Contact::heel_and_toe) {
      drums.advice.push_back({"heel_and_toe", drum.name +
                                                  ": the lining's radius is over the drum's: it touches at heel and "
                                                  "toe and may grab. Check that it is the right shoe."});
    }
  }
  if (input.parts.size() != 2 || !drums.pair || drums.action != Action::cut) return;
  const double size_mm = drums.pair->final_mm;
  const bool fits = std::all_of(drums.parts.begin(), drums.parts.end(), [&](const DrumVerdict& drum) {
    return !drum.machine_to || size_mm <= drum.machine_to->value_mm;
  });
  if (fits) {
    drums.advice.push_back({"one_size", "Turn both drums to one size, " + mm_text(size_mm) +
                                            " mm (TM 5-3825-229-14&P asks it "
                                            "of both drums of an axle)."});
  } else {
    drums.advice.push_back({"sizes_apart", "One size for both would be " + mm_text(size_mm) +
                                               " mm, over the machine-to diameter of one of them: each keeps its own "
                                               "size, or both are replaced."});
  }
}

}  // namespace

Drums judge_drums(const DrumInput& input) {
  Verdict verdict;
  try {
    verdict = judge(mirrored(input));
  } catch (const InputError& error) {
    throw in_drum_words(error);
  }
  Drums drums{.action = verdict.action,
              .p = verdict.p,
              .reasons = verdict.reasons,
              .next_measurement = verdict.next_measurement,
              .parts = {},
              .pair = {},
              .advice = {}};
  if (drums.next_measurement) {
    auto& angles = drums.next_measurement->angles_deg;
    for (double& angle : angles) angle /= 2;
    std::sort(angles.begin(), angles.end());
    angles.erase(std::unique(angles.begin(), angles.end()), angles.end());
  }
  for (const PartVerdict& part : verdict.parts) drums.parts.push_back(drum_of(input, part));
  if (drums.parts.size() == 2) drums.pair = pair_of(drums);
  advise(input, drums);
  return drums;
}

}  // namespace brakewright::drum
