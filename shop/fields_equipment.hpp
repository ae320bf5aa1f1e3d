#pragma once

#include "shop/equipment.hpp"
#include "shop/field_rule.hpp"

namespace brakewright::shop {

template <Of<Piece> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("kind", e.kind, rules::plain);
  v("hook", e.hook, rules::plain);
  v("unit", e.unit, rules::plain);
  v("bore", e.bore, Rule{.low = 1, .high = 2e9});
  v("length", e.length, Rule{.low = 1, .high = 2e9});
  v("small", e.small, rules::dimension);
  v("large", e.large, rules::dimension);
  v("ring_inner", e.ring_inner, rules::dimension);
  v("ring_outer", e.ring_outer, rules::dimension);
  v("cup_depth", e.cup_depth, rules::dimension);
  v("cup_bore", e.cup_bore, rules::dimension);
  v("solid", e.solid, rules::dimension);
  v("free", e.free, rules::dimension);
  v("outside", e.outside, rules::dimension);
  v("weighted", e.weighted, rules::made);
  v("damping", e.damping, rules::made);
  v("runout_um", e.runout_um, Rule{.needed = false, .low = 0, .high = 10'000});
  v("note", e.note, rules::note);
  v("active", e.active, rules::plain);
}

template <Of<Booking> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("piece_id", e.piece_id, rules::plain);
  v("kind", e.kind, rules::plain);
  v("job_id", e.job_id, rules::made);
  v("note", e.note, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

template <Of<Insert> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("nose_radius", e.nose_radius, Rule{.low = 10'000, .high = 2e7});
  v("max_speed_m_per_min", e.max_speed_m_per_min, Rule{.low = 1, .high = 2000});
  v("corners", e.corners, Rule{.low = 1, .high = 16});
  v("note", e.note, rules::note);
  v("active", e.active, rules::plain);
}

template <Of<Corner> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("insert_id", e.insert_id, rules::plain);
  v("number", e.number, Rule{.low = 1, .high = 16});
  v("condition", e.condition, rules::plain);
  v("used_m", e.used_m, Rule{.needed = false, .low = 0, .high = 1e9});
  v("note", e.note, rules::note);
}

template <Of<Band> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("hook", e.hook, rules::plain);
  v("least_diameter", e.least_diameter, rules::dimension);
  v("most_diameter", e.most_diameter, rules::dimension);
  v("note", e.note, rules::note);
  v("active", e.active, rules::plain);
}

template <Of<TaperPlate> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("name", e.name, rules::name);
  v("hook", e.hook, rules::plain);
  v("taper_um", e.taper_um, Rule{.low = 1, .high = 2000});
  v("diameter", e.diameter, Rule{.low = 20e6, .high = 1e9});
  v("studs", e.studs, Rule{.low = 3, .high = 12});
  v("note", e.note, rules::note);
  v("active", e.active, rules::plain);
}

}  // namespace brakewright::shop
