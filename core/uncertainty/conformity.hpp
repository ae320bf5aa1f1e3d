#pragma once

#include <optional>
#include <string_view>

namespace brakewright {

/// Limits on a quantity, ends allowed; at least one is there.
struct Limits {
  std::optional<double> lower = {};
  std::optional<double> upper = {};
};

enum class Conformity { within, outside, cannot_tell };

/// "within", "outside", "cannot tell".
std::string_view name_of(Conformity conformity);

struct ConformityAnswer {
  double p_conform = 0.0;  ///< probability that the true value lies within the limits
  double p_best = 0.0;     ///< the highest that any measured value could reach with this u and these limits
  double guard = 0.0;      ///< acceptance guard band on one limit, in the value's unit
  Conformity verdict = Conformity::cannot_tell;
};

/// Whether a measured value lies within limits, with the probability behind the word.
/// @param value       best estimate, already corrected
/// @param u           its standard uncertainty, >= 0, same unit; the true value is taken as normal about `value`
/// @param limits      same unit; lower <= upper
/// @param confidence  in [0.5, 1): "within" when p >= confidence, "outside" when p <= 1 - confidence
/// @throws InputError "missing", "not_finite", "out_of_range" with the field's name
/// Degenerate cases: u = 0 gives p of 0 or 1, a value on a limit being within. Where p_best is under `confidence` the
/// instrument is too coarse: no value can come out as within.
/// Source: JCGM 106:2012, 7.3 to 7.5 (conformance probability) and 8.3.2 (guard band z u; 1.6449 u at 0.95).
ConformityAnswer judge_conformity(double value, double u, const Limits& limits, double confidence);

}  // namespace brakewright
