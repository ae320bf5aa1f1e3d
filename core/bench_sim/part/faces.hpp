#pragma once

#include <cstddef>
#include <vector>

#include "core/mount/mount.hpp"

/// The practice bench: a part that does not exist, its mount, its cut and what is read on it.
namespace brakewright::bench_sim {

enum class Side { outboard, inboard };
inline constexpr Side kSides[] = {Side::outboard, Side::inboard};

/// Outward of a side as outboard counts it.
constexpr double sign_of(Side side) { return side == Side::outboard ? 1 : -1; }

/// Where the heights of a face are kept: rings of equal radial step, each of the same number of angles.
struct FaceGrid {
  int angles = 3600;  ///< round the part, 36 to 3600; the first at 0 degrees, in the direction the tool meets them
  int rings = 0;      ///< from the innermost outward, 2 to 4000
  double inner_radius_mm = 0;  ///< of the first ring, 1 to 1000
  double ring_step_mm = 0;     ///< from one ring to the next, 0.001 to 50

  std::size_t cells() const { return static_cast<std::size_t>(angles) * static_cast<std::size_t>(rings); }
  std::size_t at(int ring, int angle) const {
    return static_cast<std::size_t>(ring) * static_cast<std::size_t>(angles) + static_cast<std::size_t>(angle);
  }
  double radius_mm(int ring) const { return inner_radius_mm + ring * ring_step_mm; }
  double outer_radius_mm() const { return radius_mm(rings - 1); }
  double angle_deg(int angle) const { return angle * 360.0 / angles; }
};

/// One face as a polar height map in the part's own frame.
struct Face {
  std::vector<float> height_um =
      {};  ///< [grid.at(ring, angle)], outward (out of the iron) from the perfect face's plane
};

/// How a plane leans: it stands r (x cos phi + y sin phi) um outward of the outboard side at radius r mm, angle phi.
struct Tilt {
  double x_um_per_mm = 0;
  double y_um_per_mm = 0;
};

/// How the part sits on the spindle, as a rigid motion in the part's own frame and angles: a face that is a plane
/// square to the spindle is one of axial + tilt + height = constant.
struct Motion {
  double axial_um = 0;     ///< towards the outboard side
  Tilt tilt = {};          ///< raises the outboard face by what it lowers the inboard one
  double offset_x_mm = 0;  ///< of the bore's axis from the spindle's: along the part's 0 degrees
  double offset_y_mm = 0;  ///< and along its 90 degrees
};

/// What of the part is neither face.
struct PartShape {
  double band_inner_radius_mm = 0;  ///< swept by the pads
  double band_outer_radius_mm = 0;
  double hat_radius_mm = 0;  ///< outside of the hat: where the tool must not go
  double hat_height_mm = 0;
  double vent_mm = 0;            ///< between the cheeks; 0 for a solid part
  double outboard_cheek_mm = 0;  ///< from the perfect plane to the vent, or to the middle of a solid part's design
  double inboard_cheek_mm = 0;
  mount::PartSeat seat = {};
};

/// Limits that belong to this part, as its maker would print them.
struct PartLimits {
  double discard_mm = 0;
  double machine_to_mm = 0;
  double variation_um = 0;
  double runout_um = 0;
};

/// What the student is given and does not know. Its frame is that of the face that lies on the car's hub: a tilt of the
/// faces here is runout against the hub.
struct SimPart {
  FaceGrid grid = {};
  double nominal_thickness_mm = 0;  ///< between the two perfect planes, at 20 C
  Face outboard = {};
  Face inboard = {};
  std::vector<float> hardness = {};  ///< [grid.at(ring, angle)] factor on the cutting force; 1 is plain iron
  PartShape shape = {};
  PartLimits limits = {};
  Tilt seat_tilt = {};  ///< that a clean, true mount gives it: of the face that lies on the hub to the one clamped here

  const Face& face(Side side) const { return side == Side::outboard ? outboard : inboard; }
  Face& face(Side side) { return side == Side::outboard ? outboard : inboard; }
};

/// How far out the part bears on what carries it, mm: a seat that is off by a height there leans by height over twice
/// this. Of a hubless part the outer edge of the hat's flat. Of one with its hub the way from race to race, for a taper
/// gives way to what lies on one side of it by half its height. Source: plane geometry.
double seat_reach_mm(const PartShape& shape);

/// Refuses a grid that is not within its ranges, or of more than 8 million cells.
/// @throws InputError "out_of_range", field "grid.angles", "grid.rings", "grid.inner_radius_mm", "grid.ring_step_mm"
void check(const FaceGrid& grid);

/// Refuses a part whose grid is not good or whose maps are not of its size.
/// @throws InputError as above, or "sizes_differ", field "outboard", "inboard" or "hardness"
void check(const SimPart& part);

/// A height as it is kept: to the nearest 1/1024 um, so that the last digit of one machine's cosine does not show.
/// @param height_um  within +-16000, where a float still holds it exactly
float stored_um(double height_um);

/// The ring nearest to a radius.
/// @throws InputError "out_of_range", field "radius_mm", when the radius is more than half a step off the rings
int ring_near(const FaceGrid& grid, double radius_mm);

/// Height anywhere on a face, between the kept ones linear in radius and in angle.
/// @param radius_mm  on the rings, from the first to the last
/// @param angle_deg  finite; taken modulo 360
/// @throws InputError "out_of_range", field "radius_mm" or "angle_deg"
double height_um_at(const FaceGrid& grid, const Face& face, double radius_mm, double angle_deg);

/// How far a tilt stands outward of the outboard side.
double tilt_um(const Tilt& tilt, double radius_mm, double angle_deg);

/// How far a motion raises this side out of its plane square to the spindle.
double raise_um(const Motion& motion, Side side, double radius_mm, double angle_deg);

Tilt operator+(const Tilt& a, const Tilt& b);
Tilt operator-(const Tilt& tilt);

/// The same tilt named by angles that run `by_deg` ahead of those it was given in.
Tilt turned(const Tilt& tilt, double by_deg);

/// Of a tilt, twice the slope: peak to valley of a perfect face at that radius.
double runout_um_of(const Tilt& tilt, double radius_mm);

/// Where a tilt stands highest, [0, 360); 0 for no tilt.
double high_deg_of(const Tilt& tilt);

/// A tilt from what is read of it.
/// @param runout_um  peak to valley at `radius_mm` > 0
Tilt tilt_of(double runout_um, double radius_mm, double high_deg);

double thickness_mm(const SimPart& part, int ring, int angle);

/// Thickness of the iron at 20 C over the whole grid, [grid.at(ring, angle)]. Time and memory: grid.cells().
std::vector<double> thickness_map_mm(const SimPart& part);

/// Figures of one ring or of the whole part, as they truly are: what no reading can be better than.
struct ThicknessTruth {
  double mean_mm = 0;
  double min_mm = 0;
  double max_mm = 0;
  double variation_um = 0;  ///< highest less lowest
};

/// @throws InputError as ring_near
ThicknessTruth ring_thickness(const SimPart& part, double radius_mm);

/// Highest less lowest of one face at a radius: against the car's hub, as no mount is in it.
/// @throws InputError as ring_near
double face_runout_um(const SimPart& part, Side side, double radius_mm);

}  // namespace brakewright::bench_sim
