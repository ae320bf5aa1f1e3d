#include "shop/dial_evidence.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "shop/assess_inputs.hpp"
#include "shop/find.hpp"

namespace brakewright::shop {
namespace {

/// What lies between the points that were read is higher than they by so much: our own, no source.
constexpr double kBetweenPoints_um = 3;
/// Of a face whose touch loss nobody knows: 0 to 60 um, each as likely, as core/dials takes it.
constexpr dials::Estimate kUsualTouchLoss{.um = 30, .u_um = 17.3};

/// A trace between its readings, by straight lines round the circle.
double value_at(const RunoutTrace& trace, double angle_deg) {
  const auto around = [](double deg) { return std::fmod(deg + 720, 360); };
  double ahead = 361, back = 361, next = 0, last = 0;
  for (std::size_t k = 0; k < trace.angles_deg.size(); ++k) {
    const double forward = around(trace.angles_deg[k] - angle_deg);
    const double backward = around(angle_deg - trace.angles_deg[k]);
    if (forward < ahead) ahead = forward, next = trace.values_um[k];
    if (backward < back) back = backward, last = trace.values_um[k];
  }
  return ahead + back > 0 ? (last * ahead + next * back) / (ahead + back) : next;
}

double below_highest(const std::vector<double>& face_um) {
  double mean = 0;
  for (const double value : face_um) mean += value / static_cast<double>(face_um.size());
  return *std::max_element(face_um.begin(), face_um.end()) - mean;
}

/// How far the mean of each face lay below its highest spot when the tools came in.
void put_touch_loss(const JobFile& file, const Part& part, const AfterCut& check, const AssessContext& context,
                    dials::DialCheckInput& evidence) {
  const MountProof* proof = proof_in_force(file, part.id);
  if (proof != nullptr && proof->goes_on && is_swing_alone(*proof)) return;  // how the faces share it is not known
  const auto trace = face_on_arbor(file, part, context);
  if (!trace) return;
  std::vector<double> outboard, inboard;
  for (const RemovedAtPoint& spot : check.removed) {
    const double face_um = value_at(*trace, spot.angle_deg);
    outboard.push_back(face_um);
    inboard.push_back(spot.before_mm * 1000 - face_um);
  }
  const Indicator indicator = indicator_of(file, part.id, Stage::before, context);
  const double u_um =
      std::hypot(kBetweenPoints_um, indicator.repeatability_um, indicator.resolution_um / std::sqrt(12.0));
  evidence.outboard.touch_loss = dials::Estimate{.um = below_highest(outboard), .u_um = u_um};
  evidence.inboard.touch_loss = dials::Estimate{.um = below_highest(inboard), .u_um = u_um};
}

/// Mean of the readings of each point, with what an instrument makes of one of them.
struct FaceToVent {
  std::map<std::int64_t, double> um = {};
  double u_um = 0;
};

FaceToVent face_to_vent(const JobFile& file, const Part& part, Stage stage, Quantity quantity,
                        const AssessContext& context) {
  FaceToVent read;
  std::map<std::int64_t, std::int64_t> count;
  for (const Reading& reading : current(file, part.id, stage, quantity)) {
    auto& mean = read.um[reading.point];
    mean += (reading.value.value.um() - mean) / static_cast<double>(++count[reading.point]);
    const double typed_um = Length{std::max<std::int64_t>(reading.value.resolution_nm, 1)}.um();
    const Instrument* instrument = reading.instrument_id ? find(context.instruments, *reading.instrument_id) : nullptr;
    const double step_um = instrument != nullptr ? instrument->resolution.um() : typed_um;
    const double repeat_um = instrument != nullptr ? instrument->repeatability.um() : typed_um / 2;
    read.u_um = std::max(read.u_um, std::hypot(repeat_um, step_um / std::sqrt(12.0)));
  }
  return read;
}

std::optional<dials::Estimate> lost_of_face(const JobFile& file, const Part& part, Quantity quantity,
                                            const AssessContext& context) {
  const FaceToVent before = face_to_vent(file, part, Stage::before, quantity, context);
  const FaceToVent after = face_to_vent(file, part, Stage::after, quantity, context);
  double sum_um = 0, count = 0;
  for (const auto& [point, um] : before.um) {
    const auto then = after.um.find(point);
    if (then == after.um.end()) continue;
    sum_um += um - then->second;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return dials::Estimate{.um = sum_um / count, .u_um = std::hypot(before.u_um, after.u_um) / std::sqrt(count)};
}

bool names_temperature(const JobFile& file, const Uuid& part_id, Stage stage) {
  return std::any_of(file.plans.begin(), file.plans.end(), [&](const MeasuringPlan& plan) {
    return plan.part_id == part_id && plan.stage == stage && plan.part_temperature_c;
  });
}

}  // namespace

std::optional<dials::DialCheckInput> dial_evidence(const JobFile& file, const Part& part, const AfterCut& check,
                                                   double dial_sd_um, const AssessContext& context) {
  dials::DialCheckInput evidence;
  bool was_cut = false;
  for (const Cut& cut : file.cuts) {
    if (cut.part_id != part.id) continue;
    was_cut = true;
    evidence.outboard.marks += static_cast<double>(cut.outboard_marks);
    evidence.inboard.marks += static_cast<double>(cut.inboard_marks);
    evidence.outboard.dial_um_per_mark = cut.dial_um_per_mark;
    evidence.inboard.dial_um_per_mark = cut.dial_inboard_um_per_mark.value_or(cut.dial_um_per_mark);
  }
  if (!was_cut) return std::nullopt;
  evidence.dial_sd_um = dial_sd_um;
  const auto passes = std::count_if(file.passes.begin(), file.passes.end(), [&](const Pass& pass) {
    return pass.part_id == part.id && pass.outcome == PassOutcome::finished;
  });
  evidence.settings = static_cast<int>(std::clamp<std::ptrdiff_t>(passes, 1, 1000));
  constexpr double kLeast_um = 0.1;  // nothing is measured better
  evidence.removed = {.um = check.removed_mean_um, .u_um = std::max(check.u_removed_mean_um, kLeast_um)};
  evidence.outboard.removed = lost_of_face(file, part, Quantity::cheek_outboard, context);
  evidence.inboard.removed = lost_of_face(file, part, Quantity::cheek_inboard, context);
  put_touch_loss(file, part, check, context, evidence);
  if (names_temperature(file, part.id, Stage::before) && names_temperature(file, part.id, Stage::after)) {
    evidence.temperature_rise_k = 0;
  }
  double sum_mm = 0;
  for (const RemovedAtPoint& spot : check.removed) sum_mm += spot.after_mm;
  if (!check.removed.empty()) evidence.thickness_mm = sum_mm / static_cast<double>(check.removed.size());
  return evidence;
}

dials::LatheJob lathe_job_of(const dials::DialCheckInput& evidence, double days) {
  const auto went = [](const dials::Estimate& lost, const dials::Estimate& touch) {
    return dials::Estimate{.um = lost.um + touch.um, .u_um = std::hypot(lost.u_um, touch.u_um)};
  };
  const bool outboard = evidence.outboard.marks > 0, inboard = evidence.inboard.marks > 0;
  const dials::Estimate none{};
  const dials::Estimate touch_out = outboard ? evidence.outboard.touch_loss.value_or(kUsualTouchLoss) : none;
  const dials::Estimate touch_in = inboard ? evidence.inboard.touch_loss.value_or(kUsualTouchLoss) : none;
  dials::LatheJob job;
  job.outboard_marks = evidence.outboard.marks;
  job.inboard_marks = evidence.inboard.marks;
  job.settings = evidence.settings;
  job.depth = went(went(evidence.removed, touch_out), touch_in);
  if (outboard && evidence.outboard.removed) job.outboard_depth = went(*evidence.outboard.removed, touch_out);
  if (inboard && evidence.inboard.removed) job.inboard_depth = went(*evidence.inboard.removed, touch_in);
  job.days = days;
  return job;
}

}  // namespace brakewright::shop
