#pragma once

#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "core/practice/run.hpp"
#include "shop/practice/book.hpp"

namespace brakewright::shop {

/// A bench that is set up in memory. Whoever touches it holds its guard; nothing else is locked while it works.
struct LiveRun {
  std::mutex guard;
  std::optional<practice::Run> run = {};  ///< absent until somebody needs it, and after a failure
  std::vector<KeptAct> acts = {};         ///< that were done in `run`
};

/// The benches that were used most recently, at most so many, more only while more are in use at once. One that is not
/// here any more is set up again from its acts. Safe to call from several threads.
class LiveRuns {
 public:
  explicit LiveRuns(std::size_t most) : most_(most) {}

  /// The bench of a run; everybody who asks at the same time gets the same one.
  std::shared_ptr<LiveRun> hold(const Uuid& run_id);

  /// The same, where it is here; nothing otherwise.
  std::shared_ptr<LiveRun> find(const Uuid& run_id);

  std::size_t count();

 private:
  struct Held {
    Uuid run_id;
    std::shared_ptr<LiveRun> live;
  };

  std::size_t most_;
  std::mutex guard_;
  std::list<Held> held_;  ///< used last first
};

}  // namespace brakewright::shop
