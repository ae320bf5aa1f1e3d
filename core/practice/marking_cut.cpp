#include <algorithm>
#include <cmath>

#include "core/bench_sim/cut/finish.hpp"
#include "core/practice/marking.hpp"

namespace brakewright::practice {
namespace {

constexpr double kGoodRa_um = 2;
constexpr double kClean = 0.98;

double share_down(double value, double full_to, double none_from) {
  return std::clamp((none_from - value) / (none_from - full_to), 0.0, 1.0);
}

/// Thinnest of the worn band, as it is.
double thinnest_now_mm(const BenchState& state) {
  constexpr int kEvery = 20;
  const auto& grid = state.part.grid;
  const auto& shape = state.truth.make.shape;
  double least = 1e300;
  for (int r = bench_sim::ring_near(grid, shape.band_inner_radius_mm + 0.5); r < grid.rings; r += kEvery / 2) {
    if (grid.radius_mm(r) > shape.band_outer_radius_mm - 0.5) break;
    for (int a = 0; a < grid.angles; a += kEvery) least = std::min(least, bench_sim::thickness_mm(state.part, r, a));
  }
  return least;
}

/// By how much more was taken on one face than it called for, where that left the wall there plainly the thinner one
/// of a vented part, and more so than it came; outboard positive.
double made_uneven_um(const BenchState& state, const Facts& facts) {
  if (state.truth.make.shape.vent_mm == 0) return 0;
  const auto depth_um = [&](Side side) { return band_change(state, facts.before, side).depth_um; };
  constexpr double kUneven_um = 200;
  const double needed_um = facts.least.outboard_cut_um - facts.least.inboard_cut_um;
  const double more_um = depth_um(Side::outboard) - depth_um(Side::inboard) - needed_um;
  const double came_mm = facts.before.shape.outboard_cheek_mm - facts.before.shape.inboard_cheek_mm;
  const double thinner_um = -1000 * wall_difference_mm(state, facts.before) * (more_um > 0 ? 1 : -1);
  const bool made = std::abs(more_um) > kUneven_um && thinner_um > kUneven_um && thinner_um > 1000 * std::abs(came_mm);
  return made ? more_um : 0;
}

/// Whether the part was washed after iron was last taken off.
bool was_washed(const BenchState& state) {
  bool washed = false;
  double removed_mm3 = 0;
  for (const Done& done : state.done) {
    if (done.removed_mm3 > removed_mm3) washed = false;
    removed_mm3 = std::max(removed_mm3, done.removed_mm3);
    if (std::holds_alternative<Wash>(done.act)) washed = true;
  }
  return washed;
}

/// What of the nuts, and of a runout that stays.
std::string left_so(const BenchState& state) {
  std::string text;
  if (!state.refitted->nuts_in_star) {
    text = " The nuts were not drawn in stages across the star with a torque wrench: that pulls the part out of true.";
  }
  if (state.refit_runout_um > state.truth.make.limits.runout_um) {
    text +=
        " Left so, a pad brushes the high side at every turn: thickness begins to vary with the miles, and the pedal "
        "pulsates again.";
  }
  return text;
}

MarkedPart not_cut(MarkedPart part, const Facts& facts) {
  part.why = "No iron was cut, though " + word_of(facts.wanted) + " was right.";
  return part;
}

}  // namespace

double cleaned_share(const BenchState& state, const Facts& facts) {
  double share = 0;
  for (Side side : bench_sim::kSides) share += band_change(state, facts.before, side).taken_share / 2;
  return share;
}

double worst_ra_um(const BenchState& state) {
  constexpr double kLook_mm = 4;
  const double middle = band_middle_mm(state.truth.make);
  double worst = 0;
  for (Side side : bench_sim::kSides) {
    for (int k = 0; k < 4; ++k) {
      worst = std::max(worst, bench_sim::radial_finish(state.part.grid, state.part.face(side), k * kAngles / 4,
                                                       middle - kLook_mm, middle + kLook_mm)
                                  .ra_um);
    }
  }
  return worst;
}

MarkedPart mark_metal(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "metal", .of = 10};
  if (!facts.cut) return not_cut(part, facts);
  constexpr double kFull_um = 100, kNone_um = 500;
  const double now = thinnest_now_mm(state), cleaned = cleaned_share(state, facts);
  const double over_um = std::max(0.0, (facts.least_final_mm - now) * 1000);
  part.points = part.of * share_down(over_um, kFull_um, kNone_um);
  part.why = in_words(now, 3) +
             " mm are left at the thinnest; the least cut that cleans both faces on a true mount, in "
             "whole marks and a light last pass, leaves " +
             in_words(facts.least_final_mm, 3) + " mm: " + in_words(over_um) + " um more were taken than needed.";
  if (cleaned < kClean) {
    part.points *= cleaned;
    part.why += " " + in_words(100 * (1 - cleaned)) + " % of the band was not reached.";
  }
  const double uneven_um = made_uneven_um(state, facts);
  if (uneven_um != 0) {
    part.points *= 0.8;
    part.why += std::string(" ") + (uneven_um > 0 ? "Outboard " : "Inboard ") + in_words(std::abs(uneven_um)) +
                " um more were taken than the faces called for: that wall of the vented part is now the thinner one.";
  }
  if (now < state.truth.make.limits.machine_to_mm) {
    part.points = 0;
    part.why += " It is under the machine-to limit of " + in_words(state.truth.make.limits.machine_to_mm, 2) +
                " mm. Each tool takes its own depth: both come off the thickness.";
  }
  return part;
}

MarkedPart mark_finish(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "finish", .of = 10};
  if (!facts.cut) return not_cut(part, facts);
  const double ra = worst_ra_um(state),
               chatter = std::max(sung_um(state, Side::outboard), sung_um(state, Side::inboard)),
               cleaned = cleaned_share(state, facts);
  double share = share_down(ra, kGoodRa_um * 1.05, 3 * kGoodRa_um);
  part.why = "Ra is " + in_words(ra, 1) + " um at the worst (wanted: " + in_words(kGoodRa_um) + ").";
  if (chatter > 0) {
    share *= 0.5;
    part.why += " The tool has sung: its marks are " + in_words(chatter, 1) + " um high.";
  }
  if (cleaned < kClean) {
    share *= cleaned;
    part.why += " " + in_words(100 * (1 - cleaned)) + " % of the band still shows the old face.";
  }
  if (!was_washed(state)) {
    share *= 0.8;
    part.why +=
        " It was handed over unwashed: the cut's dust goes into the pads. Wash with soap and water after the last cut, "
        "and dry it.";
  }
  part.points = part.of * share;
  return part;
}

MarkedPart mark_time(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "time", .of = 10};
  constexpr double kFull = 1.6, kNone = 4;
  const double times = state.clock_s() / facts.expert_s;
  part.points = part.of * share_down(times, kFull, kNone);
  part.why = "It took " + in_words(state.clock_s() / 60) + " minutes of the bench's time; an expert needs about " +
             in_words(facts.expert_s / 60) + ".";
  const bool unfinished = !state.decided || (facts.wants_cut && !facts.cut);
  if (unfinished) {
    part.points = 0;
    part.why += " The work was not done.";
  }
  return part;
}

MarkedPart mark_runout(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "runout", .of = 10};
  if (!state.refitted) {
    part.why = "The part was not put back on the car.";
    return part;
  }
  const double own = state.refit_runout_um, limit = state.truth.make.limits.runout_um;
  const auto best = std::min_element(facts.positions_um.begin(), facts.positions_um.end());
  double share = share_down(own, *best + 8, *best + 60);
  if (own > limit) share *= 0.5;
  if (!state.refitted->nuts_in_star) share *= 0.8;
  part.points = part.of * share;
  part.why = "Runout on the car is " + in_words(own) + " um";
  if (state.bench.hubbed()) {
    part.why += " (limit " + in_words(limit) + "); as the part is now, on clean and sound races it is " +
                in_words(*best) + " um, of which the bearings' play is " + in_words(state.truth.bearing_play_um) +
                ". A part with its hub has no other position.";
    if (!state.refitted->hub_cleaned) part.why += " The races were not cleaned and packed anew.";
    if (state.races_pitted()) part.why += " It runs on pitted races.";
    part.why += left_so(state);
    return part;
  }
  part.why += " in position " + std::to_string(state.refitted->position) + " (limit " + in_words(limit) +
              "); the best position is " + std::to_string(best - facts.positions_um.begin()) + " with " +
              in_words(*best) + " um on a clean hub.";
  if (!state.refitted->hub_cleaned) part.why += " The hub's face was not cleaned.";
  part.why += left_so(state);
  return part;
}

}  // namespace brakewright::practice
