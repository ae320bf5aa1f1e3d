#pragma once

#include <cstdint>
#include <optional>

#include "shop/demo/bench.hpp"

namespace brakewright::shop::demo {

/// How a part really sits on its hub.
struct Seated {
  std::int64_t position = 0;  ///< by how many studs it is turned from its mark
  double plate_um = 0;        ///< what a tapered plate lifts at the indicator's circle, to each side
  double plate_deg = 0;       ///< where the plate is thickest
};

/// Enters three tapered plates for five studs.
void enter_plates(Shop& shop, Clock& clock, School& school);

/// Somebody under the car with one job: reads wheel bearing, flange and rotor, and puts the rotor back on, all through
/// the shop's commands at the clock's time.
class Fitter {
 public:
  Fitter(Shop& shop, Clock& clock, Random& random, const Uuid& job_id, const Uuid& worker, const Gauge& indicator);

  /// The bearing's play, the bare flange where `bare` is set, and the rotor in each of `positions`.
  void read_as_it_came(const Uuid& part_id, const Rotor& rotor, bool bare, const std::vector<std::int64_t>& positions);
  /// Puts it back where it ran truest of the positions that were read last, with this plate against the flange's high
  /// side where one is given, and reads it there. @param tried  positions to read before that, as it is now
  void put_back(const Uuid& part_id, const Rotor& rotor, const std::vector<std::int64_t>& tried,
                const std::optional<TaperPlate>& plate);

 private:
  NewReading spot(const Uuid& part_id, Stage stage, Quantity quantity) const;
  void add(NewReading reading);
  void play(const Uuid& part_id);
  void flange(const Uuid& part_id, const Rotor& rotor);
  void turn(const Uuid& part_id, const Rotor& rotor, Stage stage, const Seated& seated);
  void tick(const Uuid& part_id, const char* step, double seconds);
  Part part(const Uuid& part_id);
  std::int64_t truest(const Uuid& part_id);
  std::int64_t against_high_side(const Uuid& part_id);

  Shop& shop_;
  Clock& clock_;
  Random& random_;
  Uuid job_id_;
  Uuid worker_;
  Gauge indicator_;
};

}  // namespace brakewright::shop::demo
