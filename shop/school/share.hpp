#pragma once

#include <cstdint>

namespace brakewright::shop {

/// How many of so many, with the interval in which the true share lies.
struct Share {
  std::int64_t count = 0;
  std::int64_t of = 0;
  double low95 = 0;
  double high95 = 1;

  friend bool operator==(const Share&, const Share&) = default;
};

/// So few tell nothing about what they are a share of. Common practice, no source.
inline constexpr std::int64_t kEnoughForShare = 10;

/// @param count  0 to `of`. @param of  0 gives an interval from 0 to 1
/// Wilson's score interval: E. B. Wilson, Probable inference, the law of succession, and statistical inference, Journal
/// of the American Statistical Association 22 (1927) 209-212.
Share share_of(std::int64_t count, std::int64_t of);

/// Whether one share is beyond chance larger than that of all the others together: the 95 % interval of their
/// difference lies above nothing. Never where either rests on fewer than kEnoughForShare. R. G. Newcombe, Interval
/// estimation for the difference between independent proportions, Statistics in Medicine 17 (1998) 873-890, method 10.
bool stands_out(const Share& one, const Share& others);

}  // namespace brakewright::shop
