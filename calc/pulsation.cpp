#include "core/pulsation/pulsation.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/base64.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"
#include "core/input_error.hpp"
#include "core/recording/wav.hpp"
#include "core/spectrum/lines.hpp"

namespace brakewright::calc {
namespace {

using namespace pulsation;

/// What a recording says, for the answer.
struct Heard {
  std::size_t observation = 0;
  double length_s = 0, rate_hz = 0;
  std::vector<SpectralLine> lines;
};

Rolling read_rolling(Reader& reader, std::optional<Tyre>& tyre) {
  const auto size = reader.optional_text("tyre");
  const auto given = reader.optional_number("rolling_circumference_mm");
  if (given) {
    const double spread = reader.number_or("u_rolling_percent", 1) / 100 * std::sqrt(3.0);
    if (!(spread >= 0 && spread <= 0.1)) throw InputError("out_of_range", "u_rolling_percent", "from 0 to 5 per cent");
    return {.mm = *given, .low_mm = *given * (1 - spread), .high_mm = *given * (1 + spread)};
  }
  reader.optional_number("u_rolling_percent");
  if (!size) throw InputError("missing", "tyre", "the tyre's size or rolling_circumference_mm is needed");
  try {
    tyre = read_tyre(*size);
  } catch (const InputError& error) {
    throw error.within("tyre");
  }
  return {.mm = tyre->rolling_mm, .low_mm = tyre->rolling_low_mm, .high_mm = tyre->rolling_high_mm};
}

void listen(Reader& reader, const std::string& text, Observation& seen, std::vector<Heard>& heard, std::size_t index) {
  const std::string path = reader.path_of("recording_wav_base64");
  try {
    const Recording recording = read_wav(bytes_of_base64(text, ""));
    heard.push_back({.observation = index,
                     .length_s = static_cast<double>(recording.samples.size()) / recording.rate_hz,
                     .rate_hz = recording.rate_hz,
                     .lines = clear_lines(recording.samples, recording.rate_hz)});
  } catch (const InputError& error) {
    throw InputError(error.code(), path, error.what());
  }
  if (heard.back().lines.empty()) return;
  seen.frequency_hz = heard.back().lines.front().hz;
  seen.u_frequency_hz = std::max(heard.back().lines.front().u_hz, 1e-4);
}

Observation read_observation(Reader& reader, std::size_t index, std::vector<Heard>& heard) {
  Observation seen{.speed_km_per_h = reader.number("speed_km_per_h")};
  const auto from = reader.optional_one_of("speed_from", {"speedometer", "satellite", "wheel test"});
  if (!from || *from == "speedometer") {
    seen.speed_factor = kSpeedometerFactor;
    seen.u_speed_relative = kSpeedometerU;
  } else {
    seen.u_speed_relative = 0.005;
  }
  if (const auto percent = reader.optional_number("u_speed_percent")) seen.u_speed_relative = *percent / 100;
  const auto frequency = reader.optional_number("frequency_hz"), u = reader.optional_number("u_frequency_hz");
  const auto beats = reader.optional_number("count"), seconds = reader.optional_number("count_s");
  const auto recording = reader.optional_text("recording_wav_base64");
  if ((frequency ? 1 : 0) + (beats ? 1 : 0) + (recording ? 1 : 0) > 1) {
    throw InputError("out_of_range", reader.path_of("frequency_hz"),
                     "one of frequency_hz, count, recording_wav_base64");
  }
  if (beats.has_value() != seconds.has_value()) {
    throw InputError("missing", reader.path_of(beats ? "count_s" : "count"), "count and count_s go together");
  }
  if (frequency) {
    seen.frequency_hz = *frequency;
    seen.u_frequency_hz = u.value_or(0.05 * *frequency);
  } else if (beats) {
    if (!(*beats >= 1 && *beats <= 1e5)) throw InputError("out_of_range", reader.path_of("count"), "from 1 to 100000");
    if (!(*seconds >= 0.5 && *seconds <= 3600)) {
      throw InputError("out_of_range", reader.path_of("count_s"), "from 0.5 to 3600 s");
    }
    const Counted found = counted(*beats, *seconds);
    if (!(found.hz >= 0.2 && found.hz <= 200)) {
      throw InputError("out_of_range", reader.path_of("count"), "0.2 to 200 beats a second");
    }
    seen.frequency_hz = found.hz;
    seen.u_frequency_hz = found.u_hz;
  } else if (recording) {
    listen(reader, *recording, seen, heard, index);
  }
  reader.done();
  return seen;
}

Corner read_corner(Reader& reader) {
  Corner corner;
  corner.name = reader.text("name");
  corner.front = reader.one_of("axle", {"front", "rear"}) == "front";
  corner.read = reader.has("variation");
  for (Reader& wave : reader.optional_objects("variation")) {
    corner.variation.push_back(
        {.order = static_cast<int>(wave.integer("order", 1, 100)), .amplitude_um = wave.number("amplitude_um")});
    wave.optional_number("phase_deg");
    wave.optional_number("u_amplitude_um");
    wave.done();
  }
  for (const double order : reader.optional_numbers("blind_orders").value_or(std::vector<double>{})) {
    if (!(order >= 1 && order <= 100))
      throw InputError("out_of_range", reader.path_of("blind_orders"), "from 1 to 100");
    corner.blind_orders.push_back(static_cast<int>(order));
  }
  corner.runout_um = reader.optional_number("runout_um");
  reader.done();
  return corner;
}

GrowthInput read_growth(Reader reader) {
  GrowthInput growth{.runout_um = reader.number("runout_um"),
                     .runout_limit_um = reader.number("runout_limit_um"),
                     .variation_um = reader.number_or("variation_um", 0),
                     .variation_limit_um = reader.number_or("variation_limit_um", 15)};
  reader.done();
  return growth;
}

WearInput read_wear(Reader reader) {
  WearInput wear{.thickness_mm = reader.number("thickness_mm"),
                 .u_mm = reader.number_or("u_mm", 0),
                 .discard_mm = reader.number("discard_mm"),
                 .rate = {}};
  wear.rate.mm_per_unit = reader.above("mm_per_unit", 0);
  wear.rate.relative_u = reader.number_or("relative_u", wear.rate.relative_u);
  wear.rate.unit = reader.optional_one_of("unit", {"10 000 km", "year"}).value_or(wear.rate.unit);
  reader.done();
  return wear;
}

Felt read_felt(Reader& reader) {
  const auto word = reader.optional_one_of("felt", {"pedal", "wheel", "seat"});
  if (!word) return Felt::unknown;
  return *word == "pedal" ? Felt::pedal : *word == "wheel" ? Felt::wheel : Felt::seat;
}

}  // namespace

Json to_json(const pulsation::OrderFit& fit) {
  return {{"order", fit.order},
          {"probability", fit.probability},
          {"expected_hz", or_null(fit.expected_hz)},
          {"off_percent", or_null(fit.off_percent)},
          {"z", or_null(fit.z)}};
}

Json to_json(const pulsation::SpeedRow& row) {
  return {{"speed_km_per_h", row.speed_km_per_h},
          {"order", row.order},
          {"low_hz", row.low_hz},
          {"hz", row.hz},
          {"high_hz", row.high_hz}};
}

Json to_json(const pulsation::Growth& growth) {
  Json curve = Json::array();
  for (const pulsation::GrowthPoint& point : growth.curve) {
    curve.push_back({{"km", point.km}, {"low_um", point.low_um}, {"high_um", point.high_um}});
  }
  return {{"over", growth.over},
          {"felt_from_km", or_null(growth.felt_from_km)},
          {"felt_to_km", or_null(growth.felt_to_km)},
          {"curve", std::move(curve)},
          {"text", growth.text},
          {"source", growth.source}};
}

namespace {

Json json_of(const Heard& heard) {
  Json lines = Json::array();
  for (const SpectralLine& line : heard.lines) {
    lines.push_back({{"hz", line.hz},
                     {"u_hz", line.u_hz},
                     {"snr_db", line.snr_db},
                     {"p_chance", line.p_chance},
                     {"kind", line.kind == LineKind::tone ? "tone" : "modulation"}});
  }
  return {{"observation", heard.observation},
          {"length_s", heard.length_s},
          {"rate_hz", heard.rate_hz},
          {"clear", !heard.lines.empty()},
          {"text", heard.lines.empty() ? "no clear line" : "the first line is counted with"},
          {"lines", std::move(lines)}};
}

Json json_of(const CornerFit& fit) {
  return {{"name", fit.name},
          {"probability", fit.probability},
          {"order", fit.order},
          {"amplitude_um", fit.amplitude_um},
          {"why", fit.why}};
}

Json json_of(const OrderFit& fit) { return to_json(fit); }
Json json_of(const SpeedRow& row) { return to_json(row); }

template <class Part>
Json list_of(const std::vector<Part>& parts) {
  Json list = Json::array();
  for (const Part& part : parts) list.push_back(json_of(part));
  return list;
}

Json json_of(const Rolling& rolling, const std::optional<Tyre>& tyre) {
  return {{"mm", rolling.mm},
          {"low_mm", rolling.low_mm},
          {"high_mm", rolling.high_mm},
          {"free_circumference_mm", tyre ? Json(tyre->free_circumference_mm) : Json(nullptr)},
          {"source", tyre ? kRollingSource : "as given"}};
}

}  // namespace

Json run_pulsation(const Json& input) {
  Reader reader(input);
  PulsationInput in;
  std::optional<Tyre> tyre;
  std::vector<Heard> heard;
  for (Reader& observation : reader.objects("observations")) {
    in.observations.push_back(read_observation(observation, in.observations.size(), heard));
  }
  in.rolling = read_rolling(reader, tyre);
  in.felt = read_felt(reader);
  for (Reader& corner : reader.optional_objects("corners")) in.corners.push_back(read_corner(corner));
  const auto limit_um = reader.optional_number("variation_limit_um");
  if (limit_um && !(*limit_um >= 0.1 && *limit_um <= 1e5)) {
    throw InputError("out_of_range", "variation_limit_um", "from 0.1 to 100000 um");
  }
  for (Corner& corner : in.corners) corner.variation_limit_um = limit_um;
  in.speeds_km_per_h =
      reader.optional_numbers("speeds_km_per_h").value_or(std::vector<double>{30, 50, 70, 90, 110, 130});
  if (const auto growth = reader.optional_object("growth")) in.growth = read_growth(*growth);
  if (const auto wear = reader.optional_object("wear")) in.wear = read_wear(*wear);
  in.seed = static_cast<std::uint64_t>(reader.optional_integer("seed", 0, kMostSeed).value_or(1));
  reader.done();
  const Pulsation found = find_pulsation(in);
  Json frequencies = Json::array();
  for (const Observation& seen : in.observations) {
    frequencies.push_back(
        {{"hz", or_null(seen.frequency_hz)}, {"u_hz", seen.frequency_hz ? Json(seen.u_frequency_hz) : Json(nullptr)}});
  }
  return {{"rolling", json_of(in.rolling, tyre)},
          {"frequencies", std::move(frequencies)},
          {"recordings", list_of(heard)},
          {"orders", list_of(found.orders)},
          {"corners", list_of(found.corners)},
          {"p_other_corner", found.p_other_corner},
          {"table", list_of(found.table)},
          {"growth", found.growth ? to_json(*found.growth) : Json(nullptr)},
          {"wear", found.wear ? Json{{"low95", found.wear->low95},
                                     {"median", found.wear->median},
                                     {"high95", found.wear->high95},
                                     {"unit", found.wear->unit}}
                              : Json(nullptr)},
          {"next", to_json(found.next)}};
}

}  // namespace brakewright::calc
