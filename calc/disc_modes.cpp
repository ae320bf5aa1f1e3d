#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>

#include "calc/base64.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/disc_modes/likely_mode.hpp"
#include "core/disc_modes/plate.hpp"
#include "core/disc_modes/tap_ring.hpp"
#include "core/input_error.hpp"
#include "core/recording/wav.hpp"

namespace brakewright::calc {
namespace {

using namespace disc_modes;

Plate read_plate(Reader& reader) {
  Plate plate{.outer_radius_mm = reader.number("outer_mm"),
              .inner_radius_mm = reader.number("inner_mm"),
              .thickness_mm = reader.number("thickness_mm")};
  const auto e = reader.optional_number("e_gpa"), density = reader.optional_number("density_kg_m3");
  plate.u_e_gpa = reader.number_or("u_e_gpa", e ? 0 : kGreyIronUE_gpa);
  plate.u_density_kg_m3 = reader.number_or("u_density_kg_m3", density ? 0 : kGreyIronUDensity_kg_m3);
  plate.u_thickness_mm = reader.number_or("u_thickness_mm", 0);
  plate.e_gpa = e.value_or(plate.e_gpa);
  plate.density_kg_m3 = density.value_or(plate.density_kg_m3);
  plate.nu = reader.number_or("nu", plate.nu);
  if (reader.optional_one_of("inner_edge", {"clamped", "free"}).value_or("clamped") == "free") {
    plate.inner_edge = InnerEdge::free;
  }
  plate.hat = reader.boolean_or("hat", plate.hat);
  return plate;
}

/// Whose figures the material's are, field by field.
std::string material_source(Reader& reader) {
  std::string assumed;
  for (const char* field : {"e_gpa", "nu", "density_kg_m3"}) {
    if (!reader.has(field)) assumed += (assumed.empty() ? "" : ", ") + std::string(field);
  }
  return assumed.empty() ? "as given" : assumed + " of " + kGreyIronSource;
}

/// The input's own names for what the core calls by radius.
std::vector<PlateMode> modes_of(const Plate& plate, int diameters, int circles) {
  try {
    return plate_modes(plate, diameters, circles);
  } catch (const InputError& error) {
    const std::string& field = error.field();
    const std::string named = field == "outer_radius_mm" ? "outer_mm" : field == "inner_radius_mm" ? "inner_mm" : field;
    throw InputError(error.code(), named, error.what());
  }
}

/// Which mode it is likely to be, or nulls where none is more likely than not.
void put_likely(Json& answer, const std::vector<PlateMode>& modes, double hz, double u_hz) {
  const auto likely = likely_mode(modes, hz, u_hz);
  const bool named = likely && likely->probability > 0.5;
  answer["diameters"] = named ? Json(likely->mode.diameters) : Json(nullptr);
  answer["circles"] = named ? Json(likely->mode.circles) : Json(nullptr);
  answer["plate_hz"] = named ? Json(likely->mode.hz) : Json(nullptr);
  answer["p_mode"] = likely ? likely->probability : 0.0;
}

Json ring_of(const TapRing& ring, const std::vector<PlateMode>& modes) {
  Json tones = Json::array();
  for (const RingingTone& tone : ring.tones) {
    Json one = {{"hz", tone.hz},         {"u_hz", tone.u_hz},         {"zeta", tone.zeta},
                {"u_zeta", tone.u_zeta}, {"level_db", tone.level_db}, {"paired", tone.paired}};
    put_likely(one, modes, tone.hz, tone.u_hz);
    tones.push_back(std::move(one));
  }
  return {{"begins_s", ring.begins_s}, {"length_s", ring.length_s}, {"tones", std::move(tones)}};
}

TapRing listen(const std::string& text) {
  constexpr const char* kField = "recording_wav_base64";
  try {
    const Recording recording = read_wav(bytes_of_base64(text, ""));
    return ring_of_tap(recording.samples, recording.rate_hz);
  } catch (const InputError& error) {
    throw InputError(error.code(), kField, error.what());
  }
}

Json read_marks(Reader reader, const Plate& plate, const std::vector<PlateMode>& modes) {
  const double spacing_mm = reader.number("spacing_mm"), u_mm = reader.number_or("u_spacing_mm", 0);
  const double radius_mm = reader.number("radius_mm"), rpm = reader.number("rpm");
  reader.done();
  const ChatterMarks marks = frequency_of_marks(spacing_mm, u_mm, radius_mm, rpm);
  if (radius_mm < plate.inner_radius_mm || radius_mm > plate.outer_radius_mm) {
    throw InputError("out_of_range", reader.path_of("radius_mm"),
                     "must lie on the ring, from inner_mm to outer_mm, which are radii and not diameters");
  }
  Json answer = {{"hz", marks.hz},
                 {"u_hz", marks.u_hz},
                 {"per_turn", marks.per_turn},
                 {"surface_speed_m_per_min", marks.surface_speed_m_per_min}};
  put_likely(answer, modes, marks.hz, marks.u_hz);
  answer["remedy"] = answer["diameters"].is_null()
                         ? "no mode of the disc alone: look at the holder's overhang, a loose slide or nut, the arbor"
                         : "a mode of the disc: the damping band round its edge, then a shallower cut; at bench speeds "
                           "another speed changes little";
  answer["remedy_basis"] = "common practice, no source";
  return answer;
}

}  // namespace

Json run_disc_modes(const Json& input) {
  Reader reader(input);
  const Plate plate = read_plate(reader);
  const auto diameters = static_cast<int>(reader.optional_integer("max_diameters", 0, 20).value_or(6));
  const auto circles = static_cast<int>(reader.optional_integer("max_circles", 0, 4).value_or(1));
  const auto modes = modes_of(plate, diameters, circles);
  Json marks = nullptr, ring = nullptr;
  if (const auto given = reader.optional_object("marks")) marks = read_marks(*given, plate, modes);
  const std::string source = material_source(reader);
  const auto recording = reader.optional_text("recording_wav_base64");
  reader.done();
  if (recording) ring = ring_of(listen(*recording), modes);
  Json list = Json::array();
  for (const PlateMode& mode : modes) {
    list.push_back({{"diameters", mode.diameters},
                    {"circles", mode.circles},
                    {"lambda2", mode.lambda2},
                    {"hz", mode.hz},
                    {"u_hz", mode.u_hz}});
  }
  return {{"modes", std::move(list)},
          {"outer_radius_mm", plate.outer_radius_mm},
          {"inner_radius_mm", plate.inner_radius_mm},
          {"thin", is_thin(plate)},
          {"inner_edge", plate.inner_edge == InnerEdge::free ? "free" : "clamped"},
          {"material_source", source},
          {"basis", kPlateSource},
          {"hat_raises", plate.hat ? kHatRaises : 1},
          {"ring", std::move(ring)},
          {"marks", std::move(marks)}};
}

}  // namespace brakewright::calc
