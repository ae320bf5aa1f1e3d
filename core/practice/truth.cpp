#include "core/practice/truth.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/circle/circle.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::practice {
namespace {

using bench_sim::PartFaults;
using bench_sim::PartMake;
using bench_sim::Range;

double evenly(Random& random, Range range) { return range.low + (range.high - range.low) * random.uniform(); }

void check_exercise(const Exercise& exercise) {
  if (exercise.seed >> 53 != 0) throw InputError("out_of_range", "seed", "must be below 2^53");
  if (exercise.difficulty < 0 || exercise.difficulty > 5) {
    throw InputError("out_of_range", "difficulty", "must be from 0 to 5");
  }
  if (exercise.faults && exercise.faults->size() > std::size(kFaults)) {
    throw InputError("too_many", "faults", "must name each fault once at most");
  }
}

bool is_chosen(const Exercise& exercise, Fault fault) {
  const auto& chosen = exercise.faults;
  return chosen && std::find(chosen->begin(), chosen->end(), fault) != chosen->end();
}

/// One part in three has its hub cast in; one whose races are to be pitted always.
bool draws_hub(const Exercise& exercise) {
  Random random(exercise.seed, stream_of(Draw::kind_of_part));
  return random.below(3) == 0 || is_chosen(exercise, Fault::pitted_races);
}

/// The seed's own, or that of its first follower with a vent where the cheeks are to differ.
PartMake make_for(const Exercise& exercise) {
  PartMake make = bench_sim::make_of_seed(exercise.seed);
  const bool wants_vent = is_chosen(exercise, Fault::uneven_cheeks);
  for (std::uint64_t k = 1; wants_vent && make.shape.vent_mm == 0; ++k) {
    make = bench_sim::make_of_seed(exercise.seed + k);
  }
  return draws_hub(exercise) ? bench_sim::with_hub(make, exercise.seed) : make;
}

bool is_of_part(Fault fault) { return fault <= Fault::uneven_cheeks; }

/// Of the bench, drawn by difficulty. Common practice, no source.
std::vector<Fault> drawn_bench_faults(const Exercise& exercise, bool hubbed) {
  std::vector<Fault> drawn;
  Random random(exercise.seed, stream_of(Draw::which));
  const double chance = exercise.difficulty == 0 ? 0 : 0.05 + 0.05 * exercise.difficulty;
  for (Fault fault : kFaults) {
    if (is_of_part(fault)) continue;
    const bool possible = fault != Fault::pitted_races || hubbed;
    if (random.uniform() < chance && possible) drawn.push_back(fault);
  }
  return drawn;
}

double plain_variation_um(const PartMake& make) { return 1.3 * make.limits.variation_um + 4; }

/// Whether a draw of the part's faults is plainly so.
bool is_plain(const PartFaults& drawn, Fault fault, const PartMake& make) {
  switch (fault) {
    case Fault::thickness_waves:
      return drawn.variation && peak_to_valley_um(drawn.variation->waves) > plain_variation_um(make);
    case Fault::wobble:
      return drawn.wobble && drawn.wobble->runout_um > 1.3 * make.limits.runout_um;
    case Fault::grooves:
      return drawn.grooves && std::any_of(drawn.grooves->begin(), drawn.grooves->end(),
                                          [](const auto& groove) { return groove.depth_um > 430; });
    case Fault::lip:
      return drawn.lip.has_value();
    case Fault::hard_spots:
      return drawn.hard_spots.has_value();
    case Fault::taper:
      return drawn.taper_um.has_value();
    case Fault::uneven_cheeks:
      return drawn.cheek_difference_mm.has_value();
    default:
      return true;
  }
}

/// The sizes of one fault that is wanted: those of the first of the seed's followers that has it plainly.
PartFaults plain_draw(std::uint64_t seed, Fault fault, const PartMake& make) {
  constexpr int kTries = 400;
  PartFaults last;  // that has waves at all
  for (int k = 0; k < kTries; ++k) {
    const std::uint64_t follower =
        seed * 1024 + static_cast<std::uint64_t>(k) + (static_cast<std::uint64_t>(fault) << 55);
    PartFaults drawn = bench_sim::faults_of_seed(follower, 5, {}, make);
    if (is_plain(drawn, fault, make)) return drawn;
    if (drawn.variation && !drawn.variation->waves.empty()) last = std::move(drawn);
  }
  // waves that a wide limit hides, drawn larger
  const double grow = plain_variation_um(make) / peak_to_valley_um(last.variation->waves);
  for (Harmonic& wave : last.variation->waves) wave.amplitude_um *= grow;
  return last;
}

void take_fault(PartFaults& faults, Fault fault, const PartFaults& drawn) {
  if (fault == Fault::thickness_waves) faults.variation = drawn.variation;
  if (fault == Fault::wobble) faults.wobble = drawn.wobble;
  if (fault == Fault::grooves) faults.grooves = drawn.grooves;
  if (fault == Fault::lip) faults.lip = drawn.lip;
  if (fault == Fault::hard_spots) faults.hard_spots = drawn.hard_spots;
  if (fault == Fault::taper) faults.taper_um = drawn.taper_um;
}

/// About what a clean cut takes: wobble and waves once, the deepest groove of each face, half of taper on each, and a
/// little for dial and margin.
double needed_mm(const PartFaults& faults) {
  double needed_um = 60;
  if (faults.wobble) needed_um += faults.wobble->runout_um;
  if (faults.variation) needed_um += peak_to_valley_um(faults.variation->waves);
  if (faults.taper_um) needed_um += std::abs(*faults.taper_um);
  double deepest[2] = {0, 0};
  for (const auto& groove : faults.grooves.value_or(std::vector<bench_sim::Groove>{})) {
    double& of_side = deepest[groove.side == bench_sim::Side::outboard ? 0 : 1];
    of_side = std::max(of_side, groove.depth_um);
  }
  return (needed_um + deepest[0] + deepest[1]) / 1000;
}

/// Exactly the chosen ones.
PartFaults chosen_part_faults(const Exercise& exercise, const std::vector<Fault>& chosen, const PartMake& make) {
  const auto has = [&](Fault fault) { return std::find(chosen.begin(), chosen.end(), fault) != chosen.end(); };
  PartFaults faults;
  Random random(exercise.seed, stream_of(Draw::thickness));
  const double thin_mm = evenly(random, {-0.05, 0.03}), sound_mm = evenly(random, {0.15, 0.5});
  faults.thickness_mm = make.new_thickness_mm;  // until the others are known
  for (Fault fault : kFaults) {
    if (!is_of_part(fault) || !has(fault) || fault == Fault::thin || fault == Fault::uneven_cheeks) continue;
    take_fault(faults, fault, plain_draw(exercise.seed, fault, make));
  }
  const double over_mm = has(Fault::thin) ? thin_mm : needed_mm(faults) + sound_mm;
  faults.thickness_mm = std::min(make.limits.machine_to_mm + over_mm, make.new_thickness_mm);
  if (has(Fault::uneven_cheeks)) {
    const double most = (*faults.thickness_mm - make.shape.vent_mm) / 3;
    const double size = std::min(evenly(random, bench_sim::kCheek_mm), most);
    faults.cheek_difference_mm = random.uniform() < 0.5 ? size : -size;
  }
  return faults;
}

/// Of the parts that the seed draws past cutting, two in three are given enough iron: else most of the harder exercises
/// would be about replacing.
void give_iron(PartFaults& faults, std::uint64_t seed, const PartMake& make) {
  Random random(seed, stream_of(Draw::thickness));
  const bool gives = random.uniform() < 0.67;
  const double spare_mm = evenly(random, {0.06, 0.4});
  const double wanted = make.limits.machine_to_mm + needed_mm(faults) + spare_mm;
  if (!gives || *faults.thickness_mm >= wanted) return;
  faults.thickness_mm = std::min(wanted, make.new_thickness_mm);
}

/// What of the drawn part is named.
std::vector<Fault> named_part_faults(const PartFaults& faults, const PartMake& make) {
  std::vector<Fault> named;
  if (*faults.thickness_mm - make.limits.machine_to_mm < needed_mm(faults)) named.push_back(Fault::thin);
  if (faults.variation && !faults.variation->waves.empty()) named.push_back(Fault::thickness_waves);
  if (faults.wobble) named.push_back(Fault::wobble);
  if (faults.grooves) named.push_back(Fault::grooves);
  if (faults.lip) named.push_back(Fault::lip);
  if (faults.hard_spots) named.push_back(Fault::hard_spots);
  if (faults.taper_um) named.push_back(Fault::taper);
  if (faults.cheek_difference_mm) named.push_back(Fault::uneven_cheeks);
  return named;
}

void draw_mount(Truth& truth, std::uint64_t seed) {
  Random random(seed, stream_of(Draw::mount));
  const double seat_mm = bench_sim::seat_reach_mm(truth.make.shape);
  const auto bump = [&] {
    const double height = evenly(random, {40, 120});
    const double radius = seat_mm * evenly(random, {0.8, 0.95});
    return bench_sim::Bump{.height_um = height, .radius_mm = radius, .angle_deg = 360 * random.uniform()};
  };
  const bench_sim::Dirt on_part{.bump = bump(), .on_the_part = true}, on_clamp{.bump = bump()};
  const bool both = random.uniform() < 0.5;
  if (truth.has(Fault::dirty_seat)) {
    truth.dirt = {on_part};
    if (both) truth.dirt.push_back(on_clamp);
  }
  const double bent = evenly(random, {25, 60}), high = 360 * random.uniform();
  if (truth.has(Fault::bent_arbor)) {
    truth.bent = {.shoulder_runout_um = bent, .shoulder_radius_mm = seat_mm, .high_deg = high};
  }
  const double pitted = evenly(random, {8, 16});
  truth.seating_sd_um = truth.has(Fault::pitted_races) ? pitted : kSoundSeat_um;
}

/// Which reading is misread, and where a speck sticks: at the band's middle, where a hand that goes round in quarters
/// meets it. Sizes are our own assumption, no source.
void draw_readings(Truth& truth, std::uint64_t seed) {
  Random random(seed, stream_of(Draw::readings));
  const std::uint64_t number = 3 + random.below(6), quarter = random.below(4);
  const double height_um = std::round(evenly(random, {40, 90}));
  if (truth.has(Fault::misread_turn)) truth.misread_number = number;
  if (!truth.has(Fault::speck)) return;
  const auto& shape = truth.make.shape;
  truth.speck = Speck{.radius_mm = (shape.band_inner_radius_mm + shape.band_outer_radius_mm) / 2,
                      .angle_deg = 90 * static_cast<double>(quarter),
                      .height_um = height_um};
}

}  // namespace

bool Truth::has(Fault fault) const { return std::find(faults.begin(), faults.end(), fault) != faults.end(); }

Truth truth_of(const Exercise& exercise) {
  check_exercise(exercise);
  Truth truth;
  truth.make = make_for(exercise);
  const bool hubbed = truth.make.shape.seat.kind == mount::PartKind::hubbed;
  std::vector<Fault> of_bench;
  if (exercise.faults) {
    truth.part = chosen_part_faults(exercise, *exercise.faults, truth.make);
    of_bench = *exercise.faults;
  } else if (exercise.difficulty == 0) {
    // one thing, that everybody can find
    constexpr Fault kFirst[] = {Fault::thickness_waves, Fault::wobble, Fault::grooves};
    Random random(exercise.seed, stream_of(Draw::which));
    truth.part = chosen_part_faults(exercise, {kFirst[random.below(std::size(kFirst))]}, truth.make);
  } else {
    truth.part = bench_sim::faults_of_seed(exercise.seed, exercise.difficulty, {}, truth.make);
    truth.part.seat.reset();  // nobody could know it
    give_iron(truth.part, exercise.seed, truth.make);
    of_bench = drawn_bench_faults(exercise, hubbed);
  }
  truth.faults = named_part_faults(truth.part, truth.make);
  for (Fault fault : kFaults) {
    const bool there = std::find(of_bench.begin(), of_bench.end(), fault) != of_bench.end();
    if (there && !is_of_part(fault)) truth.faults.push_back(fault);
  }
  draw_mount(truth, exercise.seed);
  draw_readings(truth, exercise.seed);
  Random tools(exercise.seed, stream_of(Draw::tools));
  const double worn = evenly(tools, {0.3, 0.45});
  truth.wear_mm = truth.has(Fault::worn_edge) ? worn : 0.02;
  truth.nose_radius_mm = truth.has(Fault::coarse_feed) ? 0.4 : 0.8;
  const double warm = evenly(tools, {45, 60});
  truth.part_start_c = truth.has(Fault::warm_part) ? warm : kRoom_c;
  const double zero = evenly(tools, {0.02, 0.06}) * (tools.uniform() < 0.5 ? 1 : -1);
  Random bearing(exercise.seed, stream_of(Draw::bearing));
  const double play = std::round(evenly(bearing, {2, 6}));  // our own assumption, no source
  truth.bearing_play_um = hubbed ? play : 0;
  truth.zero_error_mm = truth.has(Fault::micrometer_zero) ? std::round(zero * 1000) / 1000 : 0;
  return truth;
}

}  // namespace brakewright::practice
