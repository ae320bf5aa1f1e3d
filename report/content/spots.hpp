#pragma once

#include <optional>
#include <vector>

#include "shop/entities.hpp"

/// The readings that count, gathered spot by spot.
namespace brakewright::report {

struct Spot {
  int circle = 0;  ///< counted from the outer edge inwards
  int point = 0;   ///< from 0
  double angle_deg = 0;
  double mean_mm = 0;  ///< of its repeats, as typed, uncorrected
  int repeats = 0;
};

struct Spots {
  const shop::MeasuringPlan* plan = nullptr;  ///< null: not planned
  int points = 8;
  int circles = 1;
  std::vector<Spot> thickness = {};        ///< circle by circle, by point
  std::vector<Spot> diameter = {};         ///< of a drum: depth by depth from the open edge, by point
  std::vector<Spot> runout_outboard = {};  ///< by point
  std::vector<Spot> runout_inboard = {};
  std::optional<double> scoring_outboard_mm = {};  ///< the deepest
  std::optional<double> scoring_inboard_mm = {};
  std::optional<double> roughness_outboard_mm = {};  ///< the roughest
  std::optional<double> roughness_inboard_mm = {};
  bool any = false;
};

/// Superseded and withdrawn readings are left out; two current ones at a spot are repeats.
Spots gather_spots(const shop::JobFile& file, const shop::Part& part, shop::Stage stage);

/// Thickness of a disc, diameter of a drum.
const std::vector<Spot>& sizes_of(const Spots& spots, const shop::Part& part);

}  // namespace brakewright::report
