#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/input_error.hpp"
#include "core/mount/mount.hpp"
#include "core/practice/run.hpp"

namespace brakewright::practice {

/// The first seed from `from` on that draws a part of this kind.
inline std::uint64_t seed_of(mount::PartKind kind, std::uint64_t from = 1) {
  while (bench_of({.seed = from}).make.shape.seat.kind != kind) ++from;
  return from;
}

/// A run with what a hand at it needs to know.
struct AtBench {
  explicit AtBench(const Exercise& exercise) : run(exercise) {}

  Run run;

  double middle_mm() const {
    const auto& shape = run.bench().make.shape;
    return (shape.band_inner_radius_mm + shape.band_outer_radius_mm) / 2;
  }
  std::vector<mount::Stack> stacks(std::size_t count = 20) const {
    const Bench& bench = run.bench();
    return mount::find_stacks(bench.lathe.arbor, bench.make.shape.seat, bench.pieces, count).stacks;
  }
  /// "accepted", or what it was refused with and for.
  std::string refusal(const Act& act) {
    try {
      run.apply(act);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return "accepted";
  }
  /// Mounted, decided and turning at 150.
  void start_turning() {
    run.apply(Wear{});
    run.apply(Decide{Action::cut});
    run.apply(MountPart{.pieces = stacks(1)[0].pieces});
    run.apply(Spindle{150});
  }
};

}  // namespace brakewright::practice
