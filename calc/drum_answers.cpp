#include "calc/drum_answers.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"

namespace brakewright::calc {
namespace {

Json contact_or_null(const std::optional<drum::ShoeContact>& contact) {
  if (!contact) return nullptr;
  return {{"contact", drum::name_of(contact->contact)},
          {"gap_um", contact->gap_um},
          {"clearance_um", contact->clearance_um}};
}

Json depth_of(const drum::DepthFigures& depth) {
  return {{"depth_mm", depth.depth_mm},
          {"mean_mm", depth.mean_mm},
          {"min_mm", depth.min_mm},
          {"max_mm", depth.max_mm},
          {"out_of_round_mm", depth.out_of_round_mm},
          {"harmonics", to_json(depth.harmonics)},
          {"blind_orders", depth.blind_orders}};
}

void put_shape(const drum::Shape& part, Json& json) {
  Json depths = Json::array();
  for (const auto& depth : part.depths) depths.push_back(depth_of(depth));
  json["depths"] = std::move(depths);
  json["mean_mm"] = part.mean_mm;
  json["max_mm"] = part.max_mm;
  json["max_angle_deg"] = part.max_angle_deg;
  json["max_depth_mm"] = part.max_depth_mm;
  json["u_max_mm"] = part.u_max_mm;
  json["out_of_round_mm"] = part.out_of_round_mm;
  json["true_out_of_round_mm"] = to_json(part.true_out_of_round_mm);
  json["taper_mm"] = part.taper_mm;
  json["bell_mouth_mm"] = part.bell_mouth_mm;
  json["barrel_mm"] = part.barrel_mm;
}

void put_cut(const drum::DrumVerdict& part, Json& json) {
  json["cut_on_radius_um"] = part.cut_on_radius_um;
  json["change_on_diameter_um"] = part.change_on_diameter_um;
  json["marks"] = part.marks;
  json["marks_on_radius_um"] = part.marks_on_radius_um;
  json["marks_on_diameter_um"] = part.marks_on_diameter_um;
  json["final_mm"] = part.final_mm;
  json["true_final_mm"] = to_json(part.true_final_mm);
  json["runout_assumed"] = part.runout_assumed;
}

void put_probabilities(const drum::DrumVerdict& part, Json& json) {
  json["machine_to"] = part.machine_to ? to_json(*part.machine_to) : Json(nullptr);
  json["machine_to_is_house_rule"] = part.machine_to_is_house_rule;
  json["p_under_discard"] = or_null(part.p_under_discard);
  json["p_out_of_round_within"] = or_null(part.p_out_of_round_within);
  json["p_taper_within"] = or_null(part.p_taper_within);
  json["p_scoring_within"] = or_null(part.p_scoring_within);
  json["p_final_within_machine_to"] = or_null(part.p_final_within_machine_to);
  json["p_final_under_discard"] = or_null(part.p_final_under_discard);
  json["cut_called_for"] = called_for(part.cut_called_for);
  json["wear_room_uncut"] = or_null(part.wear_room_uncut);
  json["wear_room_cut"] = or_null(part.wear_room_cut);
  json["shoe_before"] = contact_or_null(part.shoe_before);
  json["shoe_after"] = contact_or_null(part.shoe_after);
}

Json part_of(const drum::DrumVerdict& part) {
  Json json = {
      {"name", part.name}, {"action", name_of(part.action)}, {"p", part.p}, {"reasons", to_json(part.reasons)}};
  put_shape(part, json);
  put_cut(part, json);
  put_probabilities(part, json);
  return json;
}

}  // namespace

Json json_of(const drum::Drums& drums) {
  Json parts = Json::array();
  for (const auto& part : drums.parts) parts.push_back(part_of(part));
  return {{"action", name_of(drums.action)},
          {"p", drums.p},
          {"reasons", to_json(drums.reasons)},
          {"next_measurement", drums.next_measurement ? to_json(*drums.next_measurement) : Json(nullptr)},
          {"parts", std::move(parts)},
          {"pair", drums.pair ? Json{{"final_mm", drums.pair->final_mm},
                                     {"extra_um", drums.pair->extra_um},
                                     {"p_within", or_null(drums.pair->p_within)}}
                              : Json(nullptr)},
          {"advice", to_json(drums.advice)},
          {"plans", nullptr},
          {"cuts", nullptr}};
}

Json json_of(const drum::Figures& figures) {
  Json points = Json::array();
  for (const drum::SpotMean& point : figures.points) {
    points.push_back({{"depth_mm", point.depth_mm},
                      {"angle_deg", point.angle_deg},
                      {"mean_mm", point.mean_mm},
                      {"count", point.count}});
  }
  Json json = {{"points", std::move(points)}};
  put_shape(figures, json);
  json["p_under_discard"] = or_null(figures.p_under_discard);
  json["p_within_machine_to"] = or_null(figures.p_within_machine_to);
  json["p_out_of_round_within"] = or_null(figures.p_out_of_round_within);
  json["p_taper_within"] = or_null(figures.p_taper_within);
  json["advice"] = to_json(figures.advice);
  return json;
}

Json json_of(const drum::CutCheck& check) {
  Json taken = Json::array(), checks = Json::array();
  for (const drum::TakenAtSpot& spot : check.taken) {
    taken.push_back({{"depth_mm", spot.depth_mm},
                     {"angle_deg", spot.angle_deg},
                     {"before_mm", spot.before_mm},
                     {"after_mm", spot.after_mm},
                     {"taken_um", spot.taken_um}});
  }
  for (const AfterCheck& one : check.checks) checks.push_back(to_json(one));
  return {{"outcome", name_of(check.outcome)},
          {"taken", std::move(taken)},
          {"taken_mean_um", check.taken_mean_um},
          {"taken_min_um", check.taken_min_um},
          {"taken_max_um", check.taken_max_um},
          {"u_taken_mean_um", check.u_taken_mean_um},
          {"planned_on_radius_um", or_null(check.planned_on_radius_um)},
          {"planned_um", or_null(check.planned_um)},
          {"difference_um", or_null(check.difference_um)},
          {"agrees_with_plan", check.agrees_with_plan ? Json(*check.agrees_with_plan) : Json(nullptr)},
          {"diameter", json_of(check.after)},
          {"checks", std::move(checks)},
          {"advice", to_json(check.advice)}};
}

Json json_of(const drum::BorePlan& plan, const InputError* refusal) {
  Json passes = Json::array();
  for (const drum::BorePass& pass : plan.passes) {
    passes.push_back({{"marks", pass.marks},
                      {"depth_on_radius_um", pass.depth_on_radius_um},
                      {"change_on_diameter_um", pass.change_on_diameter_um},
                      {"diameter_after_mm", pass.diameter_after_mm},
                      {"rpm", pass.rpm},
                      {"feed_mm_per_rev", pass.feed_mm_per_rev},
                      {"time_s", pass.time_s},
                      {"ra_um", pass.ra_um},
                      {"surface_speed_m_per_min", pass.surface_speed_m_per_min}});
  }
  return {{"passes", std::move(passes)},
          {"time_s", plan.time_s},
          {"final_mm", refusal != nullptr ? Json(nullptr) : Json(plan.final_mm)},
          {"in_the_way",
           refusal != nullptr ? Json{{"field", refusal->field()}, {"message", refusal->what()}} : Json(nullptr)}};
}

}  // namespace brakewright::calc
