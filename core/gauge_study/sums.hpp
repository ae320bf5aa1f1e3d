#pragma once

#include <cmath>
#include <span>

namespace brakewright::gauge_study {

/// Neumaier's compensated sum (1974).
class Sum {
 public:
  void add(double term) {
    const double next = sum_ + term;
    lost_ += std::abs(sum_) >= std::abs(term) ? (sum_ - next) + term : (term - next) + sum_;
    sum_ = next;
  }
  double value() const { return sum_ + lost_; }

 private:
  double sum_ = 0.0;
  double lost_ = 0.0;
};

/// In two passes; equal values have exactly their own mean.
/// @param values  one or more
inline double mean_of(std::span<const double> values) {
  Sum sum;
  for (const double value : values) sum.add(value);
  const double first = sum.value() / static_cast<double>(values.size());
  Sum rest;
  for (const double value : values) rest.add(value - first);
  return first + rest.value() / static_cast<double>(values.size());
}

/// The power of two by which deviations up to this are divided, so that their squares neither vanish nor overflow and
/// no digit is lost; 1 for 0.
inline double power_of_two_for(double largest_deviation) {
  return largest_deviation > 0.0 ? std::ldexp(1.0, std::ilogb(largest_deviation)) : 1.0;
}

}  // namespace brakewright::gauge_study
