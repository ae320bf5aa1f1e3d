#include <algorithm>
#include <cmath>

#include "core/practice/marking.hpp"

namespace brakewright::practice {
namespace {

constexpr int kWantedPoints = 8;

/// Readings before the decision, by the fine micrometer or another.
struct Taken {
  std::vector<double> fine_deg = {};   ///< near the band's middle
  std::vector<double> point_deg = {};  ///< there, by the point micrometer
  int elsewhere = 0;
  int by_caliper = 0;
  bool zeroed = true;  ///< all of them
  double warmest_c = kRoom_c;
  bool looked = false;  ///< before the first of them
  int in_all = 0;
};

Taken taken_of(const BenchState& state) {
  const auto& shape = state.truth.make.shape;
  const double near = (shape.band_outer_radius_mm - shape.band_inner_radius_mm) / 4;
  const double middle = band_middle_mm(state.truth.make);
  Taken taken;
  for (const Done& done : state.done) {
    if (done.removed_mm3 > 0) break;
    if (std::holds_alternative<Look>(done.act) && taken.in_all == 0) taken.looked = true;
    const auto* measure = std::get_if<Measure>(&done.act);
    if (!measure || !done.outcome.shown_mm) continue;
    ++taken.in_all;
    const double angle = std::fmod(std::fmod(measure->angle_deg, 360) + 360, 360);
    if (measure->instrument_id == "caliper_coarse") {
      ++taken.by_caliper;
      continue;
    }
    taken.zeroed = taken.zeroed && done.zeroed;
    taken.warmest_c = std::max(taken.warmest_c, done.temperature_c);
    if (std::abs(measure->radius_mm - middle) > near) {
      ++taken.elsewhere;
    } else {
      (measure->instrument_id == "micrometer_fine" ? taken.fine_deg : taken.point_deg).push_back(angle);
    }
  }
  return taken;
}

/// Distinct angles, and the largest gap between them.
std::pair<int, double> spread_of(std::vector<double> angles) {
  std::sort(angles.begin(), angles.end());
  std::vector<double> apart;
  for (double angle : angles) {
    if (apart.empty() || angle - apart.back() > 5) apart.push_back(angle);
  }
  if (apart.empty()) return {0, 360};
  double gap = apart.front() + 360 - apart.back();
  for (std::size_t i = 1; i < apart.size(); ++i) gap = std::max(gap, apart[i] - apart[i - 1]);
  return {static_cast<int>(apart.size()), gap};
}

}  // namespace

MarkedPart mark_measuring(const BenchState& state, const Facts&) {
  constexpr double kWidestGap_deg = 75, kCooled_c = 24;
  MarkedPart part{.code = "measuring", .of = 15};
  const Taken taken = taken_of(state);
  auto [fine, gap] = spread_of(taken.fine_deg);
  const auto [pointed, point_gap] = spread_of(taken.point_deg);
  const bool by_point = pointed > fine;
  if (by_point) gap = point_gap;
  const int count = std::max(fine, pointed);
  double spread = std::min(1.0, static_cast<double>(count) / kWantedPoints);
  if (gap > kWidestGap_deg) spread *= 0.7;
  if (by_point) spread *= 0.7;
  const bool any = taken.in_all > taken.by_caliper;
  const bool cooled = any && taken.warmest_c <= kCooled_c, zeroed = any && taken.zeroed;
  part.points = part.of * (0.55 * spread + (zeroed ? 0.15 : 0) + (cooled ? 0.15 : 0) + (taken.looked ? 0.15 : 0));
  part.why = counted(count, "angle") + " read near the middle of the band" +
             (by_point ? " with the point micrometer; the flat one repeats better" : " with the fine micrometer") +
             ", the widest gap " + in_words(gap) + " degrees; " + std::to_string(kWantedPoints) +
             " evenly round see what there is.";
  if (taken.by_caliper > 0) part.why += " A caliper that reads to 10 um cannot tell such a variation.";
  if (any && !zeroed) part.why += " The micrometer was not zeroed first.";
  if (any && !cooled) {
    part.why += " The part was read at " + in_words(taken.warmest_c) + " C: wait until it is at the room's 20 C.";
  }
  if (!taken.looked) part.why += " Look at the part before it is measured.";
  return part;
}

}  // namespace brakewright::practice
