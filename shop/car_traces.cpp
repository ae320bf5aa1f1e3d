#include "shop/car_traces.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "shop/assess_inputs.hpp"
#include "shop/progress.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kFewestAngles = 3;

std::optional<CarTrace> trace_of(const std::vector<Reading>& readings, Stage stage) {
  CarTrace trace{.stage = stage};
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

/// Whether a plate was between hub and part when this was read, by the shop's clock.
bool had_plate(const JobFile& file, const Reading& reading) {
  const Refit* last = nullptr;
  for (const Refit& refit : file.refits) {
    if (refit.part_id == reading.part_id && refit.at <= reading.received_at) last = &refit;
  }
  return reading.stage == Stage::refit && last != nullptr && last->plate_id.has_value();
}

std::vector<CarTrace> part_traces(const JobFile& file, const Uuid& part_id, Stage stage) {
  std::map<std::int64_t, std::vector<Reading>> rows;
  for (const Reading& reading : current(file, part_id, stage, Quantity::runout_outboard)) {
    if (!had_plate(file, reading)) rows[reading.circle].push_back(reading);
  }
  std::vector<CarTrace> traces;
  for (const auto& [turned, readings] : rows) {
    auto trace = trace_of(readings, stage);
    if (!trace) continue;
    trace->turned = turned;
    traces.push_back(std::move(*trace));
  }
  return traces;
}

/// What was read of the refit in force, once it was on record.
std::optional<CarTrace> fitted_trace(const JobFile& file, const Uuid& part_id) {
  const Refit* refit = refit_in_force(file, part_id);
  if (refit == nullptr) return std::nullopt;
  auto readings = current(file, part_id, Stage::refit, Quantity::runout_outboard);
  std::erase_if(readings, [&](const Reading& reading) {
    return reading.circle != refit->position || reading.received_at < refit->at;
  });
  auto trace = trace_of(readings, Stage::refit);
  if (trace) trace->turned = refit->position;
  return trace;
}

std::optional<Turning> turning_of(const JobFile& file, const Uuid& part_id, Stage stage) {
  const auto plan = plan_of(file, part_id, stage);
  return plan ? std::optional(plan->turning) : std::nullopt;
}

void mirror(std::vector<double>& angles_deg) {
  for (double& angle : angles_deg) angle = angle == 0 ? 0 : 360 - angle;
}

/// Makes angles that count the other way round count as those of `stage` do.
void count_as(const JobFile& file, const Part& part, Stage stage, CarTrace& trace) {
  if (turning_of(file, part.id, trace.stage) == turning_of(file, part.id, stage)) return;
  mirror(trace.angles_deg);
  if (trace.turned && part.studs && *trace.turned > 0) *trace.turned = *part.studs - *trace.turned;
}

RunoutPlace place_of(const JobFile& file, const Uuid& part_id, Stage stage) {
  const auto plan = plan_of(file, part_id, stage);
  return plan ? plan->runout_place : RunoutPlace::on_car;
}

std::optional<Trace> bench_trace(const JobFile& file, const Part& part, Stage bench, Stage stage) {
  if (place_of(file, part.id, bench) != RunoutPlace::on_arbor) return std::nullopt;
  const auto read = runout_trace(file, part.id, bench, Quantity::runout_outboard);
  if (!read) return std::nullopt;
  Trace trace{read->angles_deg, read->values_um};
  if (turning_of(file, part.id, bench) != turning_of(file, part.id, stage)) mirror(trace.angles_deg);
  return trace;
}

/// The part in its position on the car, read among the figures of the bench.
std::vector<CarTrace> beside_the_bench(const JobFile& file, const Part& part, Stage bench) {
  if (place_of(file, part.id, bench) != RunoutPlace::on_car) return {};
  auto trace = trace_of(current(file, part.id, bench, Quantity::runout_outboard), bench);
  if (!trace) return {};
  trace->turned = 0;
  return {std::move(*trace)};
}

double coarsest_um(const JobFile& file, const Part& part, const CarTraces& all, const AssessContext& context) {
  std::vector<Reading> readings;
  const auto count = [&](Stage stage, Quantity quantity) {
    const auto more = current(file, part.id, stage, quantity);
    readings.insert(readings.end(), more.begin(), more.end());
  };
  for (const auto* traces : {&all.now, &all.former}) {
    for (const CarTrace& trace : *traces) count(trace.stage, Quantity::runout_outboard);
  }
  if (all.hub) count(all.hub->stage, Quantity::hub_runout);
  if (all.bench) count(all.cut ? Stage::after : Stage::before, Quantity::runout_outboard);
  if (readings.empty()) return 0;
  const Indicator coarsest = coarsest_of(readings, context);
  return std::hypot(coarsest.repeatability_um, coarsest.resolution_um / std::sqrt(12.0));
}

}  // namespace

CarTraces car_traces_of(const JobFile& file, const Part& part, const AssessContext& context) {
  CarTraces all;
  all.cut = std::any_of(file.cuts.begin(), file.cuts.end(), [&](const Cut& cut) { return cut.part_id == part.id; });
  auto back = part_traces(file, part.id, Stage::refit);
  auto came = part_traces(file, part.id, Stage::on_car);
  if (came.empty()) came = beside_the_bench(file, part, Stage::before);
  if (!came.empty()) all.came_um = came.front().runout_um;
  all.fitted = fitted_trace(file, part.id);
  const Refit* refit = refit_in_force(file, part.id);
  all.fitted_with_plate = refit != nullptr && refit->plate_id;
  all.stage = all.cut || !back.empty() ? Stage::refit : Stage::on_car;
  if (all.cut) {
    all.now = back.empty() ? beside_the_bench(file, part, Stage::after) : std::move(back);
    all.former = std::move(came);
  } else {
    all.now = back.empty() ? std::move(came) : std::move(back);
  }
  all.bench = bench_trace(file, part, all.cut ? Stage::after : Stage::before, all.stage);
  for (const Stage stage : {Stage::refit, Stage::on_car}) {
    if (!all.hub) all.hub = trace_of(current(file, part.id, stage, Quantity::hub_runout), stage);
  }
  all.noise_um = coarsest_um(file, part, all, context);
  for (CarTrace& trace : all.now) count_as(file, part, all.stage, trace);
  for (CarTrace& trace : all.former) count_as(file, part, all.stage, trace);
  if (all.hub) count_as(file, part, all.stage, *all.hub);
  return all;
}

std::vector<PositionTrace> positions_of(const std::vector<CarTrace>& traces, std::int64_t studs) {
  std::vector<PositionTrace> positions;
  for (const CarTrace& trace : traces) {
    positions.push_back({.turn_deg = 360.0 * static_cast<double>(trace.turned.value_or(0)) / static_cast<double>(studs),
                         .trace = {trace.angles_deg, trace.values_um}});
  }
  return positions;
}

}  // namespace brakewright::shop
