#pragma once

#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <vector>

#include "tests/shop/bench_scene.hpp"

namespace brakewright::shop {

/// The bench scene with an indicator that repeats to 1 um, hubs and parts whose waves are known, and their readings on
/// the car.
class OnCarScene : public BenchScene {
 protected:
  /// A wave A cos(k (t - high)) in um and degrees.
  struct Wave {
    int order = 1;
    double amplitude_um = 0, high_deg = 0;
  };
  using Waves = std::vector<Wave>;

  OnCarScene() {
    Instrument dial{.id = id(), .name = "Dial 1", .kind = InstrumentKind::dial_indicator};
    dial.resolution = {1'000};
    dial.mpe = {3'000};
    dial.repeatability = {1'000};
    indicator = shop.put_instrument(dial, teacher).id;
  }

  static double at(const Waves& waves, double angle_deg) {
    double sum = 0;
    for (const Wave& wave : waves) {
      sum += wave.amplitude_um * std::cos(wave.order * (angle_deg - wave.high_deg) * std::numbers::pi / 180);
    }
    return sum;
  }

  /// Highest less lowest of the hub with the part turned on it, on a grid of a tenth of a degree.
  static double swing_um(const Waves& hub, const Waves& part, double turn_deg) {
    double high = -1e9, low = 1e9;
    for (int i = 0; i < 3600; ++i) {
      const double value = at(hub, i / 10.0) + at(part, i / 10.0 - turn_deg);
      high = std::max(high, value);
      low = std::min(low, value);
    }
    return high - low;
  }

  static std::int64_t best_by_trying_all(const Waves& hub, const Waves& part, std::int64_t studs) {
    std::int64_t best = 0;
    for (std::int64_t n = 1; n < studs; ++n) {
      const double step = 360.0 / static_cast<double>(studs);
      if (swing_um(hub, part, step * static_cast<double>(n)) < swing_um(hub, part, step * static_cast<double>(best))) {
        best = n;
      }
    }
    return best;
  }

  /// A job whose left part has five studs, reads 130 mm out and may run out by 50 um.
  JobFile with_studs(std::int64_t studs = 5, const std::string& runout = "0.05") {
    JobFile file = open();
    Part part = file.parts[0];
    part.studs = studs;
    part.outer_diameter = mm("280");
    part.seat.ring_inner = mm("160");
    part.hub_reading_diameter = mm("130");
    part.limits.runout = limit(runout);
    shop.change_part(part, teacher);
    return shop.job_file(file.job.id);
  }

  NewReading turn_of(const JobFile& file, Stage stage, Quantity quantity, std::int64_t turned, std::int64_t point,
                     double um) {
    NewReading reading = figure(file, point, format_number({std::llround(um) * 1000}, Unit::mm, 1000), stage);
    reading.quantity = quantity;
    reading.circle = turned;
    reading.instrument_id = indicator;
    reading.confirmed = true;
    return reading;
  }

  void read_round(const JobFile& file, Stage stage, Quantity quantity, std::int64_t turned,
                  const std::function<double(double)>& um_at, std::int64_t points = 8, std::int64_t every = 1) {
    for (std::int64_t point = 0; point < points; point += every) {
      const double angle = 360.0 * static_cast<double>(point) / static_cast<double>(points);
      add(file, turn_of(file, stage, quantity, turned, point, um_at(angle)));
    }
  }

  void read_fitted(const JobFile& file, Stage stage, const Waves& hub, const Waves& part, std::int64_t turned,
                   std::int64_t studs = 5, std::int64_t every = 1) {
    const double turn = 360.0 / static_cast<double>(studs) * static_cast<double>(turned);
    read_round(
        file, stage, Quantity::runout_outboard, turned, [&](double t) { return at(hub, t) + at(part, t - turn); }, 8,
        every);
  }

  RefitAdvice advice(const JobFile& file) { return shop.refit_advice(file.job.id, file.parts[0].id); }

  template <class A>
  static bool says(const std::vector<A>& advice, const std::string& code) {
    return std::any_of(advice.begin(), advice.end(), [&](const A& one) { return one.code == code; });
  }

  static bool lacks(const std::vector<std::string>& missing, const std::string& field) {
    return std::find(missing.begin(), missing.end(), field) != missing.end();
  }

  Uuid indicator;
};

}  // namespace brakewright::shop
