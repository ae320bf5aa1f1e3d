#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/bench_sim/part/faces.hpp"
#include "core/bench_sim/part/make.hpp"
#include "core/circle/circle.hpp"

namespace brakewright::bench_sim {

/// A plane that is not square to what it should be.
struct Lean {
  double runout_um = 0;  ///< peak to valley, 0 to 2000
  double high_deg = 0;   ///< [0, 360)
};

/// Thickness that varies round the part, the same at all radii.
struct ThicknessWaves {
  std::vector<Harmonic> waves = {};  ///< of the thickness; orders 1 to 16, amplitudes 0 to 500 um; 16 at most
  double outboard_share = 0.5;       ///< of it that is in the outboard face, 0 to 1; the inboard face has the rest
};

/// A groove all the way round: deepest in its middle, gone at half its width on either side (a raised cosine).
struct Groove {
  Side side = Side::outboard;
  double radius_mm = 0;  ///< of its middle, on the face
  double width_mm = 0;   ///< 0.05 to 20
  double depth_um = 0;   ///< 0 to 3000; where grooves overlap the deeper counts
};

/// Rust or iron that no pad has worn, standing proud beyond the swept band.
struct EdgeLip {
  double outboard_um = 0;  ///< 0 to 3000
  double inboard_um = 0;
};

/// A spot that overheating left hard: it stands proud on both faces alike (a raised cosine).
struct HardSpot {
  double angle_deg = 0;    ///< [0, 360)
  double radius_mm = 0;    ///< on the face
  double diameter_mm = 0;  ///< 1 to 60
  double height_um = 0;    ///< that it adds to the thickness, half on each face; 0 to 500
  double hardness = 1;     ///< factor on the cutting force in its middle, 1 to 10
};

/// What is wrong with a part. In a wish an absent fault is left to the seed and a fault of size 0 is kept out; in the
/// truth an absent fault is not there.
struct PartFaults {
  std::optional<double> thickness_mm = {};       ///< between the perfect planes of the worn band: 2 mm up to new
  std::optional<Lean> wobble = {};               ///< of both faces to the hub's face, at the middle of the band
  std::optional<ThicknessWaves> variation = {};  ///< all of it but for hard spots
  std::optional<double> taper_um = {};           ///< thickness at the band's outer edge less that at its inner, +-1000
  std::optional<std::vector<Groove>> grooves = {};  ///< 200 at most
  std::optional<EdgeLip> lip = {};
  std::optional<std::vector<HardSpot>> hard_spots = {};  ///< 100 at most
  std::optional<double> cheek_difference_mm =
      {};                         ///< outboard less inboard; each must keep 0.5 mm; drawn for vented parts
  std::optional<Lean> seat = {};  ///< of the face clamped here to that which lies on the hub, at the flat's outer edge
};

/// Ends between which the seed draws.
struct Range {
  double low = 0;
  double high = 0;
};

/// Light cars' limits lie at 0.03 to 0.13 mm; from under the least to twice the most. Common practice, no source.
inline constexpr Range kWobble_um{15, 260};
/// Half of peak to valley of one wave; limits lie at 0.010 to 0.030 mm of peak to valley. Common practice, no source.
inline constexpr Range kWave_um{2, 16};
/// Common practice, no source.
inline constexpr Range kTaper_um{10, 80};
/// Two armies' manuals accept scoring of 0.38 and of 1.5 mm; a disc maker calls 1.5 mm harmless.
inline constexpr Range kGrooveDepth_um{40, 600};
inline constexpr Range kGrooveWidth_mm{0.5, 3};  ///< common practice, no source
inline constexpr Range kLip_um{80, 700};         ///< common practice, no source
/// 0.01 to 0.05 mm of thickness. Common practice, no source.
inline constexpr Range kHardSpot_um{10, 50};
inline constexpr Range kHardSpotDiameter_mm{6, 18};  ///< common practice, no source
inline constexpr Range kHardness{1.5, 3};            ///< common practice, no source
inline constexpr Range kCheek_mm{0.3, 1.2};          ///< common practice, no source
inline constexpr Range kSeat_um{4, 40};              ///< common practice, no source

/// Refuses a wish that is not within the ranges above, or that this make cannot have.
/// @throws InputError "not_finite", "out_of_range" or "too_many" with paths such as "faults.grooves[2].depth_um"
void check(const PartFaults& faults, const PartMake& make);

/// The faults that a part will have: the wished ones, and the seed's where none is wished. Each is there with a chance
/// of 0.2 + 0.12 difficulty (none at 0), its sizes evenly between the ends above. Iron over the machine-to limit, which
/// every part has: evenly from -0.1 mm to 1.6 - 0.28 difficulty mm, and no more than a new part's; a wish may go below.
/// @param difficulty  0 to 5
/// @throws InputError as check, and "out_of_range", field "difficulty"
PartFaults faults_of_seed(std::uint64_t seed, int difficulty, const PartFaults& wished, const PartMake& make);

}  // namespace brakewright::bench_sim
