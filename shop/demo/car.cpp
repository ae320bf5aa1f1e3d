#include "shop/demo/car.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "shop/find.hpp"
#include "shop/progress.hpp"

namespace brakewright::shop::demo {
namespace {

constexpr double kFromEdgeMm = 10;  ///< of the indicator's tip

double radius_mm(const Part& part) { return part.outer_diameter->value.mm() / 2 - kFromEdgeMm; }

double degrees_of(std::int64_t stud, const Part& part) {
  return 360.0 * static_cast<double>(stud) / static_cast<double>(*part.studs);
}

/// Outboard face at an angle from the hub's mark.
double on_hub_um(const Rotor& rotor, const Part& part, const Seated& seated, double angle_deg) {
  const double plate_um = seated.plate_um * std::cos((angle_deg - seated.plate_deg) * std::numbers::pi / 180);
  return rotor.face_um_at(angle_deg - degrees_of(seated.position, part)) + rotor.hub_um_at(angle_deg) + plate_um;
}

}  // namespace

void enter_plates(Shop& shop, Clock& clock, School& school) {
  constexpr std::array kPlates{std::pair{"Wedge 25, five studs", 25.0}, std::pair{"Wedge 50, five studs", 50.0},
                               std::pair{"Wedge 75, five studs", 75.0}};
  for (std::size_t k = 0; k < kPlates.size(); ++k) {
    clock.pass(40);
    const TaperPlate plate{.id = shop.new_id(),
                           .name = kPlates[k].first,
                           .hook = "W" + std::to_string(k + 1),
                           .taper_um = kPlates[k].second};
    school.plates.push_back(shop.put_taper_plate(plate, school.teachers.front().id));
  }
}

Fitter::Fitter(Shop& shop, Clock& clock, Random& random, const Uuid& job_id, const Uuid& worker, const Gauge& indicator)
    : shop_(shop), clock_(clock), random_(random), job_id_(job_id), worker_(worker), indicator_(indicator) {}

Part Fitter::part(const Uuid& part_id) { return *find(shop_.job_file(job_id_).parts, part_id); }

NewReading Fitter::spot(const Uuid& part_id, Stage stage, Quantity quantity) const {
  NewReading reading{.part_id = part_id, .stage = stage, .quantity = quantity, .default_unit = indicator_.unit()};
  if (indicator_.instrument) reading.instrument_id = indicator_.instrument->id;
  return reading;
}

void Fitter::add(NewReading reading) {
  clock_.pass(8 + 6 * random_.uniform());
  reading.id = shop_.new_id();
  reading.taken_at = clock_.now;
  shop_.add_reading(job_id_, reading, worker_);
}

void Fitter::play(const Uuid& part_id) {
  NewReading reading = spot(part_id, Stage::on_car, Quantity::bearing_play);
  reading.text = random_.uniform() < 0.5 ? "0.00" : "0.01";
  clock_.pass(90);
  // That nothing moves is a sound bearing's answer.
  reading.confirmed = true;
  add(reading);
}

void Fitter::flange(const Uuid& part_id, const Rotor& rotor) {
  const Part on = part(part_id);
  const double share = on.hub_reading_diameter->value.mm() / 2 / radius_mm(on);
  clock_.pass(300);
  const auto points = plan_of(shop_.job_file(job_id_), part_id, Stage::on_car)->points;
  for (std::int64_t point = 0; point < points; ++point) {
    NewReading reading = spot(part_id, Stage::on_car, Quantity::hub_runout);
    reading.point = point;
    const double angle_deg = 360.0 * static_cast<double>(point) / static_cast<double>(points);
    reading.text = indicator_.shows(share * (rotor.hub_um_at(angle_deg) - rotor.hub_um_at(0)) / 1000, random_);
    add(reading);
  }
}

void Fitter::turn(const Uuid& part_id, const Rotor& rotor, Stage stage, const Seated& seated) {
  const Part on = part(part_id);
  clock_.pass(240);
  const auto points = plan_of(shop_.job_file(job_id_), part_id, stage)->points;
  const double zero_um = on_hub_um(rotor, on, seated, 0);
  for (std::int64_t point = 0; point < points; ++point) {
    NewReading reading = spot(part_id, stage, Quantity::runout_outboard);
    reading.circle = seated.position;
    reading.point = point;
    const double angle_deg = 360.0 * static_cast<double>(point) / static_cast<double>(points);
    reading.text = indicator_.shows((on_hub_um(rotor, on, seated, angle_deg) - zero_um) / 1000, random_);
    add(reading);
  }
}

void Fitter::read_as_it_came(const Uuid& part_id, const Rotor& rotor, bool bare,
                             const std::vector<std::int64_t>& positions) {
  play(part_id);
  for (const std::int64_t position : positions) turn(part_id, rotor, Stage::on_car, {.position = position});
  if (bare) flange(part_id, rotor);
}

void Fitter::tick(const Uuid& part_id, const char* step, double seconds) {
  clock_.pass(seconds);
  shop_.record_step(
      job_id_,
      {.id = shop_.new_id(), .part_id = part_id, .phase = BenchPhase::refit, .step = step, .taken_at = clock_.now},
      worker_);
}

/// Of the positions that were read last, the one with the least swing.
std::int64_t Fitter::truest(const Uuid& part_id) {
  struct Swing {
    std::int64_t low_nm = 0, high_nm = 0;
  };
  const JobFile file = shop_.job_file(job_id_);
  std::map<std::pair<Stage, std::int64_t>, Swing> swings;
  Stage last = Stage::on_car;
  for (const Reading& reading : file.readings) {
    const bool here = reading.part_id == part_id && is_on_car(reading.stage);
    if (!here || reading.quantity != Quantity::runout_outboard) continue;
    last = std::max(last, reading.stage);
    const std::int64_t nm = reading.value.value.nm;
    const auto [at, fresh] = swings.try_emplace({reading.stage, reading.circle}, Swing{nm, nm});
    at->second = {std::min(at->second.low_nm, nm), std::max(at->second.high_nm, nm)};
  }
  std::optional<std::pair<std::int64_t, std::int64_t>> least;
  for (const auto& [place, swing] : swings) {
    if (place.first != last) continue;
    const std::pair found{swing.high_nm - swing.low_nm, place.second};
    least = std::min(least.value_or(found), found);
  }
  return least ? least->second : 0;
}

/// The stud that lies opposite the highest place of the bare flange.
std::int64_t Fitter::against_high_side(const Uuid& part_id) {
  const JobFile file = shop_.job_file(job_id_);
  const Reading* highest = nullptr;
  for (const Reading& reading : file.readings) {
    if (reading.part_id != part_id || reading.quantity != Quantity::hub_runout) continue;
    if (highest == nullptr || reading.value.value > highest->value.value) highest = &reading;
  }
  const std::int64_t studs = *find(file.parts, part_id)->studs;
  const double opposite_deg = (highest == nullptr ? 0 : highest->angle_deg) + 180;
  return std::llround(opposite_deg * static_cast<double>(studs) / 360) % studs;
}

void Fitter::put_back(const Uuid& part_id, const Rotor& rotor, const std::vector<std::int64_t>& tried,
                      const std::optional<TaperPlate>& plate) {
  tick(part_id, "flange_clean", 240);
  tick(part_id, "hat_clean", 90);
  for (const std::int64_t position : tried) turn(part_id, rotor, Stage::refit, {.position = position});
  const Part on = part(part_id);
  NewRefit refit{.id = shop_.new_id(), .part_id = part_id, .position = truest(part_id)};
  refit.reason = "It ran truest here of all positions that were read.";
  Seated seated{.position = refit.position};
  if (plate) {
    refit.plate_id = plate->id;
    refit.plate_position = against_high_side(part_id);
    refit.reason = "Over the limit in every position; the plate takes the flange's tilt out.";
    seated.plate_um = plate->taper_um * radius_mm(on) / plate->diameter.mm();
    seated.plate_deg = degrees_of(*refit.plate_position, on);
  }
  refit.nut_torque_nm = 110;
  refit.torque_source = "the vehicle's handbook, wheels and tyres";
  for (const char* step : {"part_on", "nuts_by_hand"}) tick(part_id, step, 60);
  for (const char* step : {"nuts_first", "nuts_second", "nuts_full"}) tick(part_id, step, 80);
  clock_.pass(40);
  shop_.record_refit(job_id_, refit, worker_);
  turn(part_id, rotor, Stage::refit, seated);
  tick(part_id, "runout_checked", 20);
  for (const char* step : {"pedal_pumped", "bedding_told", "retorque_told"}) tick(part_id, step, 60);
}

}  // namespace brakewright::shop::demo
