#include "core/bench_sim/cut/tool.hpp"

#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kMoreForceWorn = 0.4, kWornLand_mm = 0.3;
constexpr double kLeastChipOfEdge = 0.3;
constexpr double kEdgeGrowth_um_per_mm = 100;

}  // namespace

double wear_force_factor(const RoundNose& nose) { return 1 + kMoreForceWorn * nose.wear_mm / kWornLand_mm; }

double least_chip_um(const RoundNose& nose) {
  return kLeastChipOfEdge * (nose.edge_radius_um + kEdgeGrowth_um_per_mm * nose.wear_mm);
}

void check(const RoundNose& nose, const std::string& path) {
  want(nose.radius_mm, 0.05, 10, path + "radius_mm", "must be from 0.05 to 10 mm");
  want(nose.edge_radius_um, 0, 100, path + "edge_radius_um", "must be from 0 to 100 um");
  want(nose.wear_mm, 0, 1, path + "wear_mm", "must be from 0 to 1 mm");
}

void check(const CutMaterial& material, const std::string& path) {
  want(material.kc11_n_per_mm2, 1, 1e5, path + "kc11_n_per_mm2", "must be from 1 to 100000 N/mm2");
  want(material.mc, 0, 0.99, path + "mc", "must be from 0 to 0.99");
  want(material.thrust_ratio, 0, 5, path + "thrust_ratio", "must be from 0 to 5");
}

}  // namespace brakewright::bench_sim
