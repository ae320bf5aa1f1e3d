#include "shop/practice/bench_json.hpp"

#include <nlohmann/json.hpp>

#include "shop/or_null.hpp"
#include "shop/practice/words.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

Json names_of(const std::vector<practice::Fault>& faults) {
  Json names = Json::array();
  for (const practice::Fault fault : faults) names.push_back(std::string(practice::name_of(fault)));
  return names;
}

Json seat_to_json(const mount::PartSeat& seat) {
  return {{"kind", seat.kind == mount::PartKind::hubless ? "hubless" : "hubbed"},
          {"bore_mm", seat.bore_mm},
          {"flange_mm", seat.flange_mm},
          {"flat_inner_mm", seat.flat_inner_mm},
          {"flat_outer_mm", seat.flat_outer_mm},
          {"flat_inner_inboard_mm", or_null(seat.flat_inner_inboard_mm)},
          {"flat_outer_inboard_mm", or_null(seat.flat_outer_inboard_mm)},
          {"hub_length_mm", seat.hub_length_mm},
          {"inner_race_mm", seat.inner_race_mm},
          {"outer_race_mm", seat.outer_race_mm}};
}

Json make_to_json(const bench_sim::PartMake& make) {
  return {{"outer_radius_mm", make.outer_radius_mm},
          {"inner_radius_mm", make.inner_radius_mm},
          {"new_thickness_mm", make.new_thickness_mm},
          {"band_inner_radius_mm", make.shape.band_inner_radius_mm},
          {"band_outer_radius_mm", make.shape.band_outer_radius_mm},
          {"hat_radius_mm", make.shape.hat_radius_mm},
          {"hat_height_mm", make.shape.hat_height_mm},
          {"vent_mm", make.shape.vent_mm},
          {"discard_mm", make.limits.discard_mm},
          {"machine_to_mm", make.limits.machine_to_mm},
          {"variation_um", make.limits.variation_um},
          {"runout_um", make.limits.runout_um},
          {"seat", seat_to_json(make.shape.seat)}};
}

Json piece_to_json(const mount::Piece& piece) {
  return {{"id", piece.id},
          {"kind", practice::word_of(piece.kind)},
          {"bore_mm", piece.bore_mm},
          {"length_mm", piece.length_mm},
          {"small_mm", piece.small_mm},
          {"large_mm", piece.large_mm},
          {"ring_inner_mm", piece.ring_inner_mm},
          {"ring_outer_mm", piece.ring_outer_mm},
          {"cup_depth_mm", piece.cup_depth_mm},
          {"cup_bore_mm", piece.cup_bore_mm},
          {"solid_mm", piece.solid_mm},
          {"free_mm", piece.free_mm},
          {"weighted", piece.weighted},
          {"damping", piece.damping},
          {"runout_um", piece.runout_um},
          {"outside_mm", or_null(piece.outside_mm)}};
}

Json lathe_to_json(const practice::BenchLathe& lathe) {
  return {{"arbor",
           {{"diameter_mm", lathe.arbor.diameter_mm},
            {"thread_start_mm", lathe.arbor.thread_start_mm},
            {"tip_mm", lathe.arbor.tip_mm},
            {"nut_engagement_mm", lathe.arbor.nut_engagement_mm}}},
          {"speeds_rpm", lathe.speeds_rpm},
          {"feeds_mm_per_rev", lathe.feeds_mm_per_rev},
          {"dial_um_per_mark", lathe.dial_um_per_mark},
          {"nose_radius_mm", lathe.nose_radius_mm},
          {"max_speed_m_per_min", lathe.max_speed_m_per_min}};
}

Json tool_to_json(const practice::ToolView& tool) {
  return {{"dial_marks", tool.dial_marks},
          {"locked", tool.locked},
          {"thrust_n", tool.thrust_n},
          {"contact_share", tool.contact_share},
          {"swing_um", tool.swing_um},
          {"sings", tool.sings},
          {"rubs", tool.rubs}};
}

}  // namespace

Json bench_to_json(const practice::Bench& bench) {
  Json pieces = Json::array(), instruments = Json::array();
  for (const mount::Piece& piece : bench.pieces) pieces.push_back(piece_to_json(piece));
  for (const practice::BenchInstrument& one : bench.instruments) {
    instruments.push_back(
        {{"id", one.id}, {"kind", one.kind}, {"resolution_mm", one.resolution_mm}, {"u_mm", one.u_mm}});
  }
  return {{"make", make_to_json(bench.make)},     {"start_radius_mm", bench.start_radius_mm},
          {"pieces", std::move(pieces)},          {"instruments", std::move(instruments)},
          {"lathe", lathe_to_json(bench.lathe)},  {"stud_positions_deg", bench.stud_positions_deg},
          {"hub_runout_um", bench.hub_runout_um}, {"hub_high_deg", bench.hub_high_deg}};
}

Json outcome_to_json(const practice::Outcome& outcome) {
  return {{"took_s", outcome.took_s},
          {"shown_mm", or_null(outcome.shown_mm)},
          {"angles_deg", outcome.angles_deg},
          {"shown_um", outcome.shown_um},
          {"seen", outcome.seen},
          {"hub_runout_um", or_null(outcome.hub_runout_um)}};
}

Json ended_to_json(const practice::Ended& ended) {
  return {{"code", ended.code}, {"text", ended.text}, {"unsafe", ended.unsafe}};
}

Json view_to_json(const practice::View& view) {
  return {{"acts", view.acts},
          {"clock_s", view.clock_s},
          {"decided", view.decided ? Json(std::string(word_of(*view.decided))) : Json(nullptr)},
          {"mounted", view.mounted},
          {"turn_deg", view.turn_deg},
          {"nut_tight", view.nut_tight},
          {"band", view.band},
          {"glasses", view.glasses},
          {"gloves", view.gloves},
          {"rpm", view.rpm},
          {"feed_mm_per_rev", view.feed_mm_per_rev},
          {"radius_mm", view.radius_mm},
          {"turns", view.turns},
          {"part_temperature_c", view.part_temperature_c},
          {"passes", view.passes},
          {"outboard", tool_to_json(view.outboard)},
          {"inboard", tool_to_json(view.inboard)},
          {"refitted", view.refitted},
          {"ended", view.ended ? ended_to_json(*view.ended) : Json(nullptr)}};
}

Json exercise_to_json(const practice::Exercise& exercise) {
  return {{"seed", exercise.seed},
          {"difficulty", exercise.difficulty},
          {"faults", exercise.faults ? names_of(*exercise.faults) : Json(nullptr)}};
}

Json mark_to_json(const practice::Mark& mark) {
  Json parts = Json::array();
  for (const practice::MarkedPart& part : mark.parts) {
    parts.push_back({{"code", part.code}, {"points", part.points}, {"of", part.of}, {"why", part.why}});
  }
  return {{"parts", std::move(parts)},
          {"points", mark.points},
          {"safe", mark.safe},
          {"weakest", mark.weakest},
          {"next", exercise_to_json(mark.next)},
          {"next_why", mark.next_why},
          {"faults", names_of(mark.faults)},
          {"expert", mark.expert}};
}

Json picture_to_json(const practice::Picture& picture) {
  return {{"angles", picture.angles},
          {"rings", picture.rings},
          {"inner_radius_mm", picture.inner_radius_mm},
          {"ring_step_mm", picture.ring_step_mm},
          {"height_um", picture.height_um}};
}

}  // namespace brakewright::shop
