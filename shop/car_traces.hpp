#pragma once

#include <vector>

#include "core/refit/refit.hpp"
#include "shop/refit_advice.hpp"

/// Readings on the car, and of the part on the arbor, as turns of an indicator; the pieces of shop/refit_advice.hpp.
namespace brakewright::shop {

/// All turns that bear on how a part goes back, in the sense of the angles of `stage`.
struct CarTraces {
  Stage stage = Stage::on_car;         ///< whose readings of the part on the car count
  bool cut = false;                    ///< since it came
  std::vector<CarTrace> now = {};      ///< of the part as it is, one for each position
  std::vector<CarTrace> former = {};   ///< of the part before its cut
  std::optional<double> came_um = {};  ///< runout as it came, in the first position that it was read in
  /// The part as it went back, in the position of the refit in force, with its plate where it has one. With a plate it
  /// is not among `now`: what it shows is not the part's.
  std::optional<CarTrace> fitted = {};
  bool fitted_with_plate = false;
  std::optional<CarTrace> hub = {};  ///< the bare hub, at whichever time it was read last
  std::optional<Trace> bench = {};   ///< the part as it is on the arbor, in its own frame
  double noise_um = 0;               ///< of one of these readings: the coarsest of their indicators; 0 without any
};

/// Readings of the bench's two stages that were taken on the car count as position 0 where the car's own stages have
/// none. Readings with a tapered plate between hub and part, by the refits on record, tell of that fitting alone.
CarTraces car_traces_of(const JobFile& file, const Part& part, const AssessContext& context);

/// As core/separation and core/refit take them.
std::vector<PositionTrace> positions_of(const std::vector<CarTrace>& traces, std::int64_t studs);

}  // namespace brakewright::shop
