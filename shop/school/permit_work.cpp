#include <algorithm>

#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/school/changing.hpp"

/// Safety points, the permit's rule, supervised cuts and permits.
namespace brakewright::shop {
namespace {

constexpr std::size_t kMostChoices = 6;

void check_point(const SafetyPoint& point) {
  check(point);
  if (point.choices.size() < 2 || point.choices.size() > kMostChoices) {
    throw InputError("out_of_range", "choices", "from 2 to 6 choices are accepted here");
  }
  if (point.right_choice >= static_cast<std::int64_t>(point.choices.size())) {
    throw InputError("out_of_range", "right_choice", "one of the choices, counted from 0");
  }
}

bool same_wording(const SafetyPoint& a, const SafetyPoint& b) {
  return a.question == b.question && a.choices == b.choices && a.right_choice == b.right_choice;
}

template <class E>
void expect_same(const E& present, const E& wanted) {
  if (present == wanted) return;
  throw RuleError("id_taken", "id", "another one has this id");
}

}  // namespace

void School::expect_leads(const Uuid& id, const std::string& field) {
  if (leads(expect_person(id, field).role)) return;
  throw RuleError("needs_teacher", field, "a teacher or a lead hand does this");
}

std::vector<SafetyPoint> School::safety_points() {
  auto points = looking([&] { return store_.safety_points().all(); });
  std::stable_sort(points.begin(), points.end(),
                   [](const SafetyPoint& a, const SafetyPoint& b) { return a.position < b.position; });
  return points;
}

SafetyPoint School::put_safety_point(SafetyPoint point, const Uuid& by) {
  check_point(point);
  return journaled(by, [&](const Recorder& recorder) {
    const auto present = store_.safety_points().find(point.id);
    point.asked_since = present && same_wording(*present, point) ? present->asked_since : now_();
    if (present == point) return point;
    recorder.put(store_.safety_points(), point, present ? "changed" : "added");
    return point;
  });
}

std::vector<SafetyAnswer> School::safety_answers(const Uuid& person_id) {
  return looking([&] { return store_.safety_answers().where("person_id", person_id); });
}

SafetyAnswer School::answer_safety_point(const NewSafetyAnswer& wanted, const Uuid& by) {
  check(wanted);
  return journaled(by, [&](const Recorder& recorder) {
    const auto point = store_.safety_points().find(wanted.safety_point_id);
    if (!point) throw RuleError("unknown_safety_point", "safety_point_id", "no safety point has this id");
    if (wanted.choice >= static_cast<std::int64_t>(point->choices.size())) {
      throw InputError("out_of_range", "choice", "one of the choices, counted from 0");
    }
    expect_own(wanted.person_id, by);
    expect_person(wanted.person_id, "person_id");
    SafetyAnswer made{.id = wanted.id,
                      .person_id = wanted.person_id,
                      .safety_point_id = wanted.safety_point_id,
                      .choice = wanted.choice,
                      .was_right = wanted.choice == point->right_choice,
                      .at = now_()};
    if (const auto present = store_.safety_answers().find(wanted.id)) {
      made.at = present->at;
      made.was_right = present->was_right;
      expect_same(*present, made);
      return made;
    }
    recorder.put(store_.safety_answers(), made, "given");
    return made;
  });
}

PermitRule School::permit_rule() {
  return looking([&] { return rule_in_force(); });
}

PermitRule School::rule_in_force() {
  PermitRule newest;
  for (const KeptPermitRule& kept : store_.permit_rules().all()) {
    if (kept.rule.version >= newest.version) newest = kept.rule;
  }
  return newest;
}

PermitRule School::change_permit_rule(PermitRule rule, const Uuid& by) {
  check(rule);
  return journaled(by, [&](const Recorder& recorder) {
    const PermitRule present = rule_in_force();
    if (rule.version != present.version) {
      throw ConflictError("version", "the rule was changed meanwhile", json_text(present));
    }
    if (rule == present) return present;
    ++rule.version;
    const KeptPermitRule kept{.id = shop_.new_id(), .rule = rule, .by_person_id = by, .at = now_()};
    recorder.put(store_.permit_rules(), kept, "set");
    return rule;
  });
}

std::vector<SupervisedCut> School::supervised_cuts() {
  return looking([&] { return store_.supervised_cuts().all(); });
}

SupervisedCut School::sign_cut(SupervisedCut cut, const Uuid& by) {
  check(cut);
  return journaled(by, [&](const Recorder& recorder) {
    expect_leads(by, "by_person_id");
    expect_person(cut.person_id, "person_id");
    if (cut.person_id == by) throw RuleError("own_work", "person_id", "nobody signs their own cut");
    if (cut.job_id) shop_.job_file(*cut.job_id);
    cut.signed_by_person_id = by;
    cut.at = now_();
    if (const auto present = store_.supervised_cuts().find(cut.id)) {
      cut.at = present->at;
      expect_same(*present, cut);
      return cut;
    }
    recorder.put(store_.supervised_cuts(), cut, "signed", cut.job_id);
    return cut;
  });
}

PermitState School::permit_of(const Uuid& person_id) {
  return states_of({expect_person(person_id, "person_id")}).front();
}

std::vector<PermitState> School::permits() { return states_of(shop_.people()); }

bool School::may_cut(const Uuid& person_id, const Uuid& job_id) {
  const PermitState state = permit_of(person_id);
  return state.stands || stands_by(state, supervised_cuts(), job_id, now_());
}

std::vector<PermitState> School::states_of(const std::vector<Person>& people) {
  const auto marks = study_marks();
  return looking([&] {
    const PermitRule rule = rule_in_force();
    const bool asks = rule.practice_points && practice_.best_points;
    const auto practised = asks ? practice_.best_points() : std::map<Uuid, double>();
    const auto points = store_.safety_points().all();
    const auto answers = store_.safety_answers().all();
    const auto cuts = store_.supervised_cuts().all();
    const auto given = store_.permits().all();
    std::vector<PermitState> states;
    for (const Person& person : people) {
      const auto best = practised.find(person.id);
      states.push_back(permit_state({person, rule, points, answers, cuts, given, marks, now_(),
                                     best == practised.end() ? std::nullopt : std::optional(best->second)}));
    }
    return states;
  });
}

PermitState School::give_permit(const Uuid& person_id, const NewPermit& wanted, const Uuid& by) {
  check(wanted);
  journaled(by, [&](const Recorder& recorder) {
    expect_leads(by, "by_person_id");
    const PermitState before = permit_of(person_id);
    if (before.leads) throw RuleError("needs_none", "person_id", "who leads needs no permit");
    const bool reasoned = wanted.reason.find_first_not_of(" \t\r\n") != std::string::npos;
    if (const auto present = store_.permits().find(wanted.id)) {
      if (present->person_id == person_id && present->reason == wanted.reason) return true;
      throw RuleError("id_taken", "id", "another permit has this id");
    }
    if (!before.is_ready && !reasoned) {
      throw RuleError("reason_needed", "reason", "something that the rule asks is missing; say why it is given anyway");
    }
    const auto today = std::chrono::floor<std::chrono::days>(now_());
    const Permit made{.id = wanted.id,
                      .person_id = person_id,
                      .given_by_person_id = by,
                      .at = now_(),
                      .lapses_on = today + std::chrono::days(rule_in_force().lapses_after_days),
                      .reason = wanted.reason};
    recorder.put(store_.permits(), made, "given");
    return true;
  });
  return permit_of(person_id);
}

PermitState School::withdraw_permit(const Uuid& person_id, const Uuid& permit_id, const std::string& why,
                                    const Uuid& by) {
  journaled(by, [&](const Recorder& recorder) {
    expect_leads(by, "by_person_id");
    auto permit = store_.permits().find(permit_id);
    if (!permit || permit->person_id != person_id) {
      throw RuleError("unknown_permit", "permit_id", "this person has no permit of this id");
    }
    if (permit->withdrawn_at) return true;
    permit->withdrawn_at = now_();
    permit->withdrawn_by_person_id = by;
    permit->withdrawn_why = why;
    check(*permit);
    recorder.put(store_.permits(), *permit, "withdrawn");
    return true;
  });
  return permit_of(person_id);
}

std::vector<StudyMark> School::study_marks() {
  std::vector<StudyMark> marks;
  for (const StudyFile& file : studies()) {
    if (!file.study.closed) continue;
    const auto of_study = marks_of(file.study);
    marks.insert(marks.end(), of_study.begin(), of_study.end());
  }
  return marks;
}

std::vector<StudyMark> School::marks_of(const Study& study) {
  {
    const std::lock_guard lock(kept_guard_);
    const auto known = marks_.find(study.id);
    if (known != marks_.end()) return known->second;
  }
  std::vector<StudyMark> marks;
  for (const StudyGroup& group : study_answer(study.id).people) {
    marks.push_back({.study_id = study.id,
                     .person_id = group.id,
                     .closed_at = study.closed_at.value_or(study.made_at),
                     .parts_within = group.parts_within,
                     .parts_marked = group.parts_marked,
                     .sd_um = group.figures.repeatability_sd,
                     .u_common_um = group.figures.u_common});
  }
  const std::lock_guard lock(kept_guard_);
  marks_[study.id] = marks;
  return marks;
}

}  // namespace brakewright::shop
