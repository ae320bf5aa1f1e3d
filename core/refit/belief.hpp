#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "core/refit/refit.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::refit {

/// What was seen of the waves' coefficients, four of each order: hub cosine and sine, part cosine and sine.
struct Evidence {
  std::vector<int> orders;
  std::vector<double> information;  ///< inverse covariance that the readings alone give, row by row, 1/um^2
  std::vector<double> weighted;     ///< information times estimate, 1/um
  std::vector<bool> absent;         ///< coefficients that are 0: no such wave was named

  std::size_t size() const { return 4 * orders.size(); }
};

/// From harmonics with the uncertainty of each; those without are as good as exact.
Evidence evidence_of(const RefitInput& input);

/// From readings, orders 1 to 12.
Evidence evidence_of(const RefitReadings& readings, double noise_sd_um);

/// Coefficients given the evidence: normal with variance tau^2 k^-2p in each order before it, tau and p of hub and part
/// unknown on a grid.
/// Source: normal linear model with conjugate prior (Bishop, Pattern Recognition and Machine Learning, 3.3-3.5, from
/// memory).
class Belief {
 public:
  explicit Belief(const Evidence& evidence);
  ~Belief();

  std::vector<double> mean() const;

  /// Rows of coefficients, draw after draw.
  std::vector<float> draw(std::size_t draws, Random& random) const;

 private:
  void weigh();

  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace brakewright::refit
