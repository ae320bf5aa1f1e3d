#include "core/bench_sim/mount/mounting.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/bench_sim/part/streams.hpp"
#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kLongestCut_turns = 20'000;

void check(const MountInput& input) {
  const MountFaults& faults = input.faults;
  constexpr double kAnyTurn = 36000;
  want(input.turn_deg, -kAnyTurn, kAnyTurn, "turn_deg", "must be from -36000 to 36000");
  want(faults.arbor.shoulder_runout_um, 0, 1000, "faults.arbor.shoulder_runout_um", "must be from 0 to 1000");
  want(faults.arbor.shoulder_radius_mm, 1, 500, "faults.arbor.shoulder_radius_mm", "must be from 1 to 500");
  want(faults.arbor.high_deg, -kAnyTurn, kAnyTurn, "faults.arbor.high_deg", "must be from -36000 to 36000");
  want(faults.bore_offset_mm, 0, 5, "faults.bore_offset_mm", "must be from 0 to 5");
  want(faults.bore_offset_deg, -kAnyTurn, kAnyTurn, "faults.bore_offset_deg", "must be from -36000 to 36000");
  want(faults.seating_sd_um, 0, 500, "faults.seating_sd_um", "must be from 0 to 500");
  if (input.number >> 40 != 0) throw InputError("out_of_range", "number", "must be below 2^40");
  if (!faults.nut) return;
  want(faults.nut->axial_sd_um, 0, 500, "faults.nut.axial_sd_um", "must be from 0 to 500");
  want(faults.nut->tilt_sd_um, 0, 500, "faults.nut.tilt_sd_um", "must be from 0 to 500");
  want(faults.nut->mean_turns, 1, 1e6, "faults.nut.mean_turns", "must be from 1 to 1000000");
}

/// Of all the dirt, in the part's frame.
Rest rest_of(const MountInput& input, double seat_radius_mm) {
  std::vector<Bump> bumps;
  for (const Dirt& dirt : input.faults.dirt) {
    bumps.push_back(dirt.bump);
    if (!dirt.on_the_part) bumps.back().angle_deg -= input.turn_deg;
  }
  try {
    return rest_on(bumps, seat_radius_mm);
  } catch (const InputError& error) {
    if (error.field() == "seat_radius_mm") throw;
    const std::string_view whole = "bumps";
    std::string field = "faults.dirt" + error.field().substr(whole.size());
    const auto dot = field.rfind('.');
    if (error.field() != whole) field.insert(dot, ".bump");
    throw InputError(error.code(), field, error.what());
  }
}

Tilt scattered(Random& random, double sd_um) {
  const double x = random.normal() * sd_um / kScatterRadius_mm;
  return {.x_um_per_mm = x, .y_um_per_mm = random.normal() * sd_um / kScatterRadius_mm};
}

std::vector<Slip> slips_of(const LooseNut& nut, const Motion& start, Random& random) {
  std::vector<Slip> slips;
  Slip now{.at_turn = 0, .motion = start};
  while (true) {
    now.at_turn -= nut.mean_turns * std::log(1 - random.uniform());
    if (now.at_turn > kLongestCut_turns) return slips;
    now.motion.axial_um += nut.axial_sd_um * random.normal();
    now.motion.tilt = now.motion.tilt + scattered(random, nut.tilt_sd_um);
    slips.push_back(now);
  }
}

/// From the bore's axis, where the bench sees radius and angle from the spindle's.
struct Place {
  double radius_mm = 0;
  double angle_deg = 0;
};

Place place_on(const Motion& motion, double radius_mm, double angle_deg) {
  if (motion.offset_x_mm == 0 && motion.offset_y_mm == 0) return {radius_mm, angle_deg};
  const double x = radius_mm * std::cos(angle_deg * kRadPerDeg) - motion.offset_x_mm;
  const double y = radius_mm * std::sin(angle_deg * kRadPerDeg) - motion.offset_y_mm;
  return {std::hypot(x, y), std::atan2(y, x) / kRadPerDeg};
}

}  // namespace

Mounting mount_of(const SimPart& part, const MountInput& input) {
  check(input);
  const MountFaults& faults = input.faults;
  const Rest rest = rest_of(input, input.seat_radius_mm.value_or(seat_reach_mm(part.shape)));
  Random seating(input.seed, stream_of(Purpose::mounting, input.number));
  const Tilt of_spindle =
      tilt_of(faults.arbor.shoulder_runout_um, faults.arbor.shoulder_radius_mm, faults.arbor.high_deg) +
      scattered(seating, faults.seating_sd_um);
  const double offset_at = (faults.bore_offset_deg - input.turn_deg) * kRadPerDeg;
  Mounting mounting;
  mounting.turn_deg = input.turn_deg;
  mounting.motion = {.axial_um = rest.centre_um,
                     .tilt = part.seat_tilt + rest.tilt + turned(of_spindle, -input.turn_deg),
                     .offset_x_mm = faults.bore_offset_mm * std::cos(offset_at),
                     .offset_y_mm = faults.bore_offset_mm * std::sin(offset_at)};
  if (faults.nut) {
    Random random(input.seed, stream_of(Purpose::slips, input.number));
    mounting.slips = slips_of(*faults.nut, mounting.motion, random);
  }
  return mounting;
}

const Motion& motion_at(const Mounting& mounting, double turns) {
  const auto next = std::upper_bound(mounting.slips.begin(), mounting.slips.end(), turns,
                                     [](double turn, const Slip& slip) { return turn < slip.at_turn; });
  return next == mounting.slips.begin() ? mounting.motion : std::prev(next)->motion;
}

double bench_height_um(const SimPart& part, const Motion& motion, Side side, double radius_mm, double angle_deg) {
  const FaceGrid& grid = part.grid;
  if (!(radius_mm >= grid.inner_radius_mm && radius_mm <= grid.outer_radius_mm())) {
    throw InputError("out_of_range", "radius_mm", "must lie on the face");
  }
  const Place place = place_on(motion, radius_mm, angle_deg);
  const double on_face = std::clamp(place.radius_mm, grid.inner_radius_mm, grid.outer_radius_mm());
  return height_um_at(grid, part.face(side), on_face, place.angle_deg) +
         raise_um(motion, side, place.radius_mm, place.angle_deg);
}

double rim_height_um(const SimPart& part, const Motion& motion, double angle_deg) {
  const double rim = part.grid.outer_radius_mm();
  const double c = std::cos(angle_deg * kRadPerDeg), s = std::sin(angle_deg * kRadPerDeg);
  const double along = motion.offset_x_mm * c + motion.offset_y_mm * s;
  const double across = motion.offset_y_mm * c - motion.offset_x_mm * s;
  return 1000 * (along + std::sqrt(rim * rim - across * across) - rim);
}

ScratchMark scratch_of(const SimPart& part, const Motion& motion, Side side, double radius_mm, double infeed_um) {
  want(infeed_um, 0.001, 10'000, "infeed_um", "must be from 0.001 to 10000");
  const int angles = part.grid.angles;
  std::vector<double> heights(static_cast<std::size_t>(angles));
  for (int a = 0; a < angles; ++a) {
    heights[static_cast<std::size_t>(a)] = bench_height_um(part, motion, side, radius_mm, part.grid.angle_deg(a));
  }
  const auto top = std::max_element(heights.begin(), heights.end());
  const int high = static_cast<int>(top - heights.begin());
  const double depth = *top - infeed_um;
  const auto height = [&](int angle) { return heights[static_cast<std::size_t>((angle % angles + angles) % angles)]; };
  // From the high spot to where the face falls below the tool's tip, in steps of the grid, or all the way round.
  const auto reach = [&](int direction) {
    for (int step = 0; step < angles; ++step) {
      const double here = height(high + direction * step), next = height(high + direction * (step + 1));
      if (next < depth) return step + (here - depth) / (here - next);
    }
    return static_cast<double>(angles);
  };
  const double ahead = reach(1), behind = reach(-1);
  const double step_deg = 360.0 / angles;
  if (ahead + behind >= angles) return {.centre_deg = high * step_deg, .arc_deg = 360, .infeed_um = infeed_um};
  const double centre = (high + (ahead - behind) / 2) * step_deg;
  const double turns = centre / 360 - std::floor(centre / 360);
  return {.centre_deg = turns < 1 ? 360 * turns : 0, .arc_deg = (ahead + behind) * step_deg, .infeed_um = infeed_um};
}

Tilt tilt_after_cut(const Motion& motion) { return -motion.tilt; }

}  // namespace brakewright::bench_sim
