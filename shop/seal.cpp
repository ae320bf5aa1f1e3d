#include "shop/seal.hpp"

#include <sodium.h>

#include <array>
#include <nlohmann/json.hpp>

#include "shop/json.hpp"

namespace brakewright::shop {

std::string seal_of(JobFile file) {
  file.job.seal_sha256.clear();
  file.job.number = 0;
  file.amendments.clear();
  file.seq = 0;
  const std::string canonical = nlohmann::json::parse(to_json(file).dump()).dump();
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(canonical.data()), canonical.size());
  std::array<char, 2 * crypto_hash_sha256_BYTES + 1> text{};
  return sodium_bin2hex(text.data(), text.size(), hash.data(), hash.size());
}

}  // namespace brakewright::shop
