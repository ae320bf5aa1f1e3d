#include "core/roughness/gaussian.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <unsupported/Eigen/FFT>

namespace brakewright::roughness {
namespace {

constexpr double kReach = 1.5;  // in cut-offs

/// The weight at 0, 1, 2... spacings from the middle, on either side.
std::vector<double> weights_of(double spacing_um, double cutoff_um, std::size_t count) {
  const auto reach = static_cast<std::size_t>(std::ceil(kReach * cutoff_um / spacing_um));
  std::vector<double> weights(std::min(reach, count - 1) + 1);
  for (std::size_t k = 0; k < weights.size(); ++k) {
    weights[k] = gaussian_weight(static_cast<double>(k) * spacing_um * 1e-3, cutoff_um * 1e-3) * spacing_um * 1e-3;
  }
  return weights;
}

using Waves = std::vector<std::complex<double>>;

/// Sums over the neighbours: of weight times height, and of weight times distance times height.
struct WeightedSums {
  std::vector<double> heights, moments;
};

WeightedSums weighted_sums(std::span<const double> z, const std::vector<double>& weights) {
  std::size_t size = 1;
  while (size < z.size() + weights.size()) size *= 2;
  std::vector<double> padded(size, 0), even(size, 0), odd(size, 0);
  std::copy(z.begin(), z.end(), padded.begin());
  even[0] = weights[0];
  for (std::size_t k = 1; k < weights.size(); ++k) {
    const double moment = static_cast<double>(k) * weights[k];
    even[k] = even[size - k] = weights[k];
    odd[k] = -moment;
    odd[size - k] = moment;
  }
  Eigen::FFT<double> fft;
  fft.SetFlag(Eigen::FFT<double>::HalfSpectrum);
  Waves of_z, of_weights;
  fft.fwd(of_z, padded);
  const auto convolved = [&](const std::vector<double>& kernel) {
    fft.fwd(of_weights, kernel);
    for (std::size_t i = 0; i < of_z.size(); ++i) of_weights[i] *= of_z[i];
    std::vector<double> sums(size);
    fft.inv(sums, of_weights, static_cast<Eigen::Index>(size));
    sums.resize(z.size());
    return sums;
  };
  WeightedSums sums{.heights = convolved(even), .moments = {}};
  sums.moments = convolved(odd);
  return sums;
}

/// Sums of the weights that lie up to a distance to one side, the middle left out: of themselves, times the distance,
/// and times its square.
struct SideSums {
  double weight = 0, moment = 0, square = 0;
};

std::vector<SideSums> side_sums(const std::vector<double>& weights) {
  std::vector<SideSums> sums(weights.size());
  for (std::size_t k = 1; k < weights.size(); ++k) {
    const auto distance = static_cast<double>(k);
    sums[k] = {.weight = sums[k - 1].weight + weights[k],
               .moment = sums[k - 1].moment + distance * weights[k],
               .square = sums[k - 1].square + distance * distance * weights[k]};
  }
  return sums;
}

}  // namespace

double gaussian_weight(double distance_mm, double cutoff_mm) {
  const double width_mm = kAlpha * cutoff_mm, out = distance_mm / width_mm;
  return std::exp(-std::numbers::pi * out * out) / width_mm;
}

double mean_line_share(double wavelength_over_cutoff) {
  const double waves = kAlpha / wavelength_over_cutoff;
  return std::exp(-std::numbers::pi * waves * waves);
}

std::vector<double> mean_line(std::span<const double> z, double spacing_um, double cutoff_um) {
  const std::size_t count = z.size();
  if (count < 2) return {z.begin(), z.end()};
  // about the first height, so that a flat profile comes out as it is
  std::vector<double> line(z.begin(), z.end());
  for (double& height : line) height -= z.front();
  const auto weights = weights_of(spacing_um, cutoff_um, count);
  const auto sums = weighted_sums(line, weights);
  const auto sides = side_sums(weights);
  for (std::size_t i = 0; i < count; ++i) {
    const SideSums& left = sides[std::min(i, weights.size() - 1)];
    const SideSums& right = sides[std::min(count - 1 - i, weights.size() - 1)];
    const double weight = weights[0] + left.weight + right.weight, moment = right.moment - left.moment;
    const double square = left.square + right.square;
    line[i] = z.front() + (square * sums.heights[i] - moment * sums.moments[i]) / (weight * square - moment * moment);
  }
  return line;
}

}  // namespace brakewright::roughness
