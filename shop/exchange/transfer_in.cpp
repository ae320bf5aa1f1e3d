#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "shop/exchange/transfer.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostBytes = 200'000'000;

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

template <class T>
void check_children(const std::vector<T>& children, const JobFile& file, const std::string& path) {
  for (std::size_t i = 0; i < children.size(); ++i) {
    const std::string at = path + "[" + std::to_string(i) + "].";
    if constexpr (requires { children[i].job_id; }) {
      if (children[i].job_id != file.job.id)
        throw InputError("not_of_this_job", at + "job_id", "this must be the id of its job");
    }
    if constexpr (requires { children[i].part_id; }) {
      const bool known = std::any_of(file.parts.begin(), file.parts.end(),
                                     [&](const Part& part) { return part.id == children[i].part_id; });
      if (!known) throw InputError("not_of_this_job", at + "part_id", "this must be the id of a part of its job");
    }
  }
}

void check_file(const JobFile& file, const std::string& path) {
  if (file.parts.empty() || file.parts.size() > 2)
    throw InputError("out_of_range", path + ".parts", "a job has one or two parts");
  check_children(file.parts, file, path + ".parts");
  check_children(file.plans, file, path + ".plans");
  check_children(file.readings, file, path + ".readings");
  check_children(file.findings, file, path + ".findings");
  check_children(file.decisions, file, path + ".decisions");
  check_children(file.cuts, file, path + ".cuts");
  check_children(file.amendments, file, path + ".amendments");
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
  for (std::size_t i = 0; i < parcel.jobs.size(); ++i) {
    check_file(parcel.jobs[i], parcel.settings ? "jobs[" + std::to_string(i) + "]" : "file");
  }
  Imported done;
  store.transact([&] {
    done = {};
    const bool empty_shop = store.last_seq() == 0;
    if (empty_shop && parcel.settings) store.put(*parcel.settings);
    done.others_added += put_new(store, parcel.people, store.people());
    done.others_added += put_new(store, parcel.instruments, store.instruments());
    done.others_added += put_new(store, parcel.lathes, store.lathes());
    done.others_added += put_new(store, parcel.known_parts, store.known_parts("", 100'000));
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
