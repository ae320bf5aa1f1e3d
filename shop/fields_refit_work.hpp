#pragma once

#include "shop/field_rule.hpp"
#include "shop/fields_bench_work.hpp"
#include "shop/refit_work.hpp"

namespace brakewright::shop {

namespace rules {
inline constexpr Rule studs{.low = 3, .high = 12};
inline constexpr Rule studs_or_none{.needed = false, .low = 3, .high = 12};
inline constexpr Rule stud{.low = 0, .high = 11};
inline constexpr Rule stud_or_none{.needed = false, .low = 0, .high = 11};
inline constexpr Rule torque_or_none{.needed = false, .low = 1, .high = 2000};
}  // namespace rules

template <Of<Refit> E, class V>
void fields(E& e, V&& v) {
  v("id", e.id, rules::plain);
  v("job_id", e.job_id, rules::plain);
  v("part_id", e.part_id, rules::plain);
  v("studs", e.studs, rules::studs);
  v("position", e.position, rules::stud);
  v("plate_id", e.plate_id, rules::made);
  v("plate_position", e.plate_position, rules::stud_or_none);
  v("foreseen_runout_um", e.foreseen_runout_um, rules::figure_or_none);
  v("p_within", e.p_within, rules::chance_or_none);
  v("nut_torque_nm", e.nut_torque_nm, rules::torque_or_none);
  v("torque_source", e.torque_source, rules::plain);
  v("reason", e.reason, rules::note);
  v("by_person_id", e.by_person_id, rules::plain);
  v("at", e.at, rules::plain);
}

}  // namespace brakewright::shop
