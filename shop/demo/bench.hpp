#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/uncertainty/random.hpp"
#include "shop/demo/rotor.hpp"
#include "shop/demo/school.hpp"

namespace brakewright::shop::demo {

/// A hand with an instrument: shows what the instrument would show.
struct Gauge {
  std::optional<Instrument> instrument = {};  ///< none: reads to 0.01 mm and is named nowhere
  double bias_mm = 0;                         ///< what this instrument really is off by, within its permissible error
  double zero_mm = 0;                         ///< what it shows on its zero

  /// The figure on its display, as text with its unit left out.
  std::string shows(double true_mm, Random& random) const;
  Unit unit() const { return instrument ? instrument->default_unit : Unit::mm; }
};

Gauge take_up(const std::optional<Instrument>& instrument, Random& random);

/// Somebody at the bench with one job: every step goes through the shop's commands at the clock's time.
class Bench {
 public:
  Bench(Shop& shop, Clock& clock, Random& random, const JobFile& file, const Uuid& worker);

  void zero(const Gauge& gauge);
  void plan(const Uuid& part_id, const Gauge& micrometer, const std::optional<Instrument>& indicator,
            std::int64_t points, bool two_circles);
  /// Thickness at the first `points` points of each circle (all when negative), `repeats` readings at each.
  void thickness(const Uuid& part_id, const Rotor& rotor, Stage stage, const Gauge& gauge, std::int64_t points = -1,
                 int repeats = 1);
  void runout(const Uuid& part_id, const Rotor& rotor, Stage stage, const Gauge& gauge);
  void scoring(const Uuid& part_id, const Rotor& rotor, const Gauge& gauge);
  /// Both cheeks of a vented rotor, three readings each.
  void cheeks(const Uuid& part_id, const Rotor& rotor, Stage stage, const Gauge& gauge);
  void roughness(const Uuid& part_id, const Gauge& tester);
  void finding(const Uuid& part_id, FindingKind kind, Judgement judgement, const std::string& note = "");

  /// Types a figure with two digits swapped, sees it and types it again over the first.
  void mistype_and_correct(const Uuid& part_id, const Rotor& rotor, const Gauge& gauge, std::int64_t point);
  /// Reads a point once too often and takes it back.
  void read_and_take_back(const Uuid& part_id, const Rotor& rotor, const Gauge& gauge, std::int64_t point);

 private:
  Reading add(NewReading reading);
  NewReading spot(const Uuid& part_id, Stage stage, Quantity quantity, const Gauge& gauge);

  Shop& shop_;
  Clock& clock_;
  Random& random_;
  Uuid job_id_;
  Uuid worker_;
};

}  // namespace brakewright::shop::demo
