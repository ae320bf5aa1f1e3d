#include "core/verdict/wear.hpp"

#include <algorithm>
#include <cmath>

#include "core/circle/true_curve.hpp"

namespace brakewright {

WearRoom wear_room(const std::vector<float>& thickness_um, double discard_um, const WearRate& rate, Random& random) {
  const double log_sd = std::sqrt(std::log1p(rate.relative_u * rate.relative_u));
  std::vector<float> rooms;
  rooms.reserve(thickness_um.size());
  for (const float thickness : thickness_um) {
    const double left_mm = std::max(0.0, static_cast<double>(thickness) - discard_um) / 1000;
    rooms.push_back(static_cast<float>(left_mm / (rate.mm_per_unit * std::exp(log_sd * random.normal()))));
  }
  const Middle95 middle = middle95(rooms);
  return {.low95 = middle.low95, .median = middle.median, .high95 = middle.high95, .unit = rate.unit};
}

WearRoom wear_room(double over_discard_mm, double u_mm, const WearRate& rate, std::uint64_t seed) {
  constexpr std::size_t kDraws = 4000;
  Random random(seed);
  std::vector<float> over_um;
  for (std::size_t i = 0; i < kDraws; ++i) {
    over_um.push_back(static_cast<float>(1000 * (over_discard_mm + u_mm * random.normal())));
  }
  return wear_room(over_um, 0, rate, random);
}

}  // namespace brakewright
