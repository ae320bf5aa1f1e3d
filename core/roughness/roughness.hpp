#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "core/roughness/heights.hpp"

namespace brakewright::roughness {

/// Heights along a straight line on a surface, as a stylus reads them, evenly spaced.
struct Profile {
  double spacing_um = 0;
  std::vector<double> z_um;
};

enum class Filter {
  gaussian,  ///< the mean line of ISO 16610-21 is taken out
  none       ///< the mean alone is taken out
};

struct Settings {
  std::optional<double> cutoff_mm = {};  ///< lambda c; without one, what `suggested_cutoff` says
  /// lambda s: shorter waves are smoothed away first; only with the filter
  std::optional<double> short_cutoff_um = {};
  Filter filter = Filter::gaussian;
  /// Taken off both ends after filtering; without a figure half a cut-off with the filter, else nothing
  std::optional<double> discard_ends_mm = {};
};

/// How rough a profile is. All figures but Rz are about the mean of what was evaluated.
struct Roughness {
  Heights heights_um;
  double rz_um = 0;  ///< mean over the sections of highest less lowest in each
  /// Ra of the smoothest and the roughest section: how far one spot speaks for the face. The tester's own error is not
  /// in it.
  double ra_low_um = 0, ra_high_um = 0;
  int sections = 0;  ///< whole cut-offs in what was evaluated; Rz of fewer than five says less
  double cutoff_mm = 0;
  std::size_t first = 0;             ///< point of the profile that `evaluated_um` begins with
  std::vector<double> evaluated_um;  ///< the roughness, mean taken out
  std::vector<double> mean_line_um;  ///< of the whole profile; what was taken out of the smoothed heights
};

/// Ra, Rq, Rp, Rv, Rt, Rz, Rsk and Rku of a profile.
///
/// Ends: the mean line reaches both ends (see `mean_line`), and `discard_ends_mm` is left out at each. Of what remains,
/// a last point that only closes a whole number of cut-offs is left out too, as it would count one place twice. All
/// points left make the figures; Rz is of the whole sections among them, from the first.
/// What stands out by under 1e-9 of the profile's own height is rounding and counts as flat: then Rsk and Rku are none.
/// @param profile   2 to `kMostPoints` finite heights within +-1e6 um; spacing 1e-3 to 1e4 um, at most a twentieth of
///                  the cut-off and a fourth of the short one
/// @param settings  cut-off 1e-3 to 1e3 mm; short one at most a tenth of it; at least one cut-off must be left between
///                  the ends
/// @throws InputError "missing", "not_finite", "too_many", "too_short" or "out_of_range", naming `spacing_um`,
///         `z_um[i]`, `cutoff_mm`, `short_cutoff_um` or `discard_ends_mm`
/// Source: ISO 4287:1997, 4.1 to 4.2 (from memory), except that Ra, Rq, Rp, Rv, Rsk and Rku are of the whole length
/// rather than the mean over sections; filter ISO 16610-21:2011.
Roughness roughness_of(const Profile& profile, const Settings& settings);

inline constexpr std::size_t kMostPoints = 200'000;

/// The cut-off to read a surface with whose Ra is not yet known.
///
/// The shortest of 0.08, 0.25, 0.8, 2.5 and 8 mm with which Ra falls into that cut-off's own range; where none does,
/// the one in whose range the Ra lies that is read with 0.8 mm, or the nearest below that fits the length and the
/// spacing.
/// @throws InputError as `roughness_of`; "too_short" naming `z_um` or "out_of_range" naming `spacing_um` where not even
///         one of them fits
/// Source: ISO 4288:1996, table 1 and clause 7.2 (from memory), for faces without an even lay; that of turned ones goes
/// by the spacing of their marks, and says 0.8 mm for 0.13 to 0.4 mm.
double suggested_cutoff(const Profile& profile);

inline constexpr std::string_view kCutoffSource = "ISO 4288:1996, table 1, from memory";

}  // namespace brakewright::roughness
