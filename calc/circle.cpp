#include "core/circle/circle.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

constexpr std::int64_t kMostOrder = 1'000'000;

}  // namespace

Json run_circle(const Json& input) {
  Reader reader(input);
  const Trace trace{.angles_deg = reader.numbers("angles_deg"), .values_um = reader.numbers("values_um")};
  const auto max_order = static_cast<int>(reader.integer("max_order", 0, kMostOrder));
  reader.done();

  return json_of(fit_circle(trace, max_order));
}

Json json_of(const CircleFit& fit) {
  Json harmonics = Json::array();
  for (const Harmonic& harmonic : fit.harmonics) {
    harmonics.push_back({{"order", harmonic.order},
                         {"amplitude_um", harmonic.amplitude_um},
                         {"phase_deg", harmonic.phase_deg},
                         {"u_amplitude_um", or_null(harmonic.u_amplitude_um)}});
  }
  return {{"mean_um", fit.mean_um},
          {"range_um", fit.range_um},
          {"order_used", fit.order_used},
          {"harmonics", std::move(harmonics)},
          {"residual_sd_um", or_null(fit.residual_sd_um)},
          {"dof", fit.dof},
          {"fitted_range_um", fit.fitted_range_um},
          {"blind_orders", fit.blind_orders},
          {"order_asked", fit.order_asked},
          {"order_cut", fit.order_used < fit.order_asked},
          {"distinct_angles", fit.distinct_angles}};
}

}  // namespace brakewright::calc
