#include "core/chatter/stability.hpp"

#include <nlohmann/json.hpp>
#include <numbers>

#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/chatter/lobes.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

using namespace chatter;

constexpr double kEnoughPerWave = 20;

Json answer_of(double radius, double waves, std::size_t intervals, const Json& limit_mm) {
  const double per_wave = static_cast<double>(intervals) / waves;
  return {{"spectral_radius", radius},
          {"stable", radius < 1},
          {"waves_per_period", waves},
          {"intervals_per_wave", per_wave},
          {"enough_intervals", per_wave >= kEnoughPerWave},
          {"limit_mm", limit_mm}};
}

Json turning(Reader& reader, const CuttingMode& mode, double rpm, double depth_mm) {
  const Turning cut{.mode = mode,
                    .rpm = rpm,
                    .depth_mm = depth_mm,
                    .kf_n_per_m2 = reader.number("kf_n_per_m2"),
                    .intervals = static_cast<std::size_t>(reader.integer("intervals", 2, 20000))};
  for (const char* field : {"teeth", "kt_n_per_m2", "kn_n_per_m2", "radial_ratio", "direction"}) {
    if (reader.has(field)) throw InputError("out_of_range", field, "goes with interrupted cutting, not kf_n_per_m2");
  }
  reader.done();
  const double radius = spectral_radius(cut);
  Json limit_mm = nullptr;
  if (mode.zeta >= 1e-6) {
    const double wn = 2 * std::numbers::pi * mode.fn_hz, k = mode.mass_kg * wn * wn;
    if (k >= 1 && k <= 1e13) {
      limit_mm =
          limit_of_one_mode({.k_n_per_m = k, .zeta = mode.zeta, .fn_hz = mode.fn_hz}, cut.kf_n_per_m2, rpm).depth_mm;
    }
  }
  return answer_of(radius, waves_per_period(cut), cut.intervals, limit_mm);
}

Json interrupted(Reader& reader, const CuttingMode& mode, double rpm, double depth_mm) {
  if (!reader.has("teeth")) {
    throw InputError("missing", "kf_n_per_m2", "this is needed for turning, or teeth for interrupted cutting");
  }
  InterruptedCutting cut{.mode = mode,
                         .rpm = rpm,
                         .depth_mm = depth_mm,
                         .teeth = static_cast<int>(reader.integer("teeth", 1, 64)),
                         .kt_n_per_m2 = reader.number("kt_n_per_m2"),
                         .kn_n_per_m2 = reader.number("kn_n_per_m2"),
                         .radial_ratio = reader.number("radial_ratio")};
  cut.direction = reader.one_of("direction", {"up", "down"}) == "up" ? Direction::up : Direction::down;
  cut.intervals = static_cast<std::size_t>(reader.integer("intervals", 2, 4000));
  reader.done();
  return answer_of(spectral_radius(cut), waves_per_period(cut), cut.intervals, nullptr);
}

}  // namespace

Json run_stability(const Json& input) {
  Reader reader(input);
  const CuttingMode mode{
      .mass_kg = reader.number("mass_kg"), .zeta = reader.number("zeta"), .fn_hz = reader.number("fn_hz")};
  const double rpm = reader.number("rpm"), depth_mm = reader.number("depth_mm");
  reader.integer("intervals", 2, 20000);
  if (reader.has("kf_n_per_m2")) return turning(reader, mode, rpm, depth_mm);
  return interrupted(reader, mode, rpm, depth_mm);
}

}  // namespace brakewright::calc
