#include "shop/school/share.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright::shop {

Share share_of(std::int64_t count, std::int64_t of) {
  constexpr double kZ95 = 1.959963984540054;
  Share share{.count = count, .of = of};
  if (of <= 0) return share;
  const auto n = static_cast<double>(of);
  const double p = static_cast<double>(count) / n;
  const double z2 = kZ95 * kZ95;
  const double middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const double half = kZ95 / (1 + z2 / n) * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n));
  share.low95 = count == 0 ? 0 : std::max(0.0, middle - half);
  share.high95 = count == of ? 1 : std::min(1.0, middle + half);
  return share;
}

bool stands_out(const Share& one, const Share& others) {
  if (one.of < kEnoughForShare || others.of < kEnoughForShare) return false;
  const double p = static_cast<double>(one.count) / static_cast<double>(one.of);
  const double q = static_cast<double>(others.count) / static_cast<double>(others.of);
  return p - q > std::hypot(p - one.low95, others.high95 - q);
}

}  // namespace brakewright::shop
