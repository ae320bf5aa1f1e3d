#include <algorithm>
#include <cmath>
#include <set>

#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/limits.hpp"
#include "shop/school/changing.hpp"

/// Studies: who measures what, what they read, and what it says.
namespace brakewright::shop {
namespace {

constexpr std::size_t kMostParts = 30;
constexpr std::size_t kMostPeople = 100;
constexpr std::size_t kMostInstruments = 10;

/// Further from a reference than anybody reads who read the sleeve right: less than half a turn of a thimble (0.5 mm
/// or 0.025 in). Common practice, no source.
constexpr std::int64_t kFarOffNm = 250'000;
constexpr std::int64_t kMostAsideNm = 100'000;

void expect_some_once(const std::vector<Uuid>& ids, const std::string& field, std::size_t least, std::size_t most) {
  if (ids.size() < least || ids.size() > most) {
    throw InputError("out_of_range", field,
                     "from " + std::to_string(least) + " to " + std::to_string(most) + " are accepted here");
  }
  std::set<Uuid> seen;
  for (std::size_t k = 0; k < ids.size(); ++k) {
    if (seen.insert(ids[k]).second) continue;
    throw InputError("duplicate", field + "[" + std::to_string(k) + "]", "this stands here already");
  }
}

void check_study(const Study& study) {
  check(study);
  expect_some_once(study.reference_part_ids, "reference_part_ids", 2, kMostParts);
  expect_some_once(study.person_ids, "person_ids", 1, kMostPeople);
  expect_some_once(study.instrument_ids, "instrument_ids", 1, kMostInstruments);
  if (study.tolerance && study.tolerance->value.nm <= 0) {
    throw InputError("out_of_range", "tolerance.text", "the whole width of a tolerance is more than 0");
  }
}

bool is_current(const StudyReading& reading) { return !reading.withdrawn_at; }

bool was_read_by(const std::vector<StudyReading>& readings, const Uuid& person_id) {
  return std::any_of(readings.begin(), readings.end(),
                     [&](const StudyReading& one) { return is_current(one) && one.person_id == person_id; });
}

/// What readings rest on stays.
void expect_readings_fit(const Study& present, const Study& wanted, const std::vector<StudyReading>& readings) {
  if (std::none_of(readings.begin(), readings.end(), is_current)) return;
  const bool same_places = present.reference_part_ids == wanted.reference_part_ids &&
                           present.instrument_ids == wanted.instrument_ids && present.repeats == wanted.repeats;
  if (!same_places) {
    throw RuleError("readings_exist", "reference_part_ids",
                    "somebody has read in this study; its parts, instruments and repeats stay as they are");
  }
  for (const Uuid& person_id : present.person_ids) {
    const auto& left = wanted.person_ids;
    if (std::find(left.begin(), left.end(), person_id) != left.end() || !was_read_by(readings, person_id)) continue;
    throw RuleError("readings_exist", "person_ids", "who has read in this study stays in it");
  }
}

void expect_closed_stays(const Study& present, Study wanted) {
  if (!present.closed) return;
  wanted.name = present.name;
  if (wanted != present) {
    throw RuleError("closed", "study_id", "this study is closed; make a new one to read again");
  }
}

Study found_study(const std::optional<Study>& study) {
  if (!study) throw RuleError("unknown_study", "study_id", "no study of this school has this id");
  return *study;
}

/// Where the middle of what is taken unquestioned lies beside the reference, from -kMostAsideNm to kMostAsideNm: the
/// same for a part throughout a study, and another in another. Who steps in from both sides finds that middle and not
/// the reference. It follows from the ids alone, so that it hides nothing from somebody who reads this source.
std::int64_t aside_nm(const Uuid& study_id, const Uuid& part_id) {
  const std::uint64_t drawn = seed_of(part_id, seed_of(study_id)) % static_cast<std::uint64_t>(2 * kMostAsideNm + 1);
  return static_cast<std::int64_t>(drawn) - kMostAsideNm;
}

/// Nothing of the reference is told: the study is blind.
std::vector<Doubt> doubts_about(const TypedLength& value, const ReferencePart& part, const Uuid& study_id) {
  const std::int64_t middle_nm = part.reference.value.nm + aside_nm(study_id, part.id);
  if (std::abs(value.value.nm - middle_nm) <= kFarOffNm) return {};
  return {{.code = "far_off",
           .message = "This part cannot be that size. Look at the unit and at the sleeve again: a turn of the thimble "
                      "is easily lost."}};
}

}  // namespace

std::vector<StudyFile> School::studies() {
  return looking([&] {
    std::vector<StudyFile> files;
    for (Study& study : store_.studies().all()) {
      auto readings = store_.study_readings().where("study_id", study.id);
      files.push_back({std::move(study), std::move(readings)});
    }
    return files;
  });
}

StudyFile School::study(const Uuid& study_id) {
  return looking([&] {
    return StudyFile{found_study(store_.studies().find(study_id)), store_.study_readings().where("study_id", study_id)};
  });
}

void School::expect_all_known(const Study& study) {
  const auto expect = [](const auto& all, const std::vector<Uuid>& ids, const std::string& field, const char* code) {
    for (std::size_t k = 0; k < ids.size(); ++k) {
      if (find(all, ids[k]) != nullptr) continue;
      throw RuleError(code, field + "[" + std::to_string(k) + "]", "nothing in this shop has this id");
    }
  };
  expect(store_.reference_parts().all(), study.reference_part_ids, "reference_part_ids", "unknown_reference_part");
  expect(shop_.people(), study.person_ids, "person_ids", "unknown_person");
  expect(shop_.instruments(), study.instrument_ids, "instrument_ids", "unknown_instrument");
}

Study School::put_study(Study study, const Uuid& by) {
  check_study(study);
  return journaled(by, [&](const Recorder& recorder) {
    expect_all_known(study);
    const auto present = store_.studies().find(study.id);
    study.made_by_person_id = present ? present->made_by_person_id : by;
    study.made_at = present ? present->made_at : now_();
    study.closed_at = present ? present->closed_at : std::nullopt;
    study.u_instrument_um = present ? present->u_instrument_um : std::nullopt;
    if (present) {
      study.seed = present->seed;
      expect_closed_stays(*present, study);
      expect_readings_fit(*present, study, store_.study_readings().where("study_id", study.id));
      if (study == *present) return study;
    } else if (study.seed == 0) {
      study.seed = seed_from(shop_.new_id());
    }
    if (study.closed && !study.closed_at) study.closed_at = now_();
    const bool closing = study.closed && !(present && present->closed);
    if (closing) {
      study.u_instrument_um = shared_u_um(study, shop_.instruments());
      shop_.hands_changed();
    }
    recorder.put(store_.studies(), study, !present ? "added" : closing ? "closed" : "changed");
    return study;
  });
}

std::int64_t School::seed_from(const Uuid& id) {
  // The last six bytes of a version 7 id are random.
  std::int64_t seed = 0;
  for (std::size_t k = 10; k < id.bytes.size(); ++k) seed = seed * 256 + id.bytes[k];
  return seed + 1;
}

std::vector<StudyPlace> School::open_places(const Uuid& study_id, const Uuid& person_id) {
  const StudyFile file = study(study_id);
  const auto& people = file.study.person_ids;
  if (std::find(people.begin(), people.end(), person_id) == people.end()) {
    throw RuleError("not_in_study", "person_id", "this person does not take part in the study");
  }
  return shop::open_places(file.study, person_id, file.readings);
}

StudyReading School::add_study_reading(const Uuid& study_id, const NewStudyReading& wanted, const Uuid& by) {
  check(wanted);
  const TypedLength value = typed_in_field(wanted.text, wanted.default_unit, "text");
  return journaled(by, [&](const Recorder& recorder) {
    const Study study = found_study(store_.studies().find(study_id));
    StudyReading made{.id = wanted.id,
                      .study_id = study_id,
                      .person_id = wanted.person_id,
                      .reference_part_id = wanted.reference_part_id,
                      .instrument_id = wanted.instrument_id,
                      .repeat = wanted.repeat,
                      .value = value,
                      .at = now_()};
    if (const auto present = store_.study_readings().find(wanted.id)) {
      made.at = present->at;
      made.withdrawn_at = present->withdrawn_at;
      made.withdrawn_by_person_id = present->withdrawn_by_person_id;
      if (made == *present) return made;
      throw RuleError("id_taken", "id", "another reading has this id");
    }
    expect_own(made.person_id, by);
    expect_place(study, made);
    const auto part = store_.reference_parts().find(made.reference_part_id);
    const auto doubts = doubts_about(value, part.value(), study_id);
    if (!doubts.empty() && !wanted.confirmed) throw DoubtfulReading("text", doubts);
    recorder.put(store_.study_readings(), made, "added");
    return made;
  });
}

void School::expect_own(const Uuid& person_id, const Uuid& by) {
  if (person_id == by || leads(expect_person(by, "by_person_id").role)) return;
  throw RuleError("not_yours", "person_id", "a student enters their own; a teacher or a lead hand may enter another's");
}

void School::expect_place(const Study& study, const StudyReading& made) {
  if (study.closed) throw RuleError("closed", "study_id", "this study is closed; nothing is read in it any more");
  const auto& people = study.person_ids;
  if (std::find(people.begin(), people.end(), made.person_id) == people.end()) {
    throw RuleError("not_in_study", "person_id", "this person does not take part in the study");
  }
  const auto order = order_of(study, made.person_id);
  if (std::find(order.begin(), order.end(), place_of(made)) == order.end()) {
    throw RuleError("not_in_study", "reference_part_id", "the study asks for no such reading");
  }
  for (const StudyReading& other : store_.study_readings().where("study_id", study.id)) {
    if (is_current(other) && other.person_id == made.person_id && place_of(other) == place_of(made)) {
      throw RuleError("place_taken", "repeat", "this was read already; it can be taken back and read again");
    }
  }
}

StudyReading School::withdraw_study_reading(const Uuid& study_id, const Uuid& reading_id, const Uuid& by) {
  return journaled(by, [&](const Recorder& recorder) {
    const Study study = found_study(store_.studies().find(study_id));
    const auto readings = store_.study_readings().where("study_id", study_id);
    const StudyReading* found = find(readings, reading_id);
    if (found == nullptr) throw RuleError("unknown_reading", "reading_id", "no reading of this study has this id");
    StudyReading reading = *found;
    if (reading.withdrawn_at) return reading;
    if (study.closed) throw RuleError("closed", "study_id", "this study is closed; its readings stay");
    expect_own(reading.person_id, by);
    if (expect_person(by, "by_person_id").role == Role::student) expect_newest(readings, reading);
    reading.withdrawn_by_person_id = by;
    reading.withdrawn_at = now_();
    recorder.put(store_.study_readings(), reading, "withdrawn");
    return reading;
  });
}

void School::expect_newest(const std::vector<StudyReading>& readings, const StudyReading& reading) {
  // In the order in which they were stored.
  for (auto other = readings.rbegin(); other != readings.rend() && other->id != reading.id; ++other) {
    if (!is_current(*other) || other->person_id != reading.person_id) continue;
    throw RuleError("not_yours", "reading_id",
                    "only your newest reading can be taken back; a teacher can take back any of them");
  }
}

StudyAnswer School::study_answer(const Uuid& study_id) {
  const StudyFile file = study(study_id);
  const auto parts = reference_parts();
  const auto people = shop_.people();
  const auto instruments = shop_.instruments();
  return answer_of({file.study, parts, people, instruments, file.readings});
}

}  // namespace brakewright::shop
