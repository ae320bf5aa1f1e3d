#include "server/backup_schedule.hpp"

#include <spdlog/spdlog.h>

#include <exception>
#include <utility>

namespace brakewright::server {
namespace {

constexpr std::chrono::hours kDay{24};

}  // namespace

bool backup_due(shop::UtcTime now, std::optional<shop::UtcTime> newest) {
  return !newest || now - *newest >= kDay || *newest - now >= kDay;
}

BackupSchedule::BackupSchedule(Ways ways, std::chrono::milliseconds look_every)
    : ways_(std::move(ways)), look_every_(look_every), thread_([this] { run(); }) {}

BackupSchedule::~BackupSchedule() {
  {
    const std::lock_guard lock(guard_);
    stopping_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

void BackupSchedule::run() {
  std::unique_lock lock(guard_);
  while (!stopping_) {
    lock.unlock();
    look();
    lock.lock();
    wake_.wait_for(lock, look_every_, [this] { return stopping_; });
  }
}

void BackupSchedule::look() {
  try {
    if (backup_due(ways_.now(), ways_.newest())) ways_.back_up();
  } catch (const std::exception& error) {
    spdlog::error("the daily backup could not be made, and is tried again: {}", error.what());
  }
}

}  // namespace brakewright::server
