#include "core/heat/heat.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

heat::Vehicle read_vehicle(Reader reader) {
  heat::Vehicle vehicle;
  vehicle.mass_kg = reader.number("mass_kg");
  vehicle.speed_km_per_h = reader.number("speed_km_per_h");
  vehicle.end_speed_km_per_h = reader.number_or("end_speed_km_per_h", 0);
  const auto share = reader.optional_number("disc_share"), front = reader.optional_number("front_share");
  if (share && front) throw InputError("out_of_range", reader.path_of("front_share"), "disc_share or this, not both");
  if (!share && !front) throw InputError("missing", reader.path_of("front_share"), "this or disc_share is needed");
  if (front && !(*front > 0 && *front <= 1)) {
    throw InputError("out_of_range", reader.path_of("front_share"), "more than 0, at most 1");
  }
  vehicle.disc_share = share.value_or(front.value_or(0) / 2);
  if (const auto heat_share = reader.optional_number("heat_share")) {
    vehicle.heat_share = vehicle.heat_share_low = vehicle.heat_share_high = *heat_share;
  }
  Reader disc = reader.object("disc");
  vehicle.disc = {.outer_radius_mm = disc.number("outer_radius_mm"),
                  .inner_radius_mm = disc.number("inner_radius_mm"),
                  .thickness_mm = disc.number("thickness_mm"),
                  .cheek_thickness_mm = disc.optional_number("cheek_thickness_mm")};
  disc.done();
  reader.done();
  return vehicle;
}

/// The depth of heating of a thickness to compare with: {"half_thickness_mm"} or {"thickness_mm",
/// "cheek_thickness_mm"}. Half of what the disc's thickness differs by comes off each cheek where this is not given.
double read_depth(Reader reader, const heat::HeatInput& input) {
  const auto half = reader.optional_number("half_thickness_mm");
  const auto thickness = reader.optional_number("thickness_mm"), cheek = reader.optional_number("cheek_thickness_mm");
  reader.done();
  double depth = half.value_or(0);
  const char* field = "half_thickness_mm";
  if (!half) {
    if (!thickness) throw InputError("missing", reader.path_of("thickness_mm"), "this or half_thickness_mm is needed");
    field = "thickness_mm";
    depth = *thickness / 2;
    if (input.vented) {
      const heat::Disc disc = input.vehicle ? input.vehicle->disc : heat::Disc{};
      if (!cheek && !input.vehicle) {
        throw InputError("missing", reader.path_of("cheek_thickness_mm"), "a vented disc is counted by its cheek");
      }
      depth = cheek ? *cheek : *disc.cheek_thickness_mm - (disc.thickness_mm - *thickness) / 2;
    }
  }
  if (!(depth >= 0.2 && depth <= 500)) {
    throw InputError("out_of_range", reader.path_of(field), "a depth of heating from 0.2 to 500 mm must be left");
  }
  return depth;
}

heat::Repeats read_repeats(Reader reader) {
  heat::Repeats repeats;
  repeats.stops = static_cast<int>(reader.integer("stops", 1, 200));
  repeats.interval_s = reader.number("interval_s");
  repeats.start_c = reader.number_or("start_c", repeats.start_c);
  repeats.ambient_c = reader.number_or("ambient_c", repeats.ambient_c);
  const auto low = reader.optional_number("cooling_low_w_m2k"), high = reader.optional_number("cooling_high_w_m2k");
  if (low.has_value() != high.has_value()) {
    throw InputError("missing", reader.path_of(low ? "cooling_high_w_m2k" : "cooling_low_w_m2k"),
                     "both ends of the cooling are needed, or neither");
  }
  const auto basis = reader.optional_text("cooling_basis");
  if (low) {
    repeats.cooling_low_w_m2k = *low;
    repeats.cooling_high_w_m2k = *high;
    repeats.cooling_basis = basis.value_or("as given");
  }
  reader.done();
  return repeats;
}

Json band(const heat::Band& band) { return {{"low", band.low}, {"high", band.high}}; }

}  // namespace

Json to_json(const heat::OneStop& stop) {
  Json curve = Json::array();
  for (const auto& [t_s, rises] : stop.curve) {
    curve.push_back(
        {{"t_s", t_s}, {"surface_k", rises.surface_k}, {"midplane_k", rises.midplane_k}, {"bulk_k", rises.bulk_k}});
  }
  return {
      {"rise_surface_max_k", stop.rise_surface_max_k},
      {"t_of_max_s", stop.t_of_max_s},
      {"rise_surface_end_k", stop.rise_surface_end_k},
      {"rise_midplane_end_k", stop.rise_midplane_end_k},
      {"rise_bulk_end_k", stop.rise_bulk_end_k},
      {"rise_semi_infinite_max_k", stop.rise_semi_infinite_max_k},
      {"rise_surface_max_band_k", stop.rise_surface_max_band_k ? band(*stop.rise_surface_max_band_k) : Json(nullptr)},
      {"depth_mm", stop.depth_mm},
      {"curve", std::move(curve)}};
}

Json to_json(const heat::RepeatedStops& repeats) {
  Json stops = Json::array();
  for (const auto& stop : repeats.stops) {
    stops.push_back({{"t_s", stop.t_s},
                     {"start_c", band(stop.start_c)},
                     {"surface_max_c", band(stop.surface_max_c)},
                     {"end_c", band(stop.end_c)}});
  }
  return {{"stops", std::move(stops)},
          {"settles_at_c", repeats.settles_at_c ? band(*repeats.settles_at_c) : Json(nullptr)},
          {"basis", repeats.basis}};
}

namespace {

template <class Part>
Json json_or_null(const std::optional<Part>& part) {
  return part ? to_json(*part) : Json(nullptr);
}

}  // namespace

Json run_heat(const Json& input) {
  Reader reader(input);
  heat::HeatInput in;
  in.t_stop_s = reader.number("t_stop_s");
  const auto k = reader.optional_number("k_w_mk"), rho = reader.optional_number("rho_kg_m3"),
             c = reader.optional_number("c_j_kgk");
  if (k || rho || c) {
    in.material = heat::Material{.k_w_mk = k.value_or(heat::kGreyIron.k_w_mk),
                                 .rho_kg_m3 = rho.value_or(heat::kGreyIron.rho_kg_m3),
                                 .c_j_kgk = c.value_or(heat::kGreyIron.c_j_kgk)};
  }
  in.q0_w_m2 = reader.optional_number("q0_w_m2");
  in.half_thickness_mm = reader.optional_number("half_thickness_mm");
  if (const auto vehicle = reader.optional_object("vehicle")) in.vehicle = read_vehicle(*vehicle);
  in.vented = reader.boolean_or("vented", in.vehicle && in.vehicle->disc.cheek_thickness_mm);
  if (in.vehicle && in.vented != in.vehicle->disc.cheek_thickness_mm.has_value()) {
    throw InputError("out_of_range", "vented", "a vented disc has a cheek_thickness_mm, a solid one has none");
  }
  if (const auto before = reader.optional_object("before")) in.before_depth_mm = read_depth(*before, in);
  if (const auto after = reader.optional_object("after")) in.after_depth_mm = read_depth(*after, in);
  if (const auto repeats = reader.optional_object("repeats")) in.repeats = read_repeats(*repeats);
  reader.done();
  const heat::Heat found = heat::heat_of_stop(in);
  Json answer = to_json(found.stop);
  answer["q0_w_m2"] = found.q0_w_m2;
  answer["energy_j"] = in.vehicle ? Json(found.energy_j) : Json(nullptr);
  answer["material"] = {{"k_w_mk", found.material.k_w_mk},
                        {"rho_kg_m3", found.material.rho_kg_m3},
                        {"c_j_kgk", found.material.c_j_kgk},
                        {"source", found.material_assumed ? heat::kGreyIronSource : "as given"}};
  answer["heat_share_source"] = in.vehicle ? Json(heat::kHeatShareSource) : Json(nullptr);
  answer["before"] = json_or_null(found.before);
  answer["after"] = json_or_null(found.after);
  answer["repeats"] = json_or_null(found.repeats);
  answer["repeats_before"] = json_or_null(found.repeats_before);
  answer["repeats_after"] = json_or_null(found.repeats_after);
  answer["advice"] = to_json(found.advice);
  return answer;
}

}  // namespace brakewright::calc
