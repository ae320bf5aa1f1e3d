#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/practice/marking.hpp"
#include "core/verdict/part_study.hpp"

namespace brakewright::practice {
namespace {

constexpr double kMargin_um = 5;
/// Scoring that may stay: what an army's manual accepts (see bench_sim/part_faults.hpp); the exercises' own rule.
constexpr double kScoring_mm = 0.38;
constexpr std::size_t kDraws = 4000;

brakewright::PartLimits limits_of(const bench_sim::PartMake& make) {
  brakewright::PartLimits limits;
  limits.nominal = LengthLimit{make.new_thickness_mm, "the part's maker"};
  limits.machine_to = LengthLimit{make.limits.machine_to_mm, "the part's maker"};
  limits.discard = LengthLimit{make.limits.discard_mm, "the part's maker"};
  limits.variation = LengthLimit{make.limits.variation_um / 1000, "the part's maker"};
  limits.runout = LengthLimit{make.limits.runout_um / 1000, "the part's maker"};
  limits.scoring = LengthLimit{kScoring_mm, "the exercises' own rule"};
  return limits;
}

VerdictInput verdict_input(const Bench& bench, const PartInformation& known) {
  PartReadings part;
  part.name = "part";
  part.limits = limits_of(bench.make);
  for (std::size_t i = 0; i < known.angles_deg.size(); ++i) {
    const double angle = std::fmod(std::fmod(known.angles_deg[i], 360) + 360, 360);
    const auto same = std::find_if(part.readings.begin(), part.readings.end(),
                                   [&](const ThicknessPoint& point) { return point.angle_deg == angle; });
    if (same != part.readings.end()) {
      same->values_mm.push_back(known.thickness_mm[i]);
    } else {
      part.readings.push_back({.angle_deg = angle, .radius_mm = {}, .values_mm = {known.thickness_mm[i]}});
    }
  }
  part.micrometer = {.resolution_mm = known.resolution_mm, .mpe_mm = known.u_mm, .repeatability_mm = known.u_mm};
  part.part_temperature_c = known.temperature_c;
  RunoutReadings runout;
  runout.outboard = {.angles_deg = known.runout_angles_deg, .values_um = known.runout_um};
  runout.indicator = {.resolution_um = kIndicator_um, .repeatability_um = 1};
  part.car_runout = runout;
  runout.carrier = Carrier::arbor;
  part.arbor_runout = runout;
  part.scoring = {.outboard_um = known.scoring_um[0], .inboard_um = known.scoring_um[1], .u_um = 10};
  VerdictInput input;
  input.parts = {part};
  input.complaint = Complaint::practice;
  input.lathe.dial_um_per_mark = bench.lathe.dial_um_per_mark;
  input.margin_um = kMargin_um;
  input.draws = kDraws;
  return input;
}

std::string because_of(const Bench& bench, const PartVerdict& numbers, const PartInformation& known) {
  const auto& limits = bench.make.limits;
  std::string text = "Thickness varies by " + in_words(numbers.thickness.variation_mm * 1000) + " um (limit " +
                     in_words(limits.variation_um) + ")";
  if (numbers.runout) {
    text += ", runout is " + in_words(numbers.runout->runout_um) + " um (limit " + in_words(limits.runout_um) + ")";
  }
  const double scored = std::max(known.scoring_um[0], known.scoring_um[1]);
  if (scored > 0) text += ", scoring " + in_words(scored) + " um deep (limit " + in_words(kScoring_mm * 1000) + ")";
  text += ", and the least cut would leave " + in_words(numbers.final_mm.median, 2) + " mm (machine-to " +
          in_words(limits.machine_to_mm, 2) + ")";
  return text;
}

}  // namespace

double RightChances::of(Action action) const {
  return action == Action::leave ? leave : action == Action::cut ? cut : replace;
}

Action RightChances::best() const {
  if (leave >= cut && leave >= replace) return Action::leave;
  return cut >= replace ? Action::cut : Action::replace;
}

RightChances chances_of(const Bench& bench, const PartInformation& information) {
  const VerdictInput input = verdict_input(bench, information);
  const PartStudy study = study_part(input, input.parts.front(), 0);
  const PartVerdict& numbers = study.verdict;
  const double thick = numbers.p_above_discard.value_or(1);
  const double as_it_is = numbers.p_variation_within.value_or(1) * numbers.p_runout_within.value_or(1) *
                          numbers.p_scoring_within.value_or(1);
  const double holds = numbers.p_final_over_machine_to.value_or(1);
  RightChances chances;
  chances.leave = thick * as_it_is;
  chances.cut = thick * (1 - as_it_is) * holds;
  chances.replace = 1 - chances.leave - chances.cut;
  chances.because = because_of(bench, numbers, information);
  return chances;
}

RightChances chances_on_pits(const BenchState& state, const RightChances& with_new_cups) {
  // runout of a tilt with two like normal parts: Rayleigh's distribution, and its median
  const double middle = band_middle_mm(state.truth.make);
  const double median_um =
      2 * middle / bench_sim::kScatterRadius_mm * state.truth.seating_sd_um * std::sqrt(2 * std::numbers::ln2);
  RightChances chances{.replace = 1};
  chances.because = "The races are pitted: at each mounting the part seats anew, as often as not " +
                    in_words(median_um) + " um of runout or more from where it belongs (limit " +
                    in_words(state.truth.make.limits.runout_um) +
                    "), and its bearings on the car would run on the pits. It is neither cut nor put back before new "
                    "cups are in. With new cups: " +
                    word_of(with_new_cups.best()) + ". Without";
  return chances;
}

PartInformation all_information(const Truth& truth, const bench_sim::SimPart& before) {
  constexpr int kAround = 24;
  constexpr double kAnvil_mm = 6.5;
  const double middle = band_middle_mm(truth.make);
  PartInformation all{.u_mm = 0.0005};  // of repeats enough
  for (int k = 0; k < kAround; ++k) {
    const double angle = 360.0 * k / kAround;
    all.angles_deg.push_back(angle);
    all.thickness_mm.push_back(bench_sim::thickness_between_anvils_mm(before, kAnvil_mm, {middle, angle}));
    all.runout_angles_deg.push_back(angle);
    all.runout_um.push_back(bench_sim::height_um_at(before.grid, before.outboard, middle, angle));
  }
  if (truth.part.grooves) {
    // a groove under the indicator would be read as part of the face
    const auto lean = truth.part.wobble.value_or(bench_sim::Lean{});
    const auto tilt = bench_sim::tilt_of(lean.runout_um, middle, lean.high_deg);
    for (std::size_t k = 0; k < all.runout_um.size(); ++k) {
      all.runout_um[k] = bench_sim::tilt_um(tilt, middle, all.runout_angles_deg[k]);
    }
    for (const auto& groove : *truth.part.grooves) {
      double& deepest = all.scoring_um[index(groove.side)];
      deepest = std::max(deepest, groove.depth_um);
    }
  }
  return all;
}

/// How many places round the part were read; the same place again is none more.
std::size_t different_angles(const std::vector<double>& angles_deg) {
  constexpr double kSamePlace_deg = 5;
  std::vector<double> places;
  for (const double angle : angles_deg) {
    const auto is_there = [angle](double place) {
      return std::abs(std::remainder(angle - place, 360)) < kSamePlace_deg;
    };
    if (std::none_of(places.begin(), places.end(), is_there)) places.push_back(angle);
  }
  return places.size();
}

/// Whether a trace is of the faces: on the outboard one near the band's middle, on a true mount that holds.
bool shows_the_face(const BenchState& state, const Done& done, double middle_mm, double near_mm) {
  const auto* runout = std::get_if<ReadRunout>(&done.act);
  if (!runout || runout->side != Side::outboard || done.mounting == 0 || done.odd.on_speck) return false;
  const MountingRecord& mount = state.mounts[done.mounting - 1];
  return std::abs(runout->radius_mm - middle_mm) <= near_mm && mount.nut_tight &&
         mount.pieces.back() != state.worn_nut && mount_runout_um(state, mount) <= kTrueMount_um;
}

std::optional<PartInformation> own_information(const BenchState& state) {
  constexpr std::size_t kLeastAngles = 8, kMostReadings = 96;
  constexpr double kSameTemperature_k = 2;
  const double middle = band_middle_mm(state.truth.make);
  const auto& shape = state.truth.make.shape;
  const double near = (shape.band_outer_radius_mm - shape.band_inner_radius_mm) / 4;
  const auto last = std::find_if(state.done.rbegin(), state.done.rend(),
                                 [](const Done& done) { return std::holds_alternative<Decide>(done.act); });
  PartInformation own;
  double temperatures = 0, coldest = 1e300, warmest = -1e300;
  int traces = 0;
  for (auto done = state.done.begin(); done != last.base(); ++done) {
    if (const auto* measure = std::get_if<Measure>(&done->act)) {
      const bool counts = measure->instrument_id == "micrometer_fine" &&
                          (done->zeroed || state.truth.zero_error_mm == 0) &&
                          std::abs(measure->radius_mm - middle) <= near && done->outcome.shown_mm && measure->ratchet &&
                          !done->odd.misread && !done->odd.on_speck;
      own.mixed = own.mixed || measure->instrument_id == "micrometer_point";
      if (!counts || own.angles_deg.size() == kMostReadings) continue;
      own.angles_deg.push_back(measure->angle_deg);
      own.thickness_mm.push_back(*done->outcome.shown_mm);
      temperatures += done->temperature_c;
      coldest = std::min(coldest, done->temperature_c);
      warmest = std::max(warmest, done->temperature_c);
    }
    if (shows_the_face(state, *done, middle, near)) {
      ++traces;
      own.runout_angles_deg = done->outcome.angles_deg;
      own.runout_um = done->outcome.shown_um;
    }
  }
  if (different_angles(own.angles_deg) < kLeastAngles || own.runout_um.empty()) return std::nullopt;
  own.mixed = own.mixed || traces > 1 || warmest - coldest > kSameTemperature_k;
  own.temperature_c = temperatures / static_cast<double>(own.angles_deg.size());
  own.scoring_um =
      all_information(state.truth, bench_sim::part_of_faults(state.truth.make, state.truth.part, 36, 1)).scoring_um;
  return own;
}

MarkedPart mark_verdict(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "verdict", .of = 20};
  if (!state.decided) {
    part.why = "Nothing was decided. " + facts.all.because + ": " + word_of(facts.all.best()) + ".";
    return part;
  }
  const Action chosen = *state.decided, best = facts.all.best();
  const std::string said = "Decided: " + word_of(chosen) + ". ";
  if (facts.lucky) {
    const double best_by_own = facts.own->of(facts.own->best());
    part.points = part.of * 0.5 * facts.own->of(chosen) / best_by_own;
    part.why = said + "By the readings taken " + word_of(facts.own->best()) + " was right with " +
               in_words(100 * best_by_own) + " %, what was decided with " + in_words(100 * facts.own->of(chosen)) +
               " %. What could have been known bears the decision out: good luck, not a judgement.";
  } else if (facts.right_by_all) {
    part.points = part.of;
    part.why =
        said + facts.all.because + ": right with a probability of " + in_words(100 * facts.all.of(chosen)) + " %.";
  } else if (facts.right) {
    part.points = part.of;
    part.why = said + "By the readings taken that was the best choice, with " + in_words(100 * facts.own->of(chosen)) +
               " %. What could have been known says " + word_of(best) + ": bad luck, not a mistake.";
  } else {
    part.points = part.of * 0.5 * facts.all.of(chosen) / std::max(1e-9, facts.all.of(best));
    part.why = said + facts.all.because + ": " + word_of(best) + " is right with " +
               in_words(100 * facts.all.of(best)) + " %, what was decided with " +
               in_words(100 * facts.all.of(chosen)) + " %.";
  }
  return part;
}

}  // namespace brakewright::practice
