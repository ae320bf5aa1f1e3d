#pragma once

#include <cstdint>
#include <cstring>
#include <sstream>
#include <string>
#include <vector>

#include "core/practice/run.hpp"

namespace brakewright::practice {

inline std::uint64_t hash_of(const std::vector<float>& values) {
  std::uint64_t hash = 14695981039346656037ULL;  // FNV-1a
  for (float value : values) {
    std::uint32_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    hash = (hash ^ bits) * 1099511628211ULL;
  }
  return hash;
}

inline void print(std::ostream& out, const ToolView& tool) {
  out << ' ' << tool.dial_marks << tool.locked << ' ' << tool.thrust_n << ' ' << tool.contact_share << ' '
      << tool.swing_um << tool.sings << tool.rubs;
}

/// What of a run does not depend on how its turns were cut into acts: faces, clock, tools.
inline std::string faces_print(const Run& run, int angles = 720, int rings = 128) {
  const View view = run.view();
  std::ostringstream out;
  out << std::hexfloat << view.clock_s << ' ' << view.radius_mm << ' ' << view.turns << ' ' << view.passes;
  for (bench_sim::Side side : bench_sim::kSides) out << ' ' << hash_of(run.picture(side, angles, rings).height_um);
  return out.str();
}

/// All that a student can see of a run, bit for bit.
inline std::string print_of(const Run& run) {
  const View view = run.view();
  std::ostringstream out;
  out << faces_print(run, 180, 32) << std::hexfloat << ' ' << view.acts << ' '
      << (view.decided ? static_cast<int>(*view.decided) : -1);
  for (const std::string& piece : view.mounted) out << ' ' << piece;
  out << ' ' << view.turn_deg << view.nut_tight << view.band << view.glasses << view.gloves << ' ' << view.rpm << ' '
      << view.feed_mm_per_rev << ' ' << view.part_temperature_c << view.refitted;
  print(out, view.outboard);
  print(out, view.inboard);
  if (view.ended) out << ' ' << view.ended->code << view.ended->unsafe;
  out << ' ' << hash_of(run.sound(1, 8000));
  return out.str();
}

inline std::string print_of(const Outcome& outcome) {
  std::ostringstream out;
  out << std::hexfloat << outcome.took_s << ' ' << outcome.shown_mm.value_or(-1) << ' '
      << outcome.hub_runout_um.value_or(-1);
  for (double value : outcome.angles_deg) out << ' ' << value;
  for (double value : outcome.shown_um) out << ' ' << value;
  for (const std::string& code : outcome.seen) out << ' ' << code;
  return out.str();
}

}  // namespace brakewright::practice
