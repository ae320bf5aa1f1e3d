#pragma once

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/practice/state.hpp"
#include "tests/core/practice/hands.hpp"

/// What a test does at the bench with its own hand, and what it reads in the mark.
namespace brakewright::practice {

inline const MarkedPart& marked(const Mark& mark, const std::string& code) {
  const auto part =
      std::find_if(mark.parts.begin(), mark.parts.end(), [&](const MarkedPart& one) { return one.code == code; });
  if (part == mark.parts.end()) throw std::runtime_error("not marked: " + code);
  return *part;
}

inline bool names(const Mark& mark, const std::string& code, const std::string& words) {
  return marked(mark, code).why.find(words) != std::string::npos;
}

inline double read_at(AtBench& at, double radius_mm, double angle_deg, const std::string& id = "micrometer_fine",
                      bool ratchet = true) {
  return *at.run.apply(Measure{id, radius_mm, angle_deg, ratchet}).shown_mm;
}

inline std::vector<double> read_round(AtBench& at, int points, const std::string& id = "micrometer_fine") {
  std::vector<double> read;
  for (int k = 0; k < points; ++k) read.push_back(read_at(at, at.middle_mm(), 360.0 * k / points, id));
  return read;
}

inline double range_of(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low;
}

/// Handed over as it is.
inline Mark left(AtBench& at) {
  at.run.apply(Decide{Action::leave});
  at.run.apply(Finish{});
  return at.run.mark();
}

inline bool sees(AtBench& at, const std::string& code) {
  const auto seen = at.run.apply(Look{}).seen;
  return std::find(seen.begin(), seen.end(), code) != seen.end();
}

inline Exercise with(std::uint64_t seed, std::vector<Fault> faults) {
  std::sort(faults.begin(), faults.end());
  return {.seed = seed, .difficulty = 1, .faults = faults};
}

inline Mark worked(const Exercise& exercise, const Habits& habits) {
  AtBench at(exercise);
  ExpertHand(at, habits).work();
  return at.run.mark();
}

/// Both faces cut by so much from first touch, in passes that an edge stands, and off the lathe.
struct CutHow {
  bool wipes = true;
  double feed_mm_per_rev = 0.2;
};
inline void cut_faces(AtBench& at, int outboard_marks, int inboard_marks, const CutHow& how = {}) {
  at.run.apply(Wear{});
  if (how.wipes) at.run.apply(Wipe{});
  at.run.apply(Decide{Action::cut});
  at.run.apply(MountPart{.pieces = at.stacks(1)[0].pieces});
  at.run.apply(Band{true});
  at.run.apply(Place{at.middle_mm()});
  at.run.apply(Spindle{150});
  for (Side side : bench_sim::kSides) {
    const auto touched = [&] {
      const View view = at.run.view();
      return (side == Side::outboard ? view.outboard : view.inboard).contact_share > 0;
    };
    const bool wanted = (side == Side::outboard ? outboard_marks : inboard_marks) > 0;
    for (int k = 0; wanted && k < 150 && !touched(); ++k) {
      at.run.apply(TurnDial{side, 1});
      at.run.apply(Turns{1});
    }
  }
  const double end_mm = at.run.bench().make.outer_radius_mm + 0.6;
  constexpr int kMost = 10;
  while (std::max(outboard_marks, inboard_marks) > 0) {
    at.run.apply(Place{at.run.bench().start_radius_mm});
    at.run.apply(TurnDial{Side::outboard, static_cast<double>(std::min(outboard_marks, kMost))});
    at.run.apply(TurnDial{Side::inboard, static_cast<double>(std::min(inboard_marks, kMost))});
    outboard_marks = std::max(0, outboard_marks - kMost);
    inboard_marks = std::max(0, inboard_marks - kMost);
    for (Side side : bench_sim::kSides) at.run.apply(LockTool{side, true});
    at.run.apply(Feed{how.feed_mm_per_rev});
    while (at.run.view().radius_mm < end_mm && !at.run.view().ended) {
      at.run.apply(Turns{std::clamp((end_mm - at.run.view().radius_mm) / how.feed_mm_per_rev, 1.0, 200.0)});
    }
    at.run.apply(Feed{0});
    for (Side side : bench_sim::kSides) at.run.apply(LockTool{side, false});
  }
  at.run.apply(Spindle{0});
  at.run.apply(Unmount{});
}

}  // namespace brakewright::practice
