#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "shop/demo/bench.hpp"

namespace brakewright::shop::demo {

/// What a drum really is, which nobody in the shop ever knows. Diameters, so that even waves alone show.
struct Drum {
  double mean_mm = 203;             ///< half way down the band
  double bell_um = 0;               ///< how much wider the open edge is than the closed one
  std::vector<Wave> diameter = {};  ///< round the turn
  double score_um = 0;              ///< deepest groove, on the radius

  /// @param depth_share  0 at the open edge, 1 at the closed one
  double diameter_at(double angle_deg, double depth_share) const;
};

/// How far a job of drums has come.
enum class DrumUntil { half_measured, measured, sealed };

struct DrumTale {
  std::size_t kind = 0;             ///< of School::drums
  std::optional<Uuid> beside = {};  ///< the job of the vehicle's other axle
  double worn_share = 0.4;          ///< of the way from new to machine-to
  double bell_um = 60;
  DrumUntil until = DrumUntil::sealed;
};

/// Enters a gauge for drums and three kinds of them.
void enter_drums(Shop& shop, Clock& clock, School& school);

/// Lives one job of two drums through. @return its id
Uuid live(const DrumTale& tale, Shop& shop, Clock& clock, Random& random, const School& school);

}  // namespace brakewright::shop::demo
