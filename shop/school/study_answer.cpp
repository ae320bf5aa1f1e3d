#include "shop/school/study_answer.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/input_error.hpp"
#include "shop/find.hpp"
#include "shop/school/study_order.hpp"

namespace brakewright::shop {

double shared_u_um(const Study& study, const std::vector<Instrument>& instruments) {
  double largest = 0;
  for (const Uuid& id : study.instrument_ids) {
    const Instrument* instrument = find(instruments, id);
    if (instrument == nullptr) continue;
    largest = std::max(largest, std::hypot(instrument->mpe.um(), instrument->resolution.um() / 2) / std::sqrt(3.0));
  }
  return largest;
}

namespace {

gauge_study::Input input_of(const StudyMatter& matter, const std::vector<StudyReading>& readings) {
  gauge_study::Input input;
  for (const StudyReading& reading : readings) {
    input.rows.push_back({.part = to_text(reading.reference_part_id),
                          .operator_name = to_text(reading.person_id),
                          .value = reading.value.value.um(),
                          .instrument = to_text(reading.instrument_id)});
  }
  for (const Uuid& id : matter.study.reference_part_ids) {
    const ReferencePart* part = find(matter.parts, id);
    if (part == nullptr) continue;
    input.references.push_back({to_text(id), part->reference.value.um(), part->expanded_uncertainty.um() / 2});
  }
  if (matter.study.tolerance) input.tolerance = matter.study.tolerance->value.um();
  input.u_instrument =
      matter.study.u_instrument_um ? *matter.study.u_instrument_um : shared_u_um(matter.study, matter.instruments);
  input.seed = static_cast<std::uint64_t>(matter.study.seed);
  return input;
}

std::vector<StudyGroup> marked(const std::vector<gauge_study::Group>& groups) {
  std::vector<StudyGroup> all;
  for (const gauge_study::Group& group : groups) {
    StudyGroup made{.id = parse_uuid(group.name), .figures = group};
    for (const gauge_study::PartError& error : group.errors) {
      if (!error.en) continue;
      ++made.parts_marked;
      if (std::abs(*error.en) <= 1) ++made.parts_within;
    }
    all.push_back(std::move(made));
  }
  return all;
}

}  // namespace

std::vector<StudyProgress> progress_of(const Study& study, const std::vector<StudyReading>& readings) {
  const std::size_t wanted =
      study.reference_part_ids.size() * study.instrument_ids.size() * static_cast<std::size_t>(study.repeats);
  std::vector<StudyProgress> all;
  for (const Uuid& person_id : study.person_ids) {
    const std::size_t open = open_places(study, person_id, readings).size();
    all.push_back({person_id, static_cast<std::int64_t>(wanted - open), static_cast<std::int64_t>(wanted)});
  }
  return all;
}

StudyAnswer answer_of(const StudyMatter& matter) {
  StudyAnswer answer{.study_id = matter.study.id};
  std::set<Uuid> through;
  for (const StudyProgress& progress : progress_of(matter.study, matter.readings)) {
    if (progress.done == progress.of) {
      through.insert(progress.person_id);
    } else {
      answer.left_out.push_back(progress);
    }
  }
  for (const StudyReading& reading : matter.readings) {
    if (!reading.withdrawn_at && through.contains(reading.person_id)) answer.readings.push_back(reading);
  }
  if (through.empty()) {
    answer.missing.emplace_back("Nobody has read every part as often as the study asks yet.");
    return answer;
  }
  // In the study's order, whoever read first.
  const auto place_in = [](const std::vector<Uuid>& ids, const Uuid& id) {
    return std::find(ids.begin(), ids.end(), id) - ids.begin();
  };
  std::vector<StudyReading> rows = answer.readings;
  std::stable_sort(rows.begin(), rows.end(), [&](const StudyReading& a, const StudyReading& b) {
    const auto key = [&](const StudyReading& reading) {
      return std::tuple(place_in(matter.study.reference_part_ids, reading.reference_part_id),
                        place_in(matter.study.person_ids, reading.person_id), reading.instrument_id, reading.repeat);
    };
    return key(a) < key(b);
  });
  try {
    answer.figures = gauge_study::study_gauge(input_of(matter, rows));
  } catch (const InputError& refusal) {
    answer.missing.emplace_back(refusal.what());
    return answer;
  }
  answer.people = marked(answer.figures->by_operator);
  if (answer.figures->by_instrument) answer.instruments = marked(answer.figures->by_instrument->groups);
  answer.words = words_on(matter, answer);
  return answer;
}

}  // namespace brakewright::shop
