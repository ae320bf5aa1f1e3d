#include "core/mount/nearest.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <map>
#include <optional>
#include <string>

namespace brakewright::mount {
namespace {

std::string in_mm(Nm nm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3f mm", static_cast<double>(nm) / 1e6);
  return text;
}

/// How far sums of some spacers can be from a window.
class Filling {
 public:
  explicit Filling(const Pegboard& pegboard) {
    const Arbor& arbor = pegboard.arbor();
    low_ = whole_nm(arbor.thread_start_mm);
    high_ = whole_nm(arbor.tip_mm) - whole_nm(arbor.nut_engagement_mm);
    Nm longest = 0;
    for (const Piece* spacer : pegboard.of(PieceKind::spacer)) longest = std::max(longest, whole_nm(spacer->length_mm));
    steps_ = static_cast<std::size_t>((std::max(high_, Nm{0}) + longest) / kStep + 2);
    reachable_.assign(steps_ / 64 + 1, 0);
    reachable_[0] = 1;
    for (const Piece* spacer : pegboard.of(PieceKind::spacer)) add(whole_nm(spacer->length_mm));
  }

  /// Nanometres short of (> 0) or beyond (< 0) the window at best, to a tenth of a micrometre; 0 when it can be filled.
  Nm off(Nm carrier_length) const {
    if (low_ > high_) return high_ - low_;
    const Nm over = carrier_length - high_;
    if (over > 0) return -over;
    const Nm need = std::max(Nm{0}, low_ - carrier_length);
    const auto begin = static_cast<std::size_t>((need + kStep - 1) / kStep);
    const auto end = static_cast<std::size_t>((high_ - carrier_length) / kStep);
    for (std::size_t i = begin; i <= end && i < steps_; ++i) {
      if (reached(i)) return 0;
    }
    std::size_t below = std::min(begin, steps_ - 1);  // a taper that a race would swallow leaves no length at all
    while (below > 0 && !reached(below)) --below;
    std::size_t above = end + 1;
    while (above < steps_ && !reached(above)) ++above;
    const Nm short_by = need - static_cast<Nm>(below) * kStep;
    const Nm beyond_by = static_cast<Nm>(above) * kStep - (high_ - carrier_length);
    return above < steps_ && beyond_by < short_by ? -beyond_by : short_by;
  }

 private:
  static constexpr Nm kStep = 100;

  bool reached(std::size_t step) const { return (reachable_[step / 64] >> (step % 64) & 1U) != 0; }

  /// Every sum so far may have this length added once: the bits or-ed with themselves, shifted.
  void add(Nm length) {
    const auto step = static_cast<std::size_t>((length + kStep / 2) / kStep);
    const std::size_t words = step / 64, bits = step % 64;
    for (std::size_t i = reachable_.size(); i-- > words;) {
      std::uint64_t shifted = reachable_[i - words] << bits;
      if (bits > 0 && i > words) shifted |= reachable_[i - words - 1] >> (64 - bits);
      reachable_[i] |= shifted;
    }
  }

  Nm low_ = 0, high_ = 0;
  std::size_t steps_ = 0;
  std::vector<std::uint64_t> reachable_;  // bit i: some spacers sum to i steps
};

/// The least miss of each rule so far.
class Least {
 public:
  bool worth(const std::string& rule, Nm miss) const {
    const auto known = misses_.find(rule);
    return known == misses_.end() || miss < known->second.first;
  }
  void offer(const std::string& rule, Nm miss, const std::string& text) {
    if (worth(rule, miss)) misses_[rule] = {miss, text};
  }
  std::vector<Miss> list() const {
    std::vector<std::pair<Nm, Miss>> sorted;
    for (const auto& [rule, miss] : misses_) {
      if (miss.first == 0) continue;
      sorted.push_back(
          {miss.first, {.rule = rule, .miss_mm = static_cast<double>(miss.first) / 1e6, .text = miss.second}});
    }
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Miss> misses;
    for (auto& [miss, shown] : sorted) misses.push_back(std::move(shown));
    return misses;
  }
  bool empty() const { return misses_.empty(); }

 private:
  std::map<std::string, std::pair<Nm, std::string>> misses_;
};

std::string length_text(Nm off) {
  if (off > 0)
    return "the stack ends " + in_mm(off) + " short of the thread: one more spacer of that length or a little more";
  return "the stack ends " + in_mm(-off) + " too far out for the nut: a shorter spacer or clamp by that much";
}

/// Which single rule is broken when exactly one of several misses is not 0, and by how much; nothing when none or
/// more are broken.
struct Broken {
  std::string rule;
  Nm miss = 0;
  std::string text;
};

class SingleMiss {
 public:
  void rule(const char* name, Nm miss, const std::string& text) {
    if (miss == 0) return;
    ++broken_;
    last_ = {name, miss, text};
  }
  int broken() const { return broken_; }
  const Broken& last() const { return last_; }

 private:
  int broken_ = 0;
  Broken last_;
};

class ClampSearch {
 public:
  ClampSearch(const Pegboard& pegboard, const Filling& filling) : pegboard_(pegboard), filling_(filling) {}

  void run(Least& least) {
    for (const Piece* first : pegboard_.of(PieceKind::clamp)) with_first(*first, least);
  }

  /// Each rule on its own, when no single one explains it.
  void each_alone(Least& least) const {
    const auto [inner, outer] = shoulder_flat(pegboard_.part());
    for (const Piece* cone : pegboard_.of(PieceKind::cone)) {
      least.offer("cone", cone_miss(seat_of(*cone, pegboard_.part().bore_mm)), cone_text(*cone));
    }
    for (const Piece* clamp : pegboard_.of(PieceKind::clamp)) {
      least.offer("ring_inboard", ring_miss(*clamp, inner, outer), ring_text(*clamp, "shoulder"));
      least.offer("ring_outboard", ring_miss(*clamp, pegboard_.part().flat_inner_mm, pegboard_.part().flat_outer_mm),
                  ring_text(*clamp, "nut"));
    }
  }

 private:
  std::string cone_text(const Piece& cone) const {
    const Nm small = whole_nm(cone.small_mm), span = whole_nm(cone.large_mm) - small;
    return "cone " + cone.id + " takes bores from " + in_mm(small + span / 4) + " to " + in_mm(small + 3 * span / 4) +
           "; this bore is " + in_mm(whole_nm(pegboard_.part().bore_mm));
  }
  static std::string ring_text(const Piece& clamp, const std::string& side) {
    return "the ring of clamp " + clamp.id + " stands over the hat's flat on the " + side + " side by that much";
  }

  /// What the second clamp and the length break at best, for a first clamp.
  SingleMiss rest_of(const Piece& first) const {
    const PartSeat& part = pegboard_.part();
    std::optional<SingleMiss> best;
    for (const Piece* second : pegboard_.of(PieceKind::clamp)) {
      if (second == &first) continue;
      const Nm length = whole_nm(first.length_mm) + whole_nm(part.flange_mm) + whole_nm(second->length_mm);
      SingleMiss misses;
      misses.rule("ring_outboard", ring_miss(*second, part.flat_inner_mm, part.flat_outer_mm),
                  ring_text(*second, "nut"));
      misses.rule("ring_pair", pair_miss(first, *second),
                  "clamps " + first.id + " and " + second->id + " differ by more than 2 mm in outer diameter");
      const Nm off = filling_.off(length);
      misses.rule("length", off < 0 ? -off : off, length_text(off));
      const bool better = !best || misses.broken() < best->broken() ||
                          (misses.broken() == best->broken() && misses.last().miss < best->last().miss);
      if (better) best = misses;
    }
    return best.value_or(SingleMiss{});
  }

  void with_first(const Piece& first, Least& least) const {
    const auto [inner, outer] = shoulder_flat(pegboard_.part());
    SingleMiss around = rest_of(first);
    around.rule("ring_inboard", ring_miss(first, inner, outer), ring_text(first, "shoulder"));
    if (around.broken() > 1) return;
    if (around.broken() == 1 && !least.worth(around.last().rule, around.last().miss)) return;
    for (const Piece* cone : pegboard_.of(PieceKind::cone)) with_cone(first, *cone, around, least);
  }

  void with_cone(const Piece& first, const Piece& cone, const SingleMiss& around, Least& least) const {
    const Seat seat = seat_of(cone, pegboard_.part().bore_mm);
    SingleMiss inside = around;
    inside.rule("cone", cone_miss(seat), cone_text(cone));
    inside.rule("cup_bore", cup_miss(first, cone),
                "the cup of clamp " + first.id + " is too narrow for cone " + cone.id);
    if (inside.broken() > 1) return;
    for (const Piece* spring : pegboard_.of(PieceKind::spring)) {
      SingleMiss all = inside;
      all.rule("spring_room", spring_miss(first, cone, seat, *spring),
               "spring " + spring->id + " does not fit the room behind cone " + cone.id + " in clamp " + first.id);
      if (all.broken() == 1) least.offer(all.last().rule, all.last().miss, all.last().text);
    }
  }

  const Pegboard& pegboard_;
  const Filling& filling_;
};

void taper_misses(const Pegboard& pegboard, const Filling& filling, bool alone, Least& least) {
  const PartSeat& part = pegboard.part();
  const auto text = [](const Piece& taper, const char* which) {
    return "taper " + taper.id + " does not take the " + which + " race between a fifth and four fifths of its length";
  };
  for (const Piece* first : pegboard.of(PieceKind::taper)) {
    const Seat first_seat = seat_of(*first, part.inner_race_mm);
    if (alone) {
      least.offer("taper_inner", taper_miss(first_seat), text(*first, "inner"));
      least.offer("taper_outer", taper_miss(seat_of(*first, part.outer_race_mm)), text(*first, "outer"));
      continue;
    }
    for (const Piece* second : pegboard.of(PieceKind::taper)) {
      if (second == first) continue;
      const Seat second_seat = seat_of(*second, part.outer_race_mm);
      SingleMiss misses;
      misses.rule("taper_inner", taper_miss(first_seat), text(*first, "inner"));
      misses.rule("taper_outer", taper_miss(second_seat), text(*second, "outer"));
      const Nm off =
          filling.off(outside_of(*first, first_seat) + whole_nm(part.hub_length_mm) + outside_of(*second, second_seat));
      misses.rule("length", off < 0 ? -off : off, length_text(off));
      if (misses.broken() == 1) least.offer(misses.last().rule, misses.last().miss, misses.last().text);
    }
  }
}

/// Kinds of which the pegboard has too few that fit the arbor.
std::vector<Miss> absent_kinds(const Pegboard& pegboard) {
  struct Wanted {
    PieceKind kind;
    const char* name;
    std::size_t count;
  };
  const std::vector<Wanted> wanted =
      pegboard.part().kind == PartKind::hubless
          ? std::vector<Wanted>{{PieceKind::clamp, "clamp", 2},
                                {PieceKind::spring, "spring", 1},
                                {PieceKind::cone, "cone", 1},
                                {PieceKind::nut, "nut", 1}}
          : std::vector<Wanted>{{PieceKind::taper, "taper", 2}, {PieceKind::nut, "nut", 1}};
  std::vector<Miss> absent;
  for (const auto& want : wanted) {
    const std::size_t have = pegboard.of(want.kind).size();
    if (have >= want.count) continue;
    absent.push_back({.rule = std::string("no_") + want.name,
                      .miss_mm = 0,
                      .text = "needs " + std::to_string(want.count) + " of kind " + want.name +
                              " with the arbor's bore; " + std::to_string(have) + " on the pegboard"});
  }
  return absent;
}

}  // namespace

std::vector<Miss> nearest_misses(const Pegboard& pegboard) {
  if (auto absent = absent_kinds(pegboard); !absent.empty()) return absent;
  const Filling filling(pegboard);
  Least least;
  if (pegboard.part().kind == PartKind::hubless) {
    ClampSearch search(pegboard, filling);
    search.run(least);
    if (least.empty()) search.each_alone(least);
  } else {
    taper_misses(pegboard, filling, false, least);
    if (least.empty()) taper_misses(pegboard, filling, true, least);
  }
  auto misses = least.list();
  if (misses.empty()) {
    misses.push_back({.rule = "combination",
                      .miss_mm = 0,
                      .text = "each piece fits somewhere, but no set of them fits together: two or more must change"});
  }
  return misses;
}

}  // namespace brakewright::mount
