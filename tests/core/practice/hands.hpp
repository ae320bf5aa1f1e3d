#pragma once

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <optional>

#include "core/practice/marking.hpp"
#include "tests/core/practice/at_bench.hpp"

namespace brakewright::practice {

/// Once-round share of a trace, in the part's frame.
inline std::complex<double> once_round(const Outcome& outcome) {
  std::complex<double> sum = 0;
  const std::size_t count = outcome.angles_deg.size() - 1;  // without the closing one
  for (std::size_t i = 0; i < count; ++i) {
    sum += outcome.shown_um[i] * std::polar(1.0, outcome.angles_deg[i] * std::numbers::pi / 180);
  }
  return 2.0 * sum / static_cast<double>(count);
}

/// What a hand may leave out.
struct Habits {
  bool zeroes = true;
  bool measures_all_round = true;
  bool renews_races = true;
  bool wipes = true;
  bool reads_the_mount = true;
  bool bands = true;
  bool changes_edges = true;
  bool ratchet = true;
  bool washes = true;
  bool nuts_in_star = true;
  int worse_stack = 0;  ///< so many down the list
};

/// A hand that does all as it is taught, from nothing but what the bench shows.
class ExpertHand {
 public:
  explicit ExpertHand(AtBench& at, const Habits& habits = {}) : at_(at), habits_(habits) {}

  void work() {
    look_and_measure();
    prove_the_mount();
    decide();
    if (chosen_ == Action::cut) cut();
    at_.run.apply(Unmount{});
    if (chosen_ == Action::cut && habits_.washes) at_.run.apply(Wash{});
    if (chosen_ != Action::replace) {
      at_.run.apply(Refit{.position = best_position(), .nuts_in_star = habits_.nuts_in_star});
    }
    at_.run.apply(Finish{});
  }

  Action chosen() const { return chosen_; }

 private:
  bool saw(const std::string& code) const { return std::find(seen_.begin(), seen_.end(), code) != seen_.end(); }

  void look_and_measure() {
    at_.run.apply(Wear{});
    seen_ = at_.run.apply(Look{}).seen;
    while (at_.run.view().part_temperature_c > 22) at_.run.apply(Wait{5});
    if (habits_.zeroes) at_.run.apply(ZeroMicrometer{"micrometer_fine"});
    for (int k = 0; k < 12; ++k) {
      const double angle = (habits_.measures_all_round ? 30.0 : 4.0) * k;
      known_.angles_deg.push_back(angle);
      known_.thickness_mm.push_back(read(angle));
    }
    read_odd_ones_again();
  }

  double read(double angle_deg) {
    return *at_.run.apply(Measure{"micrometer_fine", at_.middle_mm(), angle_deg, habits_.ratchet}).shown_mm;
  }

  /// What is far from the others is a thimble's turn or dirt until it is read again on a clean face.
  void read_odd_ones_again() {
    constexpr double kFar_mm = 0.03;
    const auto before = known_.thickness_mm;
    const std::size_t count = before.size();
    bool wiped = false;
    for (std::size_t k = 0; k < count; ++k) {
      const double beside = (before[(k + 1) % count] + before[(k + count - 1) % count]) / 2;
      if (std::abs(before[k] - beside) < kFar_mm) continue;
      if (!wiped && habits_.wipes) at_.run.apply(Wipe{});
      wiped = true;
      known_.thickness_mm[k] = read(known_.angles_deg[k]);
    }
  }

  std::complex<double> read_mount(const mount::Stack& stack, double turn_deg) {
    if (!at_.run.view().mounted.empty()) at_.run.apply(Unmount{});
    at_.run.apply(MountPart{.pieces = stack.pieces, .turn_deg = turn_deg});
    const Outcome read = at_.run.apply(ReadRunout{.radius_mm = at_.middle_mm(), .points = 24});
    known_.runout_angles_deg = read.angles_deg;
    known_.runout_um = read.shown_um;
    return once_round(read);
  }

  void prove_the_mount() {
    if (saw("pits_in_races") && habits_.renews_races) at_.run.apply(RenewRaces{});
    if (habits_.wipes) at_.run.apply(Wipe{});
    std::vector<mount::Stack> stacks;
    for (const mount::Stack& stack : at_.stacks(60)) {
      if (!saw("worn_thread:" + stack.pieces.back())) stacks.push_back(stack);
    }
    stacks.erase(stacks.begin(), stacks.begin() + habits_.worse_stack);
    if (!habits_.reads_the_mount) {
      at_.run.apply(MountPart{.pieces = stacks.front().pieces});
      return;
    }
    const auto first = read_mount(stacks.front(), 0), turned = read_mount(stacks.front(), 180);
    part_ = (first + turned) / 2.0;
    mount_ = turned - part_;
    constexpr double kTrue_um = 12;
    if (2 * std::abs(mount_) <= kTrue_um) return;
    // another clamp or taper at the shoulder
    const auto other = std::find_if(stacks.begin(), stacks.end(), [&](const mount::Stack& stack) {
      return stack.pieces.front() != stacks.front().pieces.front();
    });
    const auto a = read_mount(*other, 0), b = read_mount(*other, 180);
    part_ = (a + b) / 2.0;
    mount_ = b - part_;
  }

  /// Of a face over the worn band, by what the eye sees of it: highest at the middle, lowest anywhere, deepest groove.
  struct Seen {
    double middle_high_um = -1e9;
    double low_um = 1e9;
    double scoring_um = 0;
  };
  Seen look_at(Side side) const {
    const Picture picture = at_.run.picture(side, 72, 128);
    const auto& shape = at_.run.bench().make.shape;
    Seen seen;
    std::vector<double> means;
    for (int r = 0; r < picture.rings; ++r) {
      const double radius = picture.inner_radius_mm + r * picture.ring_step_mm;
      if (radius < shape.band_inner_radius_mm || radius > shape.band_outer_radius_mm) continue;
      double mean = 0;
      for (int a = 0; a < picture.angles; ++a) {
        const double height = static_cast<double>(picture.height_um[static_cast<std::size_t>(r * picture.angles + a)]);
        mean += height / picture.angles;
        seen.low_um = std::min(seen.low_um, height);
        if (std::abs(radius - at_.middle_mm()) < 0.6) seen.middle_high_um = std::max(seen.middle_high_um, height);
      }
      means.push_back(mean);
    }
    std::vector<double> sorted = means;
    std::sort(sorted.begin(), sorted.end());
    seen.scoring_um = std::max(0.0, sorted[sorted.size() / 2] - sorted.front());
    return seen;
  }

  void decide() {
    for (Side side : bench_sim::kSides) {
      known_.scoring_um[side == Side::outboard ? 0 : 1] = look_at(side).scoring_um > 25 ? look_at(side).scoring_um : 0;
    }
    known_.temperature_c = at_.run.view().part_temperature_c;
    chosen_ = known_.runout_um.empty() ? Action::cut : chances_of(at_.run.bench(), known_).best();
    at_.run.apply(Decide{chosen_});
  }

  const ToolView& tool(const View& view, Side side) const {
    return side == Side::outboard ? view.outboard : view.inboard;
  }

  void touch_off(Side side) {
    for (int k = 0; k < 150; ++k) {
      at_.run.apply(TurnDial{side, 1});
      at_.run.apply(Turns{1});
      if (tool(at_.run.view(), side).contact_share > 0) return;
    }
  }

  void pass(int outboard, int inboard, double feed_mm_per_rev) {
    at_.run.apply(Place{at_.run.bench().start_radius_mm});
    for (Side side : bench_sim::kSides) {
      at_.run.apply(LockTool{side, false});
      at_.run.apply(TurnDial{side, static_cast<double>(side == Side::outboard ? outboard : inboard)});
      at_.run.apply(LockTool{side, true});
    }
    at_.run.apply(Feed{feed_mm_per_rev});
    const double end = at_.run.bench().make.outer_radius_mm + 0.6;
    while (at_.run.view().radius_mm < end) {
      const double left = (end - at_.run.view().radius_mm) / feed_mm_per_rev;
      at_.run.apply(Turns{std::clamp(left + 1, 1.0, 200.0)});
    }
    at_.run.apply(Feed{0});
  }

  void cut() {
    const Bench& bench = at_.run.bench();
    if (saw("edge_worn") && habits_.changes_edges) at_.run.apply(ChangeEdge{});
    if (!at_.run.view().band && habits_.bands) at_.run.apply(Band{true});
    double rpm = 0;
    for (double speed : bench.lathe.speeds_rpm) {
      const double m_per_min = 2 * std::numbers::pi * bench.make.outer_radius_mm / 1000 * speed;
      if (m_per_min <= bench.lathe.max_speed_m_per_min) rpm = std::max(rpm, speed);
    }
    int marks[2] = {};
    constexpr double kMargin_um = 12;
    for (Side side : bench_sim::kSides) {
      const Seen seen = look_at(side);
      const double deep = seen.middle_high_um - seen.low_um + kMargin_um;
      marks[side == Side::outboard ? 0 : 1] = static_cast<int>(std::ceil(deep / bench.lathe.dial_um_per_mark));
    }
    at_.run.apply(Place{at_.middle_mm()});
    at_.run.apply(Spindle{rpm});
    for (Side side : bench_sim::kSides) touch_off(side);
    constexpr double kRough_um = 250;
    const int most = static_cast<int>(kRough_um / bench.lathe.dial_um_per_mark), light = most / 2;
    const bool sharp_nose = bench.lathe.nose_radius_mm < 0.6;
    while (std::max(marks[0], marks[1]) > light) {
      int now[2] = {};
      for (int k = 0; k < 2; ++k) now[k] = std::clamp(marks[k] - 2, 0, most);
      pass(now[0], now[1], 0.2);
      for (int k = 0; k < 2; ++k) marks[k] -= now[k];
    }
    pass(marks[0], marks[1], sharp_nose ? 0.1 : 0.2);
    at_.run.apply(Spindle{0});
    part_ = -mount_;
  }

  int best_position() const {
    const Bench& bench = at_.run.bench();
    const auto hub = std::polar(bench.hub_runout_um / 2, bench.hub_high_deg * std::numbers::pi / 180);
    int best = 0;
    double least = std::numeric_limits<double>::max();
    for (std::size_t k = 0; k < bench.stud_positions_deg.size(); ++k) {
      const double turn = bench.stud_positions_deg[k] * std::numbers::pi / 180;
      const double sum = std::abs(hub + part_ * std::polar(1.0, turn));
      if (sum < least) best = static_cast<int>(k);
      least = std::min(least, sum);
    }
    return best;
  }

  AtBench& at_;
  Habits habits_;
  std::vector<std::string> seen_ = {};
  PartInformation known_ = {};
  std::complex<double> part_ = 0, mount_ = 0;
  Action chosen_ = Action::leave;
};

/// A hand that hurts nobody and takes care of nothing.
inline void work_carelessly(AtBench& at) {
  Run& run = at.run;
  run.apply(Wear{});
  for (double angle : {0.0, 10.0}) run.apply(Measure{"caliper_coarse", at.middle_mm(), angle});
  run.apply(Decide{Action::cut});
  run.apply(MountPart{.pieces = at.stacks(60).back().pieces});
  run.apply(Band{false});
  run.apply(Spindle{200});
  for (Side side : bench_sim::kSides) run.apply(TurnDial{side, 26});
  run.apply(Feed{0.4});
  for (int k = 0; k < 4 && !run.view().ended; ++k) run.apply(Turns{50});
  if (run.view().ended) return;
  run.apply(Feed{0});
  run.apply(Spindle{0});
  run.apply(Unmount{});
  run.apply(Refit{.position = 0, .hub_cleaned = false, .nuts_in_star = false});
  run.apply(Finish{});
}

}  // namespace brakewright::practice
