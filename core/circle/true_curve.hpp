#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "core/circle/lanes.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright {

/// Readings of spots round one or more circles of a part.
struct CurvePoints {
  std::vector<double> angles_deg;
  /// One or more readings of each spot, as deviations from some value near their mean: draws are kept as float.
  std::vector<std::vector<double>> readings_um;
  std::vector<std::size_t> circles;  ///< which circle each spot is on, 0 to number of circles - 1
};

/// What one reading scatters by: standard deviation when the same spot is read again, and the step it is rounded to.
struct ReadingNoise {
  double repeatability_um = 0;
  double resolution_um = 0;
};

/// Highest orders of the curves that are drawn: more than the usual points see, so that what they are blind to counts.
inline constexpr std::size_t kDrawnOrders = 12;

/// A block of drawn curves: x(t) = level + sum cosine[k-1] cos k t + sine[k-1] sin k t, k from 1 to `orders`.
struct CurveBlock {
  Lanes level;
  std::size_t orders = 0;
  std::array<Lanes, kDrawnOrders> cosine;  ///< only the first `orders` are set
  std::array<Lanes, kDrawnOrders> sine;
};

/// Values of a block of curves at even angles from 0.
inline constexpr std::size_t kGrid = 64;
struct CurveGrid {
  std::size_t count = kGrid;        ///< kGrid, or half of it where no order over 4 is there
  std::array<Lanes, kGrid> values;  ///< values[i] at i * 360/count degrees
};

/// @param finest_orders  the grid suits curves up to this order, so that grids of several curves match; the block's
///                       own when that is more
CurveGrid on_grid(const CurveBlock& block, std::size_t finest_orders = 0);

/// Highest and lowest value of each curve, refined between the grid's angles by a parabola.
struct Extremes {
  Lanes highest;
  Lanes lowest;
};
Extremes extremes(const CurveGrid& grid);

/// What the closed curves behind noisy, rounded readings probably are.
///
/// Model: x(t) = level + sum over k = 1 to 12 of a_k cos kt + b_k sin kt; a_k and b_k normal with standard deviation
/// tau w_k, w_k falling as k^-p up to a highest order; p, highest order and tau (the whole pattern's size) unknown,
/// each on a grid, tau log-uniform from below the noise to far above it, with a share for "no pattern at all". So the
/// readings themselves say how large and how smooth the pattern is, the noise is not added twice, and orders that the
/// angles do not see count with what the seen ones make likely. Circles share a pattern, each with its own departure,
/// of a share that is on a grid too. The level of each circle is free.
/// Rounding: a reading is uncertain by resolution^2/12 besides; repeats average that only as far as the scatter
/// carries them over steps. Where the step is more than 2.2 repeatabilities, "no pattern at all" is weighed by the
/// exact probability of the rounded readings when that is the larger: a flat part whose thickness lies at the edge
/// between two steps shows both.
/// Its intervals hold the truth at the rate they say for patterns of one order or many, flat or large: the tests
/// print and bound the rates.
/// Source: normal linear model with conjugate prior (Bishop, Pattern Recognition and Machine Learning, 3.3-3.5, from
/// memory); rounding as in Widrow and Kollar, Quantization Noise (from memory); JCGM 101 for the use of draws.
class TrueCurve {
 public:
  /// Sizes of the lists must agree, with 2 or more points on each circle and finite values: the callers have checked
  /// their own input. Noise must not be 0 in both its parts.
  TrueCurve(const CurvePoints& points, const ReadingNoise& noise);
  ~TrueCurve();
  TrueCurve(TrueCurve&&) noexcept;
  TrueCurve& operator=(TrueCurve&&) noexcept;

  std::size_t circles() const;

  /// Values at these angles of the mean over the posterior, for one circle.
  std::vector<double> mean_at(std::span<const double> angles_deg, std::size_t circle) const;

 private:
  friend class CurveStream;
  struct State;
  std::unique_ptr<State> state_;
};

/// Draws of the curves, block after block in random order.
class CurveStream {
 public:
  /// @param draws  at least as many are offered, in whole blocks
  /// The stream refers to `curve` and `random`: they must outlive it.
  CurveStream(const TrueCurve& curve, std::size_t draws, Random& random);
  ~CurveStream();

  /// How many blocks the stream holds in all.
  std::size_t blocks() const;

  /// The next block for each circle; lane i of one circle belongs with lane i of the others. Not after the last one.
  std::span<const CurveBlock> next();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// Puts the lanes at the end of a list.
void append(std::vector<float>& values, const Lanes& lanes);

/// The middle and the ends of the 95 % interval of draws, which are put in another order on the way. A share's quantile
/// is the smallest draw with at least that share of the draws at or under it.
/// @param draws  40 or more
struct Middle95 {
  double low95;
  double median;
  double high95;
};
Middle95 middle95(std::vector<float>& draws);

}  // namespace brakewright
