#include "shop/demo/rotor.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brakewright::shop::demo {
namespace {

constexpr double kFirstCircleMm = 10;

double sum(const std::vector<Wave>& waves, double angle_deg) {
  double total = 0;
  for (const Wave& wave : waves) {
    total += wave.amplitude_um * std::cos((wave.order * angle_deg - wave.phase_deg) * std::numbers::pi / 180);
  }
  return total;
}

/// Waves of falling size with random phases, about so much peak to valley in all.
std::vector<Wave> draw_waves(double peak_to_valley_um, int orders, Random& random) {
  std::vector<Wave> waves;
  for (int order = 1; order <= orders; ++order) {
    const double size = peak_to_valley_um * 0.42 / std::pow(order, 1.3) * (0.6 + 0.8 * random.uniform());
    waves.push_back({order, size, 360 * random.uniform()});
  }
  return waves;
}

}  // namespace

double Rotor::thickness_at(double angle_deg, double from_edge_mm) const {
  double um = sum(thickness, angle_deg) - taper_um_per_mm * (from_edge_mm - kFirstCircleMm);
  if (pit_deg >= 0 && std::abs(angle_deg - pit_deg) < 5) um -= pit_um;
  return thickness_mm + um / 1000;
}

double Rotor::runout_um_at(double angle_deg) const { return sum(outboard, angle_deg) + hub_um_at(angle_deg); }

double Rotor::face_um_at(double angle_deg) const { return sum(outboard, angle_deg); }

double Rotor::hub_um_at(double angle_deg) const {
  return hub_um * std::cos((angle_deg - hub_phase_deg) * std::numbers::pi / 180);
}

Rotor draw_rotor(const Wear& wear, Random& random) {
  Rotor rotor;
  rotor.thickness_mm = wear.thickness_mm + 0.03 * random.normal();
  rotor.taper_um_per_mm = 0.4 * random.normal();
  rotor.thickness = draw_waves(wear.variation_um, 4, random);
  rotor.outboard = draw_waves(wear.runout_um, 3, random);
  rotor.hub_um = 3 + 8 * random.uniform();
  rotor.hub_phase_deg = 360 * random.uniform();
  rotor.cheek_outboard_mm = 0.3 * rotor.thickness_mm + 0.1 * random.normal();
  rotor.cheek_inboard_mm = 0.3 * rotor.thickness_mm + 0.1 * random.normal();
  rotor.score_outboard_um = wear.scoring_um * (0.5 + random.uniform());
  rotor.score_inboard_um = wear.scoring_um * (0.5 + random.uniform());
  return rotor;
}

Rotor cut_rotor(const Rotor& rotor, const Turned& turned, Random& random) {
  const double mount_phase = turned.mount_phase_deg;
  double outboard_most = -1e9;
  double inboard_most = -1e9;
  for (double angle = 0; angle < 360; angle += 1) {
    const double wobble = turned.mount_um / 2 * std::cos((angle - mount_phase) * std::numbers::pi / 180);
    const double outboard = sum(rotor.outboard, angle) + wobble;
    outboard_most = std::max(outboard_most, outboard);
    inboard_most = std::max(inboard_most, sum(rotor.thickness, angle) - outboard);
  }
  const auto removed_mm = [&](std::int64_t marks, double um_per_mark, double most_um) {
    const double dialled_um = static_cast<double>(marks) * um_per_mark + turned.dial_sd_um * random.normal();
    return marks > 0 ? (dialled_um - most_um) / 1000 : 0.0;
  };
  const double outboard_mm = removed_mm(turned.outboard_marks, turned.outboard_um_per_mark, outboard_most);
  const double inboard_mm = removed_mm(turned.inboard_marks, turned.inboard_um_per_mark, inboard_most);
  Rotor cut;
  cut.thickness_mm = rotor.thickness_mm - outboard_mm - inboard_mm;
  cut.cheek_outboard_mm = rotor.cheek_outboard_mm - outboard_mm;
  cut.cheek_inboard_mm = rotor.cheek_inboard_mm - inboard_mm;
  cut.taper_um_per_mm = 0.05 * random.normal();
  cut.thickness = draw_waves(2.5, 3, random);
  cut.outboard = {{1, turned.mount_um / 2, mount_phase}, {2, 1.5, 360 * random.uniform()}};
  cut.hub_um = rotor.hub_um;
  cut.hub_phase_deg = mount_phase + 180;  // refitted with its high spot opposite the hub's
  return cut;
}

}  // namespace brakewright::shop::demo
