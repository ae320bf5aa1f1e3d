#include <algorithm>
#include <cmath>

#include "core/practice/marking.hpp"

namespace brakewright::practice {
namespace {

const mount::Piece& piece_named(const Bench& bench, const std::string& id) {
  return *std::find_if(bench.pieces.begin(), bench.pieces.end(),
                       [&](const mount::Piece& piece) { return piece.id == id; });
}

/// What a stack is ranked by, but for ids and recorded runouts, which say little.
struct Quality {
  bool damping = false;
  std::size_t pieces = 0;
  double ring_mm = 0;
  double off_middle = 0;
};

Quality quality_of(const BenchState& state, const std::vector<std::string>& ids) {
  Quality quality{.pieces = ids.size(), .ring_mm = 1e9};
  const mount::PartSeat& seat = state.truth.make.shape.seat;
  double race_mm = seat.inner_race_mm;  // of the taper that comes next
  const auto off_middle = [](const mount::Piece& piece, double across_mm) {
    return std::abs((across_mm - piece.small_mm) / (piece.large_mm - piece.small_mm) - 0.5);
  };
  for (const std::string& id : ids) {
    const mount::Piece& piece = piece_named(state.bench, id);
    if (piece.kind == mount::PieceKind::spacer && piece.damping) quality.damping = true;
    if (piece.kind == mount::PieceKind::clamp) quality.ring_mm = std::min(quality.ring_mm, piece.ring_outer_mm);
    if (piece.kind == mount::PieceKind::cone) quality.off_middle = off_middle(piece, seat.bore_mm);
    if (piece.kind == mount::PieceKind::taper) {
      quality.off_middle += off_middle(piece, race_mm);
      race_mm = seat.outer_race_mm;
    }
  }
  return quality;
}

/// Not mounted, where it should have been.
MarkedPart not_mounted(MarkedPart part) {
  part.why = "The part was never put on the lathe.";
  return part;
}

bool was_read(const BenchState& state, std::uint64_t number) {
  double removed = 0;
  for (const Done& done : state.done) {
    const bool read = std::holds_alternative<ReadRunout>(done.act) && !done.outcome.shown_um.empty();
    if (read && done.mounting == number) return true;
    if (done.mounting == number && done.removed_mm3 > removed + 400) return false;  // cut before it was read
    if (done.mounting != number) removed = done.removed_mm3;
  }
  return false;
}

/// Whether a tool was brought to first touch in that mounting, so that it left a mark on one side of the face.
bool was_scratched(const BenchState& state, std::uint64_t number) {
  constexpr double kNotAllRound = 0.8;
  return std::any_of(state.done.begin(), state.done.end(), [&](const Done& done) {
    return done.mounting == number && done.touch_share > 0 && done.touch_share < kNotAllRound;
  });
}

bool half_a_turn_apart(const MountingRecord& a, const MountingRecord& b) {
  return std::abs(std::abs(std::remainder(a.turn_deg - b.turn_deg, 360)) - 180) <= 40;
}

/// Two scratches with the part turned between them say as much as an indicator.
bool proved_by_scratches(const BenchState& state, std::size_t at) {
  if (!was_scratched(state, at + 1)) return false;
  for (std::size_t k = 0; k < at; ++k) {
    if (half_a_turn_apart(state.mounts[k], state.mounts[at]) && was_scratched(state, k + 1)) return true;
  }
  return false;
}

}  // namespace

double mount_runout_um(const BenchState& state, const MountingRecord& mount) {
  const bench_sim::Tilt own = state.part.seat_tilt;
  return bench_sim::runout_um_of(mount.motion.tilt + -own, band_middle_mm(state.truth.make));
}

MarkedPart mark_stack(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "stack", .of = 10};
  if (state.mounts.empty()) return not_mounted(part);
  const auto& mount = state.mounts[facts.cut_mount];
  if (!mount.keeps_rules) {
    std::vector<mount::Piece> taken;
    for (const std::string& id : mount.pieces) taken.push_back(piece_named(state.bench, id));
    const auto own = mount::check_stack(state.bench.lathe.arbor, state.truth.make.shape.seat, taken);
    part.why =
        "The stack does not fit: " + (own.broken.empty() ? std::string("a rule is broken") : own.broken[0].text) + ".";
    return part;
  }
  constexpr std::size_t kListed = 60;
  const auto stacks =
      mount::find_stacks(state.bench.lathe.arbor, state.truth.make.shape.seat, state.bench.pieces, kListed).stacks;
  const auto found = std::find_if(stacks.begin(), stacks.end(),
                                  [&](const mount::Stack& stack) { return stack.pieces == mount.pieces; });
  const Quality best = quality_of(state, stacks.front().pieces), own = quality_of(state, mount.pieces);
  double share = 1;
  std::string flaws;
  if (!own.damping) {
    share -= 0.5;
    flaws += " It has no damping spacer, so the disc sings sooner.";
  }
  if (own.pieces > best.pieces) {
    share -= 0.2;
    flaws += " It has " + counted(static_cast<std::int64_t>(own.pieces), "piece") + " where " +
             std::to_string(best.pieces) + " do.";
  }
  if (own.ring_mm < best.ring_mm - 1e-6) {
    share -= 0.15;
    flaws +=
        " Its smaller ring is " + in_words(own.ring_mm, 1) + " mm across where " + in_words(best.ring_mm, 1) + " fits.";
  }
  if (own.off_middle > best.off_middle + 0.05) {
    share -= 0.1;
    flaws += state.bench.hubbed() ? " The tapers sit off their middles in the races by " + in_words(own.off_middle, 2) +
                                        " of their length, where " + in_words(best.off_middle, 2) + " can be had."
                                  : " The cone sits " + in_words(own.off_middle, 2) + " of its height off the middle.";
  }
  if (mount.pieces.back() == state.worn_nut) {
    share *= 0.4;
    flaws += " The nut's thread is worn: it slipped.";
  } else if (!mount.nut_tight) {
    share *= 0.4;
    flaws += " The nut was not turned home.";
  }
  part.points = part.of * std::max(0.0, share);
  part.why = found == stacks.end() ? "The stack fits, and is not among the best " + std::to_string(kListed) + "."
                                   : "The stack is number " + std::to_string(found - stacks.begin() + 1) + " of " +
                                         std::to_string(stacks.size()) + " that fit.";
  part.why += flaws.empty() ? " Nothing better could be had from this pegboard." : flaws;
  return part;
}

MarkedPart mark_proof(const BenchState& state, const Facts& facts) {
  MarkedPart part{.code = "proof", .of = 10};
  if (state.mounts.empty()) return not_mounted(part);
  const MountingRecord& mount = state.mounts[facts.cut_mount];
  const bool read = was_read(state, facts.cut_mount + 1);
  const double runout = mount_runout_um(state, mount);
  // pitted races that seat anew each time: what the best of a few mountings comes to
  const double scatter_um = 2 * mount.seating_sd_um * band_middle_mm(state.truth.make) / bench_sim::kScatterRadius_mm;
  const double good = std::max(kTrueMount_um, scatter_um);
  const double trueness = std::clamp(1 - (runout - good) / 40, 0.0, 1.0);
  const bool turned = std::any_of(state.mounts.begin(), state.mounts.end(),
                                  [&](const MountingRecord& other) { return half_a_turn_apart(other, mount); });
  const bool scratched = !read && proved_by_scratches(state, facts.cut_mount);
  part.points = part.of * ((read || scratched ? 0.4 : 0.0) + (mount.wiped || turned ? 0.1 : 0.0) + 0.5 * trueness);
  part.why = std::string(read        ? "Runout was read on this mount before it was cut"
                         : scratched ? "Two scratches, half a turn apart, were made on the mount"
                                     : "Runout was not read on the mount that was cut on") +
             ". The mount itself adds " + in_words(runout) + " um" +
             (runout <= good
                  ? ": true enough."
                  : "; a true one adds less than " + in_words(good) + " um. It becomes runout on the car, all of it.");
  if (!mount.wiped) part.why += " Seats and adapters were not wiped before.";
  if (facts.on_pits) part.why += " The races are pitted: it does not run like this again.";
  return part;
}

}  // namespace brakewright::practice
