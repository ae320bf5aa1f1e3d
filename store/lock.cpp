#include "store/lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string>

#include "shop/store.hpp"

namespace brakewright::store {

using shop::StoreError;

namespace {

std::string holder(int descriptor) {
  std::array<char, 32> text{};
  const ssize_t size = pread(descriptor, text.data(), text.size() - 1, 0);
  return size > 0 ? " (process " + std::string(text.data(), static_cast<std::size_t>(size)) + ")" : "";
}

}  // namespace

Lock::Lock(const std::filesystem::path& file) {
  const std::string name = file.string() + ".lock";
  descriptor_ = open(name.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
  if (descriptor_ < 0) {
    throw StoreError(StoreError::Cause::other, "Cannot write " + name + ": " + std::strerror(errno));
  }
  if (flock(descriptor_, LOCK_EX | LOCK_NB) != 0) {
    const std::string message =
        file.string() + " is open in another Brakewright" + holder(descriptor_) + ". Close that one first.";
    close(descriptor_);
    throw StoreError(StoreError::Cause::busy, message);
  }
  const std::string pid = std::to_string(getpid());
  if (ftruncate(descriptor_, 0) != 0 || pwrite(descriptor_, pid.data(), pid.size(), 0) < 0) {
    close(descriptor_);
    throw StoreError(StoreError::Cause::full, "Cannot write " + name + ": the disk may be full");
  }
}

Lock::~Lock() { close(descriptor_); }

}  // namespace brakewright::store
