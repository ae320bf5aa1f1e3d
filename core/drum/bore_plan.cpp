#include "core/drum/bore_plan.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"

namespace brakewright::drum {
namespace {

void want(double value, double low, double high, const char* field, const char* accepted) {
  if (!(value >= low && value <= high)) throw InputError("out_of_range", field, accepted);
}

/// Wall that stands for a diameter: half of what it is short of twice this much more than the largest.
constexpr double kWall_mm = 1000;

}  // namespace

BorePlan plan_bore(const BorePlanInput& input) {
  want(input.diameter_mm, 50, 1500, "plan.diameter_mm", "a diameter from 50 to 1500 mm");
  want(input.first_touch_mm, 50, input.diameter_mm, "plan.first_touch_mm", "from 50 mm to the largest diameter");
  want(input.width_mm, 1, 1000, "plan.width_mm", "a width from 1 to 1000 mm");
  want(input.approach_mm, 0, 1000, "plan.approach_mm", "from 0 to 1000 mm");
  // The planner counts travel from an inner to an outer radius: what a band is wider than that goes to the approach.
  const double radius = input.diameter_mm / 2, ring = std::min(input.width_mm, radius / 2);
  cutting::PlanInput in;
  in.outer_radius_mm = radius;
  in.inner_radius_mm = radius - ring;
  in.approach_mm = input.approach_mm + input.width_mm - ring;
  in.needed_outboard_um = input.needed_um;
  in.start_min_mm = kWall_mm;
  if (input.machine_to_mm) {
    in.machine_to_mm = std::max(0.0, kWall_mm - (*input.machine_to_mm - input.first_touch_mm) / 2);
  }
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

}  // namespace brakewright::drum
