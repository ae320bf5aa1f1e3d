#include "core/mount/mount.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "core/input_error.hpp"
#include "core/mount/dimensions.hpp"
#include "core/mount/nearest.hpp"
#include "core/mount/pegboard.hpp"
#include "core/mount/rules.hpp"
#include "core/mount/spacers.hpp"
#include "core/mount/why.hpp"

namespace brakewright::mount {
namespace {

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

Stack shown(const Ranked& ranked, const Pegboard& pegboard, const std::vector<Piece>& pieces) {
  Stack stack{.pieces = ranked.ids, .length_mm = static_cast<double>(ranked.length) / 1e6, .q = {}, .why = {}};
  stack.q.push_back(ranked.carrier.first_seat.q());
  if (ranked.carrier.cone == nullptr) stack.q.push_back(ranked.carrier.second_seat.q());
  for (const auto& id : ranked.ids) {
    const auto piece = std::find_if(pieces.begin(), pieces.end(), [&](const Piece& p) { return p.id == id; });
    stack.why.push_back(why_of(*piece, ranked.carrier, pegboard.part()));
  }
  return stack;
}

}  // namespace

Answer find_stacks(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces, std::size_t count) {
  check_dimensions(arbor, part, pieces);
  if (count < 1) throw InputError("out_of_range", "count", "must be 1 or more");
  const Pegboard pegboard(arbor, part, pieces);
  Answer answer;
  for (const auto& ranked : Solver(pegboard, count).solve()) answer.stacks.push_back(shown(ranked, pegboard, pieces));
  if (answer.stacks.empty()) answer.nearest = nearest_misses(pegboard);
  return answer;
}

}  // namespace brakewright::mount
