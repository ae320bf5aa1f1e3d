#include "core/drum/bore_plan.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"
#include "core/want.hpp"

namespace brakewright::drum {
namespace {

/// Wall that stands for a diameter: half of what it is short of twice this much more than the largest.
constexpr double kWall_mm = 1000;

/// The wall that is left where the tool has opened the drum to a diameter.
double wall_at(double diameter_mm, const BorePlanInput& input) {
  return kWall_mm - (diameter_mm - input.first_touch_mm) / 2;
}

/// The planner counts travel from an inner to an outer radius: what a band is wider than that goes to the approach.
struct Ring {
  double outer_mm = 0;
  double inner_mm = 0;
  double approach_mm = 0;
};

Ring ring_of(const BorePlanInput& input) {
  want(input.diameter_mm, 50, 1500, "plan.diameter_mm", "a diameter from 50 to 1500 mm");
  want(input.first_touch_mm, 50, input.diameter_mm, "plan.first_touch_mm", "from 50 mm to the largest diameter");
  want(input.width_mm, 1, 1000, "plan.width_mm", "a width from 1 to 1000 mm");
  want(input.approach_mm, 0, 1000, "plan.approach_mm", "from 0 to 1000 mm");
  const double radius = input.diameter_mm / 2, ring = std::min(input.width_mm, radius / 2);
  return {.outer_mm = radius, .inner_mm = radius - ring, .approach_mm = input.approach_mm + input.width_mm - ring};
}

/// What plan() and foresee() ask alike.
template <class In>
In ring_input(const BorePlanInput& input) {
  const Ring ring = ring_of(input);
  In in;
  in.outer_radius_mm = ring.outer_mm;
  in.inner_radius_mm = ring.inner_mm;
  in.approach_mm = ring.approach_mm;
  in.start_min_mm = kWall_mm;
  if (input.machine_to_mm) in.machine_to_mm = std::max(0.0, wall_at(*input.machine_to_mm, input));
  in.speeds_rpm = input.speeds_rpm;
  in.feeds_mm_per_rev = input.feeds_mm_per_rev;
  in.dial_um_per_mark = input.dial_um_per_mark;
  in.nose_radius_mm = input.nose_radius_mm;
  in.max_speed_m_per_min = input.max_speed_m_per_min;
  in.rough_max_um = input.rough_max_um;
  in.finish_min_um = input.finish_min_um;
  in.finish_max_um = input.finish_max_um;
  in.ra_target_um = input.ra_target_um;
  in.ra_factor = input.ra_factor;
  return in;
}

/// A warning of the wall in the terms of the diameter.
cutting::PassWarning in_diameters(cutting::PassWarning warning, const ForeseenBorePass& pass,
                                  const BorePlanInput& input, const BoreOutlook& outlook) {
  warning.side.clear();
  const std::string left = mm_text(pass.diameter_after_mm) + " mm would be reached, ";
  if (warning.code == "under_discard") {
    warning.code = "over_discard";
    warning.text = left + "at or over the discard diameter of " + mm_text(*outlook.discard_mm) + " mm";
  } else if (warning.code == "under_machine_to") {
    warning.code = "over_machine_to";
    warning.text = left + mm_text(pass.diameter_after_mm - *input.machine_to_mm) + " mm over machine-to (" +
                   mm_text(*input.machine_to_mm) + " mm)";
  } else if (warning.code == "near_machine_to") {
    warning.text = left + "with a standard uncertainty of " + um_text(pass.u_diameter_after_um) +
                   " um: " + percent_text(pass.p_within_machine_to.value_or(0)) + " that it is within machine-to (" +
                   mm_text(*input.machine_to_mm) + " mm), and " + percent_text(outlook.confidence) + " is wanted";
  }
  const std::string edge = "at the outer edge";
  if (const auto at = warning.text.find(edge); at != std::string::npos) {
    warning.text.replace(at, edge.size(), "at the bore");
  }
  return warning;
}

}  // namespace

BorePlan plan_bore(const BorePlanInput& input) {
  auto in = ring_input<cutting::PlanInput>(input);
  in.needed_outboard_um = input.needed_um;
  cutting::Plan made;
  try {
    made = cutting::plan(in);
  } catch (const InputError& error) {
    if (error.field() == "machine_to_mm") {
      throw InputError(error.code(), "limits.machine_to.value_mm",
                       "the cut would leave a larger diameter than the drum may be turned to");
    }
    const std::string field = error.field() == "needed_um.outboard" ? "plan.needed_um" : "plan." + error.field();
    throw InputError(error.code(), field, error.what());
  }
  BorePlan plan{.passes = {}, .time_s = made.time_s, .final_mm = input.first_touch_mm};
  for (const cutting::Pass& pass : made.passes) {
    const double depth = static_cast<double>(pass.outboard_marks) * input.dial_um_per_mark;
    plan.final_mm += 2 * depth / 1000;
    plan.passes.push_back({.marks = pass.outboard_marks,
                           .depth_on_radius_um = depth,
                           .change_on_diameter_um = 2 * depth,
                           .diameter_after_mm = plan.final_mm,
                           .rpm = pass.rpm,
                           .feed_mm_per_rev = pass.feed_mm_per_rev,
                           .time_s = pass.time_s,
                           .ra_um = pass.ra_um,
                           .surface_speed_m_per_min = pass.surface_speed_m_per_min});
  }
  return plan;
}

BoreForesight foresee_bore(const BorePlanInput& input, const BoreOutlook& outlook) {
  auto in = ring_input<cutting::ForeseeInput>(input);
  in.u_start_min_um = outlook.u_diameter_um / 2;
  if (outlook.discard_mm) in.discard_mm = std::max(0.0, wall_at(*outlook.discard_mm, input));
  in.dial_sd_um = outlook.dial_sd_um;
  in.confidence = outlook.confidence;
  for (const BoreSetting& pass : outlook.passes) in.passes.push_back({pass.marks, 0, pass.rpm, pass.feed_mm_per_rev});
  const cutting::Foresight seen = cutting::foresee(in);
  BoreForesight answer{.passes = {}, .time_s = seen.time_s, .final_mm = input.diameter_mm, .warnings = {}};
  for (std::size_t k = 0; k < seen.passes.size(); ++k) {
    const cutting::ForeseenPass& pass = seen.passes[k];
    const double depth = static_cast<double>(outlook.passes[k].marks) * input.dial_um_per_mark;
    // Until a pass reaches it, the largest diameter stays what it was.
    answer.final_mm = std::max(input.diameter_mm, input.first_touch_mm + 2 * (kWall_mm - pass.thickness_after_mm));
    answer.passes.push_back({.time_s = pass.time_s,
                             .surface_speed_m_per_min = pass.surface_speed_m_per_min,
                             .ra_um = pass.ra_um,
                             .ra_low_um = pass.ra_low_um,
                             .ra_high_um = pass.ra_high_um,
                             .force = pass.outboard,
                             .power_w = pass.power_w,
                             .depth_on_radius_um = depth,
                             .change_on_diameter_um = 2 * depth,
                             .diameter_after_mm = answer.final_mm,
                             .u_diameter_after_um = 2 * pass.u_thickness_after_um,
                             .p_within_machine_to = pass.p_over_machine_to});
  }
  for (const cutting::PassWarning& warning : seen.warnings) {
    // The last pass in a drum is lighter than one on a disc: by its own rule it cuts.
    const bool by_the_rule = answer.passes[warning.pass].depth_on_radius_um >= input.finish_min_um;
    if (warning.code == "rubbing" && by_the_rule) continue;
    answer.warnings.push_back(in_diameters(warning, answer.passes[warning.pass], input, outlook));
  }
  return answer;
}

double bore_cut_length_m(double diameter_mm, double width_mm, double feed_mm_per_rev) {
  if (diameter_mm <= 0 || width_mm <= 0 || feed_mm_per_rev <= 0) return 0;
  return std::numbers::pi * diameter_mm * width_mm / feed_mm_per_rev / 1000;
}

}  // namespace brakewright::drum
