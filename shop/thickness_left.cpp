#include "shop/thickness_left.hpp"

#include <cmath>

#include "core/input_error.hpp"
#include "core/thickness/thickness.hpp"
#include "shop/assess_inputs.hpp"
#include "shop/plans.hpp"

namespace brakewright::shop {
namespace {

/// Nothing that is drawn is used here.
constexpr std::size_t kFewestDraws = 100;

std::optional<ThicknessLeft> as_read(const JobFile& file, const Part& part, Stage stage, const AssessContext& context,
                                     std::vector<Advice>& advice) {
  ThicknessInput input;
  input.readings = thickness_points(file, part, stage, context);
  if (input.readings.empty()) return std::nullopt;
  input.micrometer = micrometer_of(file, part.id, stage, context);
  input.part_temperature_c = temperature_of(file, part.id, stage);
  input.draws = kFewestDraws;
  try {
    const Thickness found = reduce_thickness(input);
    return ThicknessLeft{
        .mean_mm = found.mean_mm,
        .min_mm = found.min_mm,
        .u_mm = found.u_min_mm,
        .variation_um = found.variation_mm * 1000,
        .basis = stage == Stage::before ? "mean as read before the cut" : "mean as read after the cut"};
  } catch (const InputError& refusal) {
    advice.push_back({"thickness_not_counted", std::string("Thickness readings cannot be counted with: ") +
                                                   refusal.what() + ". Take back or correct the reading."});
    return std::nullopt;
  }
}

/// Whether the dials were turned as the plan says, as far as that is on record.
bool is_kept(const CutPlan& plan, const JobFile& file) {
  std::int64_t outboard = 0, inboard = 0;
  for (const PlannedPass& pass : settings_of(plan.passes)) {
    outboard -= pass.outboard_marks;
    inboard -= pass.inboard_marks;
  }
  bool cut = false;
  for (const Cut& one : file.cuts) {
    if (one.part_id != plan.part_id) continue;
    cut = true;
    outboard += one.outboard_marks;
    inboard += one.inboard_marks;
  }
  return !cut || (outboard == 0 && inboard == 0);
}

/// Depth that the dials took.
std::optional<double> taken_mm(const JobFile& file, const Part& part) {
  std::optional<double> taken;
  for (const Cut& cut : file.cuts) {
    if (cut.part_id != part.id) continue;
    const double inboard_um = cut.dial_inboard_um_per_mark.value_or(cut.dial_um_per_mark);
    taken = taken.value_or(0) + (static_cast<double>(cut.outboard_marks) * cut.dial_um_per_mark +
                                 static_cast<double>(cut.inboard_marks) * inboard_um) /
                                    1000;
  }
  return taken;
}

std::optional<ThicknessLeft> as_planned(const JobFile& file, const Part& part, const ThicknessLeft& before) {
  const CutPlan* plan = nullptr;
  for (const CutPlan& settled : file.cut_plans) {
    if (settled.part_id == part.id) plan = &settled;
  }
  if (plan != nullptr && !plan->passes.empty() && is_kept(*plan, file)) {
    ThicknessLeft left{.mean_mm = plan->final_mm, .min_mm = plan->final_mm};
    if (const auto u_um = plan->passes.back().u_thickness_after_um) left.u_mm = *u_um / 1000;
    left.basis = "as planned: what the settled passes leave";
    return left;
  }
  const auto taken = taken_mm(file, part);
  if (!taken) return std::nullopt;
  // The dials count from first touch, which lies no lower than the thickest point and less than as much again over it.
  const double variation_mm = before.variation_um.value_or(0) / 1000;
  const double left_mm = before.min_mm + variation_mm - *taken;
  return ThicknessLeft{.mean_mm = left_mm,
                       .min_mm = left_mm,
                       .u_mm = std::hypot(before.u_mm.value_or(0), variation_mm / std::sqrt(3.0)),
                       .basis = "the thickest point before the cut less what the dials were turned by"};
}

}  // namespace

Left thickness_left(const JobFile& file, const Part& part, const AssessContext& context, std::vector<Advice>& advice) {
  Left left;
  left.before = as_read(file, part, Stage::before, context, advice);
  left.after = as_read(file, part, Stage::after, context, advice);
  if (!left.after && left.before) left.after = as_planned(file, part, *left.before);
  return left;
}

std::optional<double> cheek_of(const JobFile& file, const Uuid& part_id) {
  double sum_mm = 0;
  int count = 0;
  for (const Quantity cheek : {Quantity::cheek_outboard, Quantity::cheek_inboard}) {
    for (const Reading& reading : current(file, part_id, Stage::before, cheek)) {
      sum_mm += reading.value.value.mm();
      ++count;
    }
  }
  return count > 0 ? std::optional(sum_mm / count) : std::nullopt;
}

}  // namespace brakewright::shop
