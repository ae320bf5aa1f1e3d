#include "core/cutting/finish.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "core/cutting/accepted.hpp"
#include "core/input_error.hpp"

namespace brakewright::cutting {
namespace {

constexpr double kRealOverIdealLow = 1.2, kRealOverIdealHigh = 2.0;
constexpr double kGraphiteFloorLow_um = 0.4, kGraphiteFloorHigh_um = 1.0;

double arc_height_mm(double radius_mm, double turn) {
  const double half = std::sin(turn / 2);
  return 2 * radius_mm * half * half;
}

/// Mean height of the arc from its lowest point, over one feed. Integrated over the angle, where it is smooth.
double mean_height_mm(double radius_mm, double feed_mm, double end_turn) {
  const auto slice = [&](double turn) { return arc_height_mm(radius_mm, turn) * radius_mm * std::cos(turn); };
  return 2 / feed_mm * boost::math::quadrature::gauss<double, 30>::integrate(slice, 0.0, end_turn);
}

/// The area between the arc and its mean line is the same above and below: twice the lower one, over the feed.
double exact_ra_mm(double radius_mm, double feed_mm) {
  const double end_turn = std::asin(feed_mm / (2 * radius_mm));
  const double mean = mean_height_mm(radius_mm, feed_mm, end_turn);
  const double crossing_turn = 2 * std::asin(std::sqrt(mean / (2 * radius_mm)));
  const auto slice = [&](double turn) { return (mean - arc_height_mm(radius_mm, turn)) * radius_mm * std::cos(turn); };
  return 4 / feed_mm * boost::math::quadrature::gauss<double, 30>::integrate(slice, 0.0, crossing_turn);
}

}  // namespace

Finish finish(double feed_mm_per_rev, double nose_radius_mm, std::optional<double> h_min_um) {
  want_within(feed_mm_per_rev, kPositive, "feed_mm_per_rev");
  want_within(nose_radius_mm, kPositive, "nose_radius_mm");
  const double f = feed_mm_per_rev, r = nose_radius_mm;
  if (f > 2 * r) {
    throw InputError("out_of_range", "feed_mm_per_rev",
                     "must be at most twice the nose radius, or ridges are left standing");
  }
  Finish result;
  result.rt_um = f * f / (8 * r) * 1e3;
  result.ra_um = 4 * result.rt_um / (9 * std::sqrt(3.0));
  result.rt_exact_um = arc_height_mm(r, std::asin(f / (2 * r))) * 1e3;
  result.ra_exact_um = exact_ra_mm(r, f) * 1e3;
  result.ra_low_um = std::max(kRealOverIdealLow * result.ra_um, kGraphiteFloorLow_um);
  result.ra_high_um = std::max(kRealOverIdealHigh * result.ra_um, kGraphiteFloorHigh_um);
  if (h_min_um) {
    want_within(*h_min_um, kPositive, "h_min_um");
    const double h_min = *h_min_um * 1e-3;
    result.rt_brammertz_um = result.rt_um + *h_min_um / 2 * (1 + r * h_min / (f * f));
    result.feed_of_least_rt_mm_per_rev = std::sqrt(2 * r * h_min);
  }
  return result;
}

}  // namespace brakewright::cutting
