#pragma once

#include <cstdint>
#include <vector>

#include "core/uncertainty/random.hpp"

namespace brakewright::shop::demo {

struct Wave {
  int order = 1;
  double amplitude_um = 0;
  double phase_deg = 0;
};

/// What a rotor really is, which nobody in the shop ever knows. Angles from its index mark.
struct Rotor {
  double thickness_mm = 22;          ///< mean, 10 mm in from the edge
  double taper_um_per_mm = 0;        ///< thickness lost for each mm further in
  std::vector<Wave> thickness = {};  ///< variation of thickness
  std::vector<Wave> outboard = {};   ///< outboard face against the part's own hub face
  double hub_um = 0;                 ///< amplitude that the car's hub adds to the runout
  double hub_phase_deg = 0;
  double cheek_outboard_mm = 6;  ///< vented: mean thickness from face to vent
  double cheek_inboard_mm = 6;
  double score_outboard_um = 0;
  double score_inboard_um = 0;
  double pit_deg = -1;  ///< a pit at this angle, when not negative
  double pit_um = 0;

  double thickness_at(double angle_deg, double from_edge_mm) const;
  double runout_um_at(double angle_deg) const;  ///< outboard face on the car, as marked
  double face_um_at(double angle_deg) const;    ///< outboard face against the part's own hub face
  double hub_um_at(double angle_deg) const;     ///< what the hub's tilt lifts there, at the indicator's circle
};

/// Faults to draw a rotor with.
struct Wear {
  double thickness_mm = 22;
  double variation_um = 15;  ///< usual peak to valley of thickness
  double runout_um = 40;     ///< usual peak to valley of the face on its own hub
  double scoring_um = 60;    ///< usual depth of grooves
};

Rotor draw_rotor(const Wear& wear, Random& random);

/// The same rotor after both tools went over it: faces parallel to each other, square to the spindle of the mounting.
struct Turned {
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double outboard_um_per_mark = 25.4;
  double inboard_um_per_mark = 25.4;
  double dial_sd_um = 5;
  double mount_um = 30;  ///< peak to valley of the wobble that this mounting adds
  double mount_phase_deg = 0;
};
Rotor cut_rotor(const Rotor& rotor, const Turned& turned, Random& random);

}  // namespace brakewright::shop::demo
