#include <algorithm>
#include <set>

#include "core/pulsation/tyre.hpp"
#include "shop/changing.hpp"
#include "shop/json.hpp"
#include "shop/limits.hpp"
#include "shop/places.hpp"
#include "shop/states.hpp"

namespace brakewright::shop {

namespace {

PartKind kind_of(const Part& part) { return part.kind.value_or(PartKind::disc); }

void check_parts(const std::vector<Part>& parts) {
  if (parts.empty() || parts.size() > 2) throw InputError("out_of_range", "parts", "one or two parts of one axle");
  if (parts.size() == 2 && parts[0].side == parts[1].side) {
    throw InputError("out_of_range", "parts[1].side", "the two parts are of different sides");
  }
  if (parts.size() == 2 && parts[0].id == parts[1].id) {
    throw InputError("id_taken", "parts[1].id", "the two parts have different ids");
  }
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const std::string path = "parts[" + std::to_string(k) + "]";
    check(parts[k], path);
    check_sizes(parts[k], path);
    if (kind_of(parts[k]) != kind_of(parts[0])) {
      throw InputError("other_kind", path + ".kind",
                       "the parts of a job are of one kind; for the other axle, or for the drum in the hat of a disc, "
                       "open a job beside this one");
    }
  }
}

/// Whether a job that is there already is the one that is being opened again.
bool same_opening(const JobFile& present, const Job& job, const std::vector<Part>& parts) {
  std::set<Uuid> ids;
  for (const Part& part : parts) ids.insert(part.id);
  const bool same_parts =
      parts.size() == present.parts.size() &&
      std::all_of(present.parts.begin(), present.parts.end(), [&](const Part& part) { return ids.contains(part.id); });
  return same_parts && present.job.id == job.id;
}

Part& part_in(JobFile& file, const Uuid& part_id) {
  for (Part& part : file.parts) {
    if (part.id == part_id) return part;
  }
  throw RuleError("unknown_part", "part_id", "this job has no such part");
}

bool same_spots(const MeasuringPlan& a, const MeasuringPlan& b) {
  return a.points == b.points && a.turning == b.turning && a.circles_from_edge.size() == b.circles_from_edge.size();
}

bool has_readings(const JobFile& file, const Uuid& part_id, Stage stage) {
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const Reading& reading = file.readings[k];
    if (states[k] == ReadingState::current && reading.part_id == part_id && reading.stage == stage) return true;
  }
  return false;
}

void check_tyre(const std::optional<std::string>& tyre, const std::string& path) {
  if (!tyre) return;
  try {
    static_cast<void>(read_tyre(*tyre));
  } catch (const InputError& refusal) {
    throw refusal.within(path);
  }
}

}  // namespace

std::optional<Uuid> Shop::first_of_vehicle(const Job& job) {
  if (!job.beside_job_id) return std::nullopt;
  if (*job.beside_job_id == job.id) throw InputError("out_of_range", "job.beside_job_id", "a job is not beside itself");
  const auto beside = store_.job_file(*job.beside_job_id);
  if (!beside) throw RuleError("unknown_job", "job.beside_job_id", "no job of this shop has this id");
  return beside->job.beside_job_id.value_or(beside->job.id);
}

JobFile Shop::open_job(Job job, std::vector<Part> parts, const Uuid& by) {
  check(job, "job");
  check_tyre(job.tyre, "job.tyre");
  check_parts(parts);
  return changing(by, [&] {
    if (const auto present = store_.job_file(job.id)) {
      if (same_opening(*present, job, parts)) return *present;
      throw RuleError("id_taken", "job.id", "another job has this id");
    }
    if (job.worker_person_id) expect_person(*job.worker_person_id, "job.worker_person_id");
    expect_lathe(job.lathe_id, "job.lathe_id");
    job.beside_job_id = first_of_vehicle(job);
    job.number = store_.next_job_number();
    job.state = JobState::open;
    job.opened_by_person_id = by;
    job.opened_at = job.changed_at = surroundings_.now();
    job.version = 1;
    job.sealed_by_person_id.reset();
    job.sealed_at.reset();
    job.seal_sha256.clear();

    JobFile opened;
    opened.job = job;
    store_.put(job);
    const std::int64_t points = store_.settings().points;
    for (Part& part : parts) {
      part.job_id = job.id;
      part.version = 1;
      store_.put(part);
      opened.parts.push_back(part);
      opened.plans.push_back(first_plan(part, points));
      store_.put(opened.plans.back());
    }
    files_.insert_or_assign(job.id, opened);
    record("job.opened", job.id, job.id, json_text(opened), by);
    return file(job.id);
  });
}

Job Shop::change_job(const Job& wanted, const Uuid& by) {
  check(wanted);
  check_tyre(wanted.tyre, "tyre");
  return changing(by, [&] {
    JobFile& present = open_file(wanted.id);
    if (wanted.version != present.job.version) {
      throw ConflictError("version", "this job was changed meanwhile", json_text(present.job));
    }
    if (wanted.worker_person_id) expect_person(*wanted.worker_person_id, "worker_person_id");
    expect_lathe(wanted.lathe_id, "lathe_id");
    Job next = present.job;
    next.brought_by = wanted.brought_by;
    next.vehicle = wanted.vehicle;
    next.complaint = wanted.complaint;
    next.complaint_note = wanted.complaint_note;
    next.axle = wanted.axle;
    next.odometer = wanted.odometer;
    next.odometer_unit = wanted.odometer_unit;
    next.tyre = wanted.tyre;
    next.vehicle_mass_kg = wanted.vehicle_mass_kg;
    next.felt_in = wanted.felt_in;
    next.felt_speed_km_per_h = wanted.felt_speed_km_per_h;
    next.felt_frequency_hz = wanted.felt_frequency_hz;
    next.worker_person_id = wanted.worker_person_id;
    next.lathe_id = wanted.lathe_id;
    if (next == present.job) return next;
    ++next.version;
    next.changed_at = surroundings_.now();
    store_.put(next);
    record("job.changed", next.id, next.id, json_text(next), by);
    present.job = next;
    return next;
  });
}

Part Shop::change_part(const Part& wanted, const Uuid& by) {
  check(wanted);
  check_sizes(wanted, "");
  return changing(by, [&] {
    JobFile& present = open_file(wanted.job_id);
    Part& part = part_in(present, wanted.id);
    if (wanted.version != part.version) {
      throw ConflictError("version", "this part was changed meanwhile", json_text(part));
    }
    for (const Part& other : present.parts) {
      if (other.id != wanted.id && other.side == wanted.side) {
        throw InputError("out_of_range", "side", "the other part of this job is of that side");
      }
    }
    if (kind_of(wanted) != kind_of(part)) {
      throw InputError("other_kind", "kind", "a part stays what it was opened as; open another job for another kind");
    }
    if (wanted == part) return part;
    Part next = wanted;
    ++next.version;
    store_.put(next);
    record("part.changed", present.job.id, next.id, json_text(next), by);
    // Depths that nobody chose or read at follow the band's width.
    for (MeasuringPlan& plan : present.plans) {
      if (plan.part_id != next.id || !is_drum(next.kind) || has_readings(present, next.id, plan.stage)) continue;
      const auto depths = first_plan(next, plan.points).circles_from_edge;
      if (plan.circles_from_edge != first_plan(part, plan.points).circles_from_edge ||
          plan.circles_from_edge == depths) {
        continue;
      }
      plan.circles_from_edge = depths;
      ++plan.version;
      store_.put(plan);
      record("plan.changed", present.job.id, plan.part_id, json_text(plan), by);
    }
    part = next;
    return next;
  });
}

MeasuringPlan Shop::put_plan(const MeasuringPlan& wanted, const Uuid& by) {
  check(wanted);
  return changing(by, [&] {
    const auto job_id = store_.job_of_part(wanted.part_id);
    if (!job_id) throw RuleError("unknown_part", "part_id", "no job of this shop has such a part");
    JobFile& present = open_file(*job_id);
    check_places(wanted, part_in(present, wanted.part_id));
    expect_instrument(wanted.thickness_instrument_id, "thickness_instrument_id");
    expect_instrument(wanted.runout_instrument_id, "runout_instrument_id");
    const auto own = std::find_if(present.plans.begin(), present.plans.end(), [&](const MeasuringPlan& plan) {
      return plan.part_id == wanted.part_id && plan.stage == wanted.stage;
    });
    MeasuringPlan next = wanted;
    if (own != present.plans.end()) {
      if (wanted.version != own->version) {
        throw ConflictError("version", "this plan was changed meanwhile", json_text(*own));
      }
      if (wanted == *own) return wanted;
      if (!same_spots(wanted, *own) && has_readings(present, wanted.part_id, wanted.stage)) {
        throw RuleError("readings_exist", "points",
                        "points, circles and turning stay while readings stand on them; take those back first");
      }
      ++next.version;
    } else {
      next.version = 1;
    }
    store_.put(next);
    record("plan.changed", present.job.id, next.part_id, json_text(next), by);
    if (own != present.plans.end()) {
      *own = next;
    } else {
      present.plans.push_back(next);
    }
    return next;
  });
}

}  // namespace brakewright::shop
