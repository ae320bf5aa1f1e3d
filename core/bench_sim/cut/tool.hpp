#pragma once

#include <string>

namespace brakewright::bench_sim {

/// An insert's round nose and the state of its edge.
struct RoundNose {
  double radius_mm = 0.8;     ///< 0.05 to 10
  double edge_radius_um = 8;  ///< of the new edge, 0 to 100; a ground one has 5 to 15, a honed one 20 to 50
  double wear_mm = 0;         ///< width of the worn land below the edge, 0 to 1; 0.3 is a worn insert
};

/// What the material does to a tool.
struct CutMaterial {
  double kc11_n_per_mm2 = 1160;  ///< 1 to 1e5; grey iron GJL-250
  double mc = 0.26;              ///< 0 to below 1
  double thrust_ratio = 1;       ///< force square to the edge over the force along the cut, 0 to 5
};

/// By how much a worn edge pushes harder than a new one: 40 % at a land of 0.3 mm, and in proportion.
/// Source: 30 to 50 % at 0.3 mm, from memory.
double wear_force_factor(const RoundNose& nose);

/// The thinnest chip that the edge takes; what is thinner it rubs over and leaves standing.
///
/// 0.3 of the edge's radius, which grows by a tenth of the worn land.
/// Source: 0.2 to 0.4 of the edge's radius, from memory; the growth with wear is our own assumption, no source.
double least_chip_um(const RoundNose& nose);

/// @throws InputError "out_of_range" or "not_finite" naming the field, with `path` put before it
void check(const RoundNose& nose, const std::string& path);
void check(const CutMaterial& material, const std::string& path);

}  // namespace brakewright::bench_sim
