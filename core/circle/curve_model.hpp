#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "core/circle/true_curve.hpp"

/// Inside of `TrueCurve`: the hypotheses of its model with their weights, given the readings.
namespace brakewright::curve_model {

/// One hypothesis of how smooth a pattern is, in coordinates that are standard normal before the readings.
struct Pattern {
  std::size_t orders = 0;      ///< highest order
  std::size_t dimensions = 0;  ///< coordinates: 2 * orders, times 1 + circles where there are several circles
  double shared = 1;           ///< factors of the circles' common pattern and of each one's departure from it
  double own = 0;
  double log_prior = 0;
  std::vector<double> order_weight;  ///< standard deviation of each order's two coefficients, for size 1
  std::size_t seen = 0;              ///< directions that the readings say something of
  std::vector<float> directions;     ///< seen * dimensions, orthonormal
  std::vector<double> strength;      ///< signal to noise of each seen direction, squared, for size 1
  std::vector<double> score;         ///< the readings along each, in units of their noise
  double unexplained = 0;            ///< what is left of the readings' sum of squares beside them
};

struct Component {
  std::size_t pattern = 0;
  double size_um = 0;
  double weight = 0;  ///< probability given the readings; all sum to 1
};

struct Circle {
  double mean = 0;                                    ///< weighted mean of its readings
  double level_sd = 0;                                ///< noise of that mean
  std::array<double, 2 * kDrawnOrders> mean_waves{};  ///< weighted means of cos t, sin t, cos 2t, ... at its points
  std::array<double, 2 * kDrawnOrders> mean_coefficients{};  ///< over the posterior
  double mean_level = 0;
};

struct Model {
  std::vector<Pattern> patterns;
  std::vector<Component> components;
  std::vector<Circle> circles;
};

Model weigh(const CurvePoints& points, const ReadingNoise& noise);

/// Turns standard draws into the curves of one circle; the level is left.
/// @param unit  one `Lanes` for each coordinate of the pattern
void put(const Pattern& pattern, double size_um, std::size_t circle, const Lanes* unit, CurveBlock& block);

/// Draws the level of each curve: what the readings' mean says of it, given the waves.
void put_level(const Circle& circle, Random& random, CurveBlock& block);

}  // namespace brakewright::curve_model
