#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "core/practice/fault.hpp"

namespace brakewright::diagnosis {

/// The main thing that went wrong; absent: nothing did.
using Cause = std::optional<practice::Fault>;

/// Those that are told apart: what a bench can do to a part, and nothing.
inline constexpr std::array<Cause, 15> kCauses{
    std::nullopt,
    practice::Fault::dirty_seat,
    practice::Fault::bent_arbor,
    practice::Fault::wrong_cone,
    practice::Fault::pitted_races,
    practice::Fault::loose_nut,
    practice::Fault::worn_edge,
    practice::Fault::no_band,
    practice::Fault::coarse_feed,
    practice::Fault::hard_spots,
    practice::Fault::taper,
    practice::Fault::uneven_cheeks,
    practice::Fault::warm_part,
    practice::Fault::micrometer_zero,
    practice::Fault::lip,
};
inline constexpr std::size_t kCauseCount = kCauses.size();

/// What is said of a cause. Basis: the trade's table of faults and signatures, lines F01 to F19; most of it common
/// practice, no source.
struct CauseInfo {
  std::string_view words = {};
  std::string_view check = {};       ///< the one that speaks most plainly for it
  std::string_view correction = {};  ///< what to do about it, within the machine's and the vehicle's instructions
  std::string_view basis = {};
};

/// @throws InputError "unknown_fault" for one that is not among `kCauses`
const CauseInfo& about(const Cause& cause);

/// "nothing", or the fault's own name.
std::string_view name_of(const Cause& cause);

/// Its place in `kCauses`.
/// @throws InputError as `about`
std::size_t index_of(const Cause& cause);

}  // namespace brakewright::diagnosis
