#pragma once

#include <cstdint>
#include <vector>

#include "core/circle/true_curve.hpp"
#include "core/runout/runout.hpp"

namespace brakewright {

/// The same answer as `reduce_runout`, with the draws of its curve kept for what else rests on them.
struct FaceDraws {
  Runout runout;
  std::vector<CurveBlock> curves;  ///< deviations in um from the mean reading
};

/// @param stream  of the seed
FaceDraws draw_face(const RunoutInput& input, std::uint64_t stream);

}  // namespace brakewright
