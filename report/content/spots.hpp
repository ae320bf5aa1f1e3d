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

/// The trade's figures of a drum at one depth.
struct DepthOfDrum {
  double depth_mm = 0;  ///< from the open edge
  double mean_mm = 0;
  double out_of_round_mm = 0;
};

/// What a drum's diameters say at one stage.
struct DrumFigures {
  std::vector<DepthOfDrum> depths = {};  ///< from the open edge in
  double max_mm = 0;
  double max_angle_deg = 0;
  double max_depth_mm = 0;
  double mean_mm = 0;
  double out_of_round_mm = 0;  ///< of the depth where it is largest
  double taper_mm = 0;         ///< mean at the open edge less that at the closed one
  double barrel_mm = 0;        ///< largest mean between the edges less the larger of theirs
  std::optional<double> p_under_discard = {};
  std::optional<double> p_within_machine_to = {};
  std::optional<double> p_out_of_round_within = {};
  std::optional<double> p_taper_within = {};
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

/// As they were read; nothing below three diameters at a depth.
std::optional<DrumFigures> drum_figures_of(const Spots& spots);

}  // namespace brakewright::report
