#pragma once

#include <string>

#include "core/verdict/part_study.hpp"

namespace brakewright {

/// The cheapest reading that would settle an open question of one part.
///
/// Tried in the order of their cost: repeats of the spots already marked, the missing trace on the arbor, the grooves'
/// depth, more spots, a finer micrometer. Each is judged by running the posterior again on the readings as they would
/// come if the part is as now best estimated (plug-in; not an average over what else they might show); the chance that
/// the reading settles it either way is then in closed form, from how far it narrows the interval.
/// @param question  as `Decision::question`
/// @param p_now     the probability that is not clear
NextMeasurement find_next_measurement(const VerdictInput& input, std::size_t part_index, const PartVerdict& numbers,
                                      const std::string& question, double p_now);

}  // namespace brakewright
