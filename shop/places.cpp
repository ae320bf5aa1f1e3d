#include "shop/places.hpp"

#include <algorithm>

#include "core/input_error.hpp"
#include "shop/json.hpp"
#include "shop/progress.hpp"

namespace brakewright::shop {
namespace {

constexpr Length kFromEdge{10'000'000};
constexpr Length kDeepUnknown{40'000'000};
constexpr Length kDeepest{500'000'000};
constexpr std::int64_t kMostPoints = 24;
constexpr std::int64_t kFewestPoints = 4;

bool goes_round(Quantity quantity) {
  return quantity == Quantity::thickness || quantity == Quantity::diameter || quantity == Quantity::runout_outboard ||
         quantity == Quantity::runout_inboard || quantity == Quantity::hub_runout;
}

/// Open and closed edge of a band.
std::vector<Length> edges_of(const Part& part) {
  if (!part.band_width) return {kFromEdge, kDeepUnknown};
  const Length band = part.band_width->value;
  const Length in{std::min(kFromEdge.nm, band.nm / 4)};
  return {in, {band.nm - in.nm}};
}

Length beyond(const Part& part) {
  if (is_drum(part.kind)) return part.band_width ? Length{part.band_width->value.nm + 1} : kDeepest;
  return part.outer_diameter ? Length{part.outer_diameter->value.nm / 2} : Length{200'000'000};
}

}  // namespace

Quantity size_of(const std::optional<PartKind>& kind) {
  return is_drum(kind) ? Quantity::diameter : Quantity::thickness;
}

Spread spread_of(Quantity quantity, const MeasuringPlan& plan, const std::optional<PartKind>& kind) {
  if (!goes_round(quantity)) return {};
  if (quantity == Quantity::diameter) return {.points = plan.points, .over_deg = 180};
  if (is_drum(kind)) return {.points = std::min(kMostPoints, 2 * plan.points)};
  return {.points = plan.points};
}

double angle_of(std::int64_t point, const Spread& spread) {
  return spread.over_deg * static_cast<double>(point) / static_cast<double>(spread.points);
}

bool is_read_of(Quantity quantity, const std::optional<PartKind>& kind) {
  switch (quantity) {
    case Quantity::runout_outboard:
    case Quantity::scoring_outboard:
    case Quantity::roughness_outboard:
    case Quantity::bore:
    case Quantity::bearing_play:
    case Quantity::hub_runout:
      return true;
    case Quantity::diameter:
      return is_drum(kind);
    case Quantity::thickness:
    case Quantity::runout_inboard:
    case Quantity::scoring_inboard:
    case Quantity::roughness_inboard:
    case Quantity::hat_height:
    case Quantity::cheek_outboard:
    case Quantity::cheek_inboard:
      return !is_drum(kind);
  }
  return false;
}

void check_marks(const Part& part, std::int64_t inboard_marks, const std::string& field) {
  if (inboard_marks == 0 || !is_drum(part.kind)) return;
  throw InputError("other_kind", field, "a drum is turned with one tool: its marks are the outboard ones");
}

MeasuringPlan first_plan(const Part& part, std::int64_t points) {
  MeasuringPlan plan;
  plan.part_id = part.id;
  plan.points = points;
  plan.circles_from_edge = {kFromEdge};
  if (!is_drum(part.kind)) return plan;
  plan.points = std::max(kFewestPoints, points / 2);
  plan.circles_from_edge = edges_of(part);
  plan.runout_place = RunoutPlace::on_arbor;
  return plan;
}

void check_places(const MeasuringPlan& plan, const Part& part) {
  check(plan);
  const bool drum = is_drum(part.kind);
  const auto& circles = plan.circles_from_edge;
  const std::string path = "circles_from_edge_nm";
  if (circles.empty() || circles.size() > 3) {
    throw InputError("out_of_range", path, drum ? "one to three depths" : "one to three circles");
  }
  for (std::size_t k = 0; k < circles.size(); ++k) {
    const std::string here = path + "[" + std::to_string(k) + "]";
    if (std::count(circles.begin(), circles.end(), circles[k]) > 1) {
      throw InputError("out_of_range", here, drum ? "two depths are the same" : "two circles lie at the same place");
    }
    if (circles[k] < beyond(part)) continue;
    throw InputError("out_of_range", here,
                     drum ? "must be on the braking band" : "must be less than half of the outer diameter");
  }
  if (drum && plan.runout_place == RunoutPlace::on_car && !is_on_car(plan.stage)) {
    throw InputError("other_kind", "runout_place", "a drum is indicated inside, on the lathe: on_arbor");
  }
}

}  // namespace brakewright::shop
