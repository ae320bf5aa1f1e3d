#pragma once

#include <vector>

/// How a disc rings: as a flat ring of even thickness, and as a recording of a tap tells.
namespace brakewright::disc_modes {

/// How the ring is held at its inner edge; its outer edge is free.
enum class InnerEdge { clamped, free };

struct Plate {
  double outer_radius_mm = 0;  ///< 1 to 10 000
  double inner_radius_mm = 0;  ///< 0.05 to 0.95 of the outer one
  double thickness_mm = 0;     ///< 0.01 to 1000
  InnerEdge inner_edge = InnerEdge::clamped;
  double e_gpa = 110;                                           ///< 0.001 to 10 000; 110 is grey iron GJL-250
  double nu = 0.26;                                             ///< 0 to 0.49
  double density_kg_m3 = 7200;                                  ///< 1 to 100 000
  double u_e_gpa = 0, u_thickness_mm = 0, u_density_kg_m3 = 0;  ///< standard uncertainties, >= 0
  bool hat = false;                                             ///< its hat stiffens it: see kHatRaises
};

/// How much higher than the flat ring a disc rings with its hat on, lambda2 staying that of the ring. Common practice,
/// no source.
inline constexpr double kHatRaises = 1.25;

/// Grey iron GJL-250 as standard uncertainties of the figures above: Young's modulus 103 to 118 GPa, density 7150 to
/// 7250 kg/m3, evenly spread.
inline constexpr double kGreyIronUE_gpa = 4.33, kGreyIronUDensity_kg_m3 = 28.9;
inline constexpr const char* kGreyIronSource =
    "grey iron GJL-250: E 103 to 118 GPa (EN 1561 annex, from memory), nu 0.26, density 7150 to 7250 kg/m3";

/// What a plate's frequencies rest on.
inline constexpr const char* kPlateSource =
    "a thin flat ring of even thickness (Leissa, NASA SP-160); held by its hat and arbor a real rotor is softer and "
    "rings lower";

struct PlateMode {
  int diameters = 0;   ///< nodal diameters
  int circles = 0;     ///< nodal circles, the clamped edge not counted
  double lambda2 = 0;  ///< hz = lambda2/(2 pi a^2) sqrt(D/(rho h)), D = E h^3/(12 (1 - nu^2))
  double hz = 0;
  double u_hz = 0;  ///< of the material and the thickness only
};

/// The frequency parameter of an annular plate by the exact Bessel determinant.
/// @param b_over_a   0.05 to 0.95
/// @param nu         0 to 0.49
/// @param diameters  0 to 20
/// @param count      how many, lowest first; 1 to 6. Rigid motion of a free ring is not counted.
/// @throws InputError "out_of_range" or "not_finite" naming `inner_radius_mm`, `nu`, `max_diameters` or `max_circles`
/// Source: Leissa, Vibration of Plates, NASA SP-160, chapter 2; Vogel and Skinner, J. Appl. Mech. 32 (1965).
std::vector<double> frequency_parameters(double b_over_a, double nu, InnerEdge inner_edge, int diameters, int count);

/// Modes of the plate with up to so many nodal diameters and circles, lowest frequency first.
///
/// Thin plate: past a thickness of about a fifth of the ring's width the true frequencies lie lower. A real rotor's hat
/// and its arbor are softer than a clamp.
/// @param max_diameters  0 to 20
/// @param max_circles    0 to 4
/// @throws InputError "out_of_range" or "not_finite" naming the field
std::vector<PlateMode> plate_modes(const Plate& plate, int max_diameters, int max_circles);

/// Whether the plate is thin enough for the above: thickness at most a fifth of the ring's width.
bool is_thin(const Plate& plate);

}  // namespace brakewright::disc_modes
