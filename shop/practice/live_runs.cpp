#include "shop/practice/live_runs.hpp"

#include <algorithm>

namespace brakewright::shop {

std::shared_ptr<LiveRun> LiveRuns::hold(const Uuid& run_id) {
  const std::lock_guard lock(guard_);
  const auto found = std::find_if(held_.begin(), held_.end(), [&](const Held& one) { return one.run_id == run_id; });
  if (found != held_.end()) {
    held_.splice(held_.begin(), held_, found);
  } else {
    held_.push_front({run_id, std::make_shared<LiveRun>()});
  }
  std::shared_ptr<LiveRun> wanted = held_.front().live;
  for (auto one = held_.end(); held_.size() > most_ && one != held_.begin();) {
    --one;
    // Copies are made here alone, under the guard: one that is not shared is in nobody's hands.
    if (one->live.use_count() == 1) one = held_.erase(one);
  }
  return wanted;
}

std::shared_ptr<LiveRun> LiveRuns::find(const Uuid& run_id) {
  const std::lock_guard lock(guard_);
  for (const Held& one : held_) {
    if (one.run_id == run_id) return one.live;
  }
  return nullptr;
}

std::size_t LiveRuns::count() {
  const std::lock_guard lock(guard_);
  return held_.size();
}

}  // namespace brakewright::shop
