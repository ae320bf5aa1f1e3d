#include "shop/school/school.hpp"

#include <algorithm>

#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/school/changing.hpp"

namespace brakewright::shop {

School::School(Shop& shop, SchoolStore& store, std::function<UtcTime()> now)
    : shop_(shop), store_(store), now_(std::move(now)) {
  shop_.hands_from([this] { return hands(); });
}

School::~School() { shop_.hands_from({}); }

Hands School::hands() {
  Hands hands;
  const auto people = shop_.people();
  const auto instruments = shop_.instruments();
  for (const StudyFile& file : studies()) {
    if (!file.study.closed) continue;
    std::vector<InstrumentKind> kinds;
    for (const Uuid& id : file.study.instrument_ids) {
      if (const Instrument* instrument = find(instruments, id)) kinds.push_back(instrument->kind);
    }
    for (const StudyMark& mark : marks_of(file.study)) {
      const Person* person = find(people, mark.person_id);
      hands[mark.person_id].push_back({.since = mark.closed_at,
                                       .sd_um = mark.sd_um.value_or(0),
                                       .u_um = mark.u_common_um,
                                       .person_name = person == nullptr ? "" : person->name,
                                       .study_name = file.study.name,
                                       .kinds = kinds});
    }
  }
  for (auto& [person_id, of_person] : hands) {
    std::stable_sort(of_person.begin(), of_person.end(),
                     [](const OwnHand& a, const OwnHand& b) { return a.since < b.since; });
  }
  return hands;
}

Person School::expect_person(const Uuid& id, const std::string& field) {
  const auto people = shop_.people();
  const Person* found = find(people, id);
  if (found == nullptr) throw RuleError("unknown_person", field, "nobody in this shop has this id");
  return *found;
}

std::vector<ReferencePart> School::reference_parts() {
  return looking([&] { return store_.reference_parts().all(); });
}

ReferencePart School::put_reference_part(ReferencePart part, const Uuid& by) {
  check(part);
  if (part.reference.value.nm <= 0) throw InputError("out_of_range", "reference.text", "a size is more than 0");
  return journaled(by, [&](const Recorder& recorder) {
    const auto present = store_.reference_parts().find(part.id);
    if (present == part) return part;
    if (present) expect_free(*present, part);
    recorder.put(store_.reference_parts(), part, present ? "changed" : "added");
    return part;
  });
}

void School::expect_free(const ReferencePart& present, const ReferencePart& wanted) {
  const bool same = present.reference.value == wanted.reference.value && present.place_words == wanted.place_words &&
                    present.expanded_uncertainty == wanted.expanded_uncertainty;
  if (same || store_.study_readings().where("reference_part_id", wanted.id).empty()) return;
  throw RuleError("in_use", "reference",
                  "readings of a study rest on this size, its uncertainty and its place; enter the part anew, with a "
                  "name of its own, and retire this one");
}

}  // namespace brakewright::shop
