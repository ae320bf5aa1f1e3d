#pragma once

#include "calc/reader.hpp"
#include "core/thickness/thickness.hpp"
#include "core/verdict/verdict.hpp"

/// What several computations read alike.
namespace brakewright::calc {

inline constexpr std::int64_t kMostSeed = 9007199254740991;  ///< what a double holds exactly
inline constexpr std::int64_t kLeastDraws = 100;
inline constexpr std::int64_t kMostDraws = 200000;

/// {"resolution_mm", "mpe_mm", "repeatability_mm", "zero_error_mm"}
Micrometer read_micrometer(Reader reader);

/// [{"angle_deg", "radius_mm", "values_mm"}]
std::vector<ThicknessPoint> read_points(std::vector<Reader> readers);

/// {"nominal", "machine_to", "discard", "variation", "runout", "scoring": {"value_mm", "source"}, "finish":
/// {"value_um", "source"}}
RoughnessLimit read_roughness_limit(Reader reader);
PartLimits read_limits(Reader reader);

/// {"value_mm", "source"}
LengthLimit read_length_limit(Reader reader);

/// {"mm_per_unit", "relative_u", "unit"}
std::optional<WearRate> read_wear_rate(std::optional<Reader> reader);

/// The word "complaint" of a job; `other` when it is left out.
Complaint read_complaint(Reader& reader);

/// The words that many inputs share, each with its own default.
void read_draws(Reader& reader, double& confidence, std::uint64_t& seed, std::size_t& draws);

}  // namespace brakewright::calc
