#include "shop/find.hpp"
#include "shop/on_the_car.hpp"

/// What is known of parts back on the car. Nothing is locked while it is worked out.
namespace brakewright::shop {

Shop::OnTheCar Shop::on_the_car(const Uuid& job_id) {
  bool on_a_lathe = false;
  {
    const std::lock_guard lock(guard_);
    on_a_lathe = file(job_id).job.lathe_id.has_value();
  }
  if (on_a_lathe) learn_finished();
  const std::lock_guard lock(guard_);
  const JobFile& present = file(job_id);
  return {.file = present, .plates = store_.taper_plates(), .ground = ground_for(present)};
}

RefitAdvice Shop::refit_advice(const Uuid& job_id, const Uuid& part_id) {
  const OnTheCar car = on_the_car(job_id);
  const Part* part = find(car.file.parts, part_id);
  if (part == nullptr) throw RuleError("unknown_part", "part_id", "this job has no such part");
  return advise_refit(car.file, *part, car.plates, car.ground.context());
}

RoadAdvice Shop::road(const Uuid& job_id, const RoadWish& wish) {
  const OnTheCar car = on_the_car(job_id);
  return advise_road(car.file, car.plates, wish, car.ground.context());
}

PulsationAdvice Shop::pulsation(const Uuid& job_id) {
  const OnTheCar car = on_the_car(job_id);
  std::vector<JobFile> beside;
  {
    const std::lock_guard lock(guard_);
    for (const JobLine& line : store_.jobs({.vehicle_of = job_id}).lines) {
      if (line.job.id != job_id) beside.push_back(file(line.job.id));
    }
  }
  return advise_pulsation(car.file, beside, car.ground.context());
}

DiagnosisAdvice Shop::diagnosis(const Uuid& job_id) {
  const auto meant = assessed(job_id);
  const OnTheCar car = on_the_car(job_id);
  CuttingEdges edges;
  {
    const std::lock_guard lock(guard_);
    edges = {.inserts = store_.inserts(), .corners = store_.corners()};
  }
  return advise_diagnosis(car.file, *meant, edges, car.ground.context());
}

}  // namespace brakewright::shop
