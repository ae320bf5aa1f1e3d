#include "shop/doors/patience.hpp"

#include <algorithm>

namespace brakewright::shop {

std::int64_t wait_s_after(int wrong_tries, const PatienceRule& rule) {
  constexpr int kMostDoublings = 20;
  const int beyond = wrong_tries - rule.free_tries;
  if (beyond < 0) return 0;
  const std::int64_t wait = std::int64_t{1} << std::min(beyond, kMostDoublings);
  return std::min<std::int64_t>(wait, rule.longest_wait.count());
}

std::int64_t Patience::wait_s(const std::string& key, UtcTime now) const {
  const auto found = tries_.find(key);
  if (found == tries_.end() || forgotten(found->second, now)) return 0;
  const auto free_at = found->second.last + std::chrono::seconds(wait_s_after(found->second.wrong, rule_));
  if (free_at <= now) return 0;
  return std::chrono::ceil<std::chrono::seconds>(free_at - now).count();
}

void Patience::tried(const std::string& key, UtcTime now) {
  auto found = tries_.find(key);
  if (found == tries_.end()) {
    if (tries_.size() >= most_keys_) make_room(now);
    found = tries_.emplace(key, Tries{}).first;
  } else if (forgotten(found->second, now)) {
    found->second.wrong = 0;
  }
  ++found->second.wrong;
  found->second.last = now;
}

void Patience::undone(const std::string& key) {
  const auto found = tries_.find(key);
  if (found == tries_.end()) return;
  if (--found->second.wrong <= 0) tries_.erase(found);
}

void Patience::make_room(UtcTime now) {
  std::erase_if(tries_, [&](const auto& one) { return forgotten(one.second, now); });
  if (tries_.size() < most_keys_) return;
  tries_.erase(std::min_element(tries_.begin(), tries_.end(),
                                [](const auto& a, const auto& b) { return a.second.last < b.second.last; }));
}

}  // namespace brakewright::shop
