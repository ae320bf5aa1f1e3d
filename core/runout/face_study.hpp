#pragma once

#include <cstdint>
#include <memory>

#include "core/circle/true_curve.hpp"
#include "core/runout/runout.hpp"

namespace brakewright {

/// `reduce_runout` in steps, for a caller that needs each drawn curve beside its answer:
/// `next()` and `take(...)` in turn for each of `blocks()`, then `finish()`.
class FaceStudy {
 public:
  /// @param stream  of the seed
  /// @throws InputError as reduce_runout
  FaceStudy(const RunoutInput& input, std::uint64_t stream);
  ~FaceStudy();

  std::size_t blocks() const;

  /// Curves as deviations in um from the mean reading.
  const CurveBlock& next();

  void take(const Extremes& ends);

  Runout finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace brakewright
