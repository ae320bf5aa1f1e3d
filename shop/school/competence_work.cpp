#include <algorithm>

#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/school/changing.hpp"
#include "shop/school/starter/starter.hpp"

/// What people learn to do, and what shows that they can.
namespace brakewright::shop {

std::vector<Competence> School::competences() {
  auto all = looking([&] { return store_.competences().all(); });
  std::stable_sort(all.begin(), all.end(),
                   [](const Competence& a, const Competence& b) { return a.position < b.position; });
  return all;
}

Competence School::put_competence(Competence wanted, const Uuid& by) {
  check(wanted);
  return journaled(by, [&](const Recorder& recorder) {
    const auto present = store_.competences().find(wanted.id);
    if (present == wanted) return wanted;
    recorder.put(store_.competences(), wanted, present ? "changed" : "added");
    return wanted;
  });
}

std::vector<Evidence> School::evidence() {
  return looking([&] { return store_.evidence().all(); });
}

std::vector<Evidence> School::evidence_of(const Uuid& person_id) {
  return looking([&] { return store_.evidence().where("person_id", person_id); });
}

Evidence School::add_evidence(Evidence wanted, const Uuid& by) {
  check(wanted);
  return journaled(by, [&](const Recorder& recorder) {
    if (!store_.competences().find(wanted.competence_id)) {
      throw RuleError("unknown_competence", "competence_id", "no competence of this school has this id");
    }
    expect_person(wanted.person_id, "person_id");
    expect_own(wanted.person_id, by);
    if (wanted.job_id) shop_.job_file(*wanted.job_id);
    if (wanted.study_id && !store_.studies().find(*wanted.study_id)) {
      throw RuleError("unknown_study", "study_id", "no study of this school has this id");
    }
    if (wanted.practice_run_id &&
        !(practice_.has_ended && practice_.has_ended(*wanted.practice_run_id, wanted.person_id))) {
      throw RuleError("unknown_run", "practice_run_id", "this person has no ended run of this id at the bench");
    }
    wanted.signed_by_person_id.reset();
    if (wanted.level == EvidenceLevel::signed_off) {
      expect_leads(by, "level");
      if (wanted.person_id == by) throw RuleError("own_work", "person_id", "nobody signs for themselves");
      wanted.signed_by_person_id = by;
    }
    wanted.withdrawn_at.reset();
    wanted.withdrawn_by_person_id.reset();
    wanted.at = now_();
    if (const auto present = store_.evidence().find(wanted.id)) {
      wanted.at = present->at;
      Evidence stored = *present;
      stored.withdrawn_at.reset();
      stored.withdrawn_by_person_id.reset();
      if (stored == wanted) return *present;
      throw RuleError("id_taken", "id", "other evidence has this id");
    }
    recorder.put(store_.evidence(), wanted, "added", wanted.job_id);
    return wanted;
  });
}

Evidence School::withdraw_evidence(const Uuid& evidence_id, const Uuid& by) {
  return journaled(by, [&](const Recorder& recorder) {
    auto found = store_.evidence().find(evidence_id);
    if (!found) throw RuleError("unknown_evidence", "evidence_id", "no evidence of this school has this id");
    if (found->withdrawn_at) return *found;
    if (found->signed_by_person_id) {
      expect_leads(by, "by_person_id");
    } else {
      expect_own(found->person_id, by);
    }
    found->withdrawn_at = now_();
    found->withdrawn_by_person_id = by;
    recorder.put(store_.evidence(), *found, "withdrawn", found->job_id);
    return *found;
  });
}

void School::put_starter_lists(const Uuid& by) {
  shop_.batch([&] {
    const auto points = safety_points();
    for (const SafetyPoint& point : starter_safety_points()) {
      if (find(points, point.id) == nullptr) put_safety_point(point, by);
    }
    const auto known = competences();
    for (const Competence& one : starter_competences()) {
      if (find(known, one.id) == nullptr) put_competence(one, by);
    }
  });
}

std::optional<EvidenceLevel> level_reached(const std::vector<Evidence>& evidence, const Uuid& person_id,
                                           const Uuid& competence_id) {
  std::optional<EvidenceLevel> highest;
  for (const Evidence& one : evidence) {
    if (one.withdrawn_at || one.person_id != person_id || one.competence_id != competence_id) continue;
    if (!highest || one.level > *highest) highest = one.level;
  }
  return highest;
}

}  // namespace brakewright::shop
