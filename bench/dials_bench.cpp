#include <benchmark/benchmark.h>

#include <ctime>

#include "core/dials/dial_check.hpp"
#include "core/dials/lathe_study.hpp"
#include "core/uncertainty/random.hpp"

/// The check after a cut is held against one frame of a screen, 16 ms; the study of a lathe's jobs against 50 ms at 500
/// jobs, some years of a school shop.
namespace brakewright::dials {
namespace {

constexpr double kFrameMs = 16, kStudyMs = 50;

LatheStudyInput jobs(std::int64_t count) {
  Random random(5);
  LatheStudyInput in{.dial_um_per_mark = 25.4};
  for (std::int64_t i = 0; i < count; ++i) {
    LatheJob job{.outboard_marks = static_cast<double>(4 + random.below(12)),
                 .inboard_marks = static_cast<double>(4 + random.below(12)),
                 .settings = static_cast<int>(1 + random.below(3))};
    job.depth = {.um = 25.3 * job.outboard_marks + 25.6 * job.inboard_marks + 6 * random.normal(), .u_um = 3};
    if (i % 3 == 0) {
      job.outboard_depth = Estimate{25.3 * job.outboard_marks + 6 * random.normal(), 6};
      job.inboard_depth = Estimate{25.6 * job.inboard_marks + 6 * random.normal(), 6};
    }
    job.days = static_cast<double>(i);
    in.jobs.push_back(job);
  }
  return in;
}

/// Processor time, so that other work on the machine does not count.
template <class Work>
double mean_ms(benchmark::State& state, const Work& work) {
  std::clock_t spent = 0;
  for (auto _ : state) {
    const std::clock_t start = std::clock();
    work();
    spent += std::clock() - start;
  }
  return 1e3 * static_cast<double>(spent) / CLOCKS_PER_SEC / static_cast<double>(state.iterations());
}

/// @param state  range: jobs
void study_jobs(benchmark::State& state) {
  const auto in = jobs(state.range(0));
  const double ms = mean_ms(state, [&] { benchmark::DoNotOptimize(study_lathe(in)); });
  state.counters["of_50_ms"] = ms / kStudyMs;
}
BENCHMARK(study_jobs)->ArgName("jobs")->Arg(5)->Arg(50)->Arg(500)->Unit(benchmark::kMillisecond);

void check_one_cut(benchmark::State& state) {
  const DialCheckInput in{
      .outboard = {.marks = 6, .dial_um_per_mark = 25.4, .touch_loss = Estimate{20, 2}, .removed = Estimate{110, 4}},
      .inboard = {.marks = 8, .dial_um_per_mark = 25.4, .touch_loss = Estimate{20, 2}, .removed = Estimate{184, 4}},
      .settings = 2,
      .removed = {.um = 292, .u_um = 2}};
  const double ms = mean_ms(state, [&] { benchmark::DoNotOptimize(check_dials(in)); });
  state.counters["of_16_ms"] = ms / kFrameMs;
}
BENCHMARK(check_one_cut)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace brakewright::dials
