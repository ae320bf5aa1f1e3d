#pragma once

#include <string>

namespace brakewright::bench_sim {

/// A graduated dial on the screw that sets a tool's depth.
struct GraduatedDial {
  double um_per_mark = 25.4;  ///< as engraved, 0.1 to 1000
  double scale_error = 0;     ///< of the screw's lead: 0.01 moves 1 % more than engraved; -0.2 to 0.2
  double wobble_um = 0;       ///< of the screw within one turn of the dial, half of peak to valley; 0 to 100
  int marks_per_turn = 100;   ///< 1 to 10 000
  double backlash_um = 0;     ///< play of screw and nut, 0 to 1000
};

/// Where a dial stands.
struct DialState {
  double marks = 0;        ///< in all, into the iron
  double carriage_um = 0;  ///< how far in the tool is; differs from the screw by 0 to the backlash
};

/// How far in the screw says the tool is, from the dial's zero.
double screw_um(const GraduatedDial& dial, double marks);

/// Turns the dial; positive goes into the iron. The tool follows at once going in, and after the backlash going out:
/// in between it stays.
/// @param marks  -1e5 to 1e5, as is the dial's new place
/// @throws InputError "out_of_range" or "not_finite" naming `marks`
/// Source: play as a hysteresis operator, Krasnosel'skii and Pokrovskii, Systems with Hysteresis.
void turn_dial(const GraduatedDial& dial, DialState& state, double marks);

/// @throws InputError "out_of_range" or "not_finite" naming the field, with `path` put before it
void check(const GraduatedDial& dial, const std::string& path);

}  // namespace brakewright::bench_sim
