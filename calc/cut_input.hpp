#pragma once

#include "calc/reader.hpp"

/// What a plan and the foreseeing of passes read alike. `Input` is `cutting::PlanInput` or `cutting::ForeseeInput`,
/// whose members of these names mean the same.
namespace brakewright::calc {

/// {"outer_radius_mm", "inner_radius_mm", "approach_mm"}
template <class Input>
void read_ring(Reader ring, Input& in) {
  in.outer_radius_mm = ring.number("outer_radius_mm");
  in.inner_radius_mm = ring.number("inner_radius_mm");
  in.approach_mm = ring.number_or("approach_mm", 0);
  ring.done();
}

/// {"nose_radius_mm", "max_speed_m_per_min"}
template <class Input>
void read_insert(Reader insert, Input& in) {
  in.nose_radius_mm = insert.number("nose_radius_mm");
  in.max_speed_m_per_min = insert.number("max_speed_m_per_min");
  insert.done();
}

/// {"rough_max_um", "finish_min_um", "finish_max_um", "ra_target_um", "ra_factor"}
template <class Input>
void read_rules(Reader rules, Input& in) {
  in.rough_max_um = rules.number("rough_max_um");
  in.finish_min_um = rules.number("finish_min_um");
  in.finish_max_um = rules.number("finish_max_um");
  in.ra_target_um = rules.number("ra_target_um");
  in.ra_factor = rules.number_or("ra_factor", 1);
  rules.done();
}

/// {"dial_um_per_mark", "dial_inboard_um_per_mark"} of a lathe that has more to say
template <class Input>
void read_dials(Reader& lathe, Input& in) {
  in.dial_um_per_mark = lathe.number("dial_um_per_mark");
  in.dial_inboard_um_per_mark = lathe.optional_number("dial_inboard_um_per_mark");
}

}  // namespace brakewright::calc
