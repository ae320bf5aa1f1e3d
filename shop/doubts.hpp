#pragma once

#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// Why a reading is questioned: a stable word, a question, and what it would be if the doubt is right.
struct Doubt {
  std::string code;
  std::string message;
  std::optional<TypedLength> suggestion = {};
};

/// What is odd about a reading that is about to be stored, beside the current readings of its job.
///
/// Codes: "below_zero"; "other_unit" (25.4 times too large or too small beside its neighbours or limits, or a roughness
/// that was meant in micrometres); "ten_times"; "lost_turn" (half a millimetre, or 0.025 in, beside its neighbours: one
/// turn of the thimble); "thicker_than_before" (after the cut than before it, at its spot or anywhere);
/// "thicker_than_new"; "far_from_others"; "same_twice" (the figure of the spot before, within a second: a key that
/// bounced). Of a drum also "smaller_than_before", "smaller_than_new", and "over_discard" of its first diameter that
/// makes it scrap. One slip gives one doubt: the first of these that explains the figure.
/// @param reading  parsed and complete; the reading that it supersedes is not counted among its neighbours
/// The distances are common practice, no source: a turn of a thimble is 0.5 mm or 0.025 in by its thread.
std::vector<Doubt> doubts_about(const JobFile& file, const Reading& reading);

}  // namespace brakewright::shop
