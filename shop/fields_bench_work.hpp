#pragma once

#include "shop/bench_work.hpp"
#include "shop/field_rule.hpp"

namespace brakewright::shop {

namespace rules {
inline constexpr Rule figure{.low = -1e9, .high = 1e9};
inline constexpr Rule figure_or_none{.needed = false, .low = -1e9, .high = 1e9};
inline constexpr Rule chance_or_none{.needed = false, .low = 0, .high = 1};
inline constexpr Rule marks{.low = 0, .high = 10'000};
inline constexpr Rule rpm{.low = 1, .high = 10'000};
inline constexpr Rule feed{.low = 0.001, .high = 5};
}  // namespace rules

template <Of<Mount> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("lathe_id", e.lathe_id, rules::plain);
  v("piece_ids", e.piece_ids, rules::plain);
  v("length_mm", e.length_mm, rules::figure);
  v("q", e.q, rules::figure);
  v("why", e.why, rules::note);
  v("reason", e.reason, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<ProofMark> E, class V>
void fields(E& e, V&& v) {
  v("centre_deg", e.centre_deg, Rule{.low = -360, .high = 360});
  v("arc_deg", e.arc_deg, Rule{.low = 0, .high = 360});
  v("infeed_um", e.infeed_um, Rule{.low = 0, .high = 10'000});
}

template <Of<MountProof> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("runout", e.runout, rules::made);
  v("trace_um", e.trace_um, rules::figure);
  v("marks", e.marks, rules::made);
  v("runout_um", e.runout_um, rules::figure);
  v("upper_bound", e.upper_bound, rules::plain);
  v("part_runout_um", e.part_runout_um, rules::figure_or_none);
  v("part_high_deg", e.part_high_deg, rules::figure_or_none);
  v("mount_runout_um", e.mount_runout_um, rules::figure_or_none);
  v("mount_high_deg", e.mount_high_deg, rules::figure_or_none);
  v("allowed_um", e.allowed_um, rules::figure);
  v("costs_um", e.costs_um, rules::figure);
  v("goes_on", e.goes_on, rules::plain);
  v("reason", e.reason, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<PlannedPass> E, class V>
void fields(E& e, V&& v) {
  v("outboard_marks", e.outboard_marks, rules::marks);
  v("inboard_marks", e.inboard_marks, rules::marks);
  v("rpm", e.rpm, rules::rpm);
  v("feed_mm_per_rev", e.feed_mm_per_rev, rules::feed);
}

template <Of<ForeseenPass> E, class V>
void fields(E& e, V&& v) {
  v("outboard_marks", e.outboard_marks, rules::marks);
  v("inboard_marks", e.inboard_marks, rules::marks);
  v("rpm", e.rpm, rules::rpm);
  v("feed_mm_per_rev", e.feed_mm_per_rev, rules::feed);
  v("time_s", e.time_s, rules::figure);
  v("surface_speed_m_per_min", e.surface_speed_m_per_min, rules::figure);
  v("ra_um", e.ra_um, rules::figure);
  v("ra_low_um", e.ra_low_um, rules::figure);
  v("ra_high_um", e.ra_high_um, rules::figure);
  v("force_outboard_n", e.force_outboard_n, rules::figure_or_none);
  v("force_inboard_n", e.force_inboard_n, rules::figure_or_none);
  v("power_w", e.power_w, rules::figure_or_none);
  v("thickness_after_mm", e.thickness_after_mm, rules::figure_or_none);
  v("u_thickness_after_um", e.u_thickness_after_um, rules::figure_or_none);
  v("p_over_machine_to", e.p_over_machine_to, rules::chance_or_none);
  v("depth_on_radius_um", e.depth_on_radius_um, rules::figure_or_none);
  v("change_on_diameter_um", e.change_on_diameter_um, rules::figure_or_none);
  v("diameter_after_mm", e.diameter_after_mm, rules::figure_or_none);
  v("u_diameter_after_um", e.u_diameter_after_um, rules::figure_or_none);
}

template <Of<CutPlan> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("lathe_id", e.lathe_id, rules::plain);
  v("insert_id", e.insert_id, rules::made);
  v("passes", e.passes, rules::plain);
  v("time_s", e.time_s, rules::figure);
  v("final_mm", e.final_mm, rules::figure);
  v("by_hand", e.by_hand, rules::plain);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<Pass> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("plan_id", e.plan_id, rules::made);
  v("number", e.number, Rule{.low = 1, .high = 1000});
  v("outboard_marks", e.outboard_marks, rules::marks);
  v("inboard_marks", e.inboard_marks, rules::marks);
  v("rpm", e.rpm, rules::rpm);
  v("feed_mm_per_rev", e.feed_mm_per_rev, rules::feed);
  v("outboard_corner_id", e.outboard_corner_id, rules::made);
  v("inboard_corner_id", e.inboard_corner_id, rules::made);
  v("outcome", e.outcome, rules::plain);
  v("began_at", e.began_at, rules::plain);
  v("ended_at", e.ended_at, rules::plain);
  v("note", e.note, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<BenchStep> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("phase", e.phase, rules::plain);
  v("step", e.step, rules::name);
  v("pass", e.pass, Rule{.low = 0, .high = 1000});
  v("event", e.event, rules::plain);
  v("detail", e.detail, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("taken_at", e.taken_at, rules::plain);
  v("received_at", e.received_at, rules::plain);
}

}  // namespace brakewright::shop
