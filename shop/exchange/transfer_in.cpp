#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "shop/exchange/transfer.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostBytes = 200'000'000;
constexpr std::int64_t kAllParts = 100'000;

struct Parcel {
  std::optional<Settings> settings;
  std::vector<Person> people;
  std::vector<Instrument> instruments;
  std::vector<Lathe> lathes;
  std::vector<ZeroCheck> zero_checks;
  std::vector<KnownPart> known_parts;
  std::vector<JobFile> jobs;
  std::vector<Change> changes;
};

const Json& needed(const Json& object, const std::string& name) {
  const auto found = object.find(name);
  if (found == object.end()) throw InputError("missing", name, "this field is needed");
  return *found;
}

template <class T>
std::vector<T> read_list(const Json& object, const std::string& name) {
  const Json& list = needed(object, name);
  if (!list.is_array()) throw InputError("wrong_type", name, "a list is needed here");
  std::vector<T> things;
  things.reserve(list.size());
  for (const Json& thing : list)
    things.push_back(from_json<T>(thing, name + "[" + std::to_string(things.size()) + "]"));
  return things;
}

Parcel unpack(std::string_view text) {
  const Json object = parse_json(text, kMostBytes);
  if (!object.is_object()) throw InputError("wrong_type", "", "an object is needed here");
  const Json& format = needed(object, "format");
  Parcel parcel;
  if (format == "brakewright-job-1") {
    parcel.jobs.push_back(from_json<JobFile>(needed(object, "file"), "file"));
  } else if (format == "brakewright-shop-1") {
    parcel.settings = from_json<Settings>(needed(object, "settings"), "settings");
    parcel.jobs = read_list<JobFile>(object, "jobs");
  } else {
    throw InputError("unknown_format", "format", "accepted here: brakewright-job-1, brakewright-shop-1");
  }
  parcel.people = read_list<Person>(object, "people");
  parcel.instruments = read_list<Instrument>(object, "instruments");
  parcel.lathes = read_list<Lathe>(object, "lathes");
  parcel.zero_checks = read_list<ZeroCheck>(object, "zero_checks");
  parcel.known_parts = read_list<KnownPart>(object, "known_parts");
  parcel.changes = read_list<Change>(object, "changes");
  return parcel;
}

using Ids = std::set<Uuid>;

template <class T>
Ids ids_of(const std::vector<T>& here, const std::vector<T>& there) {
  Ids ids;
  for (const auto* things : {&here, &there}) {
    for (const T& thing : *things) ids.insert(thing.id);
  }
  return ids;
}

/// What a parcel may name: what is in it, and what the shop has already.
struct Known {
  Ids people, instruments, lathes, known_parts, zero_checks;
};

Known known_to(Store& store, const Parcel& parcel) {
  return {.people = ids_of(parcel.people, store.people()),
          .instruments = ids_of(parcel.instruments, store.instruments()),
          .lathes = ids_of(parcel.lathes, store.lathes()),
          .known_parts = ids_of(parcel.known_parts, store.known_parts("", kAllParts)),
          .zero_checks = ids_of(parcel.zero_checks, store.zero_checks(std::nullopt))};
}

void expect_in(const Ids& ids, const std::optional<Uuid>& id, const std::string& path) {
  if (id && !ids.contains(*id)) {
    throw InputError("not_in_it", path, "this names something that is neither in the export nor in the shop");
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
}

void expect_same(const Uuid& id, const Uuid& wanted, const std::string& path) {
  if (id != wanted) throw InputError("not_of_this_job", path, "this must be the id of its job");
}

template <class T>
void check_children(const std::vector<T>& children, const JobFile& file, const Known& known, const std::string& path) {
  const Ids parts = ids_of(file.parts, {});
  const Ids readings = ids_of(file.readings, {});
  for (std::size_t i = 0; i < children.size(); ++i) {
    const T& child = children[i];
    const std::string at = path + "[" + std::to_string(i) + "].";
    if constexpr (requires { child.job_id; }) expect_same(child.job_id, file.job.id, at + "job_id");
    if constexpr (requires { child.part_id; }) expect_in(parts, child.part_id, at + "part_id");
    if constexpr (requires { child.supersedes_id; }) expect_in(readings, child.supersedes_id, at + "supersedes_id");
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
  check_children(file.cuts, file, known, path + ".cuts");
  check_children(file.amendments, file, known, path + ".amendments");
}

void check_parcel(const Parcel& parcel, const Known& known) {
  for (std::size_t i = 0; i < parcel.jobs.size(); ++i) {
    check_file(parcel.jobs[i], known, parcel.settings ? "jobs[" + std::to_string(i) + "]" : "file");
  }
  for (std::size_t i = 0; i < parcel.zero_checks.size(); ++i) {
    check_names(parcel.zero_checks[i], known, "zero_checks[" + std::to_string(i) + "].");
  }
  for (std::size_t i = 0; i < parcel.changes.size(); ++i) {
    check_names(parcel.changes[i], known, "changes[" + std::to_string(i) + "].");
  }
}

/// Puts what is not in `present` yet and says how many that were.
template <class T>
std::int64_t put_new(Store& store, const std::vector<T>& things, const std::vector<T>& present) {
  std::set<Uuid> known;
  for (const T& thing : present) known.insert(thing.id);
  std::int64_t added = 0;
  for (const T& thing : things) {
    if (!known.insert(thing.id).second) continue;
    store.put(thing);
    ++added;
  }
  return added;
}

template <class T>
void put_all(Store& store, const std::vector<T>& things) {
  for (const T& thing : things) store.put(thing);
}

void put_file(Store& store, const JobFile& file) {
  store.put(file.job);
  put_all(store, file.parts);
  put_all(store, file.plans);
  put_all(store, file.readings);
  put_all(store, file.findings);
  put_all(store, file.decisions);
  put_all(store, file.cuts);
  put_all(store, file.amendments);
}

void append_new(Store& store, const std::vector<Change>& changes, const std::set<Uuid>& added_jobs, bool empty_shop) {
  for (const Change& change : changes) {
    if (empty_shop || (change.job_id && added_jobs.contains(*change.job_id))) store.append(change);
  }
}

}  // namespace

Imported import_export(Store& store, std::string_view text) {
  const Parcel parcel = unpack(text);
  Imported done;
  store.transact([&] {
    check_parcel(parcel, known_to(store, parcel));
    done = {};
    const bool empty_shop = store.last_seq() == 0;
    if (empty_shop && parcel.settings) store.put(*parcel.settings);
    done.others_added += put_new(store, parcel.people, store.people());
    done.others_added += put_new(store, parcel.instruments, store.instruments());
    done.others_added += put_new(store, parcel.lathes, store.lathes());
    done.others_added += put_new(store, parcel.known_parts, store.known_parts("", kAllParts));
    std::set<Uuid> added_jobs;
    for (const JobFile& file : parcel.jobs) {
      if (store.job_file(file.job.id)) {
        ++done.jobs_known;
        continue;
      }
      JobFile here = file;
      if (const auto other = store.job_file_by_number(file.job.number); other || file.job.number < 1) {
        here.job.number = store.next_job_number();
        done.renumbered.push_back({.was = file.job.number, .is = here.job.number});
      }
      put_file(store, here);
      added_jobs.insert(file.job.id);
      ++done.jobs_added;
    }
    done.others_added += put_new(store, parcel.zero_checks, store.zero_checks(std::nullopt));
    append_new(store, parcel.changes, added_jobs, empty_shop);
  });
  return done;
}

}  // namespace brakewright::shop
