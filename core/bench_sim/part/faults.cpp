#include "core/bench_sim/part/faults.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/bench_sim/part/streams.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kLeastCheek_mm = 0.5;
constexpr double kLeastThickness_mm = 2;

/// Looks at the values of one fault, whose path it knows.
class Look {
 public:
  explicit Look(std::string path) : path_(std::move(path)) {}

  void within(double value, Range accepted, const std::string& field, const std::string& message) const {
    if (!std::isfinite(value)) throw InputError("not_finite", path_ + field, "must be a number");
    if (value < accepted.low || value > accepted.high) throw InputError("out_of_range", path_ + field, message);
  }
  void angle(double value, const std::string& field) const {
    within(value, {0, std::nextafter(360.0, 0.0)}, field, "must be from 0 to below 360");
  }
  void at_most(std::size_t count, std::size_t most, const std::string& field) const {
    if (count > most) throw InputError("too_many", path_ + field, "must be " + std::to_string(most) + " at most");
  }

 private:
  std::string path_;
};

void check(const Lean& lean, const std::string& path) {
  const Look look(path);
  look.within(lean.runout_um, {0, 2000}, ".runout_um", "must be from 0 to 2000");
  look.angle(lean.high_deg, ".high_deg");
}

void check(const ThicknessWaves& variation) {
  const Look look("faults.variation");
  look.at_most(variation.waves.size(), 16, ".waves");
  look.within(variation.outboard_share, {0, 1}, ".outboard_share", "must be from 0 to 1");
  for (std::size_t i = 0; i < variation.waves.size(); ++i) {
    const Look wave("faults.variation.waves[" + std::to_string(i) + "]");
    wave.within(variation.waves[i].order, {1, 16}, ".order", "must be from 1 to 16");
    wave.within(variation.waves[i].amplitude_um, {0, 500}, ".amplitude_um", "must be from 0 to 500");
    wave.angle(variation.waves[i].phase_deg, ".phase_deg");
  }
}

void check(const std::vector<Groove>& grooves, Range face) {
  Look("faults.grooves").at_most(grooves.size(), 200, "");
  for (std::size_t i = 0; i < grooves.size(); ++i) {
    const Look look("faults.grooves[" + std::to_string(i) + "]");
    look.within(grooves[i].radius_mm, face, ".radius_mm", "must lie on the face");
    look.within(grooves[i].width_mm, {0.05, 20}, ".width_mm", "must be from 0.05 to 20");
    look.within(grooves[i].depth_um, {0, 3000}, ".depth_um", "must be from 0 to 3000");
  }
}

void check(const std::vector<HardSpot>& spots, Range face) {
  Look("faults.hard_spots").at_most(spots.size(), 100, "");
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const Look look("faults.hard_spots[" + std::to_string(i) + "]");
    look.angle(spots[i].angle_deg, ".angle_deg");
    look.within(spots[i].radius_mm, face, ".radius_mm", "must lie on the face");
    look.within(spots[i].diameter_mm, {1, 60}, ".diameter_mm", "must be from 1 to 60");
    look.within(spots[i].height_um, {0, 500}, ".height_um", "must be from 0 to 500");
    look.within(spots[i].hardness, {1, 10}, ".hardness", "must be from 1 to 10");
  }
}

/// Two millimetres, or what leaves both cheeks of a vented part.
double thinnest_mm(const PartMake& make) {
  return std::max(kLeastThickness_mm, make.shape.vent_mm + 2 * kLeastCheek_mm);
}

double drawn(Random& random, Range range) { return range.low + (range.high - range.low) * random.uniform(); }

Lean drawn_lean(Random& random, Range runout_um) {
  const double runout = drawn(random, runout_um);
  return {.runout_um = runout, .high_deg = 360 * random.uniform()};
}

ThicknessWaves drawn_variation(Random& random) {
  ThicknessWaves variation;
  for (int order : {1, 2, 3, 4}) {
    const bool there = random.uniform() < 1.2 / (order + 0.5);
    const double amplitude = drawn(random, kWave_um) / order;
    const double phase = 360 * random.uniform();
    if (there) variation.waves.push_back({.order = order, .amplitude_um = amplitude, .phase_deg = phase});
  }
  variation.outboard_share = random.uniform();
  return variation;
}

std::vector<Groove> drawn_grooves(Random& random, const PartShape& shape) {
  std::vector<Groove> grooves(1 + random.below(14));
  for (Groove& groove : grooves) {
    groove.side = random.uniform() < 0.5 ? Side::outboard : Side::inboard;
    groove.radius_mm = drawn(random, {shape.band_inner_radius_mm, shape.band_outer_radius_mm});
    groove.width_mm = drawn(random, kGrooveWidth_mm);
    groove.depth_um = drawn(random, kGrooveDepth_um);
  }
  return grooves;
}

std::vector<HardSpot> drawn_hard_spots(Random& random, const PartShape& shape) {
  const double width = shape.band_outer_radius_mm - shape.band_inner_radius_mm;
  std::vector<HardSpot> spots(2 + random.below(8));
  for (HardSpot& spot : spots) {
    spot.angle_deg = 360 * random.uniform();
    spot.radius_mm = shape.band_inner_radius_mm + width * drawn(random, {0.25, 0.75});
    spot.diameter_mm = drawn(random, kHardSpotDiameter_mm);
    spot.height_um = drawn(random, kHardSpot_um);
    spot.hardness = drawn(random, kHardness);
  }
  return spots;
}

double drawn_thickness_mm(Random& random, int difficulty, const PartMake& make) {
  const double over = drawn(random, {-0.1, 1.6 - 0.28 * difficulty});
  return std::clamp(make.limits.machine_to_mm + over, thinnest_mm(make), make.new_thickness_mm);
}

/// Outboard less inboard; neither cheek may have more than twice the other's iron.
double drawn_cheek_difference_mm(Random& random, const PartMake& make, double thickness_mm) {
  const double iron = thickness_mm - make.shape.vent_mm;
  const double most = std::min(iron / 3, iron - 2 * kLeastCheek_mm);
  const double size = std::min(drawn(random, kCheek_mm), most);
  return random.uniform() < 0.5 ? size : -size;
}

}  // namespace

void check(const PartFaults& faults, const PartMake& make) {
  const Range face{make.inner_radius_mm, make.outer_radius_mm};
  const Look look("faults.");
  if (faults.thickness_mm) {
    look.within(*faults.thickness_mm, {thinnest_mm(make), make.new_thickness_mm}, "thickness_mm",
                "must be from 2, and 1 over the vent, to the new thickness");
  }
  if (faults.wobble) check(*faults.wobble, "faults.wobble");
  if (faults.variation) check(*faults.variation);
  if (faults.taper_um) look.within(*faults.taper_um, {-1000, 1000}, "taper_um", "must be from -1000 to 1000");
  if (faults.grooves) check(*faults.grooves, face);
  if (faults.lip) {
    look.within(faults.lip->outboard_um, {0, 3000}, "lip.outboard_um", "must be from 0 to 3000");
    look.within(faults.lip->inboard_um, {0, 3000}, "lip.inboard_um", "must be from 0 to 3000");
  }
  if (faults.hard_spots) check(*faults.hard_spots, face);
  if (faults.cheek_difference_mm) {
    const double iron = faults.thickness_mm.value_or(make.new_thickness_mm) - make.shape.vent_mm;
    const double most = iron - 2 * kLeastCheek_mm;
    look.within(*faults.cheek_difference_mm, {-most, most}, "cheek_difference_mm", "must leave 0.5 mm of each cheek");
  }
  if (faults.seat) check(*faults.seat, "faults.seat");
}

PartFaults faults_of_seed(std::uint64_t seed, int difficulty, const PartFaults& wished, const PartMake& make) {
  if (difficulty < 0 || difficulty > 5) throw InputError("out_of_range", "difficulty", "must be from 0 to 5");
  check(wished, make);
  PartFaults faults = wished;
  const double chance = difficulty == 0 ? 0 : 0.2 + 0.12 * difficulty;
  const auto draw = [&](Purpose purpose, auto& fault, const auto& drawing) {
    if (fault) return;
    Random random(seed, stream_of(purpose));
    if (random.uniform() < chance) fault = drawing(random);
  };
  if (!faults.thickness_mm) {
    Random random(seed, stream_of(Purpose::thickness));
    faults.thickness_mm = drawn_thickness_mm(random, difficulty, make);
  }
  draw(Purpose::wobble, faults.wobble, [](Random& random) { return drawn_lean(random, kWobble_um); });
  draw(Purpose::variation, faults.variation, drawn_variation);
  draw(Purpose::taper, faults.taper_um, [](Random& random) {
    const double size = drawn(random, kTaper_um);
    return random.uniform() < 0.5 ? size : -size;
  });
  draw(Purpose::grooves, faults.grooves, [&](Random& random) { return drawn_grooves(random, make.shape); });
  draw(Purpose::lip, faults.lip, [](Random& random) {
    const double outboard = drawn(random, kLip_um);
    return EdgeLip{.outboard_um = outboard, .inboard_um = drawn(random, kLip_um)};
  });
  draw(Purpose::hard_spots, faults.hard_spots, [&](Random& random) { return drawn_hard_spots(random, make.shape); });
  if (make.shape.vent_mm > 0) {
    draw(Purpose::cheeks, faults.cheek_difference_mm,
         [&](Random& random) { return drawn_cheek_difference_mm(random, make, *faults.thickness_mm); });
  }
  draw(Purpose::seat, faults.seat, [](Random& random) { return drawn_lean(random, kSeat_um); });
  check(faults, make);
  return faults;
}

}  // namespace brakewright::bench_sim
