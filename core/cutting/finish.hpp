#pragma once

#include <optional>

namespace brakewright::cutting {

/// The profile that a round nose leaves at a feed, and what a real face is likely to show.
struct Finish {
  double rt_um = 0;        ///< peak to valley, parabola: f^2/(8 r)
  double ra_um = 0;        ///< arithmetic mean, parabola: 4 Rt/(9 sqrt 3)
  double rt_exact_um = 0;  ///< the same of the circular arc
  double ra_exact_um = 0;
  double ra_low_um = 0;  ///< band of what a sharp tool really leaves in grey iron
  double ra_high_um = 0;
  std::optional<double> rt_brammertz_um;              ///< only with an h_min
  std::optional<double> feed_of_least_rt_mm_per_rev;  ///< a slower feed than this makes the face rougher
};

/// Kinematic roughness of a face turned with a round nose.
///
/// The parabola's figures are the workshop's formulas; the exact ones integrate the circular arc. The band is 1.2 to 2
/// times the ideal, and no less than the 0.4 to 1 um that graphite flakes leave (both from memory, no source read).
/// @param feed_mm_per_rev  > 0, at most twice the nose radius: beyond, ridges are left standing
/// @param nose_radius_mm   > 0
/// @param h_min_um         least chip that the edge still cuts, > 0; about 0.2 to 0.4 of the edge's radius
/// @throws InputError "out_of_range" naming the field
/// Source: f^2/(8 r) and f^2/(18 sqrt3 r) are geometry; Brammertz (1961) Rt = f^2/(8r) + h_min/2 (1 + r h_min/f^2),
/// from memory, least at f = sqrt(2 r h_min).
Finish finish(double feed_mm_per_rev, double nose_radius_mm, std::optional<double> h_min_um = {});

}  // namespace brakewright::cutting
