#include "store/key_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <string>

#include "core/input_error.hpp"
#include "shop/journal/chain.hpp"
#include "shop/store.hpp"
#include "store/copy.hpp"

namespace brakewright::store {

using shop::StoreError;
namespace fs = std::filesystem;

namespace {

constexpr std::string_view kHeading = "brakewright signing key 1";

[[noreturn]] void cannot(const std::string& what, const fs::path& file) {
  const int reason = errno;
  throw StoreError(reason == ENOSPC ? StoreError::Cause::full : StoreError::Cause::other,
                   "Cannot " + what + " the shop's key " + file.string() + ": " + std::strerror(reason));
}

}  // namespace

/// Written beside and linked into place, so that a key is there whole or not at all.
void keep_key(const fs::path& file, const shop::SigningKey& key) {
  const fs::path part = file.string() + ".part" + std::to_string(::getpid());
  const std::string text = std::string(kHeading) + "\n" + shop::hex_of(key.seed) + "\n";
  ::unlink(part.c_str());
  const int descriptor = ::open(part.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor < 0) cannot("make", part);
  const bool written = ::write(descriptor, text.data(), text.size()) == static_cast<ssize_t>(text.size());
  if (!written || ::fsync(descriptor) != 0) {
    ::close(descriptor);
    ::unlink(part.c_str());
    cannot("write", part);
  }
  ::close(descriptor);
  const bool placed = ::link(part.c_str(), file.c_str()) == 0;
  const int reason = errno;
  ::unlink(part.c_str());
  errno = reason;
  if (!placed) cannot("make", file);
  sync_folder(file);
}

fs::path key_file_of(const fs::path& file) { return file.string() + ".key"; }

std::optional<shop::SigningKey> key_in(const fs::path& key_file) {
  if (!fs::exists(key_file)) return std::nullopt;
  std::ifstream in(key_file);
  std::string heading;
  std::string seed;
  std::getline(in, heading);
  std::getline(in, seed);
  try {
    if (heading == kHeading) return shop::key_of_seed(seed);
  } catch (const InputError&) {
    // told below
  }
  throw StoreError(StoreError::Cause::other,
                   key_file.string() +
                       " holds no key of a shop, or may not be read. Bring the right one back, or put it "
                       "aside: the shop then goes on with a new key, and its journal says so.");
}

}  // namespace brakewright::store
