#include "report/content/spots.hpp"

#include <algorithm>
#include <numeric>

#include "shop/states.hpp"

namespace brakewright::report {

namespace {

/// Place of each of the plan's circles when counted from the edge inwards.
std::vector<int> ranks_from_edge(const shop::MeasuringPlan* plan) {
  if (plan == nullptr || plan->circles_from_edge.empty()) return {0};
  const auto& circles = plan->circles_from_edge;
  std::vector<std::size_t> order(circles.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return circles[a] < circles[b]; });
  std::vector<int> ranks(circles.size());
  for (std::size_t k = 0; k < order.size(); ++k) ranks[order[k]] = static_cast<int>(k);
  return ranks;
}

void add_spot(std::vector<Spot>& spots, const shop::Reading& reading, int circle) {
  const int point = static_cast<int>(reading.point);
  const double mm = reading.value.value.mm();
  for (Spot& spot : spots) {
    if (spot.circle != circle || spot.point != point) continue;
    spot.mean_mm += (mm - spot.mean_mm) / (spot.repeats + 1);
    ++spot.repeats;
    return;
  }
  spots.push_back({circle, point, reading.angle_deg, mm, 1});
}

void keep_largest(std::optional<double>& kept, const shop::Reading& reading) {
  const double mm = reading.value.value.mm();
  if (!kept || mm > *kept) kept = mm;
}

void add(Spots& spots, const shop::Reading& reading, const std::vector<int>& ranks) {
  const auto circle = static_cast<std::size_t>(std::max<std::int64_t>(0, reading.circle));
  switch (reading.quantity) {
    case shop::Quantity::thickness:
      add_spot(spots.thickness, reading, circle < ranks.size() ? ranks[circle] : spots.circles - 1);
      break;
    case shop::Quantity::diameter:
      add_spot(spots.diameter, reading, circle < ranks.size() ? ranks[circle] : spots.circles - 1);
      break;
    case shop::Quantity::runout_outboard:
      add_spot(spots.runout_outboard, reading, 0);
      break;
    case shop::Quantity::runout_inboard:
      add_spot(spots.runout_inboard, reading, 0);
      break;
    case shop::Quantity::scoring_outboard:
      keep_largest(spots.scoring_outboard_mm, reading);
      break;
    case shop::Quantity::scoring_inboard:
      keep_largest(spots.scoring_inboard_mm, reading);
      break;
    case shop::Quantity::roughness_outboard:
      keep_largest(spots.roughness_outboard_mm, reading);
      break;
    case shop::Quantity::roughness_inboard:
      keep_largest(spots.roughness_inboard_mm, reading);
      break;
    case shop::Quantity::bore:
    case shop::Quantity::hat_height:
    case shop::Quantity::cheek_outboard:
    case shop::Quantity::cheek_inboard:
    case shop::Quantity::bearing_play:
    case shop::Quantity::hub_runout:
      return;
  }
  spots.any = true;
}

void put_in_order(std::vector<Spot>& spots) {
  std::sort(spots.begin(), spots.end(), [](const Spot& a, const Spot& b) {
    return a.circle != b.circle ? a.circle < b.circle : a.point < b.point;
  });
}

}  // namespace

Spots gather_spots(const shop::JobFile& file, const shop::Part& part, shop::Stage stage) {
  Spots spots;
  for (const shop::MeasuringPlan& plan : file.plans) {
    if (plan.part_id == part.id && plan.stage == stage) spots.plan = &plan;
  }
  if (spots.plan != nullptr) {
    spots.points = static_cast<int>(std::clamp<std::int64_t>(spots.plan->points, 1, 72));
    spots.circles = std::max(1, static_cast<int>(spots.plan->circles_from_edge.size()));
  }
  const std::vector<int> ranks = ranks_from_edge(spots.plan);
  const std::vector<shop::ReadingState> states = shop::states_of(file.readings);
  for (std::size_t k = 0; k < file.readings.size(); ++k) {
    const shop::Reading& reading = file.readings[k];
    if (states[k] != shop::ReadingState::current || reading.part_id != part.id || reading.stage != stage) continue;
    add(spots, reading, ranks);
  }
  put_in_order(spots.thickness);
  put_in_order(spots.diameter);
  put_in_order(spots.runout_outboard);
  put_in_order(spots.runout_inboard);
  return spots;
}

const std::vector<Spot>& sizes_of(const Spots& spots, const shop::Part& part) {
  return shop::is_drum(part.kind) ? spots.diameter : spots.thickness;
}

}  // namespace brakewright::report
