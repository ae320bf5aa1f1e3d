#include "core/disc_modes/plate.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/bessel_prime.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <numbers>

#include "core/want.hpp"

namespace brakewright::disc_modes {
namespace {

using Column = Eigen::Vector4d;

constexpr int kMostDiameters = 20, kMostCircles = 4;

/// One of the four shapes along the radius, by its value and slope.
struct Shape {
  double value = 0, slope = 0;
  double curl = 0;  ///< its Laplacian over k^2 and itself: -1 for J and Y, 1 for I and K
};

Shape oscillating_j(int n, double x) {
  return {boost::math::cyl_bessel_j(n, x), boost::math::cyl_bessel_j_prime(n, x), -1};
}
Shape oscillating_y(int n, double x) {
  return {boost::math::cyl_neumann(n, x), boost::math::cyl_neumann_prime(n, x), -1};
}
Shape growing_i(int n, double x) { return {boost::math::cyl_bessel_i(n, x), boost::math::cyl_bessel_i_prime(n, x), 1}; }
Shape falling_k(int n, double x) { return {boost::math::cyl_bessel_k(n, x), boost::math::cyl_bessel_k_prime(n, x), 1}; }

/// What must vanish at an edge, in units of k: displacement and slope, or bending moment and Kirchhoff's shear.
Eigen::Vector2d at_edge(const Shape& shape, InnerEdge edge, int n, double x, double nu) {
  if (edge == InnerEdge::clamped) return {shape.value, shape.slope};
  const double n2 = n * n, laplacian = shape.curl * shape.value;
  const double round = shape.slope / x - n2 * shape.value / (x * x);
  return {laplacian - (1 - nu) * round,
          shape.curl * shape.slope - (1 - nu) * n2 / (x * x) * (shape.slope - shape.value / x)};
}

double determinant(double lambda, double b_over_a, double nu, InnerEdge inner, int n) {
  Eigen::Matrix4d conditions;
  Eigen::Index column = 0;
  for (const auto shape : {oscillating_j, oscillating_y, growing_i, falling_k}) {
    const double inside = lambda * b_over_a;
    Column both;
    both << at_edge(shape(n, inside), inner, n, inside, nu), at_edge(shape(n, lambda), InnerEdge::free, n, lambda, nu);
    conditions.col(column++) = both / both.cwiseAbs().maxCoeff();
  }
  return conditions.determinant();
}

void check(const Plate& plate) {
  want(plate.outer_radius_mm, 1, 1e4, "outer_radius_mm", "must be from 1 to 10000 mm");
  want(plate.inner_radius_mm / plate.outer_radius_mm, 0.05, 0.95, "inner_radius_mm",
       "must be from 0.05 to 0.95 of the outer radius");
  want(plate.thickness_mm, 0.01, 1000, "thickness_mm", "must be from 0.01 to 1000 mm");
  want(plate.e_gpa, 0.001, 1e4, "e_gpa", "must be from 0.001 to 10000 GPa");
  want(plate.nu, 0, 0.49, "nu", "must be from 0 to 0.49");
  want(plate.density_kg_m3, 1, 1e5, "density_kg_m3", "must be from 1 to 100000 kg/m3");
  want(plate.u_e_gpa, 0, plate.e_gpa, "u_e_gpa", "must be from 0 to the modulus itself");
  want(plate.u_thickness_mm, 0, plate.thickness_mm, "u_thickness_mm", "must be from 0 to the thickness itself");
  want(plate.u_density_kg_m3, 0, plate.density_kg_m3, "u_density_kg_m3", "must be from 0 to the density itself");
}

double hz_per_lambda2(const Plate& plate) {
  const double a = plate.outer_radius_mm / 1000, h = plate.thickness_mm / 1000;
  const double bending = plate.e_gpa * 1e9 * h * h * h / (12 * (1 - plate.nu * plate.nu));
  return std::sqrt(bending / (plate.density_kg_m3 * h)) / (2 * std::numbers::pi * a * a);
}

}  // namespace

std::vector<double> frequency_parameters(double b_over_a, double nu, InnerEdge inner_edge, int diameters, int count) {
  want(b_over_a, 0.05, 0.95, "inner_radius_mm", "must be from 0.05 to 0.95 of the outer radius");
  want(nu, 0, 0.49, "nu", "must be from 0 to 0.49");
  want(diameters, 0, kMostDiameters, "max_diameters", "must be from 0 to 20");
  want(count, 1, kMostCircles + 2, "max_circles", "must be from 0 to 4");
  const auto function = [&](double lambda) { return determinant(lambda, b_over_a, nu, inner_edge, diameters); };
  const bool rigid = inner_edge == InnerEdge::free && diameters < 2;
  const double step = 0.1 / (1 - b_over_a);
  std::vector<double> found;
  double from = rigid ? 1.2 : 0.5, at_from = function(from);
  while (static_cast<int>(found.size()) < count) {
    const double to = from + step, at_to = function(to);
    if ((at_from > 0) != (at_to > 0)) {
      std::uintmax_t most = 100;
      const auto [low, high] = boost::math::tools::toms748_solve(function, from, to, at_from, at_to,
                                                                 boost::math::tools::eps_tolerance<double>(50), most);
      found.push_back((low + high) * (low + high) / 4);
    }
    from = to;
    at_from = at_to;
  }
  return found;
}

std::vector<PlateMode> plate_modes(const Plate& plate, int max_diameters, int max_circles) {
  check(plate);
  want(max_diameters, 0, kMostDiameters, "max_diameters", "must be from 0 to 20");
  want(max_circles, 0, kMostCircles, "max_circles", "must be from 0 to 4");
  const double scale = hz_per_lambda2(plate) * (plate.hat ? kHatRaises : 1);
  const double u = std::hypot(plate.u_e_gpa / (2 * plate.e_gpa), plate.u_thickness_mm / plate.thickness_mm,
                              plate.u_density_kg_m3 / (2 * plate.density_kg_m3));
  std::vector<PlateMode> modes;
  for (int n = 0; n <= max_diameters; ++n) {
    const int first = plate.inner_edge == InnerEdge::free && n < 2 ? 1 : 0;
    if (max_circles < first) continue;
    int circles = first;
    for (const double lambda2 : frequency_parameters(plate.inner_radius_mm / plate.outer_radius_mm, plate.nu,
                                                     plate.inner_edge, n, max_circles - first + 1)) {
      modes.push_back({.diameters = n,
                       .circles = circles++,
                       .lambda2 = lambda2,
                       .hz = lambda2 * scale,
                       .u_hz = lambda2 * scale * u});
    }
  }
  std::sort(modes.begin(), modes.end(), [](const auto& a, const auto& b) { return a.hz < b.hz; });
  return modes;
}

bool is_thin(const Plate& plate) { return plate.thickness_mm <= (plate.outer_radius_mm - plate.inner_radius_mm) / 5; }

}  // namespace brakewright::disc_modes
