#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "core/uncertainty/budget.hpp"

namespace brakewright {

/// An input quantity as a distribution; the others of `Distribution` are scaled to this mean and standard uncertainty.
struct Quantity {
  double mean = 0.0;
  double u = 0.0;  ///< standard uncertainty, >= 0
  Distribution distribution = Distribution::normal;
};

struct Interval {
  double low = 0.0;
  double high = 0.0;
};

struct Propagated {
  double mean = 0.0;
  double u = 0.0;           ///< standard deviation of the draws
  Interval symmetric = {};  ///< equal probability beyond either end
  Interval shortest = {};   ///< the shortest that holds the confidence
};

/// What a model makes of uncertain inputs, by drawing from them.
/// @param inputs      independent of each other
/// @param model       called once for each draw with as many numbers as there are inputs
/// @param draws       at least 100
/// @param confidence  between 0 and 1, ends excluded
/// @param seed        same seed, same answer on every machine
/// @throws InputError "out_of_range", or "not_finite" (field "model") when the model answers NaN or infinity
/// Source: JCGM 101:2008, 7.2 to 7.7, with intervals as in 7.7 from the sorted draws.
Propagated propagate(std::span<const Quantity> inputs, const std::function<double(std::span<const double>)>& model,
                     std::size_t draws, double confidence, std::uint64_t seed);

/// The two 7.7 intervals, mean and standard deviation of draws from anywhere. Same refusals.
Propagated summarise(std::vector<double> draws, double confidence);

}  // namespace brakewright
