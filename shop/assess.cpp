#include "shop/assess.hpp"

#include <algorithm>
#include <set>

#include "core/input_error.hpp"
#include "core/runout/runout.hpp"
#include "shop/assess_inputs.hpp"
#include "shop/dial_evidence.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

constexpr int kOrdersOfAFace = 12;
constexpr std::size_t kDraws = 20'000;

/// The same for the same job wherever it is computed; differs between parts and stages.
std::uint64_t seed_of(const Uuid& job_id, std::size_t part, Stage stage) {
  return seed_of(job_id) + 4 * part + (stage == Stage::after ? 2 : 0);
}

void append(std::vector<Advice>& to, std::vector<Advice> more) {
  to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

drum::Draws draws_of(const AssessContext& context, std::uint64_t seed) {
  return {.confidence = asked_confidence(context), .seed = seed, .count = kDraws};
}

MapAssessment map_of(const JobFile& file, std::size_t place, Stage stage, const AssessContext& context) {
  const Part& part = file.parts[place];
  MapAssessment map;
  if (is_drum(part.kind)) {
    const drum::Drum drum = drum_of(file, part, stage, context);
    if (!drum.readings.empty()) {
      map.diameter = drum::reduce_diameters(drum, draws_of(context, seed_of(file.job.id, place, stage)));
      append(map.diameter->advice, advice_on(file, part.id, stage, context));
    }
  }
  const auto points = thickness_points(file, part, stage, context);
  if (!points.empty()) {
    const PartLimits limits = limits_of(part);
    ThicknessInput input;
    input.readings = points;
    input.micrometer = micrometer_of(file, part.id, stage, context);
    input.part_temperature_c = temperature_of(file, part.id, stage);
    if (limits.variation) input.variation_limit_mm = limits.variation->value_mm;
    if (limits.discard) input.discard_mm = limits.discard->value_mm;
    if (limits.machine_to) input.machine_to_mm = limits.machine_to->value_mm;
    input.confidence = asked_confidence(context);
    input.seed = seed_of(file.job.id, place, stage);
    input.draws = kDraws;
    map.thickness = reduce_thickness(input);
    append(map.thickness->advice, advice_on(file, part.id, stage, context));
  }
  const auto fit = [&](Quantity face) -> std::optional<CircleFit> {
    const auto trace = runout_trace(file, part.id, stage, face);
    if (!trace) return std::nullopt;
    return fit_circle({.angles_deg = trace->angles_deg, .values_um = trace->values_um}, kOrdersOfAFace);
  };
  map.runout_outboard = fit(Quantity::runout_outboard);
  map.runout_inboard = fit(Quantity::runout_inboard);
  return map;
}

PartReadings part_readings(const JobFile& file, const Part& part, const AssessContext& context) {
  PartReadings readings;
  readings.name = std::string(word_of(part.side));
  readings.limits = limits_of(part);
  readings.readings = thickness_points(file, part, Stage::before, context);
  readings.micrometer = micrometer_of(file, part.id, Stage::before, context);
  readings.part_temperature_c = temperature_of(file, part.id, Stage::before);
  const Indicator indicator = indicator_of(file, part.id, Stage::before, context);
  const auto plan = plan_of(file, part.id, Stage::before);
  const bool on_car = !plan || plan->runout_place == RunoutPlace::on_car;
  if (const auto trace = runout_trace(file, part.id, Stage::before, Quantity::runout_outboard); trace && on_car) {
    readings.car_runout = RunoutReadings{.carrier = Carrier::car, .outboard = *trace, .indicator = indicator};
  }
  if (const auto trace = face_on_arbor(file, part, context)) {
    readings.arbor_runout = RunoutReadings{.carrier = Carrier::arbor, .outboard = *trace, .indicator = indicator};
  }
  readings.scoring = scoring_of(file, part.id, context);
  readings.findings = findings_of(file, part.id);
  return readings;
}

brakewright::Complaint complaint_of(Complaint complaint) {
  switch (complaint) {
    case Complaint::pulsation:
      return brakewright::Complaint::pulsation;
    case Complaint::noise:
      return brakewright::Complaint::noise;
    case Complaint::pull:
      return brakewright::Complaint::pull;
    case Complaint::pad_change:
      return brakewright::Complaint::pad_change;
    case Complaint::inspection:
      return brakewright::Complaint::inspection;
    case Complaint::practice:
      return brakewright::Complaint::practice;
  }
  return brakewright::Complaint::other;
}

const Lathe* lathe_of(const JobFile& file, const AssessContext& context) {
  for (const Lathe& lathe : context.lathes) {
    if (file.job.lathe_id == lathe.id) return &lathe;
  }
  return nullptr;
}

/// How the job's lathe does; nothing while the job has none.
std::optional<BenchFigures> bench_of(const JobFile& file, const AssessContext& context) {
  if (context.bench) return context.bench;
  const Lathe* lathe = lathe_of(file, context);
  return lathe != nullptr ? std::optional(typed_figures(*lathe)) : std::nullopt;
}

/// What is asked of discs and drums alike.
template <class Input>
void put_axle(const JobFile& file, const AssessContext& context, Input& input) {
  input.complaint = complaint_of(file.job.complaint);
  if (const auto bench = bench_of(file, context)) {
    input.lathe.dial_um_per_mark = bench->dial_um_per_mark;
    input.lathe.dial_inboard_um_per_mark = bench->dial_inboard_um_per_mark;
    input.lathe.dial_repeatability_um = bench->dial_sd_um;
    input.lathe.mount_runout_um = bench->mount_rms_um;
  }
  input.margin_um = context.settings.cut_margin.um();
  input.confidence = context.settings.confidence;
  input.seed = seed_of(file.job.id, 9, Stage::before);
  input.draws = kDraws;
}

VerdictInput verdict_input(const JobFile& file, const AssessContext& context) {
  VerdictInput input;
  for (const Part& part : file.parts) input.parts.push_back(part_readings(file, part, context));
  put_axle(file, context, input);
  if (context.settings.house_allowance) {
    input.house_allowance = LengthLimit{context.settings.house_allowance->mm(), "house rule"};
  }
  if (context.settings.wear_mm_per_10000_km && *context.settings.wear_mm_per_10000_km > 0) {
    input.wear_rate = WearRate{.mm_per_unit = *context.settings.wear_mm_per_10000_km};
  }
  return input;
}

/// The shoe, where both drums have the same: core/drum asks for one of the axle.
std::optional<drum::Shoe> shoe_of(const JobFile& file) {
  const Part& first = file.parts.front();
  for (const Part& part : file.parts) {
    if (!part.lining_radius || part.lining_radius->value != first.lining_radius->value) return std::nullopt;
  }
  drum::Shoe shoe{.lining_radius_mm = first.lining_radius->value.mm()};
  if (first.lining_arc_deg) shoe.arc_deg = *first.lining_arc_deg;
  return shoe;
}

/// The house's allowance and wear are of thickness, and say nothing of diameters.
drum::DrumInput drum_input(const JobFile& file, const AssessContext& context) {
  drum::DrumInput input;
  for (const Part& part : file.parts) input.parts.push_back(drum_of(file, part, Stage::before, context));
  put_axle(file, context, input);
  input.shoe = shoe_of(file);
  return input;
}

/// Where one spot is read.
std::pair<double, double> spot_of(const ThicknessPoint& point) {
  return {point.angle_deg, point.radius_mm.value_or(-1)};
}
std::pair<double, double> spot_of(const drum::Diameter& reading) { return {reading.angle_deg, reading.depth_mm}; }

/// Points of both stages at the same spots: the only ones that say what was removed.
/// @return at how many angles
template <class Point>
std::size_t keep_common(std::vector<Point>& before, std::vector<Point>& after) {
  const auto spots = [](const std::vector<Point>& points) {
    std::set<std::pair<double, double>> found;
    for (const Point& point : points) found.insert(spot_of(point));
    return found;
  };
  const auto of_before = spots(before);
  const auto of_after = spots(after);
  const auto lacks = [](const auto& other) {
    return [&](const Point& point) { return !other.contains(spot_of(point)); };
  };
  std::erase_if(before, lacks(of_after));
  std::erase_if(after, lacks(of_before));
  std::set<double> angles;
  for (const Point& point : after) angles.insert(spot_of(point).first);
  return angles.size();
}

std::optional<double> roughest_um(const JobFile& file, const Uuid& part_id) {
  std::optional<double> roughest;
  for (const Quantity face : {Quantity::roughness_outboard, Quantity::roughness_inboard}) {
    for (const Reading& reading : current(file, part_id, Stage::after, face)) {
      roughest = std::max(roughest.value_or(0), reading.value.value.um());
    }
  }
  return roughest;
}

}  // namespace

std::optional<AfterCut> check_of(const JobFile& file, std::size_t place, const AssessContext& context,
                                 std::size_t draws) {
  const Part& part = file.parts[place];
  if (is_drum(part.kind)) return std::nullopt;
  AfterCutInput input;
  input.before = thickness_points(file, part, Stage::before, context);
  input.after = thickness_points(file, part, Stage::after, context);
  if (keep_common(input.before, input.after) < 3) return std::nullopt;
  input.micrometer_before = micrometer_of(file, part.id, Stage::before, context);
  input.micrometer_after = micrometer_of(file, part.id, Stage::after, context);
  input.temperature_before_c = temperature_of(file, part.id, Stage::before);
  input.temperature_after_c = temperature_of(file, part.id, Stage::after);
  for (const Cut& cut : file.cuts) {
    if (cut.part_id != part.id) continue;
    input.outboard_marks = input.outboard_marks.value_or(0) + static_cast<double>(cut.outboard_marks);
    input.inboard_marks = input.inboard_marks.value_or(0) + static_cast<double>(cut.inboard_marks);
    input.dial_um_per_mark = cut.dial_um_per_mark;
    input.dial_inboard_um_per_mark = cut.dial_inboard_um_per_mark;
  }
  if (const auto bench = bench_of(file, context)) input.dial_repeatability_um = bench->dial_sd_um;
  input.ra_um = roughest_um(file, part.id);
  input.limits = limits_of(part);
  input.confidence = context.settings.confidence;
  input.seed = seed_of(file.job.id, place, Stage::after) + 1;
  input.draws = draws;
  return check_after_cut(input);
}

namespace {

std::optional<drum::CutCheck> drum_check_of(const JobFile& file, std::size_t place, const AssessContext& context) {
  const Part& part = file.parts[place];
  drum::CutCheckInput input{.before = drum_of(file, part, Stage::before, context),
                            .after = drum_of(file, part, Stage::after, context)};
  if (keep_common(input.before.readings, input.after.readings) < 3) return std::nullopt;
  for (const Cut& cut : file.cuts) {
    if (cut.part_id != part.id) continue;
    input.marks = input.marks.value_or(0) + static_cast<double>(cut.outboard_marks);
    input.dial_um_per_mark = cut.dial_um_per_mark;
  }
  if (const auto bench = bench_of(file, context)) input.dial_repeatability_um = bench->dial_sd_um;
  input.ra_um = roughest_um(file, part.id);
  input.draws = draws_of(context, seed_of(file.job.id, place, Stage::after) + 1);
  return drum::check_drum_cut(input);
}

std::optional<dials::DialCheck> dials_of(const JobFile& file, std::size_t place, const PartAssessment& part,
                                         const AssessContext& context) {
  if (!part.check) return std::nullopt;
  const BenchFigures bench = bench_of(file, context).value_or(BenchFigures{});
  const auto evidence = dial_evidence(file, file.parts[place], *part.check, bench.dial_sd_um, context);
  return evidence ? std::optional(dials::check_dials(*evidence)) : std::nullopt;
}

/// What of one part's limits and readings is not there yet, in words.
void put_missing(const Part& part, const Progress& done, const Settings& settings, std::vector<std::string>& missing) {
  const bool drum = is_drum(part.kind);
  const std::string side(word_of(part.side)), size = drum ? "diameter" : "thickness", of = " of the " + side + " part";
  const Limits& limits = part.limits;
  if (!limits.discard) missing.push_back("Discard " + size + of + ".");
  if (!limits.machine_to && !(limits.discard && settings.house_allowance && !drum)) {
    missing.push_back("Machine-to " + size + of + ".");
  }
  if (!drum && !limits.variation) missing.push_back("Largest thickness variation allowed on the " + side + " part.");
  if (drum && !limits.out_of_round) missing.push_back("Largest out-of-round allowed on the " + side + " part.");
  const std::int64_t left = done.thickness_wanted + done.diameter_wanted - done.thickness_done - done.diameter_done;
  if (left > 0) {
    missing.push_back((drum ? "Diameter" : "Thickness") + of + " at " + std::to_string(left) + " more points.");
  }
  if (done.runout_done >= 3) return;
  missing.push_back(drum ? "Runout inside the mounted " + side +
                               " drum, if it can be read: three lobes and an off-centre mount are assumed."
                         : "Runout of the " + side + " part's outboard face.");
}

std::vector<std::string> missing_of(const JobFile& file, const Assessment& made, const AssessContext& context) {
  std::vector<std::string> missing;
  for (std::size_t k = 0; k < file.parts.size(); ++k) {
    put_missing(file.parts[k], made.parts[k].progress_before, context.settings, missing);
  }
  for (const Part& part : file.parts) {
    const MountProof* proof = proof_in_force(file, part.id);
    if (proof == nullptr || !proof->goes_on || !is_swing_alone(*proof)) continue;
    missing.push_back("The angle at which the mounted " + std::string(word_of(part.side)) +
                      " part stands highest: its swing alone is taken where it costs most.");
  }
  if (context.bench && !context.bench->basis.empty()) missing.push_back(context.bench->basis);
  if (!file.job.lathe_id) missing.push_back("The lathe: usual figures stand in for its dial and arbor.");
  return missing;
}

}  // namespace

namespace {

/// Runs a computation of the core; figures that it refuses, which somebody confirmed, are said instead of failing.
template <class F>
void attempt(std::vector<std::string>& refused, const std::string& what, F&& compute) {
  try {
    compute();
  } catch (const InputError& error) {
    refused.push_back(what + " cannot be worked out: " + error.what() + ". Take back or correct the reading.");
  }
}

}  // namespace

Assessment assess(const JobFile& file, const AssessContext& context) {
  Assessment made;
  made.job_id = file.job.id;
  made.seq = file.seq;
  made.waits_for = waits_for(file, context.ready);
  made.bench = bench_of(file, context);
  std::vector<std::string> refused;
  bool all_measured = !file.parts.empty();
  for (std::size_t k = 0; k < file.parts.size(); ++k) {
    PartAssessment part;
    part.part_id = file.parts[k].id;
    part.progress_before = progress_of(file, part.part_id, Stage::before);
    part.progress_after = progress_of(file, part.part_id, Stage::after);
    const std::string side(word_of(file.parts[k].side));
    attempt(refused, "The " + side + " part before the cut",
            [&] { part.before = map_of(file, k, Stage::before, context); });
    attempt(refused, "The " + side + " part after the cut",
            [&] { part.after = map_of(file, k, Stage::after, context); });
    if (part.before.thickness && part.after.thickness) {
      attempt(refused, "The " + side + " part's check", [&] { part.check = check_of(file, k, context, kDraws); });
      attempt(refused, "The " + side + " part's dials", [&] { part.dial_check = dials_of(file, k, part, context); });
    }
    if (part.before.diameter && part.after.diameter) {
      attempt(refused, "The " + side + " drum's check", [&] { part.drum_check = drum_check_of(file, k, context); });
    }
    all_measured = all_measured && (part.before.thickness || part.before.diameter);
    made.parts.push_back(std::move(part));
  }
  if (all_measured) {
    attempt(refused, "The verdict", [&] {
      is_drum(file.parts.front().kind) ? void(made.drums = drum::judge_drums(drum_input(file, context)))
                                       : void(made.verdict = judge(verdict_input(file, context)));
    });
  }
  made.missing = missing_of(file, made, context);
  made.missing.insert(made.missing.begin(), refused.begin(), refused.end());
  return made;
}

}  // namespace brakewright::shop
