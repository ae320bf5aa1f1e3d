#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace brakewright::shop {

/// The value below which this share of the others lies, one of them: of an even number the upper of two that qualify.
/// Nothing of no values. @param share  from 0 to 1; one half is the median
template <class T>
std::optional<T> quantile(std::vector<T> values, double share) {
  if (values.empty()) return std::nullopt;
  const auto place = static_cast<std::size_t>(share * static_cast<double>(values.size()));
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(std::min(place, values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

}  // namespace brakewright::shop
