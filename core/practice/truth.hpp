#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/bench_sim/mount/mounting.hpp"
#include "core/bench_sim/part/faults.hpp"
#include "core/practice/exercise.hpp"

/// What is really there: for the bench and for marking, never for the student.
namespace brakewright::practice {

/// What a seed is asked for here; each has its own stream, beside those of the simulated bench.
enum class Draw : std::uint64_t {
  which = 100,
  thickness,
  mount,
  tools,
  heat,
  zero,
  pegboard,
  lathe,
  hub,
  edge,
  slip,
  runout,
  refit,
  next,
  kind_of_part,
  bearing,
  nuts,
  readings,
};

constexpr std::uint64_t stream_of(Draw draw, std::uint64_t number = 0) {
  return (static_cast<std::uint64_t>(draw) << 40) + number;
}

/// Stuck to a face; both anvils and indicator ride over it.
struct Speck {
  bench_sim::Side side = bench_sim::Side::outboard;
  double radius_mm = 0;
  double angle_deg = 0;
  double height_um = 0;  ///< whole ones
};

struct Truth {
  std::vector<Fault> faults = {};  ///< in the order of kFaults
  bench_sim::PartMake make = {};
  bench_sim::PartFaults part = {};
  std::vector<bench_sim::Dirt> dirt = {};  ///< until it is wiped off
  bench_sim::BentArbor bent = {};          ///< of the clamp that the best stack has at the shoulder
  double seating_sd_um = 0;
  double wear_mm = 0;        ///< of both edges at the start
  double part_start_c = 20;  ///< temperature at the start
  double zero_error_mm = 0;  ///< of both micrometers at the start
  double nose_radius_mm = 0.8;
  double bearing_play_um = 0;        ///< runout that it adds on the car where the part turns on its own bearings
  std::uint64_t misread_number = 0;  ///< which micrometer reading is a turn off, from 1; 0 for none
  std::optional<Speck> speck = {};   ///< until it is wiped off

  bool has(Fault fault) const;
};

/// @throws InputError as bench_of
Truth truth_of(const Exercise& exercise);

inline constexpr double kSoundSeat_um = 1;  ///< seating_sd_um of a seat without fault; our own assumption, no source

/// What the room has, and the part when it has cooled.
inline constexpr double kRoom_c = 20;

}  // namespace brakewright::practice
