#include <algorithm>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/limits.hpp"

/// What belongs to the shop as a whole: settings, people, instruments, lathes, zero checks, known parts.
namespace brakewright::shop {

Settings Shop::settings() {
  const std::lock_guard lock(guard_);
  return store_.settings();
}

Settings Shop::change_settings(const Settings& wanted, const Uuid& by) {
  check(wanted);
  return changing(by, [&] {
    const Settings present = store_.settings();
    if (wanted.version != present.version) {
      throw ConflictError("version", "the settings were changed meanwhile", json_text(present));
    }
    Settings next = wanted;
    next.demo = present.demo;
    if (next == present) return present;
    ++next.version;
    store_.put(next);
    ++context_;
    record("settings.changed", {}, by, json_text(next), by);
    return next;
  });
}

std::vector<Person> Shop::people() {
  const std::lock_guard lock(guard_);
  return known_people();
}

Person Shop::put_person(Person person, const Uuid& by) {
  check(person);
  return changing(by, [&] {
    if (known_people().empty() && by != person.id) {
      throw RuleError("unknown_person", "by_person_id", "the first person of a shop enters themselves");
    }
    const Person* present = find(known_people(), person.id);
    person.created_at = present != nullptr ? present->created_at : surroundings_.now();
    if (present != nullptr && *present == person) return person;
    const bool added = present == nullptr;
    store_.put(person);
    people_.reset();
    hands_.reset();
    ++context_;
    record(added ? "person.added" : "person.changed", {}, person.id, json_text(person), by);
    return person;
  });
}

std::vector<Instrument> Shop::instruments() {
  const std::lock_guard lock(guard_);
  return known_instruments();
}

Instrument Shop::put_instrument(Instrument instrument, const Uuid& by) {
  check(instrument);
  if (instrument.calibrated_on && instrument.calibration_due_on &&
      *instrument.calibration_due_on < *instrument.calibrated_on) {
    throw InputError("out_of_range", "calibration_due_on", "must not be before calibrated_on");
  }
  return changing(by, [&] {
    const Instrument* present = find(known_instruments(), instrument.id);
    if (present != nullptr && *present == instrument) return instrument;
    const bool added = present == nullptr;
    store_.put(instrument);
    instruments_.reset();
    ++context_;
    record(added ? "instrument.added" : "instrument.changed", {}, instrument.id, json_text(instrument), by);
    return instrument;
  });
}

std::vector<Lathe> Shop::lathes() {
  const std::lock_guard lock(guard_);
  return known_lathes();
}

namespace {

/// Speeds and feeds as they stand on the levers: slowest first, each once.
void check_levers(const std::vector<double>& values, const std::string& field) {
  for (std::size_t k = 1; k < values.size(); ++k) {
    if (values[k] > values[k - 1]) continue;
    throw InputError("out_of_range", field + "[" + std::to_string(k) + "]", "slowest first, and each only once");
  }
}

void check_arbor(const Lathe& lathe) {
  if (lathe.arbor_diameter && lathe.arbor_diameter->nm == 0) {
    throw InputError("out_of_range", "arbor_diameter_nm", "must be more than 0");
  }
  if (lathe.tip && lathe.tip->nm <= lathe.thread_start.value_or(Length{}).nm) {
    throw InputError("out_of_range", "tip_nm", "the tip lies beyond the start of the thread");
  }
  if (lathe.tip && lathe.thread_start && lathe.nut_engagement.nm >= lathe.tip->nm - lathe.thread_start->nm) {
    throw InputError("out_of_range", "nut_engagement_nm",
                     "must be less than the thread is long, from its start to the tip");
  }
}

}  // namespace

Lathe Shop::put_lathe(Lathe lathe, const Uuid& by) {
  check(lathe);
  check_arbor(lathe);
  check_levers(lathe.speeds_rpm, "speeds_rpm");
  check_levers(lathe.feeds_mm_per_rev, "feeds_mm_per_rev");
  return changing(by, [&] {
    const Lathe* present = find(known_lathes(), lathe.id);
    if (present != nullptr && *present == lathe) return lathe;
    const bool added = present == nullptr;
    store_.put(lathe);
    lathes_.reset();
    ++context_;
    record(added ? "lathe.added" : "lathe.changed", {}, lathe.id, json_text(lathe), by);
    return lathe;
  });
}

std::vector<ZeroCheck> Shop::zero_checks(std::optional<Uuid> instrument_id) {
  const std::lock_guard lock(guard_);
  if (!instrument_id) return known_zero_checks();
  return store_.zero_checks(instrument_id);
}

ZeroCheck Shop::add_zero_check(const Uuid& id, const Uuid& instrument_id, const std::string& text, Unit default_unit,
                               std::optional<Uuid> job_id, const Uuid& by) {
  return changing(by, [&] {
    expect_instrument(instrument_id, "instrument_id");
    ZeroCheck made{.id = id, .instrument_id = instrument_id, .error = typed_in_field(text, default_unit, "text")};
    made.job_id = job_id;
    made.by_person_id = by;
    made.at = surroundings_.now();
    if (std::abs(made.error.value.nm) > 1'000'000) {
      throw InputError("out_of_range", "text",
                       "a zero error is at most 1 mm: what it showed less what it should have shown");
    }
    if (const ZeroCheck* present = find(known_zero_checks(), id)) {
      if (present->instrument_id == instrument_id && present->error == made.error) return *present;
      throw RuleError("id_taken", "id", "another zero check has this id");
    }
    if (job_id) open_file(*job_id);
    store_.put(made);
    zero_checks_.reset();
    ++context_;
    record("zero_check.added", job_id, id, json_text(made), by);
    return made;
  });
}

std::vector<KnownPart> Shop::known_parts(const std::string& words, std::int64_t limit) {
  if (limit < 1 || limit > 100'000) throw InputError("out_of_range", "limit", "must be from 1 to 100,000");
  const std::lock_guard lock(guard_);
  return store_.known_parts(words, limit);
}

KnownPart Shop::put_known_part(KnownPart part, const Uuid& by) {
  check(part);
  check_sizes(part, "");
  return changing(by, [&] {
    part.last_met_at = surroundings_.now();
    store_.put(part);
    record("known_part.kept", {}, part.id, json_text(part), by);
    return part;
  });
}

}  // namespace brakewright::shop
