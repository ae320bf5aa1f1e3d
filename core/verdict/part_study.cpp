#include "core/verdict/part_study.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"
#include "core/thickness/check.hpp"
#include "core/thickness/thickness_study.hpp"
#include "core/uncertainty/conformity.hpp"
#include "core/verdict/drum_study.hpp"
#include "core/verdict/uncut_limits.hpp"
#include "core/verdict/wear.hpp"

namespace brakewright {
namespace {

ThicknessInput thickness_input(const VerdictInput& input, const PartReadings& part) {
  const auto value = [](const std::optional<LengthLimit>& limit) {
    return limit ? std::optional<double>(limit->value_mm) : std::nullopt;
  };
  return {.readings = part.readings,
          .micrometer = part.micrometer,
          .part_temperature_c = part.part_temperature_c,
          .variation_limit_mm = value(part.limits.variation),
          .discard_mm = value(part.limits.discard),
          .machine_to_mm = value(machine_to_in_force(input, part)),
          .confidence = input.confidence,
          .seed = input.seed,
          .draws = input.draws};
}

double p_depth_within(double depth_um, const Scoring& scoring, double limit_um, double confidence) {
  return judge_conformity(depth_um, scoring.u_um, {.upper = limit_um}, confidence).p_conform;
}

double share_of(const std::vector<std::uint8_t>& flags) {
  return static_cast<double>(std::count(flags.begin(), flags.end(), 1)) / static_cast<double>(flags.size());
}

/// A trace's value between its readings, by straight lines round the circle.
double interpolated(const RunoutTrace& trace, double angle_deg) {
  std::size_t before = 0;
  std::size_t after = 0;
  double back = 1e9;
  double ahead = 1e9;
  for (std::size_t i = 0; i < trace.angles_deg.size(); ++i) {
    const double forward = std::fmod(trace.angles_deg[i] - angle_deg + 720, 360);
    const double backward = std::fmod(360 - forward, 360);
    if (forward < ahead) ahead = forward, after = i;
    if (backward < back) back = backward, before = i;
  }
  if (back + ahead < 1e-9) return trace.values_um[before];
  return (trace.values_um[before] * ahead + trace.values_um[after] * back) / (back + ahead);
}

/// The trace that the cleanup rests on, with nothing when the face was never read.
const RunoutReadings* cleanup_trace(const PartReadings& part) {
  if (part.arbor_runout) return &*part.arbor_runout;
  return part.car_runout ? &*part.car_runout : nullptr;
}

Cleanup cleanup_of_points(const VerdictInput& input, const PartReadings& part, const PartVerdict& verdict) {
  CleanupInput cut;
  const RunoutReadings* face = cleanup_trace(part);
  for (const PointMean& point : verdict.thickness.points) {
    cut.angles_deg.push_back(point.angle_deg);
    cut.thickness_mm.push_back(point.mean_mm);
    cut.outboard_um.push_back(face != nullptr ? interpolated(face->outboard, point.angle_deg)
                                              : (point.mean_mm - verdict.thickness.mean_mm) * 500);
  }
  cut.score_outboard_um = {part.scoring.outboard_um};
  cut.score_inboard_um = {part.scoring.inboard_um};
  cut.margin_um = input.margin_um;
  cut.dial_um_per_mark = input.lathe.dial_um_per_mark;
  cut.dial_inboard_um_per_mark = input.lathe.dial_inboard_um_per_mark;
  if (verdict.machine_to) cut.machine_to_mm = verdict.machine_to->value_mm;
  if (part.limits.discard) cut.discard_mm = part.limits.discard->value_mm;
  return least_cleanup(cut);
}

Posterior posterior_mm(std::vector<float> values_um, double centre_mm) {
  const Middle95 middle = middle95(values_um);
  return {.median = centre_mm + middle.median / 1000,
          .low95 = centre_mm + middle.low95 / 1000,
          .high95 = centre_mm + middle.high95 / 1000};
}

double share_at_least(const std::vector<float>& values, double limit) {
  const auto count =
      std::count_if(values.begin(), values.end(), [&](float v) { return static_cast<double>(v) >= limit; });
  return static_cast<double>(count) / static_cast<double>(values.size());
}

void put_final(const VerdictInput& input, const PartReadings& part, double centre_mm, const GatheredDraws& gathered,
               PartStudy& study) {
  PartVerdict& verdict = study.verdict;
  verdict.final_mm = posterior_mm(gathered.final_um, centre_mm);
  if (verdict.machine_to) {
    const double limit_um = (verdict.machine_to->value_mm - centre_mm) * 1000;
    for (const float value : gathered.final_um) study.final_holds.push_back(static_cast<double>(value) >= limit_um);
    verdict.p_final_over_machine_to = share_of(study.final_holds);
  }
  if (!part.limits.discard) return;
  const double discard_um = (part.limits.discard->value_mm - centre_mm) * 1000;
  verdict.p_final_over_discard = share_at_least(gathered.final_um, discard_um);
  if (!input.wear_rate) return;
  Random random(input.seed, stream_of(0, Purpose::wear));
  verdict.wear_room_uncut = wear_room(gathered.lowest_um, discard_um, *input.wear_rate, random);
  verdict.wear_room_cut = wear_room(gathered.final_um, discard_um, *input.wear_rate, random);
}

/// Runs through all draws of the part.
GatheredDraws gather(const VerdictInput& input, const PartReadings& part, std::size_t index, ThicknessStudy& thickness,
                     PartStudy& study) {
  GatheredDraws gathered;
  const RunoutReadings* face = cleanup_trace(part);
  std::unique_ptr<FaceStudy> face_study;
  const bool on_car = face != nullptr && !part.arbor_runout;
  if (face != nullptr) {
    face_study = face_study_of(input, *face, on_car ? part.limits.runout : std::nullopt,
                               stream_of(index, Purpose::cleanup_face), on_car ? "car_runout" : "arbor_runout");
  }
  CutDraws cut = cut_draws(input, part, index);
  const UncutLimits limits = uncut_limits(part, thickness.centre_mm());
  std::vector<Extremes> ends;
  for (std::size_t b = 0; b < thickness.blocks(); ++b) {
    const auto circles = thickness.next();
    const CurveBlock* outboard = face_study ? &face_study->next() : nullptr;
    const LeastCut result = cut.next(circles, outboard, ends);
    thickness.take(ends);
    if (on_car) face_study->take(result.outboard_ends);
    note_as_it_is(ends, thickness.common_um(), limits, study.as_it_is_holds);
    append(gathered.final_um, result.final_um + thickness.common_um());
    append(gathered.lowest_um, lowest_of(ends) + thickness.common_um());
  }
  if (on_car) study.verdict.runout = face_study->finish();
  return gathered;
}

}  // namespace

CutDraws cut_draws(const VerdictInput& input, const PartReadings& part, std::size_t index) {
  return {{.lathe = input.lathe,
           .scoring = part.scoring,
           .margin_um = input.margin_um,
           .remounted = !part.arbor_runout.has_value()},
          input.seed,
          stream_of(index, Purpose::workshop)};
}

Lanes lowest_of(std::span<const Extremes> ends) {
  Lanes lowest = ends[0].lowest;
  for (const Extremes& one : ends) lowest = smaller(lowest, one.lowest);
  return lowest;
}

std::unique_ptr<FaceStudy> face_study_of(const VerdictInput& input, const RunoutReadings& readings,
                                         const std::optional<LengthLimit>& limit, std::uint64_t stream,
                                         const std::string& field, const std::string& face) {
  try {
    return std::make_unique<FaceStudy>(
        RunoutInput{.trace = readings.outboard,
                    .indicator = readings.indicator,
                    .limit_um = limit ? std::optional<double>(limit->value_mm * 1000) : std::nullopt,
                    .confidence = input.confidence,
                    .seed = input.seed,
                    .draws = input.draws},
        stream);
  } catch (const InputError& error) {
    const std::string& path = error.field();
    const bool of_trace = path.rfind("trace", 0) == 0;
    throw InputError(error.code(), field + "." + (of_trace ? face + path.substr(5) : path), error.what());
  }
}

std::uint64_t stream_of(std::size_t index, Purpose purpose) { return index * 10 + static_cast<std::uint64_t>(purpose); }

std::optional<LengthLimit> machine_to_in_force(const VerdictInput& input, const PartReadings& part) {
  if (part.limits.machine_to) return part.limits.machine_to;
  if (!part.limits.discard || !input.house_allowance) return std::nullopt;
  return LengthLimit{.value_mm = part.limits.discard->value_mm + input.house_allowance->value_mm,
                     .source = input.house_allowance->source};
}

PartStudy study_part(const VerdictInput& input, const PartReadings& part, std::size_t index) {
  PartStudy study;
  PartVerdict& verdict = study.verdict;
  verdict.name = part.name;
  verdict.kind = part.kind;
  verdict.mirror_mm = part.mirror_mm;
  verdict.machine_to = machine_to_in_force(input, part);
  verdict.machine_to_is_house_rule = verdict.machine_to && !part.limits.machine_to;
  verdict.runout_assumed = !part.arbor_runout;
  ThicknessStudy thickness(thickness_input(input, part), index);
  const GatheredDraws gathered = part.kind == PartKind::drum ? gather_drum(input, part, index, thickness, study)
                                                             : gather(input, part, index, thickness, study);
  verdict.thickness = thickness.finish();
  if (part.car_runout && !verdict.runout) {
    const auto car =
        face_study_of(input, *part.car_runout, part.limits.runout, stream_of(index, Purpose::car_face), "car_runout");
    for (std::size_t b = 0; b < car->blocks(); ++b) car->take(extremes(on_grid(car->next())));
    verdict.runout = car->finish();
  }
  verdict.p_above_discard = verdict.thickness.p_min_above_discard;
  verdict.p_variation_within = verdict.thickness.p_variation_within;
  if (verdict.runout) verdict.p_runout_within = verdict.runout->p_within;
  if (part.limits.scoring) {
    const double limit_um = part.limits.scoring->value_mm * 1000;
    verdict.p_scoring_within = p_depth_within(part.scoring.outboard_um, part.scoring, limit_um, input.confidence) *
                               p_depth_within(part.scoring.inboard_um, part.scoring, limit_um, input.confidence);
  }
  if (part.kind == PartKind::drum) put_drum_figures(input, part, verdict);
  if (part.kind == PartKind::rotor) verdict.cleanup = cleanup_of_points(input, part, verdict);
  put_final(input, part, thickness.centre_mm(), gathered, study);
  return study;
}

std::vector<ThicknessPoint> expected_readings(const VerdictInput& input, const PartReadings& part, std::size_t repeats,
                                              bool halved) {
  const ThicknessStudy study(thickness_input(input, part));
  const Circles circles = circles_of(part.readings);
  std::vector<ThicknessPoint> expected;
  const auto add = [&](double angle_deg, const ThicknessPoint& like, std::size_t circle) {
    const double value = study.expected_mm(angle_deg, circle);
    expected.push_back(
        {.angle_deg = angle_deg, .radius_mm = like.radius_mm, .values_mm = std::vector<double>(repeats, value)});
  };
  for (std::size_t i = 0; i < part.readings.size(); ++i) {
    add(part.readings[i].angle_deg, part.readings[i], circles.of_reading[i]);
    if (!halved) continue;
    double gap = 360;
    for (std::size_t j = 0; j < part.readings.size(); ++j) {
      if (circles.of_reading[j] != circles.of_reading[i]) continue;
      const double ahead = std::fmod(part.readings[j].angle_deg - part.readings[i].angle_deg + 720, 360);
      if (ahead > 1e-6) gap = std::min(gap, ahead);
    }
    add(std::fmod(part.readings[i].angle_deg + gap / 2, 360), part.readings[i], circles.of_reading[i]);
  }
  return expected;
}

}  // namespace brakewright
