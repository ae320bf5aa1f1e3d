#include "core/diagnosis/spoilt_part.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/degree.hpp"
#include "core/diagnosis/spoilt_bench.hpp"

namespace brakewright::diagnosis {
namespace {

using bench_sim::Side;
using practice::Fault;

/// Of both tools on a fair bench: what springs back under it is known of a lathe from its finished jobs.
constexpr double kUsualThrust_n = 41;

struct Place {
  double inner_mm = 0, middle_mm = 0, outer_mm = 0;
};

std::vector<double> round_the_part(int points, double from_deg = 0) {
  std::vector<double> angles;
  for (int i = 0; i < points; ++i) angles.push_back(std::fmod(from_deg + 360.0 * i / points, 360));
  return angles;
}

double spread_of(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low;
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// Of a part that is looked at: what is wrong there is found with `chance`, and seen where it is not by one in 30.
double seen(Random& random, double chance) { return random.uniform() < std::max(chance, 1.0 / 30) ? 1 : 0; }

/// Everything that one part's readings are made of.
class Readings {
 public:
  Readings(const SpoiltBench& bench, Random& random) : bench_(bench), random_(random), shape_(cut_shape(bench)) {
    const auto& band = bench.make.shape;
    place_ = {.inner_mm = band.band_inner_radius_mm + 6,
              .middle_mm = (band.band_inner_radius_mm + band.band_outer_radius_mm) / 2,
              .outer_mm = band.band_outer_radius_mm - 2 - 5 * random.uniform()};
    seed_ = random.below(1ULL << 40);
  }

  Signs all() {
    read_runouts();
    read_mount();
    read_thickness();
    read_steps();
    read_bump();
    read_finish();
    read_instruments();
    look();
    return signs_;
  }

 private:
  double noise(double sd) { return sd * random_.normal(); }
  void set(Sign sign, double value) {
    const SignInfo& info = about(sign);
    signs_[sign] = std::clamp(value, info.low, info.high);
  }

  bench_sim::SimMicrometer first_micrometer() const {
    bench_sim::SimMicrometer first = bench_.micrometer;
    first.zero_error_mm = bench_.first_zero_error_mm;
    return first;
  }

  std::vector<double> thickness_mm(const bench_sim::SimPart& part, const bench_sim::SimMicrometer& micrometer,
                                   double radius_mm, int points, double rise_k) {
    std::vector<double> read;
    for (const double angle : round_the_part(points)) {
      read.push_back(read_thickness_mm(part, micrometer, {radius_mm, angle}, 20 + rise_k, seed_, number_++));
    }
    return read;
  }

  std::vector<double> face_um(const bench_sim::SimPart& part, const bench_sim::Motion& motion) {
    auto angles = round_the_part(12);
    angles.push_back(0);
    return read_face(part, motion, Side::outboard, place_.middle_mm, angles, bench_.indicator, seed_, number_++)
        .values_um;
  }

  void read_runouts() {
    const auto before = face_um(shape_.before, shape_.first);
    set(Sign::bench_runout_before, spread_of(before));
    set(Sign::closing_error, before.back() - before.front());
    set(Sign::bench_runout_after, spread_of(face_um(shape_.after, shape_.last)));
    // on the car: the face against the hub's face, and the hub's own
    Trace on_car{.angles_deg = round_the_part(24)};
    for (const double angle : on_car.angles_deg) {
      on_car.values_um.push_back(height_um_at(shape_.after.grid, shape_.after.outboard, place_.middle_mm, angle) +
                                 noise(1));
    }
    const Harmonic part = fit_circle(on_car, 1).harmonics.front();
    const double apart = (part.phase_deg - bench_.hub.high_deg) * kRadPerDeg, hub = bench_.hub.runout_um / 2;
    const double together = std::hypot(part.amplitude_um + hub * std::cos(apart), hub * std::sin(apart));
    set(Sign::car_runout, 2 * together);
    set(Sign::car_runout_follows_part, part.amplitude_um + noise(1) > hub + noise(1) ? 1 : 0);
  }

  void read_mount() {
    bench_sim::MountInput again = bench_.mount;
    again.number = 1;
    again.faults.nut.reset();
    const auto second = face_um(shape_.before, mount_of(shape_.before, again).motion);
    const auto first = face_um(shape_.before, shape_.first);
    set(Sign::remount_difference, std::abs(spread_of(second) - spread_of(first)));
    std::array<double, 2> middle_deg{};
    bench_sim::MountInput turned = bench_.mount;
    for (double& middle : middle_deg) {
      turned.number += 2;
      middle = scratch_of(shape_.before, mount_of(shape_.before, turned).motion, Side::outboard, place_.middle_mm, 8)
                   .centre_deg +
               noise(6);
      turned.turn_deg += 180;
    }
    set(Sign::scratch_apart, std::abs(std::remainder(middle_deg[0] - middle_deg[1], 360)));
    set(Sign::shoulder_runout, std::abs(bench_.mount.faults.arbor.shoulder_runout_um + noise(1)));
    set(Sign::rim_wander, std::abs(2000 * bench_.mount.faults.bore_offset_mm + noise(12)));
  }

  void read_thickness() {
    const auto round = thickness_mm(shape_.after, bench_.micrometer, place_.middle_mm, 12, bench_.temperature_rise_k);
    set(Sign::variation, 1000 * spread_of(round));
    Trace trace{.angles_deg = round_the_part(12)};
    for (const double mm : round) trace.values_um.push_back(1000 * (mm - round.front()));
    const auto waves = fit_circle(trace, 4).harmonics;
    constexpr Sign kWaves[] = {Sign::variation_wave_1, Sign::variation_wave_2, Sign::variation_wave_3,
                               Sign::variation_wave_4};
    for (std::size_t i = 0; i < 4; ++i) set(kWaves[i], waves[i].amplitude_um);
    const double outer =
        mean_of(thickness_mm(shape_.after, bench_.micrometer, place_.outer_mm, 4, bench_.temperature_rise_k));
    const double inner =
        mean_of(thickness_mm(shape_.after, bench_.micrometer, place_.inner_mm, 4, bench_.temperature_rise_k));
    set(Sign::taper, 1000 * (outer - inner));
    const double first_mm = shape_.before.nominal_thickness_mm + bench_.first_zero_error_mm + noise(0.0005);
    const double usual_spring_um = 2e6 * kUsualThrust_n / bench_.holder_k_n_per_m;
    const double dialled_um = -shape_.tip_um[0] - shape_.tip_um[1] - usual_spring_um + bench_.dial_error_um;
    set(Sign::dial_difference, 1000 * (mean_of(round) - first_mm) + dialled_um);
    const auto warm = mean_of(thickness_mm(shape_.after, bench_.micrometer, place_.middle_mm, 4,
                                           bench_.temperature_rise_k * (0.7 + 0.3 * random_.uniform())));
    const auto cool =
        mean_of(thickness_mm(shape_.after, bench_.micrometer, place_.middle_mm, 4, 0.15 * bench_.temperature_rise_k));
    set(Sign::warm_drift, 1000 * (warm - cool));
  }

  /// Largest step between the means of two neighbouring stretches of 2 mm.
  double step_along(const std::vector<double>& heights_um) const {
    constexpr std::size_t kStretch = 4;
    double largest = 0;
    for (std::size_t i = kStretch; i + kStretch <= heights_um.size(); ++i) {
      double change = 0;
      for (std::size_t k = 0; k < kStretch; ++k) change += heights_um[i + k] - heights_um[i - 1 - k];
      largest = std::max(largest, std::abs(change) / kStretch);
    }
    return largest;
  }

  void read_steps() {
    const auto& grid = shape_.after.grid;
    const int angle = static_cast<int>(random_.below(static_cast<std::uint64_t>(grid.angles)));
    std::vector<double> thick, face;
    for (int ring = 0; ring < grid.rings; ++ring) {
      const double radius = grid.radius_mm(ring);
      if (radius < place_.inner_mm - 4 || radius > bench_.make.shape.band_outer_radius_mm - 2) continue;
      const std::size_t at = grid.at(ring, angle);
      const double out = static_cast<double>(shape_.after.outboard.height_um[at]);
      face.push_back(out + noise(0.7));
      thick.push_back(out + static_cast<double>(shape_.after.inboard.height_um[at]) + noise(1));
    }
    set(Sign::thickness_step, step_along(thick));
    set(Sign::face_step, step_along(face));
  }

  /// How far a face stands there over its own height a little before and behind.
  double over_neighbours_um(Side side, int ring, int angle) const {
    const auto& grid = shape_.after.grid;
    const auto& heights = shape_.after.face(side).height_um;
    const auto at = [&](int a) {
      return static_cast<double>(heights[grid.at(ring, (a % grid.angles + grid.angles) % grid.angles)]);
    };
    const int away = grid.angles / 15;
    return at(angle) - (at(angle - away) + at(angle + away)) / 2;
  }

  void read_bump() {
    const auto& grid = shape_.after.grid;
    double largest = 0;
    for (int ring = 0; ring < grid.rings; ring += 5) {
      const double radius = grid.radius_mm(ring);
      if (radius < place_.inner_mm - 4 || radius > bench_.make.shape.band_outer_radius_mm - 2) continue;
      for (int angle = 0; angle < grid.angles; ++angle) {
        largest = std::max(largest, std::min(over_neighbours_um(Side::outboard, ring, angle),
                                             over_neighbours_um(Side::inboard, ring, angle)));
      }
    }
    set(Sign::both_faces_bump, std::abs(largest + noise(0.6)));
  }

  void read_finish() {
    const CutFinish finish = cut_finish(bench_);
    const CutSong song = cut_song(bench_);
    const double flakes_um = 0.35 + 0.45 * random_.uniform();
    const double ra_um = std::sqrt(std::pow(finish.ra_um * (1 + 0.25 * random_.uniform()), 2) + flakes_um * flakes_um +
                                   std::pow(song.height_um / 4, 2)) *
                         (1 + noise(0.05));
    set(Sign::ra, ra_um);
    set(Sign::ra_over_kinematic, ra_um / finish.kinematic_ra_um);
    set(Sign::spiral_height, std::abs(finish.rt_um * (1 + noise(0.1)) + noise(0.3)));
    const bool regular = finish.kinematic_ra_um > 0.8 * flakes_um && finish.ra_um < 2 * finish.kinematic_ra_um;
    set(Sign::spiral_equals_feed, seen(random_, regular ? 0.9 : 0.08));
    const bool found = song.marks_per_turn > 0 && song.height_um > 0.3;
    set(Sign::chatter_marks, found ? song.marks_per_turn * (1 + noise(0.03)) : 0);
    set(Sign::chatter_height, found ? std::abs(song.height_um * (1 + noise(0.1))) : 0);
    set(Sign::howl, seen(random_, std::min(0.95, song.swing_um / 4)));
    set(Sign::torn_surface, seen(random_, std::min(0.9, bench_.wear_mm * 3)));
    set(Sign::rubbed_glaze, seen(random_, std::min(0.8, bench_.wear_mm * 2)));
  }

  void read_instruments() {
    const double cast_mm = bench_.faults.cheek_difference_mm.value_or(0);
    const double by_cut_mm = (shape_.tip_um[0] - shape_.tip_um[1]) / 1000;
    set(Sign::cheek_difference, cast_mm + by_cut_mm + noise(0.03));
    set(Sign::micrometer_offset, 1000 * bench_.micrometer.zero_error_mm + noise(0.7));
  }

  void look() {
    const auto& grid = shape_.after.grid;
    const double on_rim = ring_mean_um(grid.rings - 2);
    const double on_band = ring_mean_um(ring_near(grid, bench_.make.shape.band_outer_radius_mm - 5));
    set(Sign::lip, on_rim - on_band + noise(5));
    const double lip_um = bench_.lip_left ? bench_.faults.lip->outboard_um : 0;
    set(Sign::lip_seen, seen(random_, std::min(0.97, lip_um / 100)));
    const bool spots = bench_.cause == Fault::hard_spots;
    set(Sign::blue_spots, seen(random_, spots ? 0.6 + 0.35 * bench_.size : 0));
    set(Sign::dirt_seen, seen(random_, bench_.cause == Fault::dirty_seat ? 0.4 + 0.4 * bench_.size : 0.05));
  }

  double ring_mean_um(int ring) const {
    const auto& grid = shape_.after.grid;
    double sum = 0;
    for (int angle = 0; angle < grid.angles; ++angle) {
      sum += static_cast<double>(shape_.after.outboard.height_um[grid.at(ring, angle)]);
    }
    return sum / grid.angles;
  }

  const SpoiltBench& bench_;
  Random& random_;
  CutShape shape_;
  Place place_;
  Signs signs_;
  std::uint64_t seed_ = 0, number_ = 0;
};

/// Signs that one look or one reading gives together.
void lose_some(Signs& signs, Random& random) {
  using S = Sign;
  const std::initializer_list<S> kTogether[] = {
      {S::bench_runout_before, S::closing_error},
      {S::bench_runout_after},
      {S::car_runout, S::car_runout_follows_part},
      {S::scratch_apart},
      {S::shoulder_runout},
      {S::rim_wander},
      {S::remount_difference},
      {S::variation, S::variation_wave_1, S::variation_wave_2, S::variation_wave_3, S::variation_wave_4},
      {S::taper},
      {S::thickness_step},
      {S::face_step},
      {S::both_faces_bump},
      {S::ra, S::ra_over_kinematic},
      {S::spiral_height, S::spiral_equals_feed},
      {S::chatter_marks, S::chatter_height},
      {S::cheek_difference},
      {S::warm_drift},
      {S::micrometer_offset},
      {S::lip},
      {S::dial_difference},
      {S::blue_spots},
      {S::torn_surface, S::rubbed_glaze},
      {S::howl},
      {S::lip_seen},
      {S::dirt_seen}};
  const double missing = 0.05 + 0.3 * random.uniform();
  for (const auto& group : kTogether) {
    if (random.uniform() >= missing) continue;
    for (const S sign : group) signs[sign].reset();
  }
}

}  // namespace

SpoiltPart spoilt_part(std::uint64_t seed, std::uint64_t number) {
  Random random(seed, number);
  const SpoiltBench bench = spoilt_bench(random);
  SpoiltPart part{.cause = bench.cause, .size = bench.size, .signs = Readings(bench, random).all()};
  lose_some(part.signs, random);
  return part;
}

}  // namespace brakewright::diagnosis
