#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/bench_sim/part/part.hpp"
#include "core/mount/mount.hpp"
#include "core/practice/fault.hpp"

namespace brakewright::practice {

/// What makes a run: the same exercise and the same acts give the same run, bit for bit, on every x86-64 processor.
struct Exercise {
  std::uint64_t seed = 1;  ///< below 2^53, so that JSON holds it
  int difficulty = 1;      ///< 0 to 5
  /// Those that are there, and no other; sizes from the seed. Absent: the seed draws which.
  std::optional<std::vector<Fault>> faults = {};
};

struct BenchInstrument {
  std::string id = {};
  std::string kind = {};  ///< "micrometer", "point_micrometer", "caliper"
  double resolution_mm = 0;
  double u_mm = 0;  ///< standard uncertainty as its certificate says
};

struct BenchLathe {
  mount::Arbor arbor = {};
  std::vector<double> speeds_rpm = {};
  std::vector<double> feeds_mm_per_rev = {};
  double dial_um_per_mark = 0;
  double nose_radius_mm = 0;
  double max_speed_m_per_min = 0;  ///< of the insert
};

/// "cone", "spring", ...: its name in JSON, and of a piece before its number.
const char* word_of(mount::PieceKind kind);

/// What anybody may know of an exercise: part as its maker prints it, pegboard, instruments, lathe.
struct Bench {
  bench_sim::PartMake make = {};
  double start_radius_mm = 0;  ///< where the inside-out feed begins
  std::vector<mount::Piece> pieces = {};
  std::vector<BenchInstrument> instruments = {};
  BenchLathe lathe = {};
  std::vector<double> stud_positions_deg = {};  ///< of the car's hub; only 0 where the part has its own
  /// Of the car's hub, as its own reading says, at the band's middle; 0 where the part has its own, which is part of
  /// it.
  double hub_runout_um = 0;
  double hub_high_deg = 0;

  bool hubbed() const { return make.shape.seat.kind == mount::PartKind::hubbed; }
};

/// @throws InputError "out_of_range" naming "seed" or "difficulty"; "too_many", "faults"
Bench bench_of(const Exercise& exercise);

}  // namespace brakewright::practice
