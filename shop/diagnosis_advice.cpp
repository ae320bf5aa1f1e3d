#include "shop/diagnosis_advice.hpp"

#include <algorithm>
#include <cmath>

#include "core/cutting/finish.hpp"
#include "core/input_error.hpp"
#include "core/separation/separation.hpp"
#include "shop/assess_inputs.hpp"
#include "shop/car_traces.hpp"
#include "shop/find.hpp"

namespace brakewright::shop {
namespace {

using diagnosis::Sign;

constexpr double kFineEnough_mm = 0.002;

/// Gathers the signs of one part.
class SignsOfPart {
 public:
  SignsOfPart(const JobFile& file, const Part& part, const PartAssessment& assessed, const CuttingEdges& edges,
              const AssessContext& context)
      : file_(file), part_(part), assessed_(assessed), edges_(edges), context_(context) {}

  std::vector<JobSign> all() {
    from_mount();
    from_thickness();
    from_runout();
    from_finish();
    from_cheeks();
    from_dials();
    from_findings();
    std::stable_sort(signs_.begin(), signs_.end(), [](const JobSign& a, const JobSign& b) { return a.sign < b.sign; });
    return signs_;
  }

 private:
  void add(Sign sign, double value, const char* from) {
    const auto& info = diagnosis::about(sign);
    if (std::isfinite(value)) {
      signs_.push_back({.sign = sign, .value = std::clamp(value, info.low, info.high), .from = from});
    }
  }

  /// The last of these that belongs to the part.
  template <class Entry>
  const Entry* last_of(const std::vector<Entry>& entries) const {
    const auto found =
        std::find_if(entries.rbegin(), entries.rend(), [&](const Entry& entry) { return entry.part_id == part_.id; });
    return found == entries.rend() ? nullptr : &*found;
  }

  void from_mount() {
    const MountProof* proof = last_of(file_.mount_proofs);
    if (proof == nullptr) return;
    if (!proof->upper_bound) add(Sign::bench_runout_before, proof->runout_um, "proof of the mount");
    if (proof->marks.size() == 2) {
      add(Sign::scratch_apart, std::abs(std::remainder(proof->marks[0].centre_deg - proof->marks[1].centre_deg, 360)),
          "two scratches");
    }
  }

  void from_thickness() {
    const auto& thickness = assessed_.after.thickness;
    if (!thickness || micrometer_of(file_, part_.id, Stage::after, context_).resolution_mm > kFineEnough_mm) return;
    constexpr const char* kFrom = "thickness after the cut";
    add(Sign::variation, 1000 * thickness->variation_mm, kFrom);
    constexpr Sign kWaves[] = {Sign::variation_wave_1, Sign::variation_wave_2, Sign::variation_wave_3,
                               Sign::variation_wave_4};
    for (const Harmonic& wave : thickness->harmonics) {
      const auto& blind = thickness->blind_orders;
      if (wave.order < 1 || wave.order > 4 || std::find(blind.begin(), blind.end(), wave.order) != blind.end())
        continue;
      add(kWaves[wave.order - 1], wave.amplitude_um, kFrom);
    }
    if (thickness->circles.size() > 1) add(Sign::taper, 1000 * thickness->taper_mm, kFrom);
    const auto read = current(file_, part_.id, Stage::after, Quantity::thickness);
    if (std::all_of(read.begin(), read.end(), [](const Reading& one) { return one.zero_check_id.has_value(); })) {
      add(Sign::micrometer_offset, 0, "zero check, taken off each reading");
    }
  }

  void from_runout() {
    const auto plan = std::find_if(file_.plans.begin(), file_.plans.end(), [&](const MeasuringPlan& one) {
      return one.part_id == part_.id && one.stage == Stage::after;
    });
    if (assessed_.after.runout_outboard && plan != file_.plans.end() && plan->runout_place == RunoutPlace::on_arbor) {
      add(Sign::bench_runout_after, assessed_.after.runout_outboard->range_um, "runout on the arbor after the cut");
    }
    const CarTraces car = car_traces_of(file_, part_, context_);
    if (!car.cut || car.now.empty()) return;
    const CarTrace& last = car.fitted ? *car.fitted : car.now.back();
    if (last.angles_deg.size() < 4) return;
    const auto once = fit_circle({.angles_deg = last.angles_deg, .values_um = last.values_um}, 1).harmonics;
    if (once.empty()) return;
    add(Sign::car_runout, 2 * once.front().amplitude_um, "runout back on the car");
    if (car.now.size() > 1 && part_.studs) {
      const Separation apart =
          separate({.positions = positions_of(car.now, *part_.studs), .max_order = 1, .noise_sd_um = {}, .studs = {}});
      if (apart.part.empty() || apart.carrier.empty()) return;
      add(Sign::car_runout_follows_part, apart.part.front().amplitude_um > apart.carrier.front().amplitude_um ? 1 : 0,
          "runout back on the car, on several studs");
    }
  }

  /// What feed and nose alone leave on the outboard face.
  std::optional<double> kinematic_ra_um() const {
    const Pass* pass = last_of(file_.passes);
    if (pass == nullptr || !pass->outboard_corner_id || !(pass->feed_mm_per_rev > 0)) return {};
    const Corner* corner = find(edges_.corners, *pass->outboard_corner_id);
    const Insert* insert = corner == nullptr ? nullptr : find(edges_.inserts, corner->insert_id);
    if (insert == nullptr || pass->feed_mm_per_rev > 2 * insert->nose_radius.mm()) return {};
    return cutting::finish(pass->feed_mm_per_rev, insert->nose_radius.mm()).ra_um;
  }

  void from_finish() {
    const auto read = current(file_, part_.id, Stage::after, Quantity::roughness_outboard);
    if (read.empty()) return;
    const double ra_um = read.back().value.value.um();
    add(Sign::ra, ra_um, "roughness after the cut");
    if (const auto kinematic = kinematic_ra_um()) {
      add(Sign::ra_over_kinematic, ra_um / *kinematic, "roughness, feed and nose of the last pass");
    }
  }

  void from_cheeks() {
    const auto outboard = current(file_, part_.id, Stage::after, Quantity::cheek_outboard);
    const auto inboard = current(file_, part_.id, Stage::after, Quantity::cheek_inboard);
    if (!part_.vented || outboard.empty() || inboard.empty()) return;
    const auto mean_mm = [](const std::vector<Reading>& readings) {
      double sum = 0;
      for (const Reading& one : readings) sum += one.value.value.mm();
      return sum / static_cast<double>(readings.size());
    };
    add(Sign::cheek_difference, mean_mm(outboard) - mean_mm(inboard), "cheeks after the cut");
  }

  /// What is gone beyond what the dials say is thickness that is missing.
  void from_dials() {
    if (!assessed_.dial_check || !assessed_.dial_check->sum.difference_um) return;
    add(Sign::dial_difference, -*assessed_.dial_check->sum.difference_um, "dials against metal");
  }

  void from_findings() {
    const Pass* pass = last_of(file_.passes);
    for (const Finding& finding : file_.findings) {
      if (pass == nullptr || finding.part_id != part_.id || finding.withdrawn_at || finding.at < pass->at) continue;
      if (finding.kind == FindingKind::blueing || finding.kind == FindingKind::hard_spot) {
        seen(Sign::blue_spots);
      } else if (finding.kind == FindingKind::rust_lip) {
        seen(Sign::lip_seen);
      }
    }
  }

  void seen(Sign sign) {
    const bool known = std::any_of(signs_.begin(), signs_.end(), [&](const JobSign& one) { return one.sign == sign; });
    if (!known) add(sign, 1, "found after the cut");
  }

  const JobFile& file_;
  const Part& part_;
  const PartAssessment& assessed_;
  const CuttingEdges& edges_;
  const AssessContext& context_;
  std::vector<JobSign> signs_;
};

PartDiagnosis diagnosis_of(const JobFile& file, const Part& part, const PartAssessment& assessed,
                           const CuttingEdges& edges, const AssessContext& context) {
  PartDiagnosis made{.part_id = part.id, .side = part.side};
  const auto of_part = [&](const auto& entry) { return entry.part_id == part.id; };
  if (is_drum(part.kind)) {
    made.missing.push_back("disc");
    return made;
  }
  if (std::none_of(file.cuts.begin(), file.cuts.end(), of_part) &&
      std::none_of(file.passes.begin(), file.passes.end(), of_part)) {
    made.missing.push_back("cut");
  }
  if (!assessed.after.thickness) made.missing.push_back("readings_after");
  if (!made.missing.empty()) return made;
  made.signs = SignsOfPart(file, part, assessed, edges, context).all();
  diagnosis::Signs signs;
  for (const JobSign& sign : made.signs) signs[sign.sign] = sign.value;
  made.found = diagnosis::diagnose(signs);
  return made;
}

}  // namespace

DiagnosisAdvice advise_diagnosis(const JobFile& file, const Assessment& assessment, const CuttingEdges& edges,
                                 const AssessContext& context) {
  DiagnosisAdvice advice{.job_id = file.job.id};
  for (std::size_t i = 0; i < file.parts.size() && i < assessment.parts.size(); ++i) {
    advice.parts.push_back(diagnosis_of(file, file.parts[i], assessment.parts[i], edges, context));
  }
  return advice;
}

}  // namespace brakewright::shop
