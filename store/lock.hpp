#pragma once

#include <filesystem>

namespace brakewright::store {

/// Keeps a shop's file to one program that writes: an advisory lock on `<file>.lock`, which the system releases when
/// the program ends in whatever way. Reading and backing up need none.
class Lock {
 public:
  /// @throws StoreError busy, naming the process that has it
  explicit Lock(const std::filesystem::path& file);
  ~Lock();
  Lock(const Lock&) = delete;
  Lock& operator=(const Lock&) = delete;

 private:
  int descriptor_ = -1;
};

}  // namespace brakewright::store
