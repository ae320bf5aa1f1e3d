#pragma once

#include <string>

#include "core/verdict/part_study.hpp"

namespace brakewright {

/// What one part's numbers come to.
struct Decision {
  Action action = Action::leave;
  double p = 0;
  std::string
      question;  ///< with `measure_again`: the probability that is not clear, or "limit:..." for a missing limit
  std::vector<Reason> reasons;  ///< the deciding one first
};

/// Decides on one part alone, by the order that `judge` names.
Decision decide(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers, double p_as_it_is);

/// Where a probability stands to the shop's confidence.
Standing standing_of(double p, double confidence);

}  // namespace brakewright
