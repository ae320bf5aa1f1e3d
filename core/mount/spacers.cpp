#include "core/mount/spacers.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

#include "core/input_error.hpp"

namespace brakewright::mount {
namespace {

constexpr std::size_t kMostSums = 100'000;

auto rank_of(const Spacer& spacer) { return std::tie(spacer.runout_squared, spacer.length, *spacer.id); }

bool alike(const Spacer& a, const Spacer& b) {
  return a.runout_squared == b.runout_squared && a.length == b.length && a.damping == b.damping;
}

}  // namespace

SpacerSearch::SpacerSearch(std::vector<Spacer> spacers) : spacers_(std::move(spacers)) {
  std::sort(spacers_.begin(), spacers_.end(), [](const auto& a, const auto& b) { return rank_of(a) < rank_of(b); });
  std::vector<Nm> lengths;
  for (const auto& spacer : spacers_) lengths.push_back(spacer.length);
  std::sort(lengths.begin(), lengths.end());
  sums_ = {{0}, lengths};
  sums_[1].erase(std::unique(sums_[1].begin(), sums_[1].end()), sums_[1].end());
  shortest_sums_.push_back(0);
  for (const Nm length : lengths) shortest_sums_.push_back(shortest_sums_.back() + length);
}

bool SpacerSearch::any_damping() const {
  return std::any_of(spacers_.begin(), spacers_.end(), [](const auto& spacer) { return spacer.damping; });
}

Nm SpacerSearch::least_length(std::size_t size) const {
  return size < shortest_sums_.size() ? shortest_sums_[size] : std::numeric_limits<Nm>::max();
}

const std::vector<Nm>* SpacerSearch::sums_of(std::size_t size) {
  while (all_listed_ && sums_.size() <= size) {
    std::vector<Nm> longer;
    all_listed_ = sums_.back().size() * sums_[1].size() <= kMostSums;
    if (!all_listed_) break;
    for (const Nm sum : sums_.back()) {
      for (const Nm length : sums_[1]) longer.push_back(sum + length);
    }
    std::sort(longer.begin(), longer.end());
    longer.erase(std::unique(longer.begin(), longer.end()), longer.end());
    sums_.push_back(std::move(longer));
  }
  return size < sums_.size() ? &sums_[size] : nullptr;
}

/// Depth first over the spacers in order of runout, so that the first sets found are good and bound the rest.
struct SpacerSearch::Search {
  const std::vector<Spacer>& from;
  std::uint64_t& steps_left;
  std::size_t size;
  Nm low, high;
  bool damping;
  std::size_t count;
  std::vector<const std::vector<Nm>*> sums;        // [how many]: what they can make, where that is known
  std::vector<std::vector<Nm>> shortest, longest;  // [how many][from which index on]
  std::vector<Nm> runout_sums;                     // prefix sums in order
  std::vector<std::size_t> last_damping;           // from index on: whether a damping one is left
  std::vector<std::size_t> chosen;
  std::vector<SpacerSet> found;

  void prepare() {
    const std::size_t n = from.size();
    constexpr Nm kNone = std::numeric_limits<Nm>::max() / 4;
    shortest.assign(size + 1, std::vector<Nm>(n + 1, kNone));
    longest.assign(size + 1, std::vector<Nm>(n + 1, -kNone));
    std::fill(shortest[0].begin(), shortest[0].end(), 0);
    std::fill(longest[0].begin(), longest[0].end(), 0);
    std::vector<Nm> smallest, largest;  // the `size` smallest and largest lengths so far, sorted
    last_damping.assign(n + 1, 0);
    for (std::size_t i = n; i-- > 0;) {
      const Nm length = from[i].length;
      smallest.insert(std::upper_bound(smallest.begin(), smallest.end(), length), length);
      if (smallest.size() > size) smallest.pop_back();
      largest.insert(std::upper_bound(largest.begin(), largest.end(), length, std::greater<>()), length);
      if (largest.size() > size) largest.pop_back();
      Nm low_sum = 0, high_sum = 0;
      for (std::size_t m = 1; m <= smallest.size(); ++m) {
        shortest[m][i] = low_sum += smallest[m - 1];
        longest[m][i] = high_sum += largest[m - 1];
      }
      last_damping[i] = last_damping[i + 1] + (from[i].damping ? 1 : 0);
    }
    runout_sums.assign(n + 1, 0);
    for (std::size_t i = 0; i < n; ++i) runout_sums[i + 1] = runout_sums[i] + from[i].runout_squared;
  }

  void keep(Nm runout_squared, Nm length) {
    SpacerSet set{.runout_squared = runout_squared, .length = length, .ids = {}};
    for (const auto index : chosen) set.ids.push_back(*from[index].id);
    std::sort(set.ids.begin(), set.ids.end());
    if (found.size() == count && !(set < found.back())) return;
    found.insert(std::upper_bound(found.begin(), found.end(), set), std::move(set));
    if (found.size() > count) found.pop_back();
  }

  /// Whether no completion from index `i` on can better the worst set that is kept.
  bool hopeless(std::size_t i, std::size_t missing, Nm runout_squared, Nm length) const {
    if (found.size() < count) return false;
    const Nm least_runout = runout_squared + runout_sums[i + missing] - runout_sums[i];
    const Nm least_length = std::max(low, length + shortest[missing][i]);
    return std::tie(found.back().runout_squared, found.back().length) < std::tie(least_runout, least_length);
  }

  /// Whether so many spacers can make up what is wanting at all.
  bool can_reach(std::size_t missing, Nm length) const {
    if (sums[missing] == nullptr) return true;
    const auto least = std::lower_bound(sums[missing]->begin(), sums[missing]->end(), low - length);
    return least != sums[missing]->end() && *least <= high - length;
  }

  void go(std::size_t i, std::size_t missing, Nm runout_squared, Nm length, bool has_damping) {
    if (missing == 0) {
      if (length >= low && length <= high && has_damping == damping) keep(runout_squared, length);
      return;
    }
    if (!can_reach(missing, length)) return;
    std::size_t skipped_alike = 0;
    for (; i + missing <= from.size(); ++i) {
      if (steps_left-- == 0) {
        throw InputError("too_hard", "pieces", "these spacers can be combined in too many ways; leave some out");
      }
      if (hopeless(i, missing, runout_squared, length)) return;
      if (length + shortest[missing][i] > high || length + longest[missing][i] < low) return;
      if (damping && !has_damping && last_damping[i] == 0) return;
      const Spacer& spacer = from[i];
      // Every skipped one that is alike would have made a set with lower ids: `count` of those are enough.
      skipped_alike = i > 0 && skipped_alike > 0 && alike(from[i - 1], spacer) ? skipped_alike : 0;
      if (skipped_alike < count && spacer.length <= high - length && (damping || !spacer.damping)) {
        chosen.push_back(i);
        go(i + 1, missing - 1, runout_squared + spacer.runout_squared, length + spacer.length,
           has_damping || spacer.damping);
        chosen.pop_back();
      }
      ++skipped_alike;
    }
  }
};

std::vector<SpacerSet> SpacerSearch::best(std::size_t size, Nm low, Nm high, bool damping, std::size_t count) {
  if (size > spacers_.size() || low > high || least_length(size) > high) return {};
  Search search{.from = spacers_,
                .steps_left = steps_left_,
                .size = size,
                .low = low,
                .high = high,
                .damping = damping,
                .count = count,
                .sums = {},
                .shortest = {},
                .longest = {},
                .runout_sums = {},
                .last_damping = {},
                .chosen = {},
                .found = {}};
  sums_of(size);  // first all of them, so that none moves any more
  for (std::size_t k = 0; k <= size; ++k) search.sums.push_back(sums_of(k));
  search.prepare();
  search.go(0, size, 0, 0, false);
  return std::move(search.found);
}

}  // namespace brakewright::mount
