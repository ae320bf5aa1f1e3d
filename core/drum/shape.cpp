#include "core/drum/shape.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright::drum {
namespace {

constexpr int kOrdersTold = 12;

DepthFigures figures_of(const CircleOfThickness& circle, double mirror_mm) {
  DepthFigures depth{.depth_mm = circle.radius_mm - kDepthOffset_mm,
                     .mean_mm = mirror_mm - circle.mean_mm,
                     .min_mm = mirror_mm - circle.max_mm,
                     .max_mm = mirror_mm - circle.min_mm,
                     .out_of_round_mm = circle.variation_mm,
                     .harmonics = circle.harmonics,
                     .blind_orders = {}};
  for (Harmonic& wave : depth.harmonics) {
    wave.order *= 2;
    wave.phase_deg = std::fmod(wave.phase_deg + 180, 360);
  }
  for (int order = 1; order <= kOrdersTold; ++order) {
    const auto& blind = circle.blind_orders;
    if (order % 2 == 1 || std::find(blind.begin(), blind.end(), order / 2) != blind.end()) {
      depth.blind_orders.push_back(order);
    }
  }
  return depth;
}

void put_along_the_depth(Shape& shape) {
  const double open = shape.depths.front().mean_mm, deep = shape.depths.back().mean_mm;
  shape.taper_mm = deep - open;
  shape.bell_mouth_mm = std::max(0.0, open - deep);
  for (std::size_t i = 1; i + 1 < shape.depths.size(); ++i) {
    shape.barrel_mm = std::max(shape.barrel_mm, shape.depths[i].mean_mm - std::max(open, deep));
  }
}

}  // namespace

Shape shape_of(const Thickness& mirrored, double mirror_mm) {
  Shape shape;
  for (const CircleOfThickness& circle : mirrored.circles) shape.depths.push_back(figures_of(circle, mirror_mm));
  shape.mean_mm = mirror_mm - mirrored.mean_mm;
  shape.max_mm = mirror_mm - mirrored.min_mm;
  shape.max_angle_deg = mirrored.min_angle_deg / 2;
  shape.max_depth_mm = mirrored.min_radius_mm - kDepthOffset_mm;
  shape.u_max_mm = mirrored.u_min_mm;
  shape.out_of_round_mm = mirrored.variation_mm;
  shape.true_out_of_round_mm = mirrored.true_variation_mm;
  put_along_the_depth(shape);
  return shape;
}

}  // namespace brakewright::drum
