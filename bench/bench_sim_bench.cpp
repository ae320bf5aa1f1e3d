#include <benchmark/benchmark.h>

#include <cstring>
#include <ctime>
#include <vector>

#include "core/bench_sim/cut/cut.hpp"

/// A cut of 500 turns by 3600 angles on two faces is held against a second on one core, and against the time that
/// copying as many bytes takes.
namespace brakewright::bench_sim {
namespace {

constexpr int kTurns = 500;

/// 44 mm of band at 0.02 mm, with 50 um of runout; every tenth angle harder where asked.
SimPart made_part(bool hard_spots) {
  SimPart part;
  part.grid = {.angles = 3600, .rings = 2200, .inner_radius_mm = 90, .ring_step_mm = 0.02};
  part.nominal_thickness_mm = 25;
  part.outboard.height_um.resize(part.grid.cells());
  part.inboard.height_um.resize(part.grid.cells());
  part.hardness.assign(part.grid.cells(), 1);
  for (int ring = 0; ring < part.grid.rings; ++ring) {
    for (int angle = 0; angle < part.grid.angles; ++angle) {
      const double lean = tilt_um({.x_um_per_mm = 0.25}, part.grid.radius_mm(ring), part.grid.angle_deg(angle));
      const std::size_t cell = part.grid.at(ring, angle);
      part.outboard.height_um[cell] = stored_um(lean);
      part.inboard.height_um[cell] = stored_um(-lean);
      if (hard_spots && angle % 10 == 0) part.hardness[cell] = 1.3F;
    }
  }
  return part;
}

CutSetup made_setup() {
  const CuttingTool tool{.nose = {.radius_mm = 0.8},
                         .holder = chatter::Mode{.k_n_per_m = 3e7, .zeta = 0.04, .fn_hz = 300},
                         .tip_um = -100};
  return {.outboard = tool,
          .inboard = tool,
          .disc = {{.k_n_per_m = 1.2e7, .zeta = 0.006, .fn_hz = 520}, {.k_n_per_m = 4e7, .zeta = 0.006, .fn_hz = 900}},
          .band_factor = 10,
          .rpm = 150,
          .feed_mm_per_rev = 0.088,
          .start_radius_mm = 89.6};
}

/// Bytes that the cells under both noses are: heights read and written, and hardness read where there is any.
double bytes_cut(bool hard_spots) {
  const double rings = 0.43 / 0.02;  // of contact at 0.1 mm depth under a nose of 0.8 mm
  return kTurns * 3600.0 * 2 * rings * (hard_spots ? 12 : 8);
}

/// Processor time, so that other work on the machine does not count.
double now_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double seconds_of_sweep(double bytes) {
  std::vector<float> from(std::size_t{32} << 20, 1.0F), to(from.size());
  const double bytes_once = 2.0 * static_cast<double>(from.size()) * sizeof(float);
  const double begin_s = now_s();
  double done = 0;
  while (done < 2e10) {
    std::memcpy(to.data(), from.data(), from.size() * sizeof(float));
    benchmark::DoNotOptimize(to.data());
    benchmark::ClobberMemory();
    done += bytes_once;
  }
  return (now_s() - begin_s) * bytes / done;
}

/// @param state  range: whether there are hard spots
void cut_both_faces(benchmark::State& state) {
  const bool hard_spots = state.range(0) != 0;
  const SimPart part = made_part(hard_spots);
  double spent_s = 0, removed = 0;
  for (auto _ : state) {
    SimPart cut_part = part;
    const double begin_s = now_s();
    Cut cut(cut_part, made_setup());
    cut.advance(kTurns * part.grid.angles);
    cut.settle();
    const double took_s = now_s() - begin_s;
    state.SetIterationTime(took_s);
    spent_s += took_s;
    removed = cut.removed_mm3(Side::outboard) + cut.removed_mm3(Side::inboard);
  }
  const double each_s = spent_s / static_cast<double>(state.iterations());
  state.counters["removed_mm3"] = removed;
  state.counters["target_s"] = 1;
  state.counters["ns_per_angle"] = each_s * 1e9 / (kTurns * 3600.0);
  state.counters["of_memory_sweep"] = each_s / seconds_of_sweep(bytes_cut(hard_spots));
}
BENCHMARK(cut_both_faces)->ArgName("hard_spots")->Arg(0)->Arg(1)->UseManualTime()->Unit(benchmark::kMillisecond);

/// One turn between two pictures of a live bench.
void cut_one_turn_and_settle(benchmark::State& state) {
  SimPart part = made_part(false);
  Cut cut(part, made_setup());
  cut.advance(10 * part.grid.angles);
  for (auto _ : state) {
    cut.set_radius(100);
    cut.advance(part.grid.angles);
    cut.settle();
  }
}
BENCHMARK(cut_one_turn_and_settle)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::bench_sim
