#pragma once

#include <cstdint>
#include <memory>
#include <span>

namespace brakewright {

/// A stream of random draws that a seed fixes: the same draws on every machine and every standard library.
///
/// Streams of one seed are independent of each other, so that work shared out over streams gives the same answer in
/// any order. Copying is not offered, so that no draw is used twice unawares.
/// Source: mt19937_64 (Matsumoto and Nishimura 1998, 2000) seeded by splitmix64 of seed and stream; normal draws by the
/// ziggurat of Boost.Random, never by the std distributions, whose draws differ between libraries.
class Random {
 public:
  explicit Random(std::uint64_t seed, std::uint64_t stream = 0);
  ~Random();
  Random(Random&&) noexcept;
  Random& operator=(Random&&) noexcept;

  /// In [0, 1), on a grid of 2^-53.
  double uniform();

  /// Mean 0, standard deviation 1.
  double normal();

  /// Sum of squares of `dof` standard normal draws; dof > 0, need not be whole.
  double chi_squared(double dof);

  /// Whole number from 0 to count - 1, each equally likely; count >= 1.
  std::uint64_t below(std::uint64_t count);

  /// Many draws at once, the same as so many calls of `normal`.
  void fill_normal(std::span<double> draws);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace brakewright
