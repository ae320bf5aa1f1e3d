#include <algorithm>
#include <cmath>

#include "core/bench_sim/cut/circle.hpp"
#include "core/bench_sim/cut/cut.hpp"
#include "core/bench_sim/cut/finish.hpp"
#include "core/cutting/finish.hpp"
#include "core/diagnosis/spoilt_bench.hpp"

namespace brakewright::diagnosis {
namespace {

using bench_sim::Side;

constexpr double kShapeNose_mm = 4, kShapeFeed_mm = 0.15, kShapeStep_mm = 0.5;
constexpr int kShapeAngles = 120;
/// The large nose pushes along a longer arc; this brings its thrust down to that of a common one.
constexpr double kShapeThrust = 0.5;

/// Lowest place of a face as the spindle sees it.
double lowest_um(const bench_sim::SimPart& part, const bench_sim::Motion& motion, Side side, double to_radius_mm) {
  const auto circle = bench_sim::unit_circle(part.grid.angles);
  const double sign = sign_of(side);
  double lowest = 1e300;
  for (int ring = 0; ring < part.grid.rings; ring += 4) {
    const double radius = part.grid.radius_mm(ring);
    if (radius > to_radius_mm) break;
    for (int angle = 0; angle < part.grid.angles; ++angle) {
      const auto& to = circle[static_cast<std::size_t>(angle)];
      const double raise = motion.axial_um + radius * (motion.tilt.x_um_per_mm * to.x + motion.tilt.y_um_per_mm * to.y);
      lowest =
          std::min(lowest, sign * raise + static_cast<double>(part.face(side).height_um[part.grid.at(ring, angle)]));
    }
  }
  return lowest;
}

bench_sim::CuttingTool shape_tool(const SpoiltBench& bench, double tip_um) {
  return {.nose = {.radius_mm = kShapeNose_mm, .edge_radius_um = bench.edge_radius_um, .wear_mm = bench.wear_mm},
          .holder = chatter::Mode{.k_n_per_m = bench.holder_k_n_per_m, .zeta = 0.5, .fn_hz = 40},
          .tip_um = tip_um};
}

/// A strip of plain iron that one nose is fed over.
bench_sim::SimPart strip(int angles, int rings, double inner_radius_mm, double step_mm) {
  bench_sim::SimPart part;
  part.grid = {.angles = angles, .rings = rings, .inner_radius_mm = inner_radius_mm, .ring_step_mm = step_mm};
  part.nominal_thickness_mm = 25;
  part.outboard.height_um.assign(part.grid.cells(), 0);
  part.inboard.height_um.assign(part.grid.cells(), 0);
  part.hardness.assign(part.grid.cells(), 1);
  return part;
}

/// Integral of cos^2 along the arc in contact of a nose at a depth and a feed: what axial motion works on.
double arc_width_mm(double nose_mm, double depth_mm, double feed_mm) {
  const auto integral = [nose_mm](double x) {
    const double r = nose_mm;
    return (x * std::sqrt(r * r - x * x) + r * r * std::asin(x / r)) / (2 * r);
  };
  const double low = nose_mm - depth_mm;
  return integral(std::sqrt(nose_mm * nose_mm - low * low)) + integral(feed_mm / 2);
}

}  // namespace

CutShape cut_shape(const SpoiltBench& bench) {
  CutShape shape;
  shape.before = part_of_faults(bench.make, bench.faults, kShapeAngles, kShapeStep_mm);
  shape.after = shape.before;
  const bench_sim::Mounting mounting = mount_of(shape.before, bench.mount);
  shape.first = mounting.motion;
  const double reach_mm = std::sqrt(2 * kShapeNose_mm * 0.3);
  const double start = bench.make.inner_radius_mm - reach_mm;
  const double outer = bench.make.shape.band_outer_radius_mm;
  const double end = bench.lip_left ? outer - reach_mm / 2 : bench.make.outer_radius_mm + reach_mm;
  for (const Side side : bench_sim::kSides) {
    const std::size_t s = side == Side::outboard ? 0 : 1;
    shape.tip_um[s] = lowest_um(shape.before, shape.first, side, outer - 1) - bench.depth_um[s];
  }
  bench_sim::Cut cut(shape.after, {.material = {.thrust_ratio = kShapeThrust},
                                   .outboard = shape_tool(bench, shape.tip_um[0]),
                                   .inboard = shape_tool(bench, shape.tip_um[1]),
                                   .rpm = 300,
                                   .feed_mm_per_rev = kShapeFeed_mm,
                                   .start_radius_mm = start,
                                   .motion = shape.first});
  const int turns = static_cast<int>((end - start) / kShapeFeed_mm) + 1;
  for (int turn = 0; turn < turns; ++turn) {
    cut.set_motion(motion_at(mounting, turn));
    if (turn % 8 == 0) {
      const double back_um = bench.slide_um_per_mm * (turn * kShapeFeed_mm);
      cut.set_tip(Side::outboard, shape.tip_um[0] + back_um);
      cut.set_tip(Side::inboard, shape.tip_um[1] + back_um);
    }
    cut.advance(kShapeAngles);
  }
  cut.settle();
  shape.last = motion_at(mounting, turns);
  return shape;
}

CutFinish cut_finish(const SpoiltBench& bench) {
  constexpr int kAngles = 36;
  const double feed = bench.feed_mm_per_rev, step_mm = std::min(0.02, feed / 6);
  const double length_mm = std::max(0.8, 5 * feed), reach_mm = std::sqrt(2 * bench.nose_radius_mm * 0.08);
  const int rings = static_cast<int>((length_mm + 2 * reach_mm) / step_mm) + 1;
  bench_sim::SimPart part = strip(kAngles, rings, 100, step_mm);
  const bench_sim::RoundNose nose{
      .radius_mm = bench.nose_radius_mm, .edge_radius_um = bench.edge_radius_um, .wear_mm = bench.wear_mm};
  bench_sim::Cut cut(part, {.outboard = bench_sim::CuttingTool{.nose = nose, .tip_um = -80},
                            .rpm = 150,
                            .feed_mm_per_rev = feed,
                            .start_radius_mm = 100 - reach_mm});
  cut.advance(static_cast<int>((length_mm + 4 * reach_mm) / feed) * kAngles);
  cut.settle();
  const auto along = radial_finish(part.grid, part.outboard, 7, 100 + reach_mm, 100 + reach_mm + length_mm);
  return {
      .ra_um = along.ra_um, .rt_um = along.rt_um, .kinematic_ra_um = cutting::finish(feed, bench.nose_radius_mm).ra_um};
}

CutSong cut_song(const SpoiltBench& bench) {
  constexpr double kNose_mm = 0.8, kDepth_mm = 0.1, kForce_n_per_mm2 = 1160, kRpm = 200, kZeta = 0.006;
  constexpr double kStep_mm = 0.05;
  const double feed = std::clamp(bench.feed_mm_per_rev, 0.08, 0.1);
  const double width_mm = arc_width_mm(kNose_mm, kDepth_mm, feed);
  // The limit of one mode under two tools is k zeta (1 + zeta)/Kf.
  const chatter::Mode disc{
      .k_n_per_m = width_mm * 1e-3 * kForce_n_per_mm2 * 1e6 / (bench.over_limit * kZeta * (1 + kZeta)),
      .zeta = kZeta,
      .fn_hz = bench.waves_per_turn * kRpm / 60};
  const double reach_mm = std::sqrt(2 * kNose_mm * kDepth_mm);
  const int turns = static_cast<int>(reach_mm / feed) + 20;
  const int angles = static_cast<int>(8 * bench.waves_per_turn);
  bench_sim::SimPart part = strip(angles, static_cast<int>((turns * feed + reach_mm) / kStep_mm) + 2, 100, kStep_mm);
  const bench_sim::CuttingTool tool{.nose = {.radius_mm = kNose_mm, .edge_radius_um = 0, .wear_mm = bench.wear_mm},
                                    .tip_um = -1000 * kDepth_mm};
  bench_sim::Cut cut(part, {.material = {.kc11_n_per_mm2 = kForce_n_per_mm2, .mc = 0},
                            .outboard = tool,
                            .inboard = tool,
                            .disc = {disc},
                            .band_factor = bench.band_factor,
                            .rpm = kRpm,
                            .feed_mm_per_rev = feed,
                            .start_radius_mm = 100 - reach_mm});
  cut.knock_disc(40);
  cut.advance(turns * angles);
  const double swing_um = report_of(cut.trace(Side::outboard)).swing_um;
  cut.settle();
  const auto marks = face_marks(part.grid, part.outboard, cut.radius_mm() - reach_mm - 2 * feed);
  CutSong song{.swing_um = swing_um};
  if (marks) song.marks_per_turn = marks->per_turn, song.height_um = marks->height_um;
  return song;
}

}  // namespace brakewright::diagnosis
