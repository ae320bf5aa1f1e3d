#pragma once

#include <span>

#include "core/gauge_study/gauge_study.hpp"

namespace brakewright::gauge_study {

enum class Factor { operators, instruments };

/// The operator's or the instrument's name; the latter must be there.
const std::string& level_of(const Row& row, Factor factor);

/// Readings as a full table of parts and levels of one factor, as (value - origin) / scale.
struct Crossed {
  std::vector<std::string> parts = {};   ///< in the order of their first row, as the levels
  std::vector<std::string> levels = {};  ///< operators or instruments
  std::size_t repeats = 0;
  std::vector<double> values = {};  ///< repeats of (part, level) side by side, level after level, part after part
  double origin = 0;
  double scale = 1;
  double resolution = 0;                ///< what one double of these values cannot tell, in the scaled unit
  std::vector<double> cell_means = {};  ///< level after level, part after part
  std::vector<double> part_means = {};
  std::vector<double> level_means = {};
  double grand_mean = 0;

  std::span<const double> cell(std::size_t part, std::size_t level) const {
    return std::span(values).subspan((part * levels.size() + level) * repeats, repeats);
  }
  double cell_mean(std::size_t part, std::size_t level) const { return cell_means[part * levels.size() + level]; }
};

/// @param rows  checked already: finite, names not empty
/// @throws InputError "missing" (`rows`) naming the first cell with too few readings, "too_many" (`rows[i].value`) the
///         first reading too many, both against the number that most cells have; "out_of_range" when values lie too far
///         apart
Crossed arrange(std::span<const Row> rows, Factor factor);

/// Squares in the scaled unit.
Model full_model(const Crossed& data);

/// Interaction pooled with repeatability, or never apart from it with one repeat; two levels or more.
Model pooled_model(const Crossed& data);

/// From the scaled unit to the readings' own.
/// @throws InputError "out_of_range" when squares overflow
Model unscaled(Model model, double scale);

}  // namespace brakewright::gauge_study
