#include "shop/assess_inputs.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <set>
#include <utility>

#include "shop/find.hpp"
#include "shop/places.hpp"
#include "shop/states.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

constexpr double kHalfUnknownDiameterMm = 150;

/// More than this no hand adds: nothing can be told with it, and a gauge that is worse is refused.
constexpr double kMostOwnMm = 0.8;

template <class E>
const E* find(const std::vector<E>& all, const std::optional<Uuid>& id) {
  return id ? shop::find(all, *id) : nullptr;
}

double zero_error_mm(const Reading& reading, const AssessContext& context) {
  const ZeroCheck* zero = find(context.zero_checks, reading.zero_check_id);
  return zero != nullptr ? zero->error.value.mm() : 0;
}

std::optional<LengthLimit> limit_of(const std::optional<Limit>& limit) {
  if (!limit) return std::nullopt;
  static constexpr const char* kSources[] = {"cast on the part", "service information", "house rule",
                                             "common practice, no source", "source unknown"};
  std::string source = kSources[static_cast<std::size_t>(limit->source)];
  if (!limit->source_note.empty()) source += ": " + limit->source_note;
  return LengthLimit{limit->value.value.mm(), source};
}

std::vector<Reading> of_runout(const JobFile& file, const Uuid& part_id, Stage stage) {
  auto readings = current(file, part_id, stage, Quantity::runout_outboard);
  const auto inboard = current(file, part_id, stage, Quantity::runout_inboard);
  readings.insert(readings.end(), inboard.begin(), inboard.end());
  return readings;
}

}  // namespace

double asked_confidence(const AssessContext& context) { return std::clamp(context.settings.confidence, 0.51, 0.999); }

std::vector<Reading> current(const JobFile& file, const Uuid& part_id, Stage stage, Quantity quantity) {
  std::vector<Reading> found;
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const Reading& reading = file.readings[k];
    if (states[k] == ReadingState::current && reading.part_id == part_id && reading.stage == stage &&
        reading.quantity == quantity) {
      found.push_back(reading);
    }
  }
  return found;
}

namespace {

/// Current readings of the size of a part.
std::vector<Reading> of_size(const JobFile& file, const Uuid& part_id, Stage stage) {
  const Part* part = find(file.parts, part_id);
  return part == nullptr ? std::vector<Reading>() : current(file, part_id, stage, size_of(part->kind));
}

/// All readings of a spot, by circle and angle, each less its instrument's zero error. Circles with fewer than three
/// angles are left out.
using Spots = std::map<std::int64_t, std::map<double, std::vector<double>>>;

Spots spots_of(const JobFile& file, const Part& part, Stage stage, const AssessContext& context) {
  Spots circles;
  for (const Reading& reading : of_size(file, part.id, stage)) {
    circles[reading.circle][reading.angle_deg].push_back(reading.value.value.mm() - zero_error_mm(reading, context));
  }
  std::erase_if(circles, [](const auto& circle) { return circle.second.size() < 3; });
  return circles;
}

/// Half width of a rectangle as wide in standard uncertainty as this one and what else all readings share.
double as_half_width(double mpe_mm, double common_mm) { return std::hypot(mpe_mm, std::sqrt(3.0) * common_mm); }

}  // namespace

std::vector<ThicknessPoint> thickness_points(const JobFile& file, const Part& part, Stage stage,
                                             const AssessContext& context) {
  if (is_drum(part.kind)) return {};
  const Spots circles = spots_of(file, part, stage, context);
  const auto plan = plan_of(file, part.id, stage);
  const double edge_mm = part.outer_diameter ? part.outer_diameter->value.mm() / 2 : kHalfUnknownDiameterMm;
  std::vector<ThicknessPoint> points;
  for (const auto& [circle, angles] : circles) {
    std::optional<double> radius;
    const auto place = static_cast<std::size_t>(circle);
    if (plan && place < plan->circles_from_edge.size() && (part.outer_diameter || circles.size() > 1)) {
      radius = edge_mm - plan->circles_from_edge[place].mm();
    }
    for (const auto& [angle, values] : angles) points.push_back({angle, radius, values});
  }
  return points;
}

Micrometer micrometer_of(const JobFile& file, const Uuid& part_id, Stage stage, const AssessContext& context) {
  Micrometer coarsest;
  double common_mm = 0;
  for (const Reading& reading : of_size(file, part_id, stage)) {
    const Instrument* instrument = find(context.instruments, reading.instrument_id);
    const double typed_mm = Length{std::max<std::int64_t>(reading.value.resolution_nm, 1)}.mm();
    const double step_mm = instrument != nullptr ? instrument->resolution.mm() : typed_mm;
    coarsest.resolution_mm = std::max(coarsest.resolution_mm, step_mm);
    coarsest.mpe_mm = std::max(coarsest.mpe_mm, instrument != nullptr ? instrument->mpe.mm() : typed_mm);
    coarsest.repeatability_mm =
        std::max(coarsest.repeatability_mm, instrument != nullptr ? instrument->repeatability.mm() : typed_mm / 2);
    if (const OwnHand* hand = hand_of(context.hands, reading, instrument)) {
      coarsest.repeatability_mm = std::max(coarsest.repeatability_mm, std::min(hand->sd_um / 1000, kMostOwnMm));
      common_mm = std::max(common_mm, hand->u_um / 1000);
    }
  }
  coarsest.mpe_mm = std::max(coarsest.mpe_mm, std::min(as_half_width(coarsest.mpe_mm, common_mm), kMostOwnMm));
  if (coarsest.resolution_mm <= 0) coarsest.resolution_mm = 0.001;
  return coarsest;
}

std::optional<RunoutTrace> runout_trace(const JobFile& file, const Uuid& part_id, Stage stage, Quantity face) {
  RunoutTrace trace;
  std::set<double> angles;
  for (const Reading& reading : current(file, part_id, stage, face)) {
    trace.angles_deg.push_back(reading.angle_deg);
    trace.values_um.push_back(reading.value.value.um());
    angles.insert(reading.angle_deg);
  }
  if (angles.size() < 3) return std::nullopt;
  return trace;
}

Indicator indicator_of(const JobFile& file, const Uuid& part_id, Stage stage, const AssessContext& context) {
  return coarsest_of(of_runout(file, part_id, stage), context);
}

Indicator coarsest_of(const std::vector<Reading>& readings, const AssessContext& context) {
  Indicator coarsest{.resolution_um = 0, .repeatability_um = 0};
  for (const Reading& reading : readings) {
    const Instrument* instrument = find(context.instruments, reading.instrument_id);
    const double typed_um = Length{std::max<std::int64_t>(reading.value.resolution_nm, 1)}.um();
    coarsest.resolution_um =
        std::max(coarsest.resolution_um, instrument != nullptr ? instrument->resolution.um() : typed_um);
    coarsest.repeatability_um =
        std::max(coarsest.repeatability_um, instrument != nullptr ? instrument->repeatability.um() : typed_um / 2);
  }
  if (coarsest.resolution_um <= 0) coarsest = {};
  return coarsest;
}

namespace {

RunoutTrace once_per_turn(double runout_um, double high_deg) {
  constexpr int kAngles = 16;
  RunoutTrace trace;
  for (int k = 0; k < kAngles; ++k) {
    const double angle_deg = 360.0 * k / kAngles;
    trace.angles_deg.push_back(angle_deg);
    trace.values_um.push_back(runout_um / 2 * std::cos((angle_deg - high_deg) * std::numbers::pi / 180));
  }
  return trace;
}

double range_um(const RunoutTrace& trace) {
  const auto [low, high] = std::minmax_element(trace.values_um.begin(), trace.values_um.end());
  return *high - *low;
}

double thinnest_deg(const std::vector<ThicknessPoint>& points) {
  double angle_deg = 0;
  double least_mm = std::numeric_limits<double>::infinity();
  for (const ThicknessPoint& point : points) {
    double mean_mm = 0;
    for (const double value : point.values_mm) mean_mm += value / static_cast<double>(point.values_mm.size());
    if (mean_mm < least_mm) least_mm = mean_mm, angle_deg = point.angle_deg;
  }
  return angle_deg;
}

/// Where a drum that is off its centre costs most: it then stands farthest out where it is widest already.
double widest_deg(const JobFile& file, const Part& part, const AssessContext& context) {
  double angle_deg = 0, most_mm = 0;
  for (const auto& [circle, angles] : spots_of(file, part, Stage::before, context)) {
    for (const auto& [angle, values] : angles) {
      const double largest_mm = *std::max_element(values.begin(), values.end());
      if (largest_mm > most_mm) most_mm = largest_mm, angle_deg = angle;
    }
  }
  return angle_deg;
}

}  // namespace

bool is_swing_alone(const MountProof& proof) {
  return proof.trace_um.empty() && (proof.kind == ProofKind::indicator || proof.upper_bound);
}

std::optional<RunoutTrace> face_on_arbor(const JobFile& file, const Part& part, const AssessContext& context) {
  std::optional<RunoutTrace> read;
  const auto plan = plan_of(file, part.id, Stage::before);
  if (plan && plan->runout_place == RunoutPlace::on_arbor) {
    read = runout_trace(file, part.id, Stage::before, Quantity::runout_outboard);
  }
  const MountProof* proof = proof_in_force(file, part.id);
  if (proof == nullptr || !proof->goes_on) return read;
  if (is_swing_alone(*proof)) {
    if (read && range_um(*read) >= proof->runout_um) return read;
    return once_per_turn(proof->runout_um, is_drum(part.kind)
                                               ? widest_deg(file, part, context)
                                               : thinnest_deg(thickness_points(file, part, Stage::before, context)));
  }
  if (proof->trace_um.empty()) return once_per_turn(proof->runout_um, proof->marks.back().centre_deg);
  RunoutTrace trace{.angles_deg = {}, .values_um = proof->trace_um};
  const auto count = static_cast<double>(proof->trace_um.size());
  for (std::size_t k = 0; k < proof->trace_um.size(); ++k) {
    trace.angles_deg.push_back(360 * static_cast<double>(k) / count);
  }
  return trace;
}

namespace {

drum::Limits drum_limits_of(const Part& part) {
  drum::Limits limits{.nominal = limit_of(part.limits.nominal),
                      .machine_to = limit_of(part.limits.machine_to),
                      .discard = limit_of(part.limits.discard),
                      .out_of_round = limit_of(part.limits.out_of_round),
                      .taper = limit_of(part.limits.taper),
                      .scoring = limit_of(part.limits.scoring)};
  if (const auto finish = limit_of(part.limits.finish_ra)) {
    limits.finish = RoughnessLimit{finish->value_mm * 1000, finish->source};
  }
  return limits;
}

}  // namespace

drum::Drum drum_of(const JobFile& file, const Part& part, Stage stage, const AssessContext& context) {
  drum::Drum drum;
  drum.name = std::string(word_of(part.side));
  drum.limits = drum_limits_of(part);
  const auto plan = plan_of(file, part.id, stage);
  for (const auto& [circle, angles] : spots_of(file, part, stage, context)) {
    const auto place = static_cast<std::size_t>(circle);
    if (!plan || place >= plan->circles_from_edge.size()) continue;
    const double depth_mm = plan->circles_from_edge[place].mm();
    for (const auto& [angle, values] : angles) drum.readings.push_back({depth_mm, angle, values});
  }
  drum.gauge = micrometer_of(file, part.id, stage, context);
  drum.part_temperature_c = temperature_of(file, part.id, stage);
  if (stage != Stage::before) return drum;
  if (const auto trace = face_on_arbor(file, part, context)) {
    drum.arbor_runout = RunoutReadings{.carrier = Carrier::arbor,
                                       .outboard = *trace,
                                       .indicator = indicator_of(file, part.id, Stage::before, context)};
  }
  const Scoring scoring = scoring_of(file, part.id, context);
  drum.score_um = scoring.outboard_um;
  drum.u_score_um = scoring.u_um;
  drum.findings = findings_of(file, part.id);
  return drum;
}

PartLimits limits_of(const Part& part) {
  PartLimits limits;
  limits.nominal = limit_of(part.limits.nominal);
  limits.machine_to = limit_of(part.limits.machine_to);
  limits.discard = limit_of(part.limits.discard);
  limits.variation = limit_of(part.limits.variation);
  limits.runout = limit_of(part.limits.runout);
  limits.scoring = limit_of(part.limits.scoring);
  if (const auto finish = limit_of(part.limits.finish_ra)) {
    limits.finish = RoughnessLimit{finish->value_mm * 1000, finish->source};
  }
  return limits;
}

std::vector<brakewright::Finding> findings_of(const JobFile& file, const Uuid& part_id) {
  std::vector<brakewright::Finding> found;
  for (const Finding& finding : file.findings) {
    if (finding.part_id != part_id || finding.withdrawn_at || finding.kind == FindingKind::nothing_found) continue;
    std::string kind(word_of(finding.kind));
    std::replace(kind.begin(), kind.end(), '_', ' ');
    found.push_back({kind, finding.judgement == Judgement::reject});
  }
  return found;
}

Scoring scoring_of(const JobFile& file, const Uuid& part_id, const AssessContext& context) {
  Scoring scoring;
  for (const auto& [quantity, deepest] : {std::pair{Quantity::scoring_outboard, &scoring.outboard_um},
                                          std::pair{Quantity::scoring_inboard, &scoring.inboard_um}}) {
    for (const Reading& reading : current(file, part_id, Stage::before, quantity)) {
      const double um = reading.value.value.um() - zero_error_mm(reading, context) * 1000;
      *deepest = std::max(*deepest, um);
      const Instrument* gauge = find(context.instruments, reading.instrument_id);
      const double half_width_um = gauge != nullptr ? gauge->mpe.um() : Length{reading.value.resolution_nm}.um();
      scoring.u_um = std::max(scoring.u_um, half_width_um / std::sqrt(3.0));
    }
  }
  return scoring;
}

double temperature_of(const JobFile& file, const Uuid& part_id, Stage stage) {
  const auto plan = plan_of(file, part_id, stage);
  return plan && plan->part_temperature_c ? *plan->part_temperature_c : 20;
}

namespace {

std::string words_on(const OwnHand& hand, const Instrument& instrument) {
  const auto shown = [](double um) { return format(Length{std::llround(um * 1000)}, Unit::mm, 100); };
  const bool wider = hand.sd_um > instrument.repeatability.um();
  return "By the study " + hand.study_name + " all readings of " + hand.person_name + " may be off alike by " +
         shown(hand.u_um) + " (standard uncertainty), which counts beside the permissible error of " + instrument.name +
         ". Read again they differ by " + shown(hand.sd_um) + " (standard deviation), " +
         (wider ? "which takes the place of its repeatability, " : "no more than its repeatability, ") +
         shown(instrument.repeatability.um()) + ".";
}

}  // namespace

std::vector<Advice> advice_on(const JobFile& file, const Uuid& part_id, Stage stage, const AssessContext& context) {
  bool unknown = false;
  std::set<std::string> unchecked;
  std::set<std::string> overdue;
  std::set<std::string> hands;
  for (const Reading& reading : of_size(file, part_id, stage)) {
    const Instrument* instrument = find(context.instruments, reading.instrument_id);
    if (instrument == nullptr) {
      unknown = true;
      continue;
    }
    const OwnHand* hand = hand_of(context.hands, reading, instrument);
    if (hand != nullptr) hands.insert(words_on(*hand, *instrument));
    const auto day = std::chrono::floor<std::chrono::days>(reading.received_at);
    const ZeroCheck* zero = find(context.zero_checks, reading.zero_check_id);
    if (zero == nullptr || std::chrono::floor<std::chrono::days>(zero->at) != day) unchecked.insert(instrument->name);
    if (instrument->calibration_due_on && std::chrono::sys_days(*instrument->calibration_due_on) < day) {
      overdue.insert(instrument->name + " (" + to_text(*instrument->calibration_due_on) + ")");
    }
  }
  std::vector<Advice> advice;
  if (unknown) {
    advice.push_back({"instrument_unknown",
                      "Some readings name no instrument; their last typed place was taken for its permissible error."});
  }
  for (const auto& words : hands) advice.push_back({"own_uncertainty", words});
  for (const auto& name : unchecked) {
    advice.push_back({"no_zero_check_today", name + " had no zero check on the day of these readings."});
  }
  for (const auto& name : overdue) {
    advice.push_back({"calibration_overdue", name + ": its calibration was overdue when these readings were taken."});
  }
  return advice;
}

}  // namespace brakewright::shop
