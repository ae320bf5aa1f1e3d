#include "core/bench_sim/part/part.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/degree.hpp"
#include "core/input_error.hpp"

namespace brakewright::bench_sim {
namespace {

double sum_at(const std::vector<Harmonic>& waves, double angle_deg) {
  double sum = 0;
  for (const Harmonic& wave : waves) {
    sum += wave.amplitude_um * std::cos((wave.order * angle_deg - wave.phase_deg) * kRadPerDeg);
  }
  return sum;
}

/// 1 in the middle, 0 from half the width on.
double raised_cosine(double distance_mm, double width_mm) {
  if (2 * std::abs(distance_mm) >= width_mm) return 0;
  return 0.5 * (1 + std::cos(2 * std::numbers::pi * distance_mm / width_mm));
}

double groove_um(const std::vector<Groove>& grooves, Side side, double radius_mm) {
  double deepest = 0;
  for (const Groove& groove : grooves) {
    if (groove.side != side) continue;
    deepest = std::max(deepest, groove.depth_um * raised_cosine(radius_mm - groove.radius_mm, groove.width_mm));
  }
  return deepest;
}

/// What a face has at each radius whatever the angle.
std::vector<double> profile_um(const SimPart& part, const PartFaults& faults, Side side) {
  const PartShape& shape = part.shape;
  const double middle = (shape.band_inner_radius_mm + shape.band_outer_radius_mm) / 2;
  const double width = shape.band_outer_radius_mm - shape.band_inner_radius_mm;
  std::vector<double> profile(static_cast<std::size_t>(part.grid.rings));
  for (int r = 0; r < part.grid.rings; ++r) {
    const double radius = part.grid.radius_mm(r);
    double height = faults.taper_um.value_or(0) / 2 * (radius - middle) / width;
    if (faults.grooves) height -= groove_um(*faults.grooves, side, radius);
    if (faults.lip && radius > shape.band_outer_radius_mm) {
      height += side == Side::outboard ? faults.lip->outboard_um : faults.lip->inboard_um;
    }
    profile[static_cast<std::size_t>(r)] = height;
  }
  return profile;
}

void lay_face(SimPart& part, const PartFaults& faults, Side side, const Tilt& wobble) {
  const FaceGrid& grid = part.grid;
  const std::vector<double> profile = profile_um(part, faults, side);
  const double sign = sign_of(side);
  std::vector<double> wave(static_cast<std::size_t>(grid.angles)), lean(wave.size());
  for (std::size_t a = 0; a < wave.size(); ++a) {
    const double angle = grid.angle_deg(static_cast<int>(a));
    if (faults.variation) {
      const double outboard = faults.variation->outboard_share;
      wave[a] = (side == Side::outboard ? outboard : 1 - outboard) * sum_at(faults.variation->waves, angle);
    }
    lean[a] = sign * tilt_um(wobble, 1, angle);
  }
  auto& heights = part.face(side).height_um;
  heights.resize(grid.cells());
  for (int r = 0; r < grid.rings; ++r) {
    const double radius = grid.radius_mm(r), level = profile[static_cast<std::size_t>(r)];
    float* const ring = heights.data() + grid.at(r, 0);
    for (std::size_t a = 0; a < wave.size(); ++a) ring[a] = stored_um(level + wave[a] + radius * lean[a]);
  }
}

void raise_spot(SimPart& part, const HardSpot& spot) {
  const FaceGrid& grid = part.grid;
  const double reach = spot.diameter_mm / 2;
  for (int r = 0; r < grid.rings; ++r) {
    const double radius = grid.radius_mm(r);
    if (std::abs(radius - spot.radius_mm) >= reach) continue;
    // No cell of this ring further round than this is within reach.
    const double widest_deg = radius > reach ? std::asin(reach / radius) / kRadPerDeg : 180;
    const int first = static_cast<int>(std::floor((spot.angle_deg - widest_deg) * grid.angles / 360));
    const int last = first + static_cast<int>(std::ceil(2 * widest_deg * grid.angles / 360)) + 1;
    for (int step = first; step <= std::min(last, first + grid.angles - 1); ++step) {
      const int angle = (step + grid.angles) % grid.angles;
      const double apart = (grid.angle_deg(angle) - spot.angle_deg) * kRadPerDeg;
      const double distance = std::hypot(radius * std::cos(apart) - spot.radius_mm, radius * std::sin(apart));
      const double part_of_it = raised_cosine(distance, spot.diameter_mm);
      const std::size_t at = grid.at(r, angle);
      const float rise = stored_um(spot.height_um / 2 * part_of_it);
      part.outboard.height_um[at] += rise;
      part.inboard.height_um[at] += rise;
      part.hardness[at] = std::max(part.hardness[at], stored_um(1 + (spot.hardness - 1) * part_of_it));
    }
  }
}

FaceGrid grid_of(const PartMake& make, int angles, double ring_step_mm) {
  FaceGrid grid{.angles = angles, .rings = 2, .inner_radius_mm = make.inner_radius_mm, .ring_step_mm = ring_step_mm};
  check(grid);
  const double steps = std::floor((make.outer_radius_mm - make.inner_radius_mm) / ring_step_mm + 1e-9);
  grid.rings = static_cast<int>(steps) + 1;
  check(grid);
  return grid;
}

}  // namespace

SimPart part_of_faults(const PartMake& make, const PartFaults& faults, int angles, double ring_step_mm) {
  check(make);
  if (!faults.thickness_mm) throw InputError("missing", "faults.thickness_mm", "must be given");
  check(faults, make);
  SimPart part;
  part.grid = grid_of(make, angles, ring_step_mm);
  part.nominal_thickness_mm = *faults.thickness_mm;
  part.shape = make.shape;
  const double difference = faults.cheek_difference_mm.value_or(0);
  part.shape.outboard_cheek_mm = (part.nominal_thickness_mm - make.shape.vent_mm + difference) / 2;
  part.shape.inboard_cheek_mm = part.shape.outboard_cheek_mm - difference;
  part.limits = make.limits;
  const double middle = (make.shape.band_inner_radius_mm + make.shape.band_outer_radius_mm) / 2;
  const Lean wobble = faults.wobble.value_or(Lean{}), seat = faults.seat.value_or(Lean{});
  part.seat_tilt = tilt_of(seat.runout_um, seat_reach_mm(make.shape), seat.high_deg);
  part.hardness.assign(part.grid.cells(), 1);
  const Tilt lean = tilt_of(wobble.runout_um, middle, wobble.high_deg);
  lay_face(part, faults, Side::outboard, lean);
  lay_face(part, faults, Side::inboard, lean);
  if (faults.hard_spots) {
    for (const HardSpot& spot : *faults.hard_spots) raise_spot(part, spot);
  }
  return part;
}

DrawnPart part_of_seed(const PartWish& wish) {
  const PartMake make = wish.make ? *wish.make : make_of_seed(wish.seed);
  check(make);
  DrawnPart drawn;
  drawn.truth = faults_of_seed(wish.seed, wish.difficulty, wish.faults, make);
  drawn.part = part_of_faults(make, drawn.truth, wish.angles, wish.ring_step_mm);
  return drawn;
}

}  // namespace brakewright::bench_sim
