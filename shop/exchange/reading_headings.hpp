#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// A column that holds values: of one quantity, or of the one that the line names; with a unit from its heading.
struct ValueColumn {
  std::size_t index = 0;
  std::string heading;
  std::optional<Quantity> quantity;
  std::string unit;  ///< "mm", "in", "um", ... or empty
};

/// Where each thing stands in a table of readings.
struct ReadingColumns {
  std::optional<std::size_t> side, stage, quantity, unit, circle, studs_turned, point, angle, instrument, confirmed,
      taken_at, id, state;
  std::vector<ValueColumn> values;
  std::vector<std::string> headings;  ///< as written, for the report
};

/// @throws InputError "no_heading" (field: the heading that is missing or stands twice) unless there is a column of
///         values, each value has a quantity, and no heading stands twice
ReadingColumns find_columns(const std::vector<std::string>& headings);

/// The words of people for the words of the API: "L", "Left" are left; "outboard runout", "RUNOUT OUTBOARD" are
/// runout_outboard; nothing when the text is none.
std::optional<Side> side_from(std::string_view text);
std::optional<Stage> stage_from(std::string_view text);
std::optional<Quantity> quantity_from(std::string_view text);

/// Lower case, with every run of other characters than letters, digits and what is no ASCII as one underscore.
std::string plain_word(std::string_view text);

/// A plain word and the unit that it ends in, "" without one: "runout_outboard_um" is "runout_outboard" and "um".
std::pair<std::string, std::string> without_unit(const std::string& word);

}  // namespace brakewright::shop
