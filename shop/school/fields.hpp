#pragma once

#include "shop/fields.hpp"
#include "shop/school/entities.hpp"
#include "shop/school/words.hpp"

namespace brakewright::shop {

template <Of<ReferencePart> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("place_words", e.place_words, rules::plain);
  v("reference", e.reference, rules::plain);
  v("expanded_uncertainty", e.expanded_uncertainty, Rule{.low = 0, .high = 1e7});
  v("source", e.source, rules::note);
  v("active", e.active, rules::plain);
}

template <Of<Study> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("reference_part_ids", e.reference_part_ids, rules::plain);
  v("person_ids", e.person_ids, rules::plain);
  v("instrument_ids", e.instrument_ids, rules::plain);
  v("repeats", e.repeats, Rule{.low = 2, .high = 10});
  v("seed", e.seed, rules::counter);
  v("tolerance", e.tolerance, rules::made);
  v("closed", e.closed, rules::plain);
  v("made_by_person_id", e.made_by_person_id, rules::made);
  v("made_at", e.made_at, rules::made);
  v("closed_at", e.closed_at, rules::made);
  v("u_instrument_um", e.u_instrument_um, rules::made);
}

template <Of<StudyReading> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("study_id", e.study_id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("reference_part_id", e.reference_part_id, rules::plain);
  v("instrument_id", e.instrument_id, rules::plain);
  v("repeat", e.repeat, Rule{.low = 0, .high = 9});
  v("value", e.value, rules::plain);
  v("at", e.at, rules::plain);
  v("withdrawn_by_person_id", e.withdrawn_by_person_id, rules::made);
  v("withdrawn_at", e.withdrawn_at, rules::made);
}

template <Of<NewStudyReading> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("reference_part_id", e.reference_part_id, rules::plain);
  v("instrument_id", e.instrument_id, rules::plain);
  v("repeat", e.repeat, Rule{.low = 0, .high = 9});
  v("text", e.text, rules::typed);
  v("default_unit", e.default_unit, rules::plain);
  v("confirmed", e.confirmed, rules::made);
}

template <Of<SafetyPoint> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("position", e.position, rules::counter);
  v("question", e.question, Rule{.text = {.longest = 600, .blank = false}});
  v("choices", e.choices, Rule{.text = {.longest = 300, .blank = false}});
  v("right_choice", e.right_choice, Rule{.low = 0, .high = 5});
  v("reason", e.reason, rules::note);
  v("active", e.active, rules::plain);
  v("asked_since", e.asked_since, rules::made);
}

template <Of<SafetyAnswer> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("safety_point_id", e.safety_point_id, rules::plain);
  v("choice", e.choice, Rule{.low = 0, .high = 5});
  v("was_right", e.was_right, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<NewSafetyAnswer> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("safety_point_id", e.safety_point_id, rules::plain);
  v("choice", e.choice, Rule{.low = 0, .high = 5});
}

template <Of<PermitRule> E, class V>
void fields(E& e, V&& v) {
  v("version", e.version, Rule{.low = 1, .high = 9e15});
  v("needs_safety_points", e.needs_safety_points, rules::plain);
  v("needs_measuring", e.needs_measuring, rules::plain);
  v("share_within", e.share_within, Rule{.low = 0, .high = 1});
  v("sd_at_most", e.sd_at_most, Rule{.needed = false, .low = 1, .high = 1e7});
  v("supervised_cuts", e.supervised_cuts, Rule{.low = 0, .high = 100});
  v("lapses_after_days", e.lapses_after_days, Rule{.low = 1, .high = 3650});
  v("practice_points", e.practice_points, Rule{.needed = false, .low = 1, .high = 100});
}

template <Of<KeptPermitRule> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("rule", e.rule, rules::plain);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<SupervisedCut> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("job_id", e.job_id, rules::made);
  v("note", e.note, rules::note);
  v("signed_by_person_id", e.signed_by_person_id, rules::made);
  v("at", e.at, rules::made);
}

template <Of<Permit> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("given_by_person_id", e.given_by_person_id, rules::plain);
  v("at", e.at, rules::plain);
  v("lapses_on", e.lapses_on, rules::plain);
  v("reason", e.reason, rules::note);
  v("withdrawn_by_person_id", e.withdrawn_by_person_id, rules::made);
  v("withdrawn_at", e.withdrawn_at, rules::made);
  v("withdrawn_why", e.withdrawn_why, rules::note);
}

template <Of<NewPermit> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("reason", e.reason, rules::note);
}

template <Of<EndReason> E, class V>
void fields(E& e, V&& v) {
  v("why", e.why, Rule{.text = {.longest = 4000, .lines = true, .blank = false}});
}

template <Of<SchoolClass> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("term", e.term, rules::plain);
  v("starts_on", e.starts_on, rules::made);
  v("ends_on", e.ends_on, rules::made);
  v("archived", e.archived, rules::plain);
}

template <Of<Membership> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("class_id", e.class_id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("since", e.since, rules::made);
  v("until", e.until, rules::made);
}

template <Of<Competence> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("position", e.position, rules::counter);
  v("name", e.name, rules::name);
  v("words", e.words, rules::note);
  v("active", e.active, rules::plain);
}

template <Of<Evidence> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("competence_id", e.competence_id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("level", e.level, rules::plain);
  v("job_id", e.job_id, rules::made);
  v("study_id", e.study_id, rules::made);
  v("practice_run_id", e.practice_run_id, rules::made);
  v("note", e.note, rules::note);
  v("signed_by_person_id", e.signed_by_person_id, rules::made);
  v("at", e.at, rules::made);
  v("withdrawn_by_person_id", e.withdrawn_by_person_id, rules::made);
  v("withdrawn_at", e.withdrawn_at, rules::made);
}

template <Of<QueueEntry> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("lathe_id", e.lathe_id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("person_id", e.person_id, rules::plain);
  v("joined_at", e.joined_at, rules::made);
  v("left_at", e.left_at, rules::made);
  v("left_why", e.left_why, rules::plain);
}

template <Of<NewQueueEntry> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("person_id", e.person_id, rules::plain);
}

}  // namespace brakewright::shop
