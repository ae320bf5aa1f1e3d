#pragma once

#include <cstdint>

#include "core/gauge_study/gauge_study.hpp"

namespace brakewright::gauge_study {

/// A mean square that estimates a variance, >= 0, by its degrees of freedom, >= 1.
struct MeanSquare {
  double value = 0;
  int df = 1;
};

/// The expected mean squares of a crossed study in terms of its components.
struct Layout {
  std::size_t parts = 0;
  std::size_t levels = 0;
  std::size_t repeats = 0;
};

/// 95 % interval of a standard deviation from its own mean square, by chi-squared.
Interval sd_interval(const MeanSquare& mean_square);

struct Draws {
  std::size_t count = 0;
  std::uint64_t seed = 0;
};

/// Figures that the components make.
/// @param tolerance  whole width, in the components' unit
Figures figures_of(const Components& components, std::optional<double> tolerance);

/// Intervals of the figures from a table that is not pooled where it could be told apart.
/// @param table      `interaction` and `operators` as they could be told
/// @param tolerance  whole width, in the table's unit
Intervals intervals_of(const Table& table, const Layout& layout, std::optional<double> tolerance, const Draws& draws);

/// From the scaled unit to the readings' own: standard deviations by `scale`, percentages and counts not at all.
Figures unscaled(Figures figures, double scale);
Intervals unscaled(Intervals intervals, double scale);

}  // namespace brakewright::gauge_study
