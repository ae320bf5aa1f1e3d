#pragma once

#include <cstdint>

#include "core/bench_sim/part/faces.hpp"

namespace brakewright::bench_sim {

/// A part as its maker drew it: no wear, no fault.
struct PartMake {
  double outer_radius_mm = 0;   ///< of the iron, up to 500
  double inner_radius_mm = 0;   ///< of the face, > 1 and more than 4 mm below the outer one
  double new_thickness_mm = 0;  ///< 4 to 100
  PartShape shape = {};         ///< cheeks are worked out from the thickness
  PartLimits limits = {};       ///< 0 < discard <= machine-to <= new thickness
};

/// An invented make, hubless: diameters 240 to 340 mm, solid of 9 to 12 mm or vented of 18 to 30 mm, worn out at 2 to
/// 3 mm under new. Sizes met in the trade, from memory; machine-to 0.38 mm over discard is common practice; no source.
PartMake make_of_seed(std::uint64_t seed);

/// The same make with its hub cast in: races of 50 to 62 mm on the shoulder's side and of 38 to 46 mm on the nut's, 46
/// to 56 mm apart, in place of bore and flat. Invented sizes, no source; with a stream of draws of its own.
PartMake with_hub(PartMake make, std::uint64_t seed);

/// @throws InputError "out_of_range" with paths such as "make.shape.band_outer_radius_mm"
void check(const PartMake& make);

}  // namespace brakewright::bench_sim
