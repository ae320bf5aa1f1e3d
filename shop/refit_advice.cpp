#include "shop/refit_advice.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "shop/assess_inputs.hpp"
#include "shop/progress.hpp"
#include "shop/uuid.hpp"

namespace brakewright::shop {
namespace {

constexpr int kMostOrder = 6;
constexpr std::size_t kFewestAngles = 3;
constexpr std::size_t kMostPlates = 64;

std::optional<CarTrace> trace_of(const std::vector<Reading>& readings) {
  CarTrace trace;
  std::set<double> angles;
  for (const Reading& reading : readings) {
    trace.angles_deg.push_back(reading.angle_deg);
    trace.values_um.push_back(reading.value.value.um());
    angles.insert(reading.angle_deg);
  }
  if (angles.size() < kFewestAngles) return std::nullopt;
  trace.runout_um = fit_circle({trace.angles_deg, trace.values_um}, 0).range_um;
  return trace;
}

std::vector<CarTrace> part_traces(const JobFile& file, const Uuid& part_id, Stage stage) {
  std::map<std::int64_t, std::vector<Reading>> rows;
  for (const Reading& reading : current(file, part_id, stage, Quantity::runout_outboard)) {
    rows[reading.circle].push_back(reading);
  }
  std::vector<CarTrace> traces;
  for (const auto& [turned, readings] : rows) {
    auto trace = trace_of(readings);
    if (!trace) continue;
    trace->turned = turned;
    traces.push_back(std::move(*trace));
  }
  return traces;
}

/// The bare hub, at whichever time it was read last.
std::optional<CarTrace> hub_trace(const JobFile& file, const Uuid& part_id) {
  for (const Stage stage : {Stage::refit, Stage::on_car}) {
    if (auto trace = trace_of(current(file, part_id, stage, Quantity::hub_runout))) return trace;
  }
  return std::nullopt;
}

bool was_cut(const JobFile& file, const Uuid& part_id) {
  return std::any_of(file.cuts.begin(), file.cuts.end(), [&](const Cut& cut) { return cut.part_id == part_id; });
}

std::vector<PositionTrace> positions_of(const std::vector<CarTrace>& traces, std::int64_t studs) {
  std::vector<PositionTrace> positions;
  for (const CarTrace& trace : traces) {
    positions.push_back({.turn_deg = 360.0 * static_cast<double>(trace.turned.value_or(0)) / static_cast<double>(studs),
                         .trace = {trace.angles_deg, trace.values_um}});
  }
  return positions;
}

std::vector<Harmonic> waves_of(const CarTrace& trace, double noise_um) {
  return fit_circle({trace.angles_deg, trace.values_um}, kMostOrder, noise_um).harmonics;
}

/// A flange that is tilted by as much lifts the indicator's circle in proportion to its radius; what is no tilt is no
/// business of the radius.
void carry_tilt_to(std::vector<Harmonic>& hub, const Part& part, double radius_mm) {
  if (!part.hub_reading_diameter) return;
  const double factor = 2 * radius_mm / part.hub_reading_diameter->value.mm();
  for (Harmonic& wave : hub) {
    if (wave.order != 1) continue;
    wave.amplitude_um *= factor;
    if (wave.u_amplitude_um) *wave.u_amplitude_um *= factor;
  }
}

/// The part by itself: what was read with it on, less the hub.
std::vector<Harmonic> less(const std::vector<Harmonic>& both, const std::vector<Harmonic>& hub) {
  std::vector<Harmonic> part;
  constexpr double kRadPerDeg = std::numbers::pi / 180;
  for (const Harmonic& wave : both) {
    double cosine = wave.amplitude_um * std::cos(wave.phase_deg * kRadPerDeg);
    double sine = wave.amplitude_um * std::sin(wave.phase_deg * kRadPerDeg);
    double variance = wave.u_amplitude_um.value_or(0) * wave.u_amplitude_um.value_or(0);
    for (const Harmonic& own : hub) {
      if (own.order != wave.order) continue;
      cosine -= own.amplitude_um * std::cos(own.phase_deg * kRadPerDeg);
      sine -= own.amplitude_um * std::sin(own.phase_deg * kRadPerDeg);
      variance += own.u_amplitude_um.value_or(0) * own.u_amplitude_um.value_or(0);
    }
    const double phase_deg = std::atan2(sine, cosine) / kRadPerDeg;
    part.push_back({.order = wave.order,
                    .amplitude_um = std::hypot(cosine, sine),
                    .phase_deg = phase_deg < 0 ? phase_deg + 360 : phase_deg,
                    .u_amplitude_um = std::sqrt(variance)});
  }
  return part;
}

/// Studs, radius, limit and plates, before it is known what hub and part are.
RefitInput question(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates,
                    const RefitAdvice& known) {
  RefitInput input{.positions = static_cast<int>(*part.studs), .radius_mm = known.radius_mm};
  if (known.limit) input.limit_um = known.limit->value_mm * 1000;
  input.seed = seed_of_refit(file.job.id, part.id);
  if (!known.radius_mm) return input;
  for (const TaperPlate& plate : plates) {
    if (!plate.active || plate.studs != *part.studs || input.plates.size() == kMostPlates) continue;
    input.plates.push_back(
        {.id = to_text(plate.id), .taper_um = plate.taper_um, .diameter_mm = plate.diameter.mm()});
  }
  return input;
}

/// The part as it is on the arbor after its cut.
std::optional<std::vector<Harmonic>> bench_waves(const JobFile& file, const Part& part, double noise_um) {
  const auto plan = plan_of(file, part.id, Stage::after);
  if (!plan || plan->runout_place != RunoutPlace::on_arbor) return std::nullopt;
  const auto trace = runout_trace(file, part.id, Stage::after, Quantity::runout_outboard);
  if (!trace) return std::nullopt;
  return fit_circle({trace->angles_deg, trace->values_um}, kMostOrder, noise_um).harmonics;
}

}  // namespace

RefitAdvice advise_refit(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates,
                         const AssessContext& context) {
  RefitAdvice known;
  const auto plan = plan_of(file, part.id, Stage::on_car);
  if (part.outer_diameter && plan && !plan->circles_from_edge.empty()) {
    known.radius_mm = part.outer_diameter->value.mm() / 2 - plan->circles_from_edge.front().mm();
  }
  known.limit = limits_of(part).runout;
  for (const Reading& play : current(file, part.id, Stage::on_car, Quantity::bearing_play)) {
    known.bearing_play_um = play.value.value.um();
  }
  const auto now = part_traces(file, part.id, Stage::refit);
  const auto came = part_traces(file, part.id, Stage::on_car);
  const bool cut = was_cut(file, part.id);
  known.stage = now.empty() ? Stage::on_car : Stage::refit;
  known.traces = now.empty() ? came : now;
  const auto hub = hub_trace(file, part.id);
  const Indicator indicator = indicator_of(file, part.id, *known.stage, context);
  const double noise_um = std::hypot(indicator.repeatability_um, indicator.resolution_um / std::sqrt(12.0));
  if (!part.studs) {
    known.missing.push_back("part.studs");
  } else {
    work_out(file, part, plates, {.now = now, .came = came, .hub = hub, .cut = cut, .noise_um = noise_um}, known);
  }
  if (hub) known.traces.push_back(*hub);
  return known;
}

}  // namespace brakewright::shop
