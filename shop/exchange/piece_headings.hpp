#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "shop/equipment.hpp"

namespace brakewright::shop {

/// A dimension of a piece that it may have none of, with its heading.
using Dimension = std::pair<std::string_view, std::optional<Length> Piece::*>;
inline constexpr std::array kDimensions{
    Dimension{"small", &Piece::small},           Dimension{"large", &Piece::large},
    Dimension{"ring_inner", &Piece::ring_inner}, Dimension{"ring_outer", &Piece::ring_outer},
    Dimension{"cup_depth", &Piece::cup_depth},   Dimension{"cup_bore", &Piece::cup_bore},
    Dimension{"solid", &Piece::solid},           Dimension{"free", &Piece::free},
    Dimension{"outside", &Piece::outside},
};

/// Every heading of a table of pieces, in the order in which one is written.
inline constexpr auto kPieceHeadings =
    std::to_array<std::string_view>({"name",    "kind",       "hook",       "unit",      "bore",     "length", "small",
                                     "large",   "ring_inner", "ring_outer", "cup_depth", "cup_bore", "solid",  "free",
                                     "outside", "weighted",   "damping",    "runout",    "note",     "active", "id"});

struct PieceColumn {
  std::size_t index = 0;
  std::string heading;  ///< as written, for the report
  std::string unit;     ///< from the heading: "mm", "in", "um", "thou", or empty
};

/// Where each thing stands in a table of pieces.
class PieceColumns {
 public:
  /// @throws InputError "no_heading" (field: the heading that is missing or stands twice) without a name column, or
  /// when
  ///         a heading stands twice
  explicit PieceColumns(const std::vector<std::string>& headings);

  /// By one of kPieceHeadings; null when the table has none of it.
  const PieceColumn* find(std::string_view name) const;
  std::size_t count() const { return count_; }  ///< of all headings, known or not

 private:
  std::array<std::optional<PieceColumn>, kPieceHeadings.size()> columns_;
  std::size_t count_ = 0;
};

}  // namespace brakewright::shop
