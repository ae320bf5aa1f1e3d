#include "core/mount/nearest.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

namespace brakewright::mount {
namespace {

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
  Nm off(Nm carrier_length) {
    const auto known = known_.find(carrier_length);
    if (known != known_.end()) return known->second;
    return known_[carrier_length] = looked_up(carrier_length);
  }

 private:
  static constexpr Nm kStep = 100;

  Nm looked_up(Nm carrier_length) const {
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

  std::unordered_map<Nm, Nm> known_;
  Nm low_ = 0, high_ = 0;
  std::size_t steps_ = 0;
  std::vector<std::uint64_t> reachable_;  // bit i: some spacers sum to i steps
};

std::string length_text(Nm off) {
  if (off > 0)
    return "the stack ends " + in_mm(off) + " short of the thread: one more spacer of that length or a little more";
  return "the stack ends " + in_mm(-off) + " too far out for the nut: a shorter spacer or clamp by that much";
}

/// One rule that is broken, by how much, and by which pieces; the sentence is made only for what is shown.
struct Broken {
  const char* rule = "";
  Nm miss = 0;
  Nm off = 0;  ///< of the length: short of the window (> 0) or beyond it
  std::array<const Piece*, 3> pieces{};
};

class Least;

/// How many rules are broken, and the last of them.
class SingleMiss {
 public:
  void rule(const char* name, Nm miss, std::array<const Piece*, 3> pieces) {
    if (miss == 0) return;
    ++broken_;
    last_ = {.rule = name, .miss = miss, .off = 0, .pieces = pieces};
  }
  void length(Nm off) {
    if (off == 0) return;
    ++broken_;
    last_ = {.rule = "length", .miss = off < 0 ? -off : off, .off = off, .pieces = {}};
  }
  int broken() const { return broken_; }
  /// Whether none is broken so far, or one by less than is known already.
  bool may_be_the_only_one(const Least& least) const;
  const Broken& last() const { return last_; }

 private:
  int broken_ = 0;
  Broken last_;
};

/// What to buy or turn.
std::string text_of(const Broken& broken, const PartSeat& part) {
  const std::string_view rule = broken.rule;
  if (rule == "length") return length_text(broken.off);
  const auto& [piece, other, third] = broken.pieces;
  if (rule == "cone") {
    const Nm small = whole_nm(piece->small_mm), span = whole_nm(piece->large_mm) - small;
    return "cone " + piece->id + " takes bores from " + in_mm(small + span / 4) + " to " + in_mm(small + 3 * span / 4) +
           "; this bore is " + in_mm(whole_nm(part.bore_mm));
  }
  if (rule == "cup_bore") return "the cup of clamp " + other->id + " is too narrow for cone " + piece->id;
  if (rule == "spring_room") {
    return "spring " + piece->id + " does not fit the room behind cone " + other->id + " in clamp " + third->id;
  }
  if (rule == "ring_pair") {
    return "clamps " + other->id + " and " + piece->id + " differ by more than 2 mm in outer diameter";
  }
  if (rule == "ring_inboard" || rule == "ring_outboard") {
    return "the ring of clamp " + piece->id + " stands over the hat's flat on the " +
           (rule == "ring_inboard" ? "shoulder" : "nut") + " side by that much";
  }
  return "taper " + piece->id + " does not take the " + (rule == "taper_inner" ? "inner" : "outer") +
         " race between a fifth and four fifths of its length";
}

/// The least miss of each rule so far.
class Least {
 public:
  bool worth(const Broken& broken) const {
    const auto known = misses_.find(broken.rule);
    return known == misses_.end() || broken.miss < known->second.miss;
  }
  void offer(const Broken& broken) {
    if (worth(broken)) misses_[broken.rule] = broken;
  }
  std::vector<Miss> list(const PartSeat& part) const {
    std::vector<Broken> sorted;
    for (const auto& [rule, broken] : misses_) {
      if (broken.miss > 0) sorted.push_back(broken);
    }
    std::stable_sort(sorted.begin(), sorted.end(), [](const Broken& a, const Broken& b) { return a.miss < b.miss; });
    std::vector<Miss> misses;
    for (const Broken& broken : sorted) {
      misses.push_back(
          {.rule = broken.rule, .miss_mm = static_cast<double>(broken.miss) / 1e6, .text = text_of(broken, part)});
    }
    return misses;
  }
  bool empty() const { return misses_.empty(); }

 private:
  std::map<std::string_view, Broken> misses_;
};

bool SingleMiss::may_be_the_only_one(const Least& least) const {
  return broken_ == 0 || (broken_ == 1 && least.worth(last_));
}

class ClampSearch {
 public:
  ClampSearch(const Pegboard& pegboard, Filling& filling) : pegboard_(pegboard), filling_(filling) {}

  void run(Least& least) {
    for (const Piece* first : pegboard_.of(PieceKind::clamp)) with_first(*first, least);
  }

  /// Each rule on its own, when no single one explains it.
  void each_alone(Least& least) const {
    const PartSeat& part = pegboard_.part();
    const auto [inner, outer] = shoulder_flat(part);
    for (const Piece* cone : pegboard_.of(PieceKind::cone)) {
      least.offer({.rule = "cone", .miss = cone_miss(seat_of(*cone, part.bore_mm)), .pieces = {cone}});
    }
    for (const Piece* clamp : pegboard_.of(PieceKind::clamp)) {
      least.offer({.rule = "ring_inboard", .miss = ring_miss(*clamp, inner, outer), .pieces = {clamp}});
      least.offer({.rule = "ring_outboard",
                   .miss = ring_miss(*clamp, part.flat_inner_mm, part.flat_outer_mm),
                   .pieces = {clamp}});
    }
  }

 private:
  /// What the second clamp and the length break at best, for a first clamp.
  SingleMiss rest_of(const Piece& first) {
    const PartSeat& part = pegboard_.part();
    std::optional<SingleMiss> best;
    for (const Piece* second : pegboard_.of(PieceKind::clamp)) {
      if (second == &first) continue;
      SingleMiss misses;
      misses.rule("ring_outboard", ring_miss(*second, part.flat_inner_mm, part.flat_outer_mm), {second});
      misses.rule("ring_pair", pair_miss(first, *second), {second, &first});
      misses.length(filling_.off(whole_nm(first.length_mm) + whole_nm(part.flange_mm) + whole_nm(second->length_mm)));
      const bool better = !best || misses.broken() < best->broken() ||
                          (misses.broken() == best->broken() && misses.last().miss < best->last().miss);
      if (better) best = misses;
    }
    return best.value_or(SingleMiss{});
  }

  void with_first(const Piece& first, Least& least) {
    const auto [inner, outer] = shoulder_flat(pegboard_.part());
    SingleMiss around = rest_of(first);
    around.rule("ring_inboard", ring_miss(first, inner, outer), {&first});
    if (!around.may_be_the_only_one(least)) return;
    for (const Piece* cone : pegboard_.of(PieceKind::cone)) with_cone(first, *cone, around, least);
  }

  void with_cone(const Piece& first, const Piece& cone, const SingleMiss& around, Least& least) const {
    const Seat seat = seat_of(cone, pegboard_.part().bore_mm);
    SingleMiss inside = around;
    inside.rule("cone", cone_miss(seat), {&cone});
    inside.rule("cup_bore", cup_miss(first, cone), {&cone, &first});
    for (const Piece* spring : pegboard_.of(PieceKind::spring)) {
      if (!inside.may_be_the_only_one(least)) return;
      SingleMiss all = inside;
      all.rule("spring_room", spring_miss(first, cone, seat, *spring), {spring, &cone, &first});
      if (all.broken() == 1) least.offer(all.last());
    }
  }

  const Pegboard& pegboard_;
  Filling& filling_;
};

void taper_misses(const Pegboard& pegboard, Filling& filling, bool alone, Least& least) {
  const PartSeat& part = pegboard.part();
  for (const Piece* first : pegboard.of(PieceKind::taper)) {
    const Seat first_seat = seat_of(*first, part.inner_race_mm);
    if (alone) {
      least.offer({.rule = "taper_inner", .miss = taper_miss(first_seat), .pieces = {first}});
      least.offer({.rule = "taper_outer", .miss = taper_miss(seat_of(*first, part.outer_race_mm)), .pieces = {first}});
      continue;
    }
    for (const Piece* second : pegboard.of(PieceKind::taper)) {
      if (second == first) continue;
      const Seat second_seat = seat_of(*second, part.outer_race_mm);
      SingleMiss misses;
      misses.rule("taper_inner", taper_miss(first_seat), {first});
      misses.rule("taper_outer", taper_miss(second_seat), {second});
      misses.length(filling.off(outside_of(*first, first_seat) + whole_nm(part.hub_length_mm) +
                                outside_of(*second, second_seat)));
      if (misses.broken() == 1) least.offer(misses.last());
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
  Filling filling(pegboard);
  Least least;
  if (pegboard.part().kind == PartKind::hubless) {
    ClampSearch search(pegboard, filling);
    search.run(least);
    if (least.empty()) search.each_alone(least);
  } else {
    taper_misses(pegboard, filling, false, least);
    if (least.empty()) taper_misses(pegboard, filling, true, least);
  }
  auto misses = least.list(pegboard.part());
  if (misses.empty()) {
    misses.push_back({.rule = "combination",
                      .miss_mm = 0,
                      .text = "each piece fits somewhere, but no set of them fits together: two or more must change"});
  }
  return misses;
}

}  // namespace brakewright::mount
