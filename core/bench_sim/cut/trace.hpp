#pragma once

#include <span>
#include <vector>

namespace brakewright::bench_sim {

/// What one tool felt at each angle of the last turn, [angle of the grid]; 0 where it has not been yet.
struct CutTrace {
  std::vector<float> thrust_n = {};     ///< into the disc
  std::vector<float> give_um = {};      ///< by how much the tool and the face have drawn apart: holder and disc
  std::vector<float> thickest_um = {};  ///< chip; 0 in the air
  std::vector<float> taken_um = {};     ///< sum of heights taken off the rings
};

/// A turn in short.
struct TurnReport {
  double mean_thrust_n = 0;
  double most_thrust_n = 0;
  double swing_um = 0;       ///< peak to valley of the give
  double thickest_um = 0;    ///< chip
  double contact_share = 0;  ///< of the angles
  double rub_share = 0;      ///< of the angles in contact, those at which the edge pressed and took nothing
  bool rubs = false;         ///< more than half of the contact
};

/// Of an empty trace all is nothing.
TurnReport report_of(const CutTrace& trace);

/// The last turn in the order of time, its oldest angle first.
std::vector<float> in_time_order(const std::vector<float>& by_angle, int next_angle);

}  // namespace brakewright::bench_sim
