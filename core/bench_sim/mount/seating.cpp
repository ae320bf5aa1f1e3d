#include "core/bench_sim/mount/seating.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/degree.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

struct Point {
  double x = 0, y = 0, height = 0;
};

/// Lines and points are told apart from their degenerate kind by this, against lengths of millimetres.
constexpr double kNone = 1e-9;

double dot(const Tilt& tilt, double x, double y) { return tilt.x_um_per_mm * x + tilt.y_um_per_mm * y; }

class Seat {
 public:
  Seat(std::vector<Point> points, double radius) : points_(std::move(points)), radius_(radius) {}

  Rest rest() {
    consider({});
    for (std::size_t i = 0; i < points_.size(); ++i) {
      on_one(points_[i]);
      for (std::size_t j = i + 1; j < points_.size(); ++j) {
        on_two(points_[i], points_[j]);
        for (std::size_t k = j + 1; k < points_.size(); ++k) on_three(points_[i], points_[j], points_[k]);
      }
    }
    return {.centre_um = lowest_, .tilt = best_};
  }

 private:
  static double size(const Tilt& tilt) { return std::hypot(tilt.x_um_per_mm, tilt.y_um_per_mm); }

  void consider(const Tilt& tilt) {
    if (!std::isfinite(tilt.x_um_per_mm) || !std::isfinite(tilt.y_um_per_mm)) return;
    double centre = radius_ * size(tilt);
    for (const Point& point : points_) centre = std::max(centre, point.height - dot(tilt, point.x, point.y));
    const double tie = 1e-9 * (1 + std::abs(lowest_));
    const bool lower = !any_ || centre < lowest_ - tie;
    if (!lower && !(centre < lowest_ + tie && size(tilt) < size(best_))) return;
    any_ = true;
    lowest_ = centre;
    best_ = tilt;
  }

  /// On the point and the edge across.
  void on_one(const Point& p) {
    const double reach = std::hypot(p.x, p.y);
    if (reach < kNone) return;
    const double slope = p.height / (radius_ + reach);
    consider({slope * p.x / reach, slope * p.y / reach});
  }

  /// On both points, and on the edge or as level as they let it.
  void on_two(const Point& p, const Point& q) {
    const double dx = p.x - q.x, dy = p.y - q.y, apart = std::hypot(dx, dy);
    if (apart < kNone) return;
    const double across = (p.height - q.height) / (apart * apart);
    const Tilt level{across * dx, across * dy};
    consider(level);
    // level + free * (ex, ey) stands on both points; on the edge where radius * |tilt| is its height at the centre.
    const double ex = -dy / apart, ey = dx / apart;
    const double height = p.height - dot(level, p.x, p.y), fall = ex * p.x + ey * p.y;
    const double a = radius_ * radius_ - fall * fall, b = height * fall;
    const double c = radius_ * radius_ * size(level) * size(level) - height * height;
    const double root = b * b - a * c;
    if (root < 0 || a < kNone) return;
    for (double free : {(-b + std::sqrt(root)) / a, (-b - std::sqrt(root)) / a}) {
      consider({level.x_um_per_mm + free * ex, level.y_um_per_mm + free * ey});
    }
  }

  void on_three(const Point& p, const Point& q, const Point& s) {
    const double ax = p.x - q.x, ay = p.y - q.y, ah = p.height - q.height;
    const double bx = p.x - s.x, by = p.y - s.y, bh = p.height - s.height;
    const double area = ax * by - ay * bx;
    if (std::abs(area) < kNone) return;
    consider({(ah * by - ay * bh) / area, (ax * bh - ah * bx) / area});
  }

  std::vector<Point> points_;
  double radius_;
  bool any_ = false;
  double lowest_ = 0;
  Tilt best_ = {};
};

}  // namespace

Rest rest_on(const std::vector<Bump>& bumps, double seat_radius_mm) {
  const auto want = [](bool good, const std::string& field, const char* message) {
    if (!good) throw InputError("out_of_range", field, message);
  };
  want(seat_radius_mm >= 1 && seat_radius_mm <= 500, "seat_radius_mm", "must be from 1 to 500");
  if (bumps.size() > 16) throw InputError("too_many", "bumps", "must be 16 at most");
  std::vector<Point> points;
  for (std::size_t i = 0; i < bumps.size(); ++i) {
    const Bump& bump = bumps[i];
    const std::string path = "bumps[" + std::to_string(i) + "].";
    want(bump.height_um >= 0 && bump.height_um <= 1000, path + "height_um", "must be from 0 to 1000");
    want(bump.radius_mm >= 0 && bump.radius_mm <= seat_radius_mm, path + "radius_mm", "must lie on the seat");
    want(std::isfinite(bump.angle_deg), path + "angle_deg", "must be a number");
    const double angle = bump.angle_deg * kRadPerDeg;
    points.push_back({bump.radius_mm * std::cos(angle), bump.radius_mm * std::sin(angle), bump.height_um});
  }
  return Seat(std::move(points), seat_radius_mm).rest();
}

}  // namespace brakewright::bench_sim
