#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"
#include "core/input_error.hpp"
#include "core/refit/refit.hpp"

namespace brakewright::calc {
namespace {

std::vector<Harmonic> read_harmonics(std::vector<Reader> readers) {
  std::vector<Harmonic> waves;
  for (Reader& reader : readers) {
    waves.push_back({.order = static_cast<int>(reader.integer("order", 1, 40)),
                     .amplitude_um = reader.number("amplitude_um"),
                     .phase_deg = reader.number("phase_deg"),
                     .u_amplitude_um = reader.optional_number("u_amplitude_um")});
    reader.done();
  }
  return waves;
}

std::vector<TaperPlate> read_plates(std::vector<Reader> readers) {
  std::vector<TaperPlate> plates;
  for (Reader& reader : readers) {
    plates.push_back(
        {.id = reader.text("id"), .taper_um = reader.number("taper_um"), .diameter_mm = reader.number("diameter_mm")});
    reader.done();
  }
  return plates;
}

RefitReadings read_readings(Reader reader) {
  RefitReadings readings;
  for (Reader& position : reader.objects("positions")) readings.positions.push_back(read_position(position));
  readings.noise_sd_um = reader.optional_number("noise_sd_um");
  reader.done();
  return readings;
}

Json fitting(const FittedRunout& runout, const RefitInput& input) {
  return {{"position", runout.position},
          {"turn_deg", runout.turn_deg},
          {"runout_um", runout.runout_um},
          {"high_deg", runout.high_deg},
          {"plate", runout.plate ? Json(input.plates[*runout.plate].id) : Json(nullptr)},
          {"plate_position", runout.plate_position ? Json(*runout.plate_position) : Json(nullptr)},
          {"true_runout_um", runout.true_runout_um ? to_json(*runout.true_runout_um) : Json(nullptr)},
          {"p_within", or_null(runout.p_within)},
          {"verdict", runout.verdict ? Json(name_of(*runout.verdict)) : Json(nullptr)}};
}

}  // namespace

Json run_index(const Json& input) {
  Reader reader(input);
  RefitInput in;
  const bool readings = reader.has("readings");
  in.positions = static_cast<int>(reader.integer("positions", 1, 24));
  if (readings) in.readings = read_readings(reader.object("readings"));
  in.hub = read_harmonics(readings ? reader.optional_objects("hub") : reader.objects("hub"));
  in.part = read_harmonics(readings ? reader.optional_objects("part") : reader.objects("part"));
  in.radius_mm = reader.optional_number("radius_mm");
  in.plates = read_plates(reader.optional_objects("plates"));
  in.limit_um = reader.optional_number("limit_um");
  in.u_um = reader.optional_number("u_um");
  in.refit_u_um = reader.number_or("refit_u_um", 0);
  read_draws(reader, in.confidence, in.seed, in.draws);
  reader.done();
  const Refit refit = best_refit(in);
  Json all = Json::array();
  for (const FittedRunout& runout : refit.all) all.push_back(fitting(runout, in));
  return {{"best", fitting(refit.best, in)}, {"all", std::move(all)},
          {"worst_um", refit.worst_um},      {"hub", to_json(refit.hub)},
          {"part", to_json(refit.part)},     {"basis", refit.from_readings ? "readings" : "harmonics"},
          {"advice", to_json(refit.advice)}};
}

}  // namespace brakewright::calc
