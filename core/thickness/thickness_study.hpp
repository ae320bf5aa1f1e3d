#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "core/circle/true_curve.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright {

/// `reduce_thickness` in steps, for a caller that needs each drawn curve beside its answer:
/// `next()` and `take(...)` in turn for each of `blocks()`, then `finish()`.
class ThicknessStudy {
 public:
  /// @param stream  of the seed, 0 to 99; parts that are judged together take different ones, and still share what one
  ///                micrometer is off by
  /// @throws InputError as reduce_thickness
  explicit ThicknessStudy(const ThicknessInput& input, std::uint64_t stream = 0);
  ~ThicknessStudy();

  std::size_t blocks() const;

  /// Curves of each circle, as deviations in um from `centre_mm`.
  std::span<const CurveBlock> next();

  /// What all readings are off by together, in each draw of the block that `next` gave: to be added to its curves.
  const Lanes& common_um() const;

  double centre_mm() const;

  /// @param ends  of each circle's curves in the block that `next` gave
  void take(std::span<const Extremes> ends);

  Thickness finish();

  /// What a spot of that circle (from the innermost, 0) most probably measures, at 20 C.
  double expected_mm(double angle_deg, std::size_t circle) const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace brakewright
