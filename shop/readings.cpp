#include <algorithm>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/limits.hpp"
#include "shop/places.hpp"

namespace brakewright::shop {

namespace {

constexpr std::int64_t kMostStuds = 12;

bool is_runout(Quantity quantity) {
  return quantity == Quantity::runout_outboard || quantity == Quantity::runout_inboard ||
         quantity == Quantity::hub_runout;
}

/// In how many rows a quantity is read: on circles, or with the part turned on its hub from stud to stud.
std::int64_t rows_of(const NewReading& wanted, const MeasuringPlan& plan, const Part& part) {
  if (wanted.quantity == size_of(part.kind)) return static_cast<std::int64_t>(plan.circles_from_edge.size());
  if (is_on_car(wanted.stage) && wanted.quantity == Quantity::runout_outboard) {
    return part.studs.value_or(kMostStuds);
  }
  return 1;
}

void expect_stage_for(const NewReading& wanted) {
  const bool of_the_hub = wanted.quantity == Quantity::hub_runout || wanted.quantity == Quantity::bearing_play;
  const bool of_both = wanted.quantity == Quantity::runout_outboard;
  if (of_both || of_the_hub == is_on_car(wanted.stage)) return;
  throw InputError("out_of_range", "stage",
                   of_the_hub ? "the hub is read on the car: stage on_car or refit"
                              : "on the car only runout_outboard, hub_runout and bearing_play are read");
}

void expect_quantity_of(const NewReading& wanted, const Part& part) {
  const bool on_the_face = wanted.quantity == Quantity::runout_outboard && is_on_car(wanted.stage);
  if (is_read_of(wanted.quantity, part.kind) && !(on_the_face && is_drum(part.kind))) return;
  throw InputError("other_kind", "quantity",
                   is_drum(part.kind) ? "of a drum are read: diameter, and on the lathe runout_outboard, "
                                        "scoring_outboard and roughness_outboard of its inside"
                                      : "a diameter is read of a drum, and this part is a disc");
}

/// Where on the part a reading lies, held against the plan.
double checked_angle(const NewReading& wanted, const MeasuringPlan& plan, const Part& part) {
  expect_quantity_of(wanted, part);
  expect_stage_for(wanted);
  const Spread spread = spread_of(wanted.quantity, plan, part.kind);
  const std::int64_t circles = rows_of(wanted, plan, part);
  if (wanted.circle >= circles) {
    throw InputError("out_of_range", "circle",
                     "must be under " + std::to_string(circles) +
                         (is_on_car(wanted.stage) ? ", the number of studs" : " by the plan"));
  }
  if (wanted.point >= spread.points) {
    throw InputError("out_of_range", "point", "must be under " + std::to_string(spread.points) + " by the plan");
  }
  return angle_of(wanted.point, spread);
}

bool same_content(const Reading& stored, const NewReading& wanted, const Uuid& job_id) {
  return stored.job_id == job_id && stored.part_id == wanted.part_id && stored.stage == wanted.stage &&
         stored.quantity == wanted.quantity && stored.circle == wanted.circle && stored.point == wanted.point &&
         stored.value == typed_in_field(wanted.text, wanted.default_unit, "text") &&
         stored.supersedes_id == wanted.supersedes_id;
}

void check_superseded(const JobFile& file, const Reading& reading) {
  if (!reading.supersedes_id) return;
  const auto earlier = std::find_if(file.readings.begin(), file.readings.end(),
                                    [&](const Reading& other) { return other.id == *reading.supersedes_id; });
  if (earlier == file.readings.end()) {
    throw RuleError("unknown_reading", "supersedes_id", "this job has no such reading");
  }
  const bool same_spot = earlier->part_id == reading.part_id && earlier->stage == reading.stage &&
                         earlier->quantity == reading.quantity && earlier->circle == reading.circle &&
                         earlier->point == reading.point;
  if (!same_spot) {
    throw RuleError("other_spot", "supersedes_id", "a reading can only take the place of one of the same spot");
  }
}

}  // namespace

MeasuringPlan Shop::plan_for(JobFile& file, const Uuid& part_id, Stage stage, const Uuid& by) {
  auto plan = plan_of(file, part_id, stage);
  if (!plan) throw RuleError("no_plan", "part_id", "this part has no measuring plan");
  const bool own = std::any_of(file.plans.begin(), file.plans.end(), [&](const MeasuringPlan& other) {
    return other.part_id == part_id && other.stage == stage;
  });
  if (!own) {
    store_.put(*plan);
    record("plan.changed", file.job.id, part_id, json_text(*plan), by);
    file.plans.push_back(*plan);
  }
  return *plan;
}

Reading Shop::checked_reading(JobFile& file, const NewReading& wanted, const Uuid& by) {
  check(wanted);
  const Part* part = find(file.parts, wanted.part_id);
  if (part == nullptr) throw RuleError("unknown_part", "part_id", "this job has no such part");
  const auto plan = plan_of(file, wanted.part_id, wanted.stage);
  if (!plan) throw RuleError("no_plan", "part_id", "this part has no measuring plan");
  const UtcTime now = surroundings_.now();
  Reading reading;
  reading.id = wanted.id;
  reading.job_id = file.job.id;
  reading.part_id = wanted.part_id;
  reading.stage = wanted.stage;
  reading.quantity = wanted.quantity;
  reading.circle = wanted.circle;
  reading.point = wanted.point;
  reading.angle_deg = checked_angle(wanted, *plan, *part);
  reading.value = typed_in_field(wanted.text, wanted.default_unit, "text");
  reading.instrument_id = wanted.instrument_id;
  if (!reading.instrument_id && wanted.quantity == size_of(part->kind)) {
    reading.instrument_id = plan->thickness_instrument_id;
  }
  if (!reading.instrument_id && is_runout(wanted.quantity)) reading.instrument_id = plan->runout_instrument_id;
  expect_instrument(reading.instrument_id, "instrument_id");
  if (reading.instrument_id) {
    for (const ZeroCheck& zero : known_zero_checks()) {  // newest first
      if (zero.instrument_id != *reading.instrument_id) continue;
      reading.zero_check_id = zero.id;
      break;
    }
  }
  reading.supersedes_id = wanted.supersedes_id;
  check_superseded(file, reading);
  reading.by_person_id = by;
  reading.received_at = now;
  reading.taken_at = std::min(wanted.taken_at.value_or(now), now);
  auto doubts = doubts_about(file, reading);
  // A key that bounces shows in the tablet's clock; a table or a program that tells no times has no keys.
  if (!wanted.taken_at) std::erase_if(doubts, [](const Doubt& doubt) { return doubt.code == "same_twice"; });
  if (!doubts.empty() && !wanted.confirmed) throw DoubtfulReading("text", std::move(doubts));
  for (const Doubt& doubt : doubts) reading.confirmed_doubts.push_back(doubt.code);
  return reading;
}

Reading Shop::add_reading(const Uuid& job_id, const NewReading& wanted, const Uuid& by) {
  return changing(by, [&] {
    if (const auto stored = store_.reading(wanted.id)) {
      if (same_content(*stored, wanted, job_id)) return *stored;
      throw RuleError("id_taken", "id", "another reading has this id");
    }
    JobFile& present = open_file(job_id);
    const Reading reading = checked_reading(present, wanted, by);
    plan_for(present, wanted.part_id, wanted.stage, by);
    store_.put(reading);
    record("reading.added", job_id, reading.id, json_text(reading), by);
    present.readings.push_back(reading);
    return reading;
  });
}

void Shop::check_reading(const Uuid& job_id, const NewReading& wanted, const Uuid& by) {
  const std::lock_guard lock(guard_);
  expect_person(by, "by_person_id");
  if (const auto stored = store_.reading(wanted.id)) {
    if (same_content(*stored, wanted, job_id)) return;
    throw RuleError("id_taken", "id", "another reading has this id");
  }
  checked_reading(open_file(job_id), wanted, by);
}

Reading Shop::withdraw_reading(const Uuid& job_id, const Uuid& reading_id, const Uuid& by) {
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    const auto found = std::find_if(present.readings.begin(), present.readings.end(),
                                    [&](const Reading& reading) { return reading.id == reading_id; });
    if (found == present.readings.end()) {
      throw RuleError("unknown_reading", "reading_id", "this job has no such reading");
    }
    if (found->withdrawn_at) return *found;
    Reading next = *found;
    next.withdrawn_at = surroundings_.now();
    next.withdrawn_by_person_id = by;
    store_.put(next);
    record("reading.withdrawn", job_id, next.id, json_text(next), by);
    *found = next;
    return next;
  });
}

}  // namespace brakewright::shop
