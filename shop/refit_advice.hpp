#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/refit/refit.hpp"
#include "core/separation/separation.hpp"
#include "shop/assess.hpp"

/// From what was read on the car to how a part goes back on its hub: where records become input of core/separation and
/// core/refit.
namespace brakewright::shop {

/// On what an advice rests, the best first.
enum class RefitEvidence {
  positions,      ///< the part as it is now, read on its hub in two positions or more
  hub_and_bench,  ///< the hub by itself, or told apart before the cut, and the part on the arbor after it
  hub_and_part,   ///< the bare hub, and the part on it in one position
  part_alone,     ///< one position: whose runout it is cannot be told
  hub_alone,
  nothing
};

/// Readings of one turn with the part in one position, or of the bare hub.
struct CarTrace {
  std::optional<std::int64_t> turned;  ///< by how many studs the part was turned; nothing for the bare hub
  std::vector<double> angles_deg;
  std::vector<double> values_um;
  double runout_um = 0;
};

struct RefitAdvice {
  std::vector<std::string> missing = {};  ///< fields still needed: "part.studs", "part.outer_diameter"
  RefitEvidence evidence = RefitEvidence::nothing;
  std::optional<Stage> stage = {};  ///< whose car readings count
  std::vector<CarTrace> traces = {};
  std::optional<double> bearing_play_um = {};
  std::optional<double> radius_mm = {};  ///< of the indicator's circle
  std::optional<LengthLimit> limit = {};
  std::optional<Separation> separation = {};  ///< with two positions or more
  std::optional<brakewright::Refit> refit = {};
  std::vector<Advice> advice = {};
};

/// @param plates  tapered plates in use; those for other numbers of studs are passed over
RefitAdvice advise_refit(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates,
                         const AssessContext& context);

}  // namespace brakewright::shop
