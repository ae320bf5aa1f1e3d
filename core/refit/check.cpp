#include "core/refit/check.hpp"

#include <cmath>
#include <set>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::refit {
namespace {

constexpr int kHighestOrder = 40;

void want(bool good, const std::string& field, const char* accepted) {
  if (!good) throw InputError("out_of_range", field, accepted);
}

bool within(double value, double low, double high) { return value >= low && value <= high; }

void check_waves(const std::vector<Harmonic>& waves, const std::string& name) {
  std::set<int> orders;
  for (std::size_t i = 0; i < waves.size(); ++i) {
    const std::string path = name + "[" + std::to_string(i) + "].";
    const Harmonic& wave = waves[i];
    want(wave.order >= 1 && wave.order <= kHighestOrder, path + "order", "from 1 to 40");
    want(orders.insert(wave.order).second, path + "order", "each order once");
    want(within(wave.amplitude_um, 0, 1e6), path + "amplitude_um", "from 0 to 1000000 um");
    want(within(wave.phase_deg, -36000, 36000), path + "phase_deg", "from -36000 to 36000 degrees");
    if (wave.u_amplitude_um)
      want(within(*wave.u_amplitude_um, 0, 1e6), path + "u_amplitude_um", "from 0 to 1000000 um");
  }
}

void check_plates(const RefitInput& input) {
  want(input.plates.size() <= 64, "plates", "at most 64 plates");
  if (!input.plates.empty() && !input.radius_mm) {
    throw InputError("missing", "radius_mm", "the radius at which runout is read is needed with plates");
  }
  for (std::size_t i = 0; i < input.plates.size(); ++i) {
    const std::string path = "plates[" + std::to_string(i) + "].";
    want(input.plates[i].id.size() <= 200, path + "id", "at most 200 characters");
    want(within(input.plates[i].taper_um, 0, 1e5), path + "taper_um", "from 0 to 100000 um");
    want(within(input.plates[i].diameter_mm, 1, 2000), path + "diameter_mm", "from 1 to 2000 mm");
  }
}

void check_trace(const Trace& trace, const std::string& path) {
  for (std::size_t i = 0; i < trace.values_um.size(); ++i) {
    want(within(trace.values_um[i], -1e6, 1e6), path + "values_um[" + std::to_string(i) + "]",
         "from -1000000 to 1000000 um");
  }
}

void check_positions(const std::vector<PositionTrace>& positions, const std::string& name) {
  for (std::size_t j = 0; j < positions.size(); ++j) {
    check_trace(positions[j].trace, "readings." + name + "[" + std::to_string(j) + "].");
  }
  try {
    separate({.positions = positions, .max_order = 1});
  } catch (const InputError& error) {
    if (name == "positions") throw error.within("readings");
    throw InputError(error.code(), "readings." + name, error.what());
  }
}

void check_own_trace(const Trace& trace, const std::string& path) {
  check_trace(trace, path);
  want(trace.values_um.size() <= 1000, path + "values_um", "at most 1000 readings");
  try {
    fit_circle(trace, 1);
  } catch (const InputError& error) {
    throw InputError(error.code(), path + error.field(), error.what());
  }
}

void check_readings(const RefitReadings& readings) {
  if (readings.noise_sd_um) {
    want(within(*readings.noise_sd_um, 0, 1e6), "readings.noise_sd_um", "from 0 to 1000000 um");
  }
  const bool others = !readings.flange.empty() || !readings.bench.empty() || !readings.other_part.empty();
  if (!readings.positions.empty() || !others) check_positions(readings.positions, "positions");
  if (!readings.other_part.empty()) check_positions(readings.other_part, "other_part");
  for (std::size_t i = 0; i < readings.flange.size(); ++i) {
    const std::string path = "readings.flange[" + std::to_string(i) + "].";
    check_own_trace(readings.flange[i].trace, path);
    want(within(readings.flange[i].lift, 0.01, 100), path + "lift", "from 0.01 to 100");
  }
  for (std::size_t i = 0; i < readings.bench.size(); ++i) {
    const std::string path = "readings.bench[" + std::to_string(i) + "].";
    check_own_trace(readings.bench[i].trace, path);
    want(within(readings.bench[i].u_tilt_um, 0, 1e6), path + "u_tilt_um", "from 0 to 1000000 um");
  }
}

}  // namespace

void check(const RefitInput& input) {
  want(input.positions >= 1 && input.positions <= 24, "positions", "from 1 to 24 studs");
  if (input.readings) check_readings(*input.readings);
  check_waves(input.hub, "hub");
  check_waves(input.part, "part");
  if (input.radius_mm) want(within(*input.radius_mm, 1, 2000), "radius_mm", "from 1 to 2000 mm");
  check_plates(input);
  if (input.limit_um) want(within(*input.limit_um, 1e-3, 1e6), "limit_um", "from 0.001 to 1000000 um");
  if (input.u_um) want(within(*input.u_um, 0, 1e6), "u_um", "from 0 to 1000000 um");
  if (input.keep_position) {
    want(*input.keep_position >= 0 && *input.keep_position < input.positions, "keep_position",
         "from 0 to less than the positions");
  }
  want(within(input.refit_u_um, 0, 1e6), "refit_u_um", "from 0 to 1000000 um");
  want(within(input.confidence, 0.5, 0.9999), "confidence", "from 0.5 to 0.9999");
  want(input.draws >= 100 && input.draws <= 20000, "draws", "from 100 to 20000");
}

}  // namespace brakewright::refit
