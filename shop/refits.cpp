#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/on_the_car.hpp"

/// How parts go back on their hubs.
namespace brakewright::shop {

namespace {

bool same_content(const Refit& stored, const NewRefit& wanted) {
  return stored.part_id == wanted.part_id && stored.position == wanted.position && stored.plate_id == wanted.plate_id &&
         stored.plate_position == wanted.plate_position && stored.nut_torque_nm == wanted.nut_torque_nm;
}

std::int64_t studs_of(const Part& part) {
  if (part.studs) return *part.studs;
  throw RuleError("studs_unknown", "position", "say first how many studs the hub has");
}

void expect_stud(std::int64_t stud, std::int64_t studs, const std::string& field) {
  if (stud < studs) return;
  throw InputError("out_of_range", field, "this hub has " + std::to_string(studs) + " studs; they count from 0");
}

bool same_place(const Refit& made, const RefitFitting& fitting) {
  return made.position == fitting.position && made.plate_id == fitting.plate_id &&
         made.plate_position == fitting.plate_position;
}

bool blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

}  // namespace

struct Shop::RefitKnown {
  std::int64_t seq = 0;  ///< of the job, up to which it holds
  RefitAdvice advice;
};

namespace {

/// What is foreseen there, and that another place than the computed one has its reason.
void foresee(const RefitAdvice& advice, Refit& made) {
  if (!advice.refit) return;
  for (const RefitFitting& fitting : advice.refit->all) {
    if (!same_place(made, fitting)) continue;
    made.foreseen_runout_um = fitting.runout_um;
    made.p_within = fitting.p_within;
  }
  if (!same_place(made, advice.refit->best) && blank(made.reason)) {
    throw RuleError("reason_needed", "reason",
                    "a position or plate other than the computed one needs its reason in words");
  }
}

}  // namespace

std::optional<Shop::RefitKnown> Shop::refit_known(const Uuid& job_id, const Uuid& part_id) {
  const OnTheCar car = on_the_car(job_id);
  const Part* part = find(car.file.parts, part_id);
  if (part == nullptr) return std::nullopt;
  return RefitKnown{.seq = car.file.seq, .advice = advise_refit(car.file, *part, car.plates, car.ground.context())};
}

Refit Shop::record_refit(const Uuid& job_id, const NewRefit& wanted, const Uuid& by) {
  check(wanted);
  const auto read = refit_known(job_id, wanted.part_id);  // outside of the change, so that nobody waits for it
  if (wanted.plate_id.has_value() != wanted.plate_position.has_value()) {
    throw InputError("missing", wanted.plate_id ? "plate_position" : "plate_id",
                     "a tapered plate goes with the stud at which its thickest place lies");
  }
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const Refit* stored = find(present.refits, wanted.id)) {
      if (same_content(*stored, wanted)) return *stored;
      throw RuleError("id_taken", "id", "another refit has this id");
    }
    const Part* part = find(present.parts, wanted.part_id);
    if (part == nullptr) throw RuleError("unknown_part", "part_id", "this job has no such part");
    Refit made{.id = wanted.id, .job_id = job_id, .part_id = part->id, .studs = studs_of(*part)};
    expect_stud(wanted.position, made.studs, "position");
    if (wanted.plate_id) {
      const auto plates = store_.taper_plates();
      if (find(plates, *wanted.plate_id) == nullptr) {
        throw RuleError("unknown_plate", "plate_id", "this shop has no such tapered plate");
      }
      expect_stud(*wanted.plate_position, made.studs, "plate_position");
    }
    made.position = wanted.position;
    made.plate_id = wanted.plate_id;
    made.plate_position = wanted.plate_position;
    made.nut_torque_nm = wanted.nut_torque_nm;
    made.torque_source = wanted.torque_source;
    made.reason = wanted.reason;
    foresee(read && read->seq == present.seq ? read->advice : refit_known(job_id, part->id)->advice, made);
    made.by_person_id = by;
    made.at = surroundings_.now();
    store_.put(made);
    record("refit.recorded", job_id, made.id, json_text(made), by);
    present.refits.push_back(made);
    return made;
  });
}

}  // namespace brakewright::shop
