#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "shop/entities.hpp"

/// Where readings lie on a part.
namespace brakewright::shop {

/// What is read at every spot of the plan: the thickness of a disc, the diameter of a drum.
Quantity size_of(const std::optional<PartKind>& kind);

/// How the points of a quantity lie.
struct Spread {
  std::int64_t points = 1;  ///< 1 where the quantity has no places of its own
  double over_deg = 360;    ///< evenly, from the index mark
};

/// A diameter is the same half a turn on: its points cover half a turn, and an indicator in the drum goes the whole
/// turn at the same steps, or at 15 degrees where those are finer.
Spread spread_of(Quantity quantity, const MeasuringPlan& plan, const std::optional<PartKind>& kind);

double angle_of(std::int64_t point, const Spread& spread);

/// Whether a quantity is read of such a part at all.
bool is_read_of(Quantity quantity, const std::optional<PartKind>& kind);

/// A drum is turned with one tool, which stands as the outboard one.
/// @throws InputError "other_kind" for inboard marks on a drum
void check_marks(const Part& part, std::int64_t inboard_marks, const std::string& field);

/// The plan with which a part is first gone round. @param points  on a whole turn
/// A disc on one circle, 10 mm in. A drum at its open and closed edge, 10 mm in from each where the band's width is
/// known, at half as many points: TM 9-2330-384-14&P asks four diameters 45 degrees apart at both edges.
MeasuringPlan first_plan(const Part& part, std::int64_t points);

/// @throws InputError  for a plan that such a part cannot be gone round by
void check_places(const MeasuringPlan& plan, const Part& part);

}  // namespace brakewright::shop
