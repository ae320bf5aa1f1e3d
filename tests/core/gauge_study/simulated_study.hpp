#pragma once

#include <cmath>
#include <string>

#include "core/gauge_study/gauge_study.hpp"
#include "core/uncertainty/random.hpp"

/// Gauge studies whose truth is known.
namespace brakewright::gauge_study {

struct Truth {
  std::size_t parts = 10, operators = 3, repeats = 3;
  double repeatability_sd = 1, operator_sd = 0, interaction_sd = 0, part_sd = 3;
  double mean = 0;
};

inline Input simulated(const Truth& truth, Random& random) {
  Input input;
  std::vector<double> part(truth.parts), who(truth.operators);
  random.fill_normal(part);
  random.fill_normal(who);
  for (std::size_t p = 0; p < truth.parts; ++p) {
    for (std::size_t o = 0; o < truth.operators; ++o) {
      const double cell =
          truth.mean + truth.part_sd * part[p] + truth.operator_sd * who[o] + truth.interaction_sd * random.normal();
      for (std::size_t k = 0; k < truth.repeats; ++k) {
        input.rows.push_back({.part = "part " + std::to_string(p + 1),
                              .operator_name = "person " + std::to_string(o + 1),
                              .value = cell + truth.repeatability_sd * random.normal()});
      }
    }
  }
  return input;
}

}  // namespace brakewright::gauge_study
