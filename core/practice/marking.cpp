#include <algorithm>

#include "core/practice/state.hpp"

namespace brakewright::practice {

Mark mark_of(const BenchState& state) {
  Mark mark;
  mark.safe = !state.ended->unsafe;
  mark.parts.push_back({.code = "safety",
                        .points = mark.safe ? 10.0 : 0.0,
                        .of = 10,
                        .why = mark.safe ? "Nothing unsafe was done." : state.ended->text});
  const auto readings = std::count_if(state.done.begin(), state.done.end(),
                                      [](const Done& done) { return std::holds_alternative<Measure>(done.act); });
  mark.parts.push_back({.code = "measuring",
                        .points = 15 * std::min(1.0, static_cast<double>(readings) / 8),
                        .of = 15,
                        .why = std::to_string(readings) + " readings of thickness were taken; 8 or more tell."});
  double points = 0, of = 0;
  for (const MarkedPart& part : mark.parts) {
    points += part.points;
    of += part.of;
  }
  mark.points = 100 * points / of;
  mark.weakest = std::min_element(mark.parts.begin(), mark.parts.end(), [](const auto& a, const auto& b) {
                   return a.points / a.of < b.points / b.of;
                 })->code;
  mark.next = state.exercise;
  mark.faults = state.truth.faults;
  return mark;
}

}  // namespace brakewright::practice
