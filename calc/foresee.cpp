#include "core/cutting/foresee.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/cut_input.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

void read_lathe(Reader lathe, cutting::ForeseeInput& in) {
  read_dials(lathe, in);
  in.dial_sd_um = lathe.number_or("dial_sd_um", in.dial_sd_um);
  in.speeds_rpm = lathe.optional_numbers("speeds_rpm").value_or(std::vector<double>{});
  in.feeds_mm_per_rev = lathe.optional_numbers("feeds_mm_per_rev").value_or(std::vector<double>{});
  lathe.done();
}

void read_material(Reader material, cutting::ForeseeInput& in) {
  in.kc11_n_per_mm2 = material.number_or("kc11_n_per_mm2", in.kc11_n_per_mm2);
  in.mc = material.number_or("mc", in.mc);
  material.done();
}

cutting::PassSetting read_pass(Reader& reader) {
  constexpr std::int64_t kMost = 1'000'000;
  cutting::PassSetting pass{.outboard_marks = reader.integer("outboard_marks", 0, kMost),
                            .inboard_marks = reader.integer("inboard_marks", 0, kMost),
                            .rpm = reader.number("rpm"),
                            .feed_mm_per_rev = reader.number("feed_mm_per_rev")};
  reader.done();
  return pass;
}

void put_force(Json& json, const std::string& side, const std::optional<cutting::SideForce>& force) {
  json["force_" + side + "_n"] = force ? Json(force->n) : Json(nullptr);
  json["force_" + side + "_low_n"] = force ? Json(force->low_n) : Json(nullptr);
  json["force_" + side + "_high_n"] = force ? Json(force->high_n) : Json(nullptr);
}

Json written(const cutting::ForeseenPass& pass) {
  Json json = {{"time_s", pass.time_s},
               {"surface_speed_m_per_min", pass.surface_speed_m_per_min},
               {"ra_um", pass.ra_um},
               {"ra_low_um", pass.ra_low_um},
               {"ra_high_um", pass.ra_high_um}};
  put_force(json, "outboard", pass.outboard);
  put_force(json, "inboard", pass.inboard);
  json["power_w"] = or_null(pass.power_w);
  json["extrapolated"] = pass.extrapolated;
  json["thickness_after_mm"] = pass.thickness_after_mm;
  json["u_thickness_after_um"] = pass.u_thickness_after_um;
  json["p_over_machine_to"] = or_null(pass.p_over_machine_to);
  json["p_over_discard"] = or_null(pass.p_over_discard);
  json["cut_length_outboard_m"] = pass.cut_length_outboard_m;
  json["cut_length_inboard_m"] = pass.cut_length_inboard_m;
  return json;
}

}  // namespace

Json run_foresee(const Json& input) {
  Reader reader(input);
  cutting::ForeseeInput in;
  read_ring(reader.object("ring"), in);
  in.start_min_mm = reader.number("start_min_mm");
  in.u_start_min_um = reader.number_or("u_start_min_um", 0);
  in.machine_to_mm = reader.optional_number("machine_to_mm");
  in.discard_mm = reader.optional_number("discard_mm");
  read_lathe(reader.object("lathe"), in);
  read_insert(reader.object("insert"), in);
  if (const auto material = reader.optional_object("material")) read_material(*material, in);
  read_rules(reader.object("rules"), in);
  in.confidence = reader.number_or("confidence", in.confidence);
  for (auto& pass : reader.objects("passes")) in.passes.push_back(read_pass(pass));
  reader.done();
  const auto seen = cutting::foresee(in);
  Json passes = Json::array(), warnings = Json::array();
  for (const auto& pass : seen.passes) passes.push_back(written(pass));
  for (const auto& warning : seen.warnings) {
    warnings.push_back({{"code", warning.code},
                        {"text", warning.text},
                        {"pass", warning.pass},
                        {"side", warning.side.empty() ? Json(nullptr) : Json(warning.side)}});
  }
  return {{"passes", passes},
          {"time_s", seen.time_s},
          {"final_mm", seen.final_mm},
          {"u_final_um", seen.u_final_um},
          {"cut_length_outboard_m", seen.cut_length_outboard_m},
          {"cut_length_inboard_m", seen.cut_length_inboard_m},
          {"ra_band_basis", "from memory, no source read"},
          {"warnings", warnings}};
}

}  // namespace brakewright::calc
