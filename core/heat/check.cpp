#include "core/heat/check.hpp"

#include <string>

#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::heat {
namespace {

void check_vehicle(const Vehicle& vehicle) {
  want(vehicle.mass_kg, 1, 1e6, "vehicle.mass_kg", "from 1 to 1000000 kg");
  want(vehicle.speed_km_per_h, 1, 500, "vehicle.speed_km_per_h", "from 1 to 500 km/h");
  want(vehicle.end_speed_km_per_h, 0, vehicle.speed_km_per_h - 0.1, "vehicle.end_speed_km_per_h",
       "from 0 to less than the speed");
  want(vehicle.disc_share, 1e-3, 1, "vehicle.disc_share", "from 0.001 to 1");
  want(vehicle.heat_share, 0.1, 1, "vehicle.heat_share", "from 0.1 to 1");
  const Disc& disc = vehicle.disc;
  want(disc.outer_radius_mm, 10, 1000, "vehicle.disc.outer_radius_mm", "from 10 to 1000 mm");
  want(disc.inner_radius_mm, 1, disc.outer_radius_mm - 1, "vehicle.disc.inner_radius_mm",
       "from 1 mm to 1 mm less than the outer radius");
  want(disc.thickness_mm, 1, 200, "vehicle.disc.thickness_mm", "from 1 to 200 mm");
  if (disc.cheek_thickness_mm) {
    want(*disc.cheek_thickness_mm, 0.5, disc.thickness_mm / 2, "vehicle.disc.cheek_thickness_mm",
         "from 0.5 mm to half of the disc's thickness");
  }
}

void check_repeats(const Repeats& repeats, double t_stop_s) {
  want(repeats.stops, 1, 200, "repeats.stops", "from 1 to 200");
  want(repeats.interval_s, t_stop_s, 1e5, "repeats.interval_s", "from the stop's own time to 100000 s");
  want(repeats.start_c, -60, 1000, "repeats.start_c", "from -60 to 1000 C");
  want(repeats.ambient_c, -60, 60, "repeats.ambient_c", "from -60 to 60 C");
  want(repeats.cooling_low_w_m2k, 0.1, 1000, "repeats.cooling_low_w_m2k", "from 0.1 to 1000 W/m2K");
  want(repeats.cooling_high_w_m2k, repeats.cooling_low_w_m2k, 1000, "repeats.cooling_high_w_m2k",
       "from cooling_low_w_m2k to 1000 W/m2K");
}

}  // namespace

void check(const HeatInput& input) {
  want(input.t_stop_s, 0.05, 600, "t_stop_s", "from 0.05 to 600 s");
  if (input.material) {
    want(input.material->k_w_mk, 0.1, 2000, "k_w_mk", "from 0.1 to 2000 W/mK");
    want(input.material->rho_kg_m3, 10, 30000, "rho_kg_m3", "from 10 to 30000 kg/m3");
    want(input.material->c_j_kgk, 1, 20000, "c_j_kgk", "from 1 to 20000 J/kgK");
  }
  if (input.vehicle) {
    if (input.q0_w_m2) throw InputError("out_of_range", "q0_w_m2", "the vehicle or the flux, not both");
    check_vehicle(*input.vehicle);
  } else {
    if (!input.q0_w_m2)
      throw InputError("missing", "q0_w_m2", "the flux at the stop's start, or the vehicle, is needed");
    if (!input.half_thickness_mm) throw InputError("missing", "half_thickness_mm", "the depth of heating is needed");
    want(*input.q0_w_m2, 1, 1e9, "q0_w_m2", "from 1 to 1e9 W/m2");
    want(*input.half_thickness_mm, 0.2, 500, "half_thickness_mm", "from 0.2 to 500 mm");
  }
  if (input.before_depth_mm) want(*input.before_depth_mm, 0.2, 500, "before", "a depth of heating from 0.2 to 500 mm");
  if (input.after_depth_mm) want(*input.after_depth_mm, 0.2, 500, "after", "a depth of heating from 0.2 to 500 mm");
  if (input.repeats) check_repeats(*input.repeats, input.t_stop_s);
}

}  // namespace brakewright::heat
