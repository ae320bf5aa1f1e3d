#include "core/bench_sim/cut/check.hpp"

#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kLeastRingsOfNose = 4;
constexpr std::size_t kMostModes = 12;

void check_tool(const SimPart& part, const CuttingTool& tool, const std::string& path, double step_s) {
  check(tool.nose, path + ".nose.");
  if (!(tool.nose.radius_mm >= kLeastRingsOfNose * part.grid.ring_step_mm)) {
    throw InputError("out_of_range", path + ".nose.radius_mm", "must be four of the grid's ring steps at least");
  }
  want_tip(tool.tip_um, path + ".tip_um");
  if (!tool.holder) return;
  chatter::check(*tool.holder, path + ".holder.");
  check_followed({&*tool.holder, 1}, step_s, "rpm");
}

}  // namespace

void want_feed(double feed_mm_per_rev) { want(feed_mm_per_rev, 0, 5, "feed_mm_per_rev", "must be from 0 to 5 mm"); }

void want_start(double radius_mm) { want(radius_mm, 0, 2000, "start_radius_mm", "must be from 0 to 2000 mm"); }

void want_tip(double tip_um, const std::string& field) {
  want(tip_um, -15000, 15000, field, "must be from -15000 to 15000 um");
}

void check_motion(const Motion& motion) {
  want(motion.axial_um, -15000, 15000, "motion.axial_um", "must be from -15000 to 15000 um");
  want(motion.tilt.x_um_per_mm, -100, 100, "motion.tilt.x_um_per_mm", "must be from -100 to 100 um at 1 mm");
  want(motion.tilt.y_um_per_mm, -100, 100, "motion.tilt.y_um_per_mm", "must be from -100 to 100 um at 1 mm");
  want(motion.offset_x_mm, -1, 1, "motion.offset_x_mm", "must be from -1 to 1 mm");
  want(motion.offset_y_mm, -1, 1, "motion.offset_y_mm", "must be from -1 to 1 mm");
}

SimPart& checked(SimPart& part, const CutSetup& setup) {
  check(part);
  check(setup.material, "material.");
  want(setup.rpm, 1, 10000, "rpm", "must be from 1 to 10000 turns a minute");
  want_feed(setup.feed_mm_per_rev);
  want_start(setup.start_radius_mm);
  check_motion(setup.motion);
  if (!setup.outboard && !setup.inboard)
    throw InputError("missing", "outboard", "must have a tool on one face at least");
  const double step_s = 60 / setup.rpm / part.grid.angles;
  if (setup.outboard) check_tool(part, *setup.outboard, "outboard", step_s);
  if (setup.inboard) check_tool(part, *setup.inboard, "inboard", step_s);
  want(static_cast<double>(setup.disc.size()), 0, kMostModes, "disc", "must be 12 modes at most");
  for (std::size_t i = 0; i < setup.disc.size(); ++i) {
    chatter::check(setup.disc[i], "disc[" + std::to_string(i) + "].");
  }
  check_followed(setup.disc, step_s, "rpm");
  static_cast<void>(with_band(setup.disc, setup.band_factor));
  return part;
}

}  // namespace brakewright::bench_sim
