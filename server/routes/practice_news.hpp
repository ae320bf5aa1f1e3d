#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <set>
#include <thread>
#include <vector>

#include "shop/uuid.hpp"

namespace brakewright::server {

/// Gathers which practice runs changed, and tells them together: at once after a pause, and never twice within
/// `least_apart`. A whole class acts several times a second; whoever watches wants to look once.
class PracticeNews {
 public:
  using Tell = std::function<void(const std::set<shop::Uuid>& run_ids)>;

  PracticeNews(Tell tell, std::chrono::milliseconds least_apart);
  ~PracticeNews();
  PracticeNews(const PracticeNews&) = delete;
  PracticeNews& operator=(const PracticeNews&) = delete;

  void changed(const shop::Uuid& run_id);

  /// Tells nothing any more.
  void stop();

 private:
  void work();

  Tell tell_;
  std::chrono::milliseconds least_apart_;
  std::mutex guard_;
  std::condition_variable woken_;
  std::set<shop::Uuid> waiting_;
  bool stopped_ = false;
  std::thread thread_;
};

}  // namespace brakewright::server
