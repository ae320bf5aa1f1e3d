#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "core/mount/rules.hpp"

namespace brakewright::mount {

struct Spacer {
  Nm length = 0;
  Nm runout_squared = 0;  ///< nm^2
  bool damping = false;
  const std::string* id = nullptr;
};

/// Some spacers together, ids ascending.
struct SpacerSet {
  Nm runout_squared = 0;
  Nm length = 0;
  std::vector<std::string> ids;

  friend auto operator<=>(const SpacerSet&, const SpacerSet&) = default;
};

/// Finds the best sets of spacers of a given size whose lengths sum into a window, exactly.
class SpacerSearch {
 public:
  explicit SpacerSearch(std::vector<Spacer> spacers);

  std::size_t size() const { return spacers_.size(); }
  bool any_damping() const;
  /// Sum of the `size` shortest spacers.
  Nm least_length(std::size_t size) const;

  /// At most `count` sets of exactly `size` spacers with low <= length <= high, best first by runout, length, ids.
  /// @param damping  true: at least one damping spacer; false: none
  /// @throws InputError "too_hard" after more steps than a shop's pegboard can ever need
  std::vector<SpacerSet> best(std::size_t size, Nm low, Nm high, bool damping, std::size_t count);

 private:
  struct Search;

  /// Every length that so many spacers can make, each size of spacer as often as wanted: a few too many, never too few.
  /// Nothing where there are too many to list.
  const std::vector<Nm>* sums_of(std::size_t size);

  std::vector<Spacer> spacers_;  // by runout, length, id
  std::vector<Nm> shortest_sums_;
  std::vector<std::vector<Nm>> sums_;  // by size, ascending; ends before the first that has too many
  bool all_listed_ = true;
  std::uint64_t steps_left_ = 400'000'000;
};

}  // namespace brakewright::mount
