#pragma once

namespace brakewright::heat {

/// What conducts and stores the heat.
struct Material {
  double k_w_mk = 0;     ///< conductivity
  double rho_kg_m3 = 0;  ///< density
  double c_j_kgk = 0;    ///< specific heat

  double diffusivity_m2_s() const { return k_w_mk / (rho_kg_m3 * c_j_kgk); }
};

/// A flux that starts at q0 and falls on a straight line to nothing at t_stop.
struct Stop {
  double q0_w_m2 = 0;
  double t_stop_s = 0;
};

/// Rises above the start, in kelvin, of a slab that is heated on its face and insulated at depth L.
struct Rises {
  double surface_k = 0;
  double midplane_k = 0;  ///< at depth L
  double bulk_k = 0;      ///< mean over the depth
};

/// The finite slab, from 0 to t_stop.
///
/// The step response is the Fourier series; the falling flux follows by Duhamel's integral, term by term in closed
/// form. At short times, where the heat has not reached depth L, the surface is that of the thick body to 1e-10.
/// @param depth_mm  L: half of a solid disc heated on both faces, or the cheek of a vented one
/// Source: Carslaw and Jaeger, Conduction of Heat in Solids, 3.8 (constant flux into a slab) with Duhamel's theorem;
/// Newcomb 1960 for brakes.
Rises slab_rises(const Material& material, double depth_mm, const Stop& stop, double t_s);

/// The thick (semi-infinite) body's surface: 2 q0 sqrt(t/(pi k rho c)) (1 - 2 t/(3 t_stop)).
/// Source: Carslaw and Jaeger, 2.9, with Duhamel's theorem.
double thick_rise_k(const Material& material, const Stop& stop, double t_s);

/// The thick body's highest, at half the stop: 0.5319 q0 sqrt(t_stop/(k rho c)).
double thick_rise_max_k(const Material& material, const Stop& stop);

struct Peak {
  double rise_k = 0;
  double t_s = 0;
};

/// The slab's surface at its hottest, to 1e-9 of the stop.
Peak slab_peak(const Material& material, double depth_mm, const Stop& stop);

}  // namespace brakewright::heat
