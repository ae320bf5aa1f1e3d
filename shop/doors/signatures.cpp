#include "shop/doors/signatures.hpp"

#include <algorithm>

#include "shop/doors/secret.hpp"
#include "shop/doors/token.hpp"
#include "shop/journal/chain.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostGiven = 500;

}  // namespace

void Signatures::drop_old(UtcTime now) {
  std::erase_if(given_, [&](const Signature& one) { return one.good_until <= now; });
  if (given_.size() >= kMostGiven) given_.erase(given_.begin());
}

std::string Signatures::give(std::string session_sha256, std::string operation, const Uuid& person_id, UtcTime now,
                             const RandomBytes& random) {
  drop_old(now);
  std::string token = new_token(random);
  given_.push_back({.token_sha256 = sha256_of(token),
                    .session_sha256 = std::move(session_sha256),
                    .operation = std::move(operation),
                    .person_id = person_id,
                    .good_until = now + kSignatureGood});
  return token;
}

std::optional<Signature> Signatures::take(const std::string& token, const std::string& session_sha256,
                                          const std::string& operation, const Uuid& person_id, UtcTime now) {
  if (!looks_like_token(token)) return std::nullopt;
  const std::string wanted = sha256_of(token);
  const auto found = std::find_if(given_.begin(), given_.end(), [&](const Signature& one) {
    return one.token_sha256 == wanted && one.session_sha256 == session_sha256 && one.operation == operation &&
           one.person_id == person_id && now < one.good_until;
  });
  if (found == given_.end()) return std::nullopt;
  Signature taken = std::move(*found);
  given_.erase(found);
  return taken;
}

void Signatures::give_back(Signature signature) { given_.push_back(std::move(signature)); }

}  // namespace brakewright::shop
