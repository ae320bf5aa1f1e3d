#include "core/mount/mount.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>
#include <tuple>

#include "core/input_error.hpp"
#include "core/mount/nearest.hpp"
#include "core/mount/pegboard.hpp"
#include "core/mount/rules.hpp"
#include "core/mount/spacers.hpp"

namespace brakewright::mount {
namespace {

constexpr double kLongest_mm = 2000;
constexpr double kRunoutMost_um = 100'000;

void want(bool good, const std::string& field, const std::string& message) {
  if (!good) throw InputError("out_of_range", field, message);
}

void want_size(double value_mm, const std::string& field) {
  want(std::isfinite(value_mm) && value_mm >= 0 && value_mm <= kLongest_mm, field, "must be from 0 to 2000 mm");
}

void check_arbor(const Arbor& arbor) {
  want_size(arbor.diameter_mm, "arbor.diameter_mm");
  want(arbor.diameter_mm > 0, "arbor.diameter_mm", "must be more than 0");
  want_size(arbor.thread_start_mm, "arbor.thread_start_mm");
  want_size(arbor.tip_mm, "arbor.tip_mm");
  want_size(arbor.nut_engagement_mm, "arbor.nut_engagement_mm");
  want(arbor.tip_mm > arbor.thread_start_mm, "arbor.tip_mm", "the tip must lie beyond the start of the thread");
}

void check_part(const PartSeat& part) {
  if (part.kind == PartKind::hubbed) {
    want_size(part.hub_length_mm, "part.hub_length_mm");
    want_size(part.inner_race_mm, "part.inner_race_mm");
    want_size(part.outer_race_mm, "part.outer_race_mm");
    want(part.inner_race_mm > 0, "part.inner_race_mm", "must be more than 0");
    want(part.outer_race_mm > 0, "part.outer_race_mm", "must be more than 0");
    return;
  }
  want_size(part.bore_mm, "part.bore_mm");
  want(part.bore_mm > 0, "part.bore_mm", "must be more than 0");
  want_size(part.flange_mm, "part.flange_mm");
  want_size(part.flat_inner_mm, "part.flat_inner_mm");
  want_size(part.flat_outer_mm, "part.flat_outer_mm");
  want(part.flat_outer_mm > part.flat_inner_mm, "part.flat_outer_mm", "must be more than flat_inner_mm");
  const auto [inner, outer] = shoulder_flat(part);
  want_size(inner, "part.flat_inner_inboard_mm");
  want_size(outer, "part.flat_outer_inboard_mm");
  want(outer > inner, "part.flat_outer_inboard_mm", "must be more than the inboard flat's inner diameter");
}

void check_piece(const Piece& piece, const std::string& field) {
  const std::pair<const char*, double> sizes[] = {{"bore_mm", piece.bore_mm},
                                                  {"length_mm", piece.length_mm},
                                                  {"small_mm", piece.small_mm},
                                                  {"large_mm", piece.large_mm},
                                                  {"ring_inner_mm", piece.ring_inner_mm},
                                                  {"ring_outer_mm", piece.ring_outer_mm},
                                                  {"cup_depth_mm", piece.cup_depth_mm},
                                                  {"cup_bore_mm", piece.cup_bore_mm},
                                                  {"solid_mm", piece.solid_mm},
                                                  {"free_mm", piece.free_mm},
                                                  {"outside_mm", piece.outside_mm.value_or(0)}};
  for (const auto& [name, size] : sizes) want_size(size, field + "." + name);
  want(std::isfinite(piece.runout_um) && piece.runout_um >= 0 && piece.runout_um <= kRunoutMost_um,
       field + ".runout_um", "must be from 0 to 100000 um");
  if (piece.kind == PieceKind::cone || piece.kind == PieceKind::taper) {
    want(whole_nm(piece.large_mm) > whole_nm(piece.small_mm), field + ".large_mm",
         "the large end must be larger than the small end; is it upside down?");
  }
  if (piece.kind == PieceKind::clamp) {
    want(piece.ring_outer_mm > piece.ring_inner_mm, field + ".ring_outer_mm", "must be more than ring_inner_mm");
  }
  if (piece.kind == PieceKind::spring) {
    want(piece.free_mm > piece.solid_mm, field + ".free_mm", "a spring is longer without load than pressed flat");
  }
  if (piece.kind == PieceKind::spacer) want(piece.length_mm > 0, field + ".length_mm", "must be more than 0");
}

void check_pieces(const std::vector<Piece>& pieces) {
  std::set<std::string> ids;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::string field = "pieces[" + std::to_string(i) + "]";
    want(!pieces[i].id.empty(), field + ".id", "every piece needs an id");
    if (!ids.insert(pieces[i].id).second) {
      throw InputError("duplicate_id", field + ".id", "two pieces have the id " + pieces[i].id);
    }
    check_piece(pieces[i], field);
  }
}

/// A complete stack with the figures by which it is ranked.
struct Ranked {
  Nm ring = 0;
  double off_middle = 0;
  Nm runout_squared = 0;
  Nm length = 0;
  std::vector<std::string> ids;
  Carrier carrier;

  auto rank() const { return std::make_tuple(-ring, off_middle, runout_squared, length, std::cref(ids)); }
  friend bool operator<(const Ranked& a, const Ranked& b) { return a.rank() < b.rank(); }
};

/// Keeps the best few of one level (same damping, same number of pieces).
class Shortlist {
 public:
  explicit Shortlist(std::size_t count) : count_(count) {}

  void add(Ranked stack) {
    if (list_.size() == count_ && !(stack < list_.back())) return;
    list_.insert(std::upper_bound(list_.begin(), list_.end(), stack), std::move(stack));
    if (list_.size() > count_) list_.pop_back();
  }
  bool full() const { return list_.size() == count_; }
  const std::vector<Ranked>& list() const { return list_; }

 private:
  std::size_t count_;
  std::vector<Ranked> list_;
};

class Solver {
 public:
  Solver(const Pegboard& pegboard, std::size_t count)
      : pegboard_(pegboard), count_(count), groups_(pegboard.carriers(count)), spacers_(pegboard.spacers()) {
    const Arbor& arbor = pegboard.arbor();
    low_ = whole_nm(arbor.thread_start_mm);
    high_ = whole_nm(arbor.tip_mm) - whole_nm(arbor.nut_engagement_mm);
    least_carrier_ = high_ + 1;
    for (const auto& group : groups_) {
      for (const auto& carrier : group.carriers) least_carrier_ = std::min(least_carrier_, carrier.length);
    }
  }

  std::vector<Ranked> solve() {
    std::vector<Ranked> best;
    if (spacers_.any_damping()) collect(true, best);
    collect(false, best);
    return best;
  }

 private:
  void collect(bool damping, std::vector<Ranked>& best) {
    for (std::size_t size = damping ? 1 : 0; size <= spacers_.size() && best.size() < count_; ++size) {
      if (least_carrier_ + spacers_.least_length(size) > high_) return;
      Shortlist shortlist(count_ - best.size());
      windows_.clear();
      for (const auto& group : groups_) {
        if (shortlist.full() && shortlist.list().back().ring > group.ring) break;
        add_group(group, size, damping, shortlist);
      }
      best.insert(best.end(), shortlist.list().begin(), shortlist.list().end());
    }
  }

  void add_group(const RingGroup& group, std::size_t size, bool damping, Shortlist& shortlist) {
    for (const auto& carrier : group.carriers) {
      if (shortlist.full()) {
        const Ranked& worst = shortlist.list().back();
        if (worst.ring == group.ring && worst.off_middle < carrier.off_middle) continue;
      }
      for (const auto& set : sets_for(carrier.length, size, damping)) add_with(group.ring, carrier, set, shortlist);
    }
  }

  const std::vector<SpacerSet>& sets_for(Nm carrier_length, std::size_t size, bool damping) {
    const auto known = windows_.find(carrier_length);
    if (known != windows_.end()) return known->second;
    return windows_[carrier_length] =
               spacers_.best(size, low_ - carrier_length, high_ - carrier_length, damping, count_);
  }

  void add_with(Nm ring, const Carrier& carrier, const SpacerSet& set, Shortlist& shortlist) {
    const auto& nuts = pegboard_.of(PieceKind::nut);
    const std::size_t nut_count = std::min(count_, nuts.size());
    const std::size_t spring_count = carrier.cone == nullptr ? 1 : carrier.springs.size();
    for (std::size_t s = 0; s < spring_count; ++s) {
      for (std::size_t n = 0; n < nut_count; ++n) {
        Ranked stack{.ring = ring,
                     .off_middle = carrier.off_middle,
                     .runout_squared = set.runout_squared,
                     .length = carrier.length + set.length,
                     .ids = {},
                     .carrier = carrier};
        std::vector<const Piece*> pieces{carrier.first};
        if (carrier.cone != nullptr) pieces.insert(pieces.end(), {carrier.springs[s], carrier.cone});
        pieces.push_back(carrier.second);
        for (const Piece* piece : pieces) {
          stack.runout_squared += runout_squared(*piece);
          stack.ids.push_back(piece->id);
        }
        stack.ids.insert(stack.ids.end(), set.ids.begin(), set.ids.end());
        stack.ids.push_back(nuts[n]->id);
        stack.runout_squared += runout_squared(*nuts[n]);
        shortlist.add(std::move(stack));
      }
    }
  }

  const Pegboard& pegboard_;
  std::size_t count_;
  std::vector<RingGroup> groups_;
  SpacerSearch spacers_;
  Nm low_ = 0, high_ = 0, least_carrier_ = 0;
  std::map<Nm, std::vector<SpacerSet>> windows_;
};

std::string in_mm(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f mm", mm);
  return text;
}

std::string reason_for(const Piece& piece, const Carrier& carrier, const PartSeat& part) {
  switch (piece.kind) {
    case PieceKind::cone:
      return "centres the " + in_mm(part.bore_mm) + " bore at " +
             std::to_string(std::lround(carrier.first_seat.q() * 100)) + " % of its height; half way is best";
    case PieceKind::spring:
      return "pushes the cone into the bore: " + in_mm(piece.solid_mm) + " flat, " + in_mm(piece.free_mm) +
             " free, and the room behind the cone lies between";
    case PieceKind::clamp:
      return "bears on the hat with a ring of " + in_mm(piece.ring_outer_mm) + " outer diameter" +
             (piece.id == carrier.first->id ? "; its cup takes spring and cone" : "");
    case PieceKind::taper: {
      const bool first = piece.id == carrier.first->id;
      const double q = (first ? carrier.first_seat : carrier.second_seat).q();
      return "sits in the " + in_mm(first ? part.inner_race_mm : part.outer_race_mm) + " race at " +
             std::to_string(std::lround(q * 100)) + " % of its length";
    }
    case PieceKind::spacer:
      return std::string("fills ") + in_mm(piece.length_mm) + " of the arbor" +
             (piece.damping    ? " and damps"
              : piece.weighted ? " and adds weight"
                               : "");
    case PieceKind::nut:
      return "holds the stack";
  }
  return {};
}

Stack shown(const Ranked& ranked, const Pegboard& pegboard, const std::vector<Piece>& pieces) {
  Stack stack{.pieces = ranked.ids, .length_mm = static_cast<double>(ranked.length) / 1e6, .q = {}, .why = {}};
  stack.q.push_back(ranked.carrier.first_seat.q());
  if (ranked.carrier.cone == nullptr) stack.q.push_back(ranked.carrier.second_seat.q());
  for (const auto& id : ranked.ids) {
    const auto piece = std::find_if(pieces.begin(), pieces.end(), [&](const Piece& p) { return p.id == id; });
    stack.why.push_back(reason_for(*piece, ranked.carrier, pegboard.part()));
  }
  return stack;
}

}  // namespace

Answer find_stacks(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces, std::size_t count) {
  check_arbor(arbor);
  check_part(part);
  check_pieces(pieces);
  want(count >= 1, "count", "must be 1 or more");
  const Pegboard pegboard(arbor, part, pieces);
  Answer answer;
  for (const auto& ranked : Solver(pegboard, count).solve()) answer.stacks.push_back(shown(ranked, pegboard, pieces));
  if (answer.stacks.empty()) answer.nearest = nearest_misses(pegboard);
  return answer;
}

}  // namespace brakewright::mount
