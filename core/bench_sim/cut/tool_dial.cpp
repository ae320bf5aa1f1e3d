#include "core/bench_sim/cut/tool_dial.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/bench_sim/cut/tool.hpp"
#include "core/want.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr double kMostMarks = 1e5;

}  // namespace

double screw_um(const GraduatedDial& dial, double marks) {
  const double turns = marks / dial.marks_per_turn;
  const double wobble = dial.wobble_um * std::sin(2 * std::numbers::pi * (turns - std::floor(turns)));
  // to a thousandth, so that the last digit of one machine's sine does not show
  return dial.um_per_mark * (1 + dial.scale_error) * marks + std::nearbyint(wobble * 1000) / 1000;
}

void turn_dial(const GraduatedDial& dial, DialState& state, double marks) {
  const double to = state.marks + marks;
  want(marks, -kMostMarks, kMostMarks, "marks", "must be from -100000 to 100000 marks");
  want(to, -kMostMarks, kMostMarks, "marks", "must leave the dial from -100000 to 100000 marks");
  const double screw = screw_um(dial, to);
  state.marks = to;
  state.carriage_um = std::clamp(state.carriage_um, screw, screw + dial.backlash_um);
}

void check(const GraduatedDial& dial, const std::string& path) {
  want(dial.um_per_mark, 0.1, 1000, path + "um_per_mark", "must be from 0.1 to 1000 um");
  want(dial.scale_error, -0.2, 0.2, path + "scale_error", "must be from -0.2 to 0.2");
  want(dial.wobble_um, 0, 100, path + "wobble_um", "must be from 0 to 100 um");
  want(dial.marks_per_turn, 1, 10000, path + "marks_per_turn", "must be from 1 to 10000");
  want(dial.backlash_um, 0, 1000, path + "backlash_um", "must be from 0 to 1000 um");
}

}  // namespace brakewright::bench_sim
