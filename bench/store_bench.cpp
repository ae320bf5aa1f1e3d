#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/uncertainty/random.hpp"
#include "shop/demo/school.hpp"
#include "shop/shop.hpp"
#include "store/open.hpp"

// Held against: a search of 10,000 jobs under 50 ms; saving a reading, with fsync, beside the disk's own fsync.
namespace brakewright::shop {
namespace {

using Clock = std::chrono::steady_clock;

/// A folder on the disk that the shop would be on: the present one, not a memory file system.
class Folder {
 public:
  Folder() { std::filesystem::create_directories(path_); }
  ~Folder() { std::filesystem::remove_all(path_); }
  std::filesystem::path file(const std::string& name) const { return path_ / name; }

 private:
  std::filesystem::path path_ =
      std::filesystem::current_path() / ("store-bench-" + std::to_string(getpid()) + "-" + std::to_string(count_++));
  static inline int count_ = 0;
};

Surroundings seeded(std::uint64_t seed) {
  auto random = std::make_shared<Random>(seed);
  return {.now = [] { return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()); },
          .random =
              [random](std::span<std::uint8_t> bytes) {
                for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random->below(256));
              }};
}

Uuid first_person(Shop& shop) {
  const Uuid id = shop.new_id();
  return shop.put_person({.id = id, .name = "Ines Marrow", .role = Role::teacher}, id).id;
}

double percentile(std::vector<double>& values, double part) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1))];
}

double milliseconds_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

void SearchTenThousandJobs(benchmark::State& state) {
  const Folder folder;
  const auto store = store::open_store({.file = folder.file("shop.sqlite")});
  Shop shop(*store, seeded(1));
  const Uuid by = first_person(shop);
  Random random(2);
  shop.batch([&] {
    for (int k = 0; k < 10'000; ++k) {
      Job job{.id = shop.new_id(), .brought_by = demo::draw_customer(random), .vehicle = demo::draw_vehicle(random)};
      job.complaint_note = demo::draw_note(Complaint::pulsation, random);
      job.worker_person_id = by;
      shop.open_job(job, {{.id = shop.new_id(), .side = Side::left}, {.id = shop.new_id(), .side = Side::right}}, by);
    }
  });
  const std::vector<std::string> asked{"blue", "blue estate 2.0", "mar", "7", "quillen van warm", "xyz", "s", "e d p"};
  std::vector<double> times;
  std::size_t next = 0;
  for (auto _ : state) {
    const auto start = Clock::now();
    const auto state_wanted = next % 3 == 0 ? std::optional(JobState::open) : std::nullopt;
    const auto page = store->jobs({.state = state_wanted, .words = asked[next++ % asked.size()], .limit = 50});
    benchmark::DoNotOptimize(page.total);
    times.push_back(milliseconds_since(start));
  }
  const double p99 = percentile(times, 0.99);
  state.counters["p99_ms"] = p99;
  state.counters["of_50_ms"] = p99 / 50;
}
BENCHMARK(SearchTenThousandJobs)->Unit(benchmark::kMillisecond)->Iterations(400);

/// p99 of writing one block at the end of a file and waiting for the disk, milliseconds.
double disk_fsync_p99_ms(const std::filesystem::path& file, int count) {
  const int descriptor = open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
  const std::vector<char> block(4096, 'x');
  std::vector<double> times;
  for (int k = 0; k < count; ++k) {
    const auto start = Clock::now();
    if (write(descriptor, block.data(), block.size()) < 0 || fsync(descriptor) != 0) break;
    times.push_back(milliseconds_since(start));
  }
  close(descriptor);
  return times.empty() ? -1 : percentile(times, 0.99);
}

void SaveReading(benchmark::State& state) {
  const Folder folder;
  const auto store = store::open_store({.file = folder.file("shop.sqlite")});
  Shop shop(*store, seeded(1));
  const Uuid by = first_person(shop);
  const auto opened = shop.open_job({.id = shop.new_id(), .vehicle = "blue estate"}, {{.id = shop.new_id()}}, by);
  std::vector<double> times;
  std::int64_t k = 0;
  for (auto _ : state) {
    NewReading reading{.id = shop.new_id(), .part_id = opened.parts[0].id, .text = "21.50" + std::to_string(k % 10)};
    reading.point = k % 8;
    reading.confirmed = true;
    ++k;
    const auto start = Clock::now();
    shop.add_reading(opened.job.id, reading, by);
    times.push_back(milliseconds_since(start));
  }
  const double disk = disk_fsync_p99_ms(folder.file("plain"), static_cast<int>(times.size()));
  state.counters["p50_ms"] = percentile(times, 0.5);
  state.counters["p99_ms"] = percentile(times, 0.99);
  state.counters["disk_fsync_p99_ms"] = disk;
  state.counters["times_disk"] = percentile(times, 0.99) / disk;
}
BENCHMARK(SaveReading)->Unit(benchmark::kMillisecond)->Iterations(500);

}  // namespace
}  // namespace brakewright::shop
