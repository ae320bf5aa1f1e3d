#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <ctime>
#include <vector>

#include "core/mount/mount.hpp"
#include "core/practice/run.hpp"

/// What a class at its live benches costs. Held against: 20 benches at five times life's speed within one core.
namespace brakewright::practice {
namespace {

constexpr double kTimesLife = 5, kRpm = 150;

double processor_s() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// In the first cut of a part that wobbles, at a depth that reaches it all round.
Run cutting_run(std::uint64_t seed) {
  Run run({.seed = seed, .difficulty = 1, .faults = std::vector<Fault>{Fault::wobble, Fault::grooves}});
  const Bench& bench = run.bench();
  const auto stacks = mount::find_stacks(bench.lathe.arbor, bench.make.shape.seat, bench.pieces, 1).stacks;
  run.apply(Wear{});
  run.apply(Decide{Action::cut});
  run.apply(MountPart{.pieces = stacks[0].pieces});
  run.apply(Spindle{kRpm});
  for (Side side : bench_sim::kSides) run.apply(TurnDial{side, 700 / bench.lathe.dial_um_per_mark});
  run.apply(Feed{0.1});
  return run;
}

/// @param state  range: how many benches
void live_benches(benchmark::State& state) {
  constexpr double kTurns = 50;
  std::vector<Run> runs;
  for (std::int64_t k = 0; k < state.range(0); ++k) runs.push_back(cutting_run(static_cast<std::uint64_t>(k) + 1));
  double spent_s = 0, turned = 0;
  for (auto _ : state) {
    const double begin_s = processor_s();
    for (Run& run : runs) {
      if (run.view().ended) continue;
      if (run.view().feed_mm_per_rev == 0) {  // at the end of its travel: once more
        run.apply(Place{run.bench().start_radius_mm});
        run.apply(Feed{0.1});
      }
      run.apply(Turns{kTurns});
      turned += kTurns;
    }
    const double took_s = processor_s() - begin_s;
    state.SetIterationTime(took_s);
    spent_s += took_s;
  }
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const double life_s = turned * 60 / kRpm;  // of all benches together
  state.counters["of_a_core"] = kTimesLife * static_cast<double>(state.range(0)) * spent_s / life_s;
  state.counters["ms_per_turn"] = 1000 * spent_s / turned;
  state.counters["rss_mb"] = static_cast<double>(usage.ru_maxrss) / 1024;
}
BENCHMARK(live_benches)->ArgName("benches")->Arg(1)->Arg(20)->UseManualTime()->Unit(benchmark::kMillisecond);

void begin_a_run(benchmark::State& state) {
  std::uint64_t seed = 0;
  for (auto _ : state) benchmark::DoNotOptimize(Run({.seed = ++seed, .difficulty = 3}));
}
BENCHMARK(begin_a_run)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace brakewright::practice
