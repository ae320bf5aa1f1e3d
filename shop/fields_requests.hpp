#pragma once

#include "shop/field_rule.hpp"
#include "shop/fields_refit_work.hpp"
#include "shop/requests.hpp"

namespace brakewright::shop {

template <Of<NewJob> E, class V>
void fields(E& e, V&& v) {
  v("job", e.job, rules::plain);
  v("parts", e.parts, rules::plain);
}

template <Of<NewReading> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("stage", e.stage, rules::plain);
  v("quantity", e.quantity, rules::plain);
  v("circle", e.circle, rules::stud);
  v("point", e.point, Rule{.low = 0, .high = 23});
  v("text", e.text, rules::typed);
  v("default_unit", e.default_unit, rules::plain);
  v("instrument_id", e.instrument_id, rules::made);
  v("supersedes_id", e.supersedes_id, rules::made);
  v("confirmed", e.confirmed, rules::made);
  v("taken_at", e.taken_at, rules::made);
}

template <Of<NewZeroCheck> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("instrument_id", e.instrument_id, rules::plain);
  v("text", e.text, rules::typed);
  v("default_unit", e.default_unit, rules::plain);
  v("job_id", e.job_id, rules::made);
}

template <Of<NewFinding> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("judgement", e.judgement, rules::plain);
  v("note", e.note, rules::note);
}

template <Of<NewDecision> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("action", e.action, rules::plain);
  v("reason", e.reason, rules::note);
}

template <Of<NewCut> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("outboard_marks", e.outboard_marks, Rule{.low = 0, .high = 100'000});
  v("inboard_marks", e.inboard_marks, Rule{.low = 0, .high = 100'000});
  v("note", e.note, rules::note);
}

template <Of<NewAmendment> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("text", e.text, Rule{.text = {.longest = 4000, .lines = true, .blank = false}});
  v("subject_id", e.subject_id, rules::made);
}

template <Of<NewMount> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("lathe_id", e.lathe_id, rules::plain);
  v("piece_ids", e.piece_ids, rules::plain);
  v("reason", e.reason, rules::note);
}

template <Of<NewMountProof> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("runout", e.runout, rules::made);
  v("trace_um", e.trace_um, Rule{.needed = false, .low = -10'000, .high = 10'000});
  v("marks", e.marks, rules::made);
  v("goes_on", e.goes_on, rules::plain);
  v("reason", e.reason, rules::note);
}

template <Of<NewCutPlan> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("lathe_id", e.lathe_id, rules::plain);
  v("insert_id", e.insert_id, rules::made);
  v("passes", e.passes, rules::plain);
}

template <Of<NewRefit> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("position", e.position, rules::stud);
  v("plate_id", e.plate_id, rules::made);
  v("plate_position", e.plate_position, rules::stud_or_none);
  v("nut_torque_nm", e.nut_torque_nm, rules::torque_or_none);
  v("torque_source", e.torque_source, rules::made);
  v("reason", e.reason, rules::note);
}

template <Of<NewForesight> E, class V>
void fields(E& e, V&& v) {
  v("insert_id", e.insert_id, rules::made);
  v("passes", e.passes, rules::plain);
}

template <Of<NewPass> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("plan_id", e.plan_id, rules::made);
  v("outboard_marks", e.outboard_marks, Rule{.low = 0, .high = 10'000});
  v("inboard_marks", e.inboard_marks, Rule{.low = 0, .high = 10'000});
  v("rpm", e.rpm, Rule{.low = 1, .high = 10'000});
  v("feed_mm_per_rev", e.feed_mm_per_rev, Rule{.low = 0.001, .high = 5});
  v("outboard_corner_id", e.outboard_corner_id, rules::made);
  v("inboard_corner_id", e.inboard_corner_id, rules::made);
  v("outcome", e.outcome, rules::plain);
  v("began_at", e.began_at, rules::plain);
  v("ended_at", e.ended_at, rules::plain);
  v("note", e.note, rules::note);
}

template <Of<NewBenchStep> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("phase", e.phase, rules::plain);
  v("step", e.step, rules::name);
  v("pass", e.pass, Rule{.needed = false, .low = 0, .high = 1000});
  v("event", e.event, rules::plain);
  v("detail", e.detail, rules::note);
  v("taken_at", e.taken_at, rules::made);
}

template <Of<NewBooking> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("piece_id", e.piece_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("job_id", e.job_id, rules::made);
  v("note", e.note, rules::note);
}

}  // namespace brakewright::shop
