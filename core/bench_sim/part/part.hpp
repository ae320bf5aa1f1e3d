#pragma once

#include <cstdint>
#include <optional>

#include "core/bench_sim/part/faces.hpp"
#include "core/bench_sim/part/faults.hpp"
#include "core/bench_sim/part/make.hpp"

namespace brakewright::bench_sim {

/// Which part is wanted.
struct PartWish {
  std::uint64_t seed = 1;
  int difficulty = 1;                 ///< 0 to 5: how many faults, and how little iron over the limit
  PartFaults faults = {};             ///< chosen ones; those absent are left to the seed
  std::optional<PartMake> make = {};  ///< an invented one of the seed when absent
  int angles = 3600;                  ///< of its grid, 36 to 3600
  double ring_step_mm = 0.5;          ///< of its grid; the last ring lies within a step of the outer edge
};

/// The part, and apart from it what is wrong with it: for marking, never for the student.
struct DrawnPart {
  SimPart part = {};
  PartFaults truth = {};
};

/// A part of a seed, its faults and its grid. The faults do not depend on the grid, so that the same part can be had
/// coarse for a picture and fine for a cut.
///
/// Height of the outboard face = wobble + its share of the waves + half of taper and hard spots + lip - groove; of the
/// inboard one the same with the wobble the other way. Taper and waves have no mean over the band, so that
/// `nominal_thickness_mm` is the mean of the band but for grooves and hard spots.
/// @throws InputError as faults_of_seed, check(PartMake) and check(FaceGrid) say
/// Time and memory: 12 bytes and a few multiplications a cell.
DrawnPart part_of_seed(const PartWish& wish);

/// The same from a make and faults that are already known; absent faults are not there.
/// @throws InputError as above; "missing", field "faults.thickness_mm"
SimPart part_of_faults(const PartMake& make, const PartFaults& faults, int angles, double ring_step_mm);

}  // namespace brakewright::bench_sim
