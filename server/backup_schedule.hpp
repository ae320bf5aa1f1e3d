#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>

#include "shop/entities.hpp"

namespace brakewright::server {

/// Makes a backup when the newest one is older than a day: at once, and looks again every so often. What fails is
/// logged and tried again; a shop goes on without its backup rather than stopping.
class BackupSchedule {
 public:
  struct Ways {
    std::function<shop::UtcTime()> now;
    std::function<std::optional<shop::UtcTime>()> newest;  ///< time of the newest backup, if there is one
    std::function<void()> back_up;
  };

  BackupSchedule(Ways ways, std::chrono::milliseconds look_every);
  ~BackupSchedule();
  BackupSchedule(const BackupSchedule&) = delete;
  BackupSchedule& operator=(const BackupSchedule&) = delete;

 private:
  void run();
  void look();

  Ways ways_;
  std::chrono::milliseconds look_every_;
  std::mutex guard_;
  std::condition_variable wake_;
  bool stopping_ = false;
  std::thread thread_;
};

/// Whether a backup is due: there is none, the newest is a day old, or it claims to be from the future.
bool backup_due(shop::UtcTime now, std::optional<shop::UtcTime> newest);

}  // namespace brakewright::server
