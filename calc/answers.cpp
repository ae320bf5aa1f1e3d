#include "calc/answers.hpp"

#include <nlohmann/json.hpp>

namespace brakewright::calc {
namespace {

Json standing_or_null(const std::optional<Standing>& standing) {
  return standing ? Json(std::string(name_of(*standing))) : Json(nullptr);
}

Json written(const PointMean& point) {
  return {{"angle_deg", point.angle_deg},
          {"radius_mm", point.radius_mm},
          {"mean_mm", point.mean_mm},
          {"count", point.count}};
}

Json written(const CircleOfThickness& circle) {
  return {{"radius_mm", circle.radius_mm},
          {"mean_mm", circle.mean_mm},
          {"min_mm", circle.min_mm},
          {"max_mm", circle.max_mm},
          {"variation_mm", circle.variation_mm},
          {"harmonics", to_json(circle.harmonics)},
          {"blind_orders", circle.blind_orders}};
}

template <typename T>
Json list_of(const std::vector<T>& items) {
  Json list = Json::array();
  for (const T& item : items) list.push_back(written(item));
  return list;
}

}  // namespace

Json or_null(const std::optional<double>& number) { return number ? Json(*number) : Json(nullptr); }

Json to_json(const std::vector<Harmonic>& harmonics) {
  Json list = Json::array();
  for (const Harmonic& harmonic : harmonics) {
    list.push_back({{"order", harmonic.order},
                    {"amplitude_um", harmonic.amplitude_um},
                    {"phase_deg", harmonic.phase_deg},
                    {"u_amplitude_um", or_null(harmonic.u_amplitude_um)}});
  }
  return list;
}

Json to_json(const Posterior& posterior) {
  return {{"median", posterior.median}, {"low95", posterior.low95}, {"high95", posterior.high95}};
}

Json to_json(const std::vector<Advice>& advice) {
  Json list = Json::array();
  for (const Advice& one : advice) list.push_back({{"code", one.code}, {"text", one.text}});
  return list;
}

Json to_json(const Thickness& thickness) {
  return {{"mean_mm", thickness.mean_mm},
          {"min_mm", thickness.min_mm},
          {"min_angle_deg", thickness.min_angle_deg},
          {"min_radius_mm", thickness.min_radius_mm},
          {"max_mm", thickness.max_mm},
          {"max_angle_deg", thickness.max_angle_deg},
          {"variation_mm", thickness.variation_mm},
          {"variation_radius_mm", thickness.variation_radius_mm},
          {"taper_mm", thickness.taper_mm},
          {"temperature_shift_mm", thickness.temperature_shift_mm},
          {"true_variation_mm", to_json(thickness.true_variation_mm)},
          {"p_variation_within", or_null(thickness.p_variation_within)},
          {"variation_verdict", standing_or_null(thickness.variation_verdict)},
          {"u_min_mm", thickness.u_min_mm},
          {"p_min_above_discard", or_null(thickness.p_min_above_discard)},
          {"p_min_above_machine_to", or_null(thickness.p_min_above_machine_to)},
          {"harmonics", to_json(thickness.harmonics)},
          {"blind_orders", thickness.blind_orders},
          {"advice", to_json(thickness.advice)},
          {"points", list_of(thickness.points)},
          {"circles", list_of(thickness.circles)}};
}

Json to_json(const Runout& runout) {
  return {{"runout_um", runout.runout_um},
          {"high_deg", runout.high_deg},
          {"low_deg", runout.low_deg},
          {"true_runout_um", to_json(runout.true_runout_um)},
          {"p_within", or_null(runout.p_within)},
          {"verdict", standing_or_null(runout.verdict)},
          {"harmonics", to_json(runout.harmonics)},
          {"blind_orders", runout.blind_orders}};
}

Json to_json(const Cleanup& cleanup) {
  return {{"outboard_cut_um", cleanup.outboard_cut_um},
          {"inboard_cut_um", cleanup.inboard_cut_um},
          {"outboard_marks", cleanup.outboard_marks},
          {"inboard_marks", cleanup.inboard_marks},
          {"final_mm", cleanup.final_mm},
          {"final_whole_marks_mm", cleanup.final_whole_marks_mm},
          {"removed_mean_outboard_um", cleanup.removed_mean_outboard_um},
          {"removed_mean_inboard_um", cleanup.removed_mean_inboard_um},
          {"cheek_difference_um", cleanup.cheek_difference_um},
          {"wobble_um", cleanup.wobble_um},
          {"start_min_mm", cleanup.start_min_mm},
          {"over_machine_to_mm", or_null(cleanup.over_machine_to_mm)},
          {"over_discard_mm", or_null(cleanup.over_discard_mm)},
          {"cuts_left", cleanup.cuts_left ? Json(*cleanup.cuts_left) : Json(nullptr)}};
}

}  // namespace brakewright::calc
