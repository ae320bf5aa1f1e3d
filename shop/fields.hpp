#pragma once

#include "shop/entities.hpp"
#include "shop/field_rule.hpp"
#include "shop/fields_bench_work.hpp"
#include "shop/fields_equipment.hpp"
#include "shop/fields_refit_work.hpp"
#include "shop/fields_requests.hpp"

/// The fields of every entity, each list once: `fields(entity, visitor)` calls `visitor(name, member, rule)` for each
/// member in order. JSON, SQL rows, exports and checks are visitors.
///
/// Names are those of the API. A `Length` member appears as `<name>_nm`, a whole number of nanometres; an optional one
/// may be null; text that holds a JSON object (rule.json) appears as that object under its name in JSON and as text in
/// `<name>_json` in SQL.
namespace brakewright::shop {

template <Of<CuttingRules> E, class V>
void fields(E& e, V&& v) {
  v("rough_max_um", e.rough_max_um, Rule{.low = 1, .high = 2000});
  v("finish_min_um", e.finish_min_um, Rule{.low = 0, .high = 1000});
  v("finish_max_um", e.finish_max_um, Rule{.low = 1, .high = 1000});
  v("depth_basis", e.depth_basis, rules::plain);
  v("ra_target_um", e.ra_target_um, Rule{.low = 0.05, .high = 50});
  v("ra_factor", e.ra_factor, Rule{.low = 1, .high = 10});
  v("ra_basis", e.ra_basis, rules::plain);
  v("mount_runout_max_um", e.mount_runout_max_um, Rule{.low = 1, .high = 1000});
  v("mount_basis", e.mount_basis, rules::plain);
}

template <Of<Settings> E, class V>
void fields(E& e, V&& v) {
  v("shop_name", e.shop_name, rules::plain);
  v("confidence", e.confidence, Rule{.low = 0.5, .high = 0.999});
  v("house_allowance", e.house_allowance, Rule{.low = 0, .high = 1e7});
  v("cut_margin", e.cut_margin, Rule{.low = 0, .high = 1e6});
  v("wear_mm_per_10000_km", e.wear_mm_per_10000_km, Rule{.low = 0, .high = 10});
  v("default_unit", e.default_unit, rules::plain);
  v("paper", e.paper, rules::plain);
  v("points", e.points, Rule{.low = 4, .high = 24});
  v("cutting", e.cutting, rules::made);
  v("demo", e.demo, rules::plain);
  v("version", e.version, Rule{.low = 1, .high = 9e15});
}

template <Of<Person> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("role", e.role, rules::plain);
  v("active", e.active, rules::plain);
  v("created_at", e.created_at, rules::made);
}

template <Of<Instrument> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("kind", e.kind, rules::plain);
  v("serial", e.serial, rules::plain);
  v("resolution", e.resolution, Rule{.low = 1, .high = 1e7});
  v("mpe", e.mpe, Rule{.low = 0, .high = 1e7});
  v("repeatability", e.repeatability, Rule{.low = 0, .high = 1e7});
  v("default_unit", e.default_unit, rules::plain);
  v("calibrated_on", e.calibrated_on, rules::made);
  v("calibration_due_on", e.calibration_due_on, rules::made);
  v("active", e.active, rules::plain);
}

template <Of<ZeroCheck> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("instrument_id", e.instrument_id, rules::plain);
  v("error", e.error, rules::plain);
  v("job_id", e.job_id, rules::made);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<Lathe> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("dial_um_per_mark", e.dial_um_per_mark, Rule{.low = 0.1, .high = 1000});
  v("dial_inboard_um_per_mark", e.dial_inboard_um_per_mark, Rule{.needed = false, .low = 0.1, .high = 1000});
  v("dial_reads", e.dial_reads, rules::made);
  v("dial_sd_um", e.dial_sd_um, Rule{.low = 0, .high = 1000});
  v("mount_runout_um", e.mount_runout_um, Rule{.low = 0, .high = 10000});
  v("arbor_diameter", e.arbor_diameter, rules::dimension);
  v("thread_start", e.thread_start, rules::dimension);
  v("tip", e.tip, rules::dimension);
  v("nut_engagement", e.nut_engagement, rules::dimension);
  v("nut_thread", e.nut_thread, rules::made);
  v("travel", e.travel, rules::dimension);
  v("approach", e.approach, rules::dimension);
  v("speeds_rpm", e.speeds_rpm, Rule{.needed = false, .low = 1, .high = 10000});
  v("feeds_mm_per_rev", e.feeds_mm_per_rev, Rule{.needed = false, .low = 0.001, .high = 5});
  v("note", e.note, rules::note);
  v("active", e.active, rules::plain);
}

template <Of<Limit> E, class V>
void fields(E& e, V&& v) {
  v("value", e.value, rules::plain);
  v("source", e.source, rules::plain);
  v("source_note", e.source_note, rules::plain);
}

template <Of<Limits> E, class V>
void fields(E& e, V&& v) {
  v("nominal", e.nominal, rules::made);
  v("machine_to", e.machine_to, rules::made);
  v("discard", e.discard, rules::made);
  v("variation", e.variation, rules::made);
  v("runout", e.runout, rules::made);
  v("scoring", e.scoring, rules::made);
  v("finish_ra", e.finish_ra, rules::made);
  v("out_of_round", e.out_of_round, rules::made);
  v("taper", e.taper, rules::made);
}

template <Of<Seat> E, class V>
void fields(E& e, V&& v) {
  v("bore", e.bore, rules::made);
  v("flange", e.flange, rules::made);
  v("flat_inner", e.flat_inner, rules::made);
  v("flat_outer", e.flat_outer, rules::made);
  v("flat_inner_inboard", e.flat_inner_inboard, rules::made);
  v("flat_outer_inboard", e.flat_outer_inboard, rules::made);
  v("hub_length", e.hub_length, rules::made);
  v("inner_race", e.inner_race, rules::made);
  v("outer_race", e.outer_race, rules::made);
  v("ring_inner", e.ring_inner, rules::made);
}

template <Of<KnownPart> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("limits", e.limits, rules::plain);
  v("outer_diameter", e.outer_diameter, rules::made);
  v("vented", e.vented, rules::plain);
  v("seat", e.seat, rules::made);
  v("studs", e.studs, rules::studs_or_none);
  v("last_met_at", e.last_met_at, rules::made);
  v("kind", e.kind, rules::made);
  v("band_width", e.band_width, rules::made);
  v("lining_radius", e.lining_radius, rules::made);
  v("lining_arc_deg", e.lining_arc_deg, rules::lining_arc_or_none);
}

template <Of<Job> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("number", e.number, rules::counter);
  v("state", e.state, rules::made);
  v("brought_by", e.brought_by, rules::plain);
  v("vehicle", e.vehicle, rules::name);
  v("complaint", e.complaint, rules::plain);
  v("complaint_note", e.complaint_note, rules::note);
  v("axle", e.axle, rules::plain);
  v("odometer", e.odometer, Rule{.needed = false, .low = 0, .high = 10e6});
  v("odometer_unit", e.odometer_unit, rules::plain);
  v("tyre", e.tyre, Rule{.needed = false, .text = {.longest = 60}});
  v("vehicle_mass_kg", e.vehicle_mass_kg, Rule{.needed = false, .low = 50, .high = 60'000});
  v("felt_in", e.felt_in, rules::made);
  v("felt_speed_km_per_h", e.felt_speed_km_per_h, Rule{.needed = false, .low = 1, .high = 400});
  v("felt_frequency_hz", e.felt_frequency_hz, Rule{.needed = false, .low = 0.1, .high = 500});
  v("worker_person_id", e.worker_person_id, rules::made);
  v("lathe_id", e.lathe_id, rules::made);
  v("opened_by_person_id", e.opened_by_person_id, rules::made);
  v("opened_at", e.opened_at, rules::made);
  v("changed_at", e.changed_at, rules::made);
  v("version", e.version, rules::counter);
  v("sealed_by_person_id", e.sealed_by_person_id, rules::made);
  v("sealed_at", e.sealed_at, rules::made);
  v("seal_sha256", e.seal_sha256, rules::made);
  v("beside_job_id", e.beside_job_id, rules::made);
}

template <Of<Part> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::made);
  v("side", e.side, rules::plain);
  v("construction", e.construction, rules::plain);
  v("vented", e.vented, rules::plain);
  v("outer_diameter", e.outer_diameter, rules::made);
  v("known_part_id", e.known_part_id, rules::made);
  v("limits", e.limits, rules::plain);
  v("seat", e.seat, rules::made);
  v("studs", e.studs, rules::studs_or_none);
  v("hub_reading_diameter", e.hub_reading_diameter, rules::made);
  v("version", e.version, rules::counter);
  v("kind", e.kind, rules::made);
  v("band_width", e.band_width, rules::made);
  v("lining_radius", e.lining_radius, rules::made);
  v("lining_arc_deg", e.lining_arc_deg, rules::lining_arc_or_none);
}

template <Of<MeasuringPlan> E, class V>
void fields(E& e, V&& v) {
  v("part_id", e.part_id, rules::plain);
  v("stage", e.stage, rules::plain);
  v("points", e.points, Rule{.low = 4, .high = 24});
  v("turning", e.turning, rules::plain);
  v("circles_from_edge", e.circles_from_edge, Rule{.low = 0, .high = 5e8});
  v("runout_place", e.runout_place, rules::plain);
  v("part_temperature_c", e.part_temperature_c, Rule{.needed = false, .low = -40, .high = 400});
  v("thickness_instrument_id", e.thickness_instrument_id, rules::made);
  v("runout_instrument_id", e.runout_instrument_id, rules::made);
  v("version", e.version, rules::counter);
}

template <Of<Reading> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("stage", e.stage, rules::plain);
  v("quantity", e.quantity, rules::plain);
  v("circle", e.circle, rules::stud);
  v("point", e.point, Rule{.low = 0, .high = 23});
  v("angle_deg", e.angle_deg, Rule{.low = 0, .high = 360});
  v("value", e.value, rules::plain);
  v("instrument_id", e.instrument_id, rules::made);
  v("zero_check_id", e.zero_check_id, rules::made);
  v("confirmed_doubts", e.confirmed_doubts, rules::made);
  v("supersedes_id", e.supersedes_id, rules::made);
  v("by_person_id", e.by_person_id, rules::plain);
  v("taken_at", e.taken_at, rules::plain);
  v("received_at", e.received_at, rules::plain);
  v("withdrawn_by_person_id", e.withdrawn_by_person_id, rules::made);
  v("withdrawn_at", e.withdrawn_at, rules::made);
}

template <Of<Finding> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("judgement", e.judgement, rules::plain);
  v("note", e.note, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
  v("withdrawn_by_person_id", e.withdrawn_by_person_id, rules::made);
  v("withdrawn_at", e.withdrawn_at, rules::made);
}

template <Of<Decision> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("computed_action", e.computed_action, rules::plain);
  v("computed_p", e.computed_p, Rule{.low = 0, .high = 1});
  v("computed", e.computed_json, rules::object);
  v("action", e.action, rules::plain);
  v("reason", e.reason, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<Cut> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("lathe_id", e.lathe_id, rules::made);
  v("outboard_marks", e.outboard_marks, Rule{.low = 0, .high = 100'000});
  v("inboard_marks", e.inboard_marks, Rule{.low = 0, .high = 100'000});
  v("dial_um_per_mark", e.dial_um_per_mark, Rule{.low = 0.1, .high = 1000});
  v("dial_inboard_um_per_mark", e.dial_inboard_um_per_mark, Rule{.needed = false, .low = 0.1, .high = 1000});
  v("note", e.note, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<Amendment> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("text", e.text, Rule{.text = {.longest = 4000, .lines = true, .blank = false}});
  v("subject_id", e.subject_id, rules::made);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<JobFile> E, class V>
void fields(E& e, V&& v) {
  v("job", e.job, rules::plain);
  v("parts", e.parts, rules::plain);
  v("plans", e.plans, rules::plain);
  v("readings", e.readings, rules::plain);
  v("findings", e.findings, rules::plain);
  v("decisions", e.decisions, rules::plain);
  v("mounts", e.mounts, rules::made);
  v("mount_proofs", e.mount_proofs, rules::made);
  v("cut_plans", e.cut_plans, rules::made);
  v("passes", e.passes, rules::made);
  v("bench_steps", e.bench_steps, rules::made);
  v("cuts", e.cuts, rules::plain);
  v("refits", e.refits, rules::made);
  v("amendments", e.amendments, rules::plain);
  v("seq", e.seq, rules::counter);
}

template <Of<Change> E, class V>
void fields(E& e, V&& v) {
  v("seq", e.seq, Rule{.low = 0, .high = 9e15});
  v("id", e.id, rules::plain);
  v("kind", e.kind, rules::name);
  v("job_id", e.job_id, rules::made);
  v("subject_id", e.subject_id, rules::plain);
  v("detail", e.detail_json, rules::object);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
  v("salt", e.salt, rules::made);
  v("detail_sha256", e.detail_sha256, rules::made);
  v("entry_sha256", e.entry_sha256, rules::made);
}

/// Anything with a field list.
template <class E>
concept HasFields = requires(E& e) {
  fields(e, [](const char*, auto&, const Rule&) {});
};

}  // namespace brakewright::shop
