#include "core/bench_sim/cut/cut.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "core/bench_sim/cut/check.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr int kSpareGroups = 3;
constexpr double kRingMargin = 0.5;
constexpr double kTipMargin_um = 2;

std::span<const chatter::Mode> holder_of(const CuttingTool& tool) {
  if (!tool.holder) return {};
  return {&*tool.holder, 1};
}

double offset_mm(const Motion& motion) {
  return std::sqrt(motion.offset_x_mm * motion.offset_x_mm + motion.offset_y_mm * motion.offset_y_mm);
}

}  // namespace

Cut::Cut(SimPart& part, CutSetup setup)
    : part_(checked(part, setup)),
      setup_(std::move(setup)),
      circle_(unit_circle(part.grid.angles)),
      strip_(part, 1),
      disc_(with_band(setup_.disc, setup_.band_factor), step_s()),
      from_radius_mm_(setup_.start_radius_mm) {
  const double step_um = part.grid.ring_step_mm * 1000;
  for (const Side side : kSides) {
    OneSide& of = sides_[index(side)];
    of.tool = side == Side::outboard ? setup_.outboard : setup_.inboard;
    if (!of.tool) continue;
    of.holder = Vibration(holder_of(*of.tool), step_s());
    of.pass = {.radius_um = static_cast<float>(of.tool->nose.radius_mm * 1000),
               .step_um = static_cast<float>(step_um),
               .exponent = static_cast<float>(1 - setup_.material.mc),
               .least_chip_um = static_cast<float>(least_chip_um(of.tool->nose))};
    of.newtons = setup_.material.kc11_n_per_mm2 * setup_.material.thrust_ratio * wear_force_factor(of.tool->nose) *
                 part.grid.ring_step_mm;
    const std::vector<float> none(static_cast<std::size_t>(part.grid.angles));
    of.trace = {.thrust_n = none, .give_um = none, .thickest_um = none, .taken_um = none};
  }
  make_strip();
}

double Cut::widest_nose_mm() const {
  double widest = 0;
  for (const OneSide& of : sides_) {
    if (of.tool) widest = std::max(widest, of.tool->nose.radius_mm);
  }
  return widest;
}

void Cut::make_strip() {
  const double width_mm = 2 * (widest_nose_mm() + offset_mm(setup_.motion));
  const int wanted = static_cast<int>(width_mm / part_.grid.ring_step_mm) / kLanes + kSpareGroups;
  strip_ = CutStrip(part_, std::min(wanted, part_.grid.rings / kLanes + 1));
  for (OneSide& of : sides_) of.window = {};
}

double Cut::radius_mm() const {
  return from_radius_mm_ + setup_.feed_mm_per_rev * static_cast<double>(steps_since_) / part_.grid.angles;
}

double Cut::turns() const { return static_cast<double>(steps_) / part_.grid.angles; }

double Cut::ring_at(double radius_mm) const {
  return (radius_mm - part_.grid.inner_radius_mm) / part_.grid.ring_step_mm;
}

void Cut::hold_rings(double radius_mm) {
  const double reach = widest_nose_mm() / part_.grid.ring_step_mm + kRingMargin, centre = ring_at(radius_mm);
  const double lowest = std::max(0.0, std::floor(centre - reach));
  const double highest = std::min(part_.grid.rings - 1.0, std::ceil(centre + reach));
  if (lowest > highest) return;
  const int from = static_cast<int>(lowest) / kLanes, to = static_cast<int>(highest) / kLanes + 1;
  if (from >= strip_.from() && to <= strip_.to()) return;
  const bool goes_on = from >= strip_.from() && from <= strip_.to();
  strip_.hold(from, to);
  for (OneSide& of : sides_) {
    of.window.from = std::max(of.window.from, strip_.from());
    if (!goes_on || of.window.to <= of.window.from) of.window = {};
  }
}

void Cut::widen(OneSide& of, Side side, double centre, double tip_um, bool anew) {
  Window next{.from = strip_.to(),
              .to = strip_.from(),
              .centre_from = centre - kRingMargin,
              .centre_to = centre + kRingMargin,
              .tip_from_um = tip_um - kTipMargin_um};
  const double radius_um = of.tool->nose.radius_mm * 1000, step_um = part_.grid.ring_step_mm * 1000;
  for (int group = strip_.from(); group < strip_.to(); ++group) {
    const float* tops = strip_.top(side, group, sector_);
    for (int lane = 0; lane < kLanes; ++lane) {
      const int ring = group * kLanes + lane;
      const double off_um = std::max({0.0, next.centre_from - ring, ring - next.centre_to}) * step_um;
      if (off_um >= radius_um) continue;
      if (static_cast<double>(tops[lane]) <= next.tip_from_um + nose_rise_um(radius_um, off_um)) continue;
      next.from = std::min(next.from, group);
      next.to = group + 1;
    }
  }
  if (!anew && of.window.to > of.window.from) {
    next.from = std::min(next.from, of.window.from);
    next.to = std::max(next.to, of.window.to);
  }
  // every cell of these is gone over until the sector ends, and raises its top again
  for (int group = next.from; anew && group < next.to; ++group) {
    float* tops = strip_.top(side, group, sector_);
    std::fill(tops, tops + kLanes, CutStrip::kNoIron);
  }
  of.window = next;
}

double Cut::cut_side(Side side, double radius_mm, double lean_um) {
  OneSide& of = sides_[index(side)];
  if (!of.tool) return 0;
  const double give_um = of.holder.foreseen_um() - sign_of(side) * disc_.foreseen_um();
  const double tip_um = of.tool->tip_um + give_um - sign_of(side) * lean_um;
  const double centre = ring_at(radius_mm);
  const bool within =
      centre >= of.window.centre_from && centre <= of.window.centre_to && tip_um >= of.window.tip_from_um;
  if (begins_sector_ || !within) widen(of, side, centre, tip_um, begins_sector_);
  of.pass.centre = centre;
  of.pass.tip_um = static_cast<float>(tip_um);
  const NoseTake take = take_row(strip_.row(side, angle_), of.window.from, of.window.to, of.pass);
  const double thrust_n = take.pressure * of.newtons;
  const double cell_mm = part_.grid.ring_step_mm * 2 * std::numbers::pi / part_.grid.angles;  // by the radius, its area
  of.removed_mm3 += (take.taken_um * radius_mm + take.moment_um2 * 1e-3) * 1e-3 * cell_mm;
  const auto at = static_cast<std::size_t>(angle_);
  of.trace.thrust_n[at] = static_cast<float>(thrust_n);
  of.trace.give_um[at] = static_cast<float>(give_um);
  of.trace.thickest_um[at] = take.thickest_um;
  of.trace.taken_um[at] = static_cast<float>(take.taken_um);
  return thrust_n;
}

void Cut::step() {
  const UnitVector& to = circle_[static_cast<std::size_t>(angle_)];
  const Motion& motion = setup_.motion;
  const double radius = radius_mm() - motion.offset_x_mm * to.x - motion.offset_y_mm * to.y;
  hold_rings(radius);
  const int sector = strip_.sector_of(angle_);
  begins_sector_ = sector != sector_;
  sector_ = sector;
  const double lean_um = motion.axial_um + radius * (motion.tilt.x_um_per_mm * to.x + motion.tilt.y_um_per_mm * to.y);
  const double outboard_n = cut_side(Side::outboard, radius, lean_um);
  const double inboard_n = cut_side(Side::inboard, radius, lean_um);
  disc_.advance(inboard_n - outboard_n);
  sides_[0].holder.advance(outboard_n);
  sides_[1].holder.advance(inboard_n);
  angle_ = angle_ + 1 == part_.grid.angles ? 0 : angle_ + 1;
  ++steps_;
  ++steps_since_;
}

void Cut::advance(int angles) {
  want(angles, 0, 100e6, "angles", "must be from 0 to 100000000");
  for (int i = 0; i < angles; ++i) step();
}

void Cut::set_rpm(double rpm) {
  CutSetup wanted = setup_;
  wanted.rpm = rpm;
  checked(part_, wanted);
  setup_.rpm = rpm;
  disc_.set_step(step_s());
  for (OneSide& of : sides_) of.holder.set_step(step_s());
}

void Cut::set_feed(double feed_mm_per_rev) {
  want_feed(feed_mm_per_rev);
  set_radius(radius_mm());
  setup_.feed_mm_per_rev = feed_mm_per_rev;
}

void Cut::set_radius(double radius_mm) {
  want_start(radius_mm);
  from_radius_mm_ = radius_mm;
  steps_since_ = 0;
}

void Cut::set_tip(Side side, double tip_um) {
  const std::string path = side == Side::outboard ? "outboard" : "inboard";
  OneSide& of = sides_[index(side)];
  if (!of.tool) throw InputError("missing", path, "must have a tool to be set");
  want_tip(tip_um, path + ".tip_um");
  of.tool->tip_um = tip_um;
  (side == Side::outboard ? setup_.outboard : setup_.inboard)->tip_um = tip_um;
}

void Cut::set_motion(const Motion& motion) {
  check_motion(motion);
  const bool wider = offset_mm(motion) > offset_mm(setup_.motion);
  if (wider) settle();
  setup_.motion = motion;
  if (wider) make_strip();
}

}  // namespace brakewright::bench_sim
