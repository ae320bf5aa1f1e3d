#include "core/uncertainty/conformity.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// Probability that a standard normal variable exceeds z, to full relative precision in the upper tail.
double above(double z) { return std::erfc(z / std::numbers::sqrt2) / 2.0; }

/// Between low and high, taken in the tail in which the two lie, so that small probabilities keep their digits.
double between(double low, double high) {
  if (low > 0.0) return above(low) - above(high);
  if (high < 0.0) return above(-high) - above(-low);
  return 1.0 - above(high) - above(-low);
}

void check(double value, double u, const Limits& limits, double confidence) {
  const auto finite = [](double number, const char* field) {
    if (!std::isfinite(number)) throw InputError("not_finite", field, "a finite number is needed here");
  };
  finite(value, "value");
  finite(u, "u");
  if (u < 0.0) throw InputError("out_of_range", "u", "must be 0 or more");
  if (!limits.lower && !limits.upper) throw InputError("missing", "upper", "a lower or an upper limit is needed");
  if (limits.lower) finite(*limits.lower, "lower");
  if (limits.upper) finite(*limits.upper, "upper");
  if (limits.lower && limits.upper && *limits.lower > *limits.upper) {
    throw InputError("out_of_range", "upper", "must not be under the lower limit");
  }
  if (!(confidence >= 0.5 && confidence < 1.0)) {
    throw InputError("out_of_range", "confidence", "must be from 0.5 to less than 1");
  }
}

}  // namespace

std::string_view name_of(Conformity conformity) {
  switch (conformity) {
    case Conformity::within:
      return "within";
    case Conformity::outside:
      return "outside";
    case Conformity::cannot_tell:
      break;
  }
  return "cannot tell";
}

ConformityAnswer judge_conformity(double value, double u, const Limits& limits, double confidence) {
  check(value, u, limits, confidence);
  const double lower = limits.lower.value_or(-kInfinity);
  const double upper = limits.upper.value_or(kInfinity);
  ConformityAnswer answer;
  if (u == 0.0) {
    answer.p_conform = value >= lower && value <= upper ? 1.0 : 0.0;
    answer.p_best = 1.0;
  } else {
    answer.p_conform = between((lower - value) / u, (upper - value) / u);
    answer.p_best = 1.0 - 2.0 * above((upper - lower) / 2.0 / u);
  }
  answer.guard =
      u * boost::math::quantile(boost::math::complement(boost::math::normal_distribution<double>(), 1.0 - confidence));
  if (!std::isfinite(answer.guard)) throw InputError("out_of_range", "u", "is too large a number");
  if (answer.p_conform >= confidence) {
    answer.verdict = Conformity::within;
  } else if (answer.p_conform <= 1.0 - confidence) {
    answer.verdict = Conformity::outside;
  }
  return answer;
}

}  // namespace brakewright
