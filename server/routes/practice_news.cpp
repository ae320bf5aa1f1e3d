#include "server/routes/practice_news.hpp"

#include <utility>

namespace brakewright::server {

PracticeNews::PracticeNews(Tell tell, std::chrono::milliseconds least_apart)
    : tell_(std::move(tell)), least_apart_(least_apart), thread_([this] { work(); }) {}

PracticeNews::~PracticeNews() { stop(); }

void PracticeNews::stop() {
  {
    const std::lock_guard lock(guard_);
    stopped_ = true;
  }
  woken_.notify_all();
  if (thread_.joinable()) thread_.join();
}

void PracticeNews::changed(const shop::Uuid& run_id) {
  {
    const std::lock_guard lock(guard_);
    waiting_.insert(run_id);
  }
  woken_.notify_all();
}

void PracticeNews::work() {
  std::unique_lock lock(guard_);
  while (true) {
    woken_.wait(lock, [this] { return stopped_ || !waiting_.empty(); });
    if (stopped_) return;
    const std::set<shop::Uuid> told = std::exchange(waiting_, {});
    lock.unlock();
    tell_(told);
    lock.lock();
    if (woken_.wait_for(lock, least_apart_, [this] { return stopped_; })) return;
  }
}

}  // namespace brakewright::server
