#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/heat/slab.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright::heat {

/// Grey iron, when nothing better is known of the part.
inline constexpr Material kGreyIron{.k_w_mk = 48.5, .rho_kg_m3 = 7200, .c_j_kgk = 460};
/// The ends of what is printed for EN-GJL-250 at 20 to 200 C.
inline constexpr Material kGreyIronLow{.k_w_mk = 46, .rho_kg_m3 = 7150, .c_j_kgk = 450};
inline constexpr Material kGreyIronHigh{.k_w_mk = 50, .rho_kg_m3 = 7250, .c_j_kgk = 490};
inline constexpr const char* kGreyIronSource =
    "EN-GJL-250: 46 to 50 W/mK at 100 C, 7150 to 7250 kg/m3, 450 to 490 J/kgK in public tables; 48.5 and 460 from "
    "memory of EN 1561";

/// A disc's ring; a vented one is counted by its cheeks.
struct Disc {
  double outer_radius_mm = 0;
  double inner_radius_mm = 0;
  double thickness_mm = 0;
  std::optional<double> cheek_thickness_mm = {};  ///< of one cheek; a vented disc has two

  /// How deep the heat of one face goes: half of a solid disc, the whole cheek of a vented one.
  double depth_mm() const { return cheek_thickness_mm.value_or(thickness_mm / 2); }
};

/// Where the heat of one stop comes from.
struct Vehicle {
  double mass_kg = 0;
  double speed_km_per_h = 0;
  double end_speed_km_per_h = 0;
  double disc_share = 0;     ///< of the vehicle's energy that this one disc takes, 0 to 1
  double heat_share = 0.93;  ///< of that which goes into the disc, not into the pads
  double heat_share_low = 0.90;
  double heat_share_high = 0.95;
  Disc disc;
};
inline constexpr const char* kHeatShareSource =
    "0.90 to 0.95 of the heat goes into a grey iron disc: from memory, no source read";

/// Stops one after another with cooling between, as a band.
struct Repeats {
  int stops = 1;           ///< 1 to 200
  double interval_s = 60;  ///< from the start of one stop to that of the next, no less than the stop
  double start_c = 20;
  double ambient_c = 20;
  double cooling_low_w_m2k = 5;
  double cooling_high_w_m2k = 60;
  std::string cooling_basis =
      "5 W/m2K is a disc that stands (Topouris et al. 2020: 3 to 5); 60 W/m2K at town speeds from memory, no source "
      "read";
};

struct HeatInput {
  double t_stop_s = 0;
  std::optional<Material> material = {};  ///< grey iron with its spread when left out
  /// Either the flux with its depth, ...
  std::optional<double> q0_w_m2 = {};
  std::optional<double> half_thickness_mm = {};
  /// ... or the vehicle.
  std::optional<Vehicle> vehicle = {};
  /// The same stop on another thickness of the same disc: depths of heating, in mm.
  std::optional<double> before_depth_mm = {};
  std::optional<double> after_depth_mm = {};
  bool vented = false;  ///< heat leaves the cheek on both of its sides
  std::optional<Repeats> repeats = {};
};

struct Band {
  double low = 0, high = 0;
};

/// A point of the picture.
struct Moment {
  double t_s = 0;
  Rises rises;
};

/// One stop on one depth.
struct OneStop {
  double depth_mm = 0;
  double rise_surface_max_k = 0;
  double t_of_max_s = 0;
  double rise_surface_end_k = 0;
  double rise_midplane_end_k = 0;
  double rise_bulk_end_k = 0;
  double rise_semi_infinite_max_k = 0;
  std::optional<Band> rise_surface_max_band_k;  ///< over what is not known of material and shares
  std::vector<Moment> curve;                    ///< 41 moments from 0 to the stop's end
};

/// One of repeated stops, in degrees Celsius, between the ends of the cooling.
struct RepeatedStop {
  double t_s = 0;  ///< at which it starts
  Band start_c, surface_max_c, end_c;
};

struct RepeatedStops {
  std::vector<RepeatedStop> stops;
  std::optional<Band> settles_at_c;  ///< hottest surface after ever so many such stops; absent without time to cool
  std::string basis;
};

struct Heat {
  double energy_j = 0;  ///< of one stop into this disc; 0 without a vehicle
  double q0_w_m2 = 0;
  Material material;
  bool material_assumed = false;
  OneStop stop;
  std::optional<OneStop> before, after;
  std::optional<RepeatedStops> repeats, repeats_before, repeats_after;
  std::vector<Advice> advice;
};

/// How hot a disc gets in one stop, and in several: what the cut changes.
///
/// The flux falls in a straight line from q0 to nothing; no cooling during the stop; properties do not change with
/// temperature. From the vehicle: q0 is twice the mean flux, energy share over both swept faces. Between stops the disc
/// is one temperature and cools as exp(-h t/(rho c L)), a vented cheek on both of its sides; the band lies between the
/// ends of cooling and material. Not a promise: pads, air and the driver change it.
/// @throws InputError "out_of_range", "not_finite", "missing" naming `q0_w_m2`, `vehicle.disc.outer_radius_mm`,
/// `repeats.interval_s`... Source: methods 13; slab.hpp for the formulas.
Heat heat_of_stop(const HeatInput& input);

}  // namespace brakewright::heat
