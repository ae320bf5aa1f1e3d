#include "server/routes/car_answers.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "shop/or_null.hpp"
#include "shop/words.hpp"

namespace brakewright::server {

using calc::or_null;
using shop::or_null;
using Json = nlohmann::ordered_json;

namespace {

const char* word_of(shop::RefitEvidence evidence) {
  switch (evidence) {
    case shop::RefitEvidence::positions:
      return "positions";
    case shop::RefitEvidence::hub_and_part:
      return "hub_and_part";
    case shop::RefitEvidence::hub_and_bench:
      return "hub_and_bench";
    case shop::RefitEvidence::part_alone:
      return "part_alone";
    case shop::RefitEvidence::bench_alone:
      return "bench_alone";
    case shop::RefitEvidence::hub_alone:
      return "hub_alone";
    case shop::RefitEvidence::nothing:
      break;
  }
  return "nothing";
}

Json json_of(const shop::CarTrace& trace) {
  return {{"turned", or_null(trace.turned)},
          {"stage", shop::word_of(trace.stage)},
          {"angles_deg", trace.angles_deg},
          {"values_um", trace.values_um},
          {"runout_um", trace.runout_um}};
}

Json json_of(const Separation& found) {
  return {{"carrier", calc::to_json(found.carrier)},      {"part", calc::to_json(found.part)},
          {"not_separable", found.not_separable},         {"residual_sd_um", or_null(found.residual_sd_um)},
          {"carrier_runout_um", found.carrier_runout_um}, {"part_runout_um", found.part_runout_um},
          {"p_repeats", or_null(found.p_repeats)},        {"next_turn_deg", or_null(found.next_turn_deg)},
          {"advice", calc::to_json(found.advice)}};
}

Json json_of(const shop::RefitFitting& fitting) {
  const bool plate = fitting.plate_id.has_value();
  return {{"position", fitting.position},
          {"turn_deg", fitting.turn_deg},
          {"runout_um", fitting.runout_um},
          {"low95_um", fitting.low95_um},
          {"high95_um", fitting.high95_um},
          {"p_within", or_null(fitting.p_within)},
          {"standing", fitting.standing ? Json(name_of(*fitting.standing)) : Json(nullptr)},
          {"high_deg", fitting.high_deg},
          {"plate_id", plate ? Json(shop::to_text(*fitting.plate_id)) : Json(nullptr)},
          {"plate_name", plate ? Json(fitting.plate_name) : Json(nullptr)},
          {"plate_position", or_null(fitting.plate_position)},
          {"read", fitting.read}};
}

Json json_of(const shop::RefitChoice& choice) {
  Json all = Json::array();
  for (const shop::RefitFitting& fitting : choice.all) all.push_back(json_of(fitting));
  return {{"best", json_of(choice.best)},
          {"best_without_plate", json_of(choice.best_without_plate)},
          {"all", std::move(all)},
          {"known_position", or_null(choice.known_position)}};
}

Json json_of(const std::optional<shop::RoadDisc>& disc) {
  if (!disc) return nullptr;
  return {{"thickness_mm", disc->thickness_mm},
          {"u_thickness_mm", or_null(disc->u_thickness_mm)},
          {"basis", disc->basis},
          {"depth_mm", disc->stop.depth_mm},
          {"mass_kg", disc->mass_kg},
          {"energy_j", disc->energy_j},
          {"stop", calc::to_json(disc->stop)},
          {"repeats", calc::to_json(disc->repeats)}};
}

Json hotter_percent(const shop::RoadPart& part) {
  if (!part.before || !part.after) return nullptr;
  return 100 * (part.after->stop.rise_surface_max_k / part.before->stop.rise_surface_max_k - 1);
}

Json json_of(const shop::RoadPart& part) {
  Json wear = Json::array();
  for (const shop::RoadWear& one : part.wear) {
    wear.push_back({{"mm_per_10000_km", one.rate.mm_per_unit},
                    {"relative_u", one.rate.relative_u},
                    {"source", one.source},
                    {"uncut", or_null(one.uncut)},
                    {"cut", or_null(one.cut)}});
  }
  return {{"part_id", shop::to_text(part.part_id)},
          {"missing", part.missing},
          {"heat_before", json_of(part.before)},
          {"heat_after", json_of(part.after)},
          {"heat_discard", json_of(part.at_discard)},
          {"heat_new", json_of(part.as_new)},
          {"hotter_percent", hotter_percent(part)},
          {"wear", std::move(wear)},
          {"growth", part.growth ? calc::to_json(*part.growth) : Json(nullptr)},
          {"growth_basis", part.growth ? Json(part.growth_basis) : Json(nullptr)},
          {"advice", calc::to_json(part.advice)}};
}

Json json_of(const shop::RoadStop& stop) {
  return {{"speed_km_per_h", stop.speed_km_per_h},
          {"t_stop_s", stop.t_stop_s},
          {"stops", stop.stops},
          {"interval_s", stop.interval_s},
          {"axle_share", stop.axle_share},
          {"disc_share", stop.axle_share / 2},
          {"heat_share_source", heat::kHeatShareSource},
          {"material_source", heat::kGreyIronSource}};
}

Json json_of(const std::optional<shop::RoadWheel>& wheel) {
  if (!wheel) return nullptr;
  return {{"tyre", wheel->size},
          {"circumference_m", wheel->tyre.rolling_mm / 1000},
          {"low_m", wheel->tyre.rolling_low_mm / 1000},
          {"high_m", wheel->tyre.rolling_high_mm / 1000},
          {"free_circumference_m", wheel->tyre.free_circumference_mm / 1000},
          {"source", kRollingSource}};
}

/// Rows of one speed after the other, as one entry for each speed.
Json by_speed(const std::vector<pulsation::SpeedRow>& rows) {
  Json felt = Json::array();
  for (const pulsation::SpeedRow& row : rows) {
    if (felt.empty() || felt.back()["speed_km_per_h"] != row.speed_km_per_h) {
      felt.push_back({{"speed_km_per_h", row.speed_km_per_h}, {"orders", Json::array()}});
    }
    felt.back()["orders"].push_back(
        {{"order", row.order}, {"hz", row.hz}, {"low_hz", row.low_hz}, {"high_hz", row.high_hz}});
  }
  return felt;
}

Json json_of(const shop::PulsationCorner& corner) {
  return {{"part_id", shop::to_text(corner.part_id)},
          {"job_id", shop::to_text(corner.job_id)},
          {"name", corner.name},
          {"axle", shop::word_of(corner.axle)},
          {"side", shop::word_of(corner.side)},
          {"read", corner.read},
          {"probability", or_null(corner.probability)},
          {"order", or_null(corner.order)},
          {"amplitude_um", or_null(corner.amplitude_um)},
          {"why", corner.why},
          {"runout_um", or_null(corner.runout_um)}};
}

}  // namespace

Json answer_of(const shop::RefitAdvice& advice) {
  Json traces = Json::array();
  for (const shop::CarTrace& trace : advice.traces) traces.push_back(json_of(trace));
  return {{"part_id", shop::to_text(advice.part_id)},
          {"missing", advice.missing},
          {"evidence", word_of(advice.evidence)},
          {"evidence_text", shop::text_of(advice.evidence)},
          {"stage", shop::word_of(advice.stage)},
          {"traces", std::move(traces)},
          {"bearing_play_um", or_null(advice.bearing_play_um)},
          {"radius_mm", or_null(advice.radius_mm)},
          {"noise_um", or_null(advice.noise_um)},
          {"limit", advice.limit ? calc::to_json(*advice.limit) : Json(nullptr)},
          {"separation", advice.separation ? json_of(*advice.separation) : Json(nullptr)},
          {"refit", advice.refit ? json_of(*advice.refit) : Json(nullptr)},
          {"advice", calc::to_json(advice.advice)},
          {"next", calc::to_json(advice.next)}};
}

Json answer_of(const shop::RoadAdvice& advice) {
  Json assumed = Json::array(), parts = Json::array();
  for (const shop::RoadAssumed& one : advice.assumed) {
    assumed.push_back({{"field", one.field}, {"value", one.value}, {"unit", one.unit}, {"basis", one.basis}});
  }
  for (const shop::RoadPart& part : advice.parts) parts.push_back(json_of(part));
  return {{"job_id", shop::to_text(advice.job_id)},
          {"missing", advice.missing},
          {"assumed", std::move(assumed)},
          {"stop", json_of(advice.stop)},
          {"parts", std::move(parts)},
          {"wheel", json_of(advice.wheel)},
          {"felt", by_speed(advice.felt)},
          {"advice", calc::to_json(advice.advice)}};
}

Json answer_of(const shop::PulsationAdvice& advice) {
  Json orders = Json::array(), corners = Json::array(), table = Json::array();
  for (const auto& fit : advice.orders) orders.push_back(calc::to_json(fit));
  for (const auto& corner : advice.corners) corners.push_back(json_of(corner));
  for (const auto& row : advice.table) table.push_back(calc::to_json(row));
  return {{"job_id", shop::to_text(advice.job_id)},
          {"missing", advice.missing},
          {"felt_in", advice.felt_in ? Json(shop::word_of(*advice.felt_in)) : Json(nullptr)},
          {"felt_speed_km_per_h", or_null(advice.felt_speed_km_per_h)},
          {"felt_frequency_hz", or_null(advice.felt_frequency_hz)},
          {"u_frequency_hz", or_null(advice.u_frequency_hz)},
          {"wheel", json_of(advice.wheel)},
          {"orders", std::move(orders)},
          {"corners", std::move(corners)},
          {"p_other_corner", advice.p_other_corner},
          {"table", std::move(table)},
          {"next", calc::to_json(advice.next)},
          {"advice", calc::to_json(advice.advice)}};
}

Json answer_of(const shop::DiagnosisAdvice& advice) {
  Json parts = Json::array();
  for (const shop::PartDiagnosis& part : advice.parts) {
    Json signs = Json::array();
    for (const shop::JobSign& sign : part.signs) {
      signs.push_back({{"sign", diagnosis::about(sign.sign).name},
                       {"value", sign.value},
                       {"text", diagnosis::said(sign.sign, sign.value)},
                       {"from", sign.from}});
    }
    parts.push_back({{"part_id", shop::to_text(part.part_id)},
                     {"side", shop::word_of(part.side)},
                     {"missing", part.missing},
                     {"signs", std::move(signs)},
                     {"found", part.found ? Json(calc::to_json(*part.found)) : Json(nullptr)}});
  }
  return {{"job_id", shop::to_text(advice.job_id)}, {"parts", std::move(parts)}};
}

}  // namespace brakewright::server
