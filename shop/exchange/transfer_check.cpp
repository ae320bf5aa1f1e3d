#include <map>

#include "core/input_error.hpp"
#include "shop/exchange/parcel.hpp"

/// An export is held against itself and the shop before anything of it is stored.
namespace brakewright::shop {
namespace {

/// What a parcel may name: what is in it, and what the shop has already.
struct Known {
  Ids people, instruments, lathes, pieces, inserts, corners, taper_plates, known_parts, zero_checks;
};

Known known_to(Store& store, const Parcel& parcel) {
  return {.people = ids_of(parcel.people, store.people()),
          .instruments = ids_of(parcel.instruments, store.instruments()),
          .lathes = ids_of(parcel.lathes, store.lathes()),
          .pieces = ids_of(parcel.pieces, store.pieces()),
          .inserts = ids_of(parcel.inserts, store.inserts()),
          .corners = ids_of(parcel.corners, store.corners()),
          .taper_plates = ids_of(parcel.taper_plates, store.taper_plates()),
          .known_parts = ids_of(parcel.known_parts, store.known_parts("", kAllParts)),
          .zero_checks = ids_of(parcel.zero_checks, store.zero_checks(std::nullopt))};
}

void expect_in(const Ids& ids, const std::optional<Uuid>& id, const std::string& path) {
  if (id && !ids.contains(*id)) {
    throw InputError("not_in_it", path, "this names something that is neither in the export nor in the shop");
  }
}

/// What of the shop's iron one thing names.
template <class T>
void check_iron_names(const T& thing, const Known& known, const std::string& path) {
  if constexpr (requires { thing.piece_id; }) expect_in(known.pieces, thing.piece_id, path + "piece_id");
  if constexpr (requires { thing.piece_ids; }) {
    for (std::size_t k = 0; k < thing.piece_ids.size(); ++k) {
      expect_in(known.pieces, thing.piece_ids[k], path + "piece_ids[" + std::to_string(k) + "]");
    }
  }
  if constexpr (requires { thing.insert_id; }) expect_in(known.inserts, thing.insert_id, path + "insert_id");
  if constexpr (requires { thing.plate_id; }) expect_in(known.taper_plates, thing.plate_id, path + "plate_id");
  if constexpr (requires { thing.outboard_corner_id; }) {
    expect_in(known.corners, thing.outboard_corner_id, path + "outboard_corner_id");
    expect_in(known.corners, thing.inboard_corner_id, path + "inboard_corner_id");
  }
}

/// What one thing names, whatever it is; `path` ends with a point.
template <class T>
void check_names(const T& thing, const Known& known, const std::string& path) {
  if constexpr (requires { thing.by_person_id; }) expect_in(known.people, thing.by_person_id, path + "by_person_id");
  if constexpr (requires { thing.withdrawn_by_person_id; }) {
    expect_in(known.people, thing.withdrawn_by_person_id, path + "withdrawn_by_person_id");
  }
  if constexpr (requires { thing.worker_person_id; }) {
    expect_in(known.people, thing.worker_person_id, path + "worker_person_id");
    expect_in(known.people, thing.opened_by_person_id, path + "opened_by_person_id");
    expect_in(known.people, thing.sealed_by_person_id, path + "sealed_by_person_id");
  }
  if constexpr (requires { thing.lathe_id; }) expect_in(known.lathes, thing.lathe_id, path + "lathe_id");
  if constexpr (requires { thing.known_part_id; }) {
    expect_in(known.known_parts, thing.known_part_id, path + "known_part_id");
  }
  if constexpr (requires { thing.instrument_id; }) {
    expect_in(known.instruments, thing.instrument_id, path + "instrument_id");
  }
  if constexpr (requires { thing.zero_check_id; }) {
    expect_in(known.zero_checks, thing.zero_check_id, path + "zero_check_id");
  }
  if constexpr (requires { thing.thickness_instrument_id; }) {
    expect_in(known.instruments, thing.thickness_instrument_id, path + "thickness_instrument_id");
    expect_in(known.instruments, thing.runout_instrument_id, path + "runout_instrument_id");
  }
  check_iron_names(thing, known, path);
}

void expect_same(const Uuid& id, const Uuid& wanted, const std::string& path) {
  if (id != wanted) throw InputError("not_of_this_job", path, "this must be the id of its job");
}

template <class T>
void check_children(const std::vector<T>& children, const JobFile& file, const Known& known, const std::string& path) {
  const Ids parts = ids_of(file.parts, {});
  const Ids readings = ids_of(file.readings, {});
  const Ids cut_plans = ids_of(file.cut_plans, {});
  for (std::size_t i = 0; i < children.size(); ++i) {
    const T& child = children[i];
    const std::string at = path + "[" + std::to_string(i) + "].";
    if constexpr (requires { child.job_id; }) expect_same(child.job_id, file.job.id, at + "job_id");
    if constexpr (requires { child.part_id; }) expect_in(parts, child.part_id, at + "part_id");
    if constexpr (requires { child.supersedes_id; }) expect_in(readings, child.supersedes_id, at + "supersedes_id");
    if constexpr (requires { child.plan_id; }) expect_in(cut_plans, child.plan_id, at + "plan_id");
    check_names(child, known, at);
  }
}

void check_file(const JobFile& file, const Known& known, const std::string& path) {
  if (file.parts.empty() || file.parts.size() > 2) {
    throw InputError("out_of_range", path + ".parts", "a job has one or two parts");
  }
  check_names(file.job, known, path + ".job.");
  check_children(file.parts, file, known, path + ".parts");
  check_children(file.plans, file, known, path + ".plans");
  check_children(file.readings, file, known, path + ".readings");
  check_children(file.findings, file, known, path + ".findings");
  check_children(file.decisions, file, known, path + ".decisions");
  check_children(file.mounts, file, known, path + ".mounts");
  check_children(file.mount_proofs, file, known, path + ".mount_proofs");
  check_children(file.cut_plans, file, known, path + ".cut_plans");
  check_children(file.passes, file, known, path + ".passes");
  check_children(file.bench_steps, file, known, path + ".bench_steps");
  check_children(file.cuts, file, known, path + ".cuts");
  check_children(file.refits, file, known, path + ".refits");
  check_children(file.amendments, file, known, path + ".amendments");
}

template <class T>
void check_list(const std::vector<T>& things, const Known& known, const std::string& name) {
  for (std::size_t i = 0; i < things.size(); ++i) {
    check_names(things[i], known, name + "[" + std::to_string(i) + "].");
  }
}

/// A booking's job travels with it, or is here already.
void check_booked_jobs(Store& store, const Parcel& parcel) {
  Ids jobs;
  for (const JobFile& file : parcel.jobs) jobs.insert(file.job.id);
  for (std::size_t i = 0; i < parcel.bookings.size(); ++i) {
    const auto& job_id = parcel.bookings[i].job_id;
    if (job_id && !store.job_file(*job_id)) {
      expect_in(jobs, job_id, "bookings[" + std::to_string(i) + "].job_id");
    }
  }
}

/// An edge of an insert is on record once.
void check_corners(Store& store, const Parcel& parcel) {
  std::map<std::pair<Uuid, std::int64_t>, Uuid> taken;
  for (const Corner& corner : store.corners()) taken.emplace(std::pair(corner.insert_id, corner.number), corner.id);
  for (std::size_t i = 0; i < parcel.corners.size(); ++i) {
    const Corner& corner = parcel.corners[i];
    const auto [at, fresh] = taken.emplace(std::pair(corner.insert_id, corner.number), corner.id);
    if (!fresh && at->second != corner.id) {
      throw InputError("corner_taken", "corners[" + std::to_string(i) + "].number",
                       "this corner of the insert is on record already, under another id");
    }
  }
}

}  // namespace

void check_parcel(Store& store, const Parcel& parcel) {
  const Known known = known_to(store, parcel);
  for (std::size_t i = 0; i < parcel.jobs.size(); ++i) {
    check_file(parcel.jobs[i], known, parcel.settings ? "jobs[" + std::to_string(i) + "]" : "file");
  }
  check_list(parcel.corners, known, "corners");
  check_list(parcel.bookings, known, "bookings");
  check_list(parcel.zero_checks, known, "zero_checks");
  check_list(parcel.changes, known, "changes");
  check_booked_jobs(store, parcel);
  check_corners(store, parcel);
}

}  // namespace brakewright::shop
