#include "shop/practice/seen.hpp"

#include <cmath>
#include <numbers>

namespace brakewright::shop {
namespace {

/// A point of a picture, from the part's axis.
struct Spot {
  double x_mm = 0, y_mm = 0;
};

template <class F>
void for_each_point(practice::Picture& face, F&& work) {
  for (int ring = 0; ring < face.rings; ++ring) {
    const double radius_mm = face.inner_radius_mm + ring * face.ring_step_mm;
    for (int angle = 0; angle < face.angles; ++angle) {
      const double turn = 2 * std::numbers::pi * angle / face.angles;
      const auto at =
          static_cast<std::size_t>(ring) * static_cast<std::size_t>(face.angles) + static_cast<std::size_t>(angle);
      work(Spot{.x_mm = radius_mm * std::cos(turn), .y_mm = radius_mm * std::sin(turn)}, face.height_um[at]);
    }
  }
}

}  // namespace

practice::Picture as_seen(practice::Picture face) {
  // Evenly round, the mean and both tilts are orthogonal: each is fitted by itself.
  double points = 0, sum = 0, along_x = 0, along_y = 0, squares = 0;
  for_each_point(face, [&](const Spot& spot, float height_um) {
    ++points;
    sum += double{height_um};
    along_x += spot.x_mm * double{height_um};
    along_y += spot.y_mm * double{height_um};
    squares += (spot.x_mm * spot.x_mm + spot.y_mm * spot.y_mm) / 2;
  });
  if (points == 0) return face;
  for_each_point(face, [&](const Spot& spot, float& height_um) {
    const double plane_um = sum / points + (spot.x_mm * along_x + spot.y_mm * along_y) / squares;
    height_um = static_cast<float>(kSeenStepUm * std::round((double{height_um} - plane_um) / kSeenStepUm) + 0.0);
  });
  return face;
}

}  // namespace brakewright::shop
