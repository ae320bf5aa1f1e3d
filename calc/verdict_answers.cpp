#include <nlohmann/json.hpp>

#include "calc/answers.hpp"

namespace brakewright::calc {
namespace {

Json written(const RemovedAtPoint& spot) {
  return {{"angle_deg", spot.angle_deg},
          {"radius_mm", spot.radius_mm},
          {"before_mm", spot.before_mm},
          {"after_mm", spot.after_mm},
          {"removed_um", spot.removed_um}};
}

}  // namespace

Json to_json(const AfterCheck& check) {
  return {{"code", check.code},   {"value", check.value},
          {"limit", check.limit}, {"unit", check.code == "finish" ? "um" : "mm"},
          {"p", check.p},         {"outcome", name_of(check.outcome)},
          {"text", check.text},   {"source", check.source}};
}

Json or_null(const std::optional<WearRoom>& room) {
  if (!room) return nullptr;
  return {{"low95", room->low95}, {"median", room->median}, {"high95", room->high95}, {"unit", room->unit}};
}

Json called_for(const std::optional<Standing>& standing) {
  if (!standing) return nullptr;
  return *standing == Standing::outside ? "yes" : *standing == Standing::within ? "no" : "cannot tell";
}

Json to_json(const LengthLimit& limit) { return {{"value_mm", limit.value_mm}, {"source", limit.source}}; }

Json to_json(const Reason& reason) {
  return {{"code", reason.code},
          {"text", reason.text},
          {"part", reason.part},
          {"value", or_null(reason.value)},
          {"limit", or_null(reason.limit)},
          {"unit", reason.unit},
          {"p", or_null(reason.p)},
          {"source", reason.source}};
}

Json to_json(const std::vector<Reason>& reasons) {
  Json list = Json::array();
  for (const Reason& reason : reasons) list.push_back(to_json(reason));
  return list;
}

Json to_json(const NextMeasurement& next) {
  return {{"kind", next.kind},         {"part", next.part},
          {"text", next.text},         {"angles_deg", next.angles_deg},
          {"repeats", next.repeats},   {"resolution_mm", next.resolution_mm},
          {"question", next.question}, {"p_now", next.p_now},
          {"p_after", next.p_after},   {"p_settles", next.p_settles},
          {"method", next.method}};
}

Json to_json(const PartVerdict& part) {
  return {{"name", part.name},
          {"action", name_of(part.action)},
          {"p", part.p},
          {"reasons", to_json(part.reasons)},
          {"thickness", to_json(part.thickness)},
          {"runout", part.runout ? to_json(*part.runout) : Json(nullptr)},
          {"cleanup", to_json(part.cleanup)},
          {"runout_assumed", part.runout_assumed},
          {"machine_to", part.machine_to ? to_json(*part.machine_to) : Json(nullptr)},
          {"machine_to_is_house_rule", part.machine_to_is_house_rule},
          {"p_above_discard", or_null(part.p_above_discard)},
          {"p_variation_within", or_null(part.p_variation_within)},
          {"p_runout_within", or_null(part.p_runout_within)},
          {"p_scoring_within", or_null(part.p_scoring_within)},
          {"p_final_over_machine_to", or_null(part.p_final_over_machine_to)},
          {"p_final_over_discard", or_null(part.p_final_over_discard)},
          {"final_mm", to_json(part.final_mm)},
          {"cut_called_for", called_for(part.cut_called_for)},
          {"wear_room_uncut", or_null(part.wear_room_uncut)},
          {"wear_room_cut", or_null(part.wear_room_cut)}};
}

Json to_json(const Verdict& verdict) {
  Json parts = Json::array();
  for (const PartVerdict& part : verdict.parts) parts.push_back(to_json(part));
  return {{"action", name_of(verdict.action)},
          {"p", verdict.p},
          {"reasons", to_json(verdict.reasons)},
          {"next_measurement", verdict.next_measurement ? to_json(*verdict.next_measurement) : Json(nullptr)},
          {"parts", std::move(parts)}};
}

Json to_json(const AfterCut& after) {
  Json removed = Json::array();
  for (const RemovedAtPoint& spot : after.removed) removed.push_back(written(spot));
  Json checks = Json::array();
  for (const AfterCheck& check : after.checks) checks.push_back(to_json(check));
  return {{"outcome", name_of(after.outcome)},
          {"removed", std::move(removed)},
          {"removed_mean_um", after.removed_mean_um},
          {"removed_min_um", after.removed_min_um},
          {"removed_max_um", after.removed_max_um},
          {"u_removed_mean_um", after.u_removed_mean_um},
          {"planned_um", or_null(after.planned_um)},
          {"difference_um", or_null(after.difference_um)},
          {"agrees_with_plan", after.agrees_with_plan ? Json(*after.agrees_with_plan) : Json(nullptr)},
          {"thickness", to_json(after.thickness)},
          {"checks", std::move(checks)},
          {"advice", to_json(after.advice)}};
}

}  // namespace brakewright::calc
