#pragma once

#include <cstdint>
#include <optional>

#include "core/diagnosis/causes.hpp"
#include "core/diagnosis/signs.hpp"

namespace brakewright::diagnosis {

/// A finished part that one main cause spoilt, or none, and what was found on it.
struct SpoiltPart {
  Cause cause = {};
  double size = 0;  ///< of that cause among its like, [0, 1): small to large
  Signs signs = {};
};

/// A vented part of the simulated bench: mounted, cut on both faces, measured and put on a car, with one of `kCauses`,
/// each equally likely, as its main trouble. Everything else is as a fair bench has it and never quite perfect: some
/// wobble before the cut, an adapter out by a micrometre or two, a worn-in edge, flakes of graphite in the finish.
///
/// Mount, cut, chatter, roughness and readings come from `bench_sim`, each on the coarsest grid that shows it: the
/// shape by a large nose on a grid of 3 degrees, the finish on a strip of few millimetres, chatter on a strip with fine
/// angles. What an eye or an ear finds it finds by a chance of its own, which is ours, no source. Each instrument errs;
/// each sign, or group of signs found together, is missing with a chance of 0.05 to 0.35, drawn for each part.
/// @param seed,number  the same two give the same part
/// Time: about 10 ms.
SpoiltPart spoilt_part(std::uint64_t seed, std::uint64_t number);

}  // namespace brakewright::diagnosis
