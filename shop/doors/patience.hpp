#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>

#include "shop/times.hpp"

namespace brakewright::shop {

/// How soon somebody who guessed wrong may try again.
struct PatienceRule {
  int free_tries = 3;  ///< wrong ones in a row that cost nothing
  std::chrono::seconds longest_wait{60};
  std::chrono::minutes forgotten_after{15};  ///< since the last try
};

/// At the door of one person, and, gentler, at one address: behind it may be a whole class.
inline constexpr PatienceRule kPerPerson{};
inline constexpr PatienceRule kPerAddress{.free_tries = 30, .longest_wait = std::chrono::seconds(8)};

/// Seconds to wait after so many wrong tries in a row: none for the free ones, then 1, 2, 4, ... up to the longest.
/// There is no number of tries after which a door stays shut. @param wrong_tries  0 or more
std::int64_t wait_s_after(int wrong_tries, const PatienceRule& rule);

/// Counts wrong tries by key and says how long to wait. A try is counted before its secret is looked at, so that many
/// at once gain nothing. Not for several threads at once.
class Patience {
 public:
  explicit Patience(PatienceRule rule, std::size_t most_keys = 4096) : rule_(rule), most_keys_(most_keys) {}

  /// Whole seconds until the next try of this key, 0 when it may be made now.
  std::int64_t wait_s(const std::string& key, UtcTime now) const;

  /// A try is being made. It counts as wrong until right() or undone() says otherwise.
  void tried(const std::string& key, UtcTime now);

  void right(const std::string& key) { tries_.erase(key); }  ///< all is forgiven
  void undone(const std::string& key);                       ///< this one try does not count

  std::size_t keys() const { return tries_.size(); }

 private:
  struct Tries {
    int wrong = 0;
    UtcTime last = {};
  };
  bool forgotten(const Tries& tries, UtcTime now) const { return now - tries.last >= rule_.forgotten_after; }
  void make_room(UtcTime now);

  PatienceRule rule_;
  std::size_t most_keys_;
  std::map<std::string, Tries> tries_;
};

}  // namespace brakewright::shop
