#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "shop/times.hpp"
#include "shop/uuid.hpp"

namespace brakewright::shop {

/// A teacher's word, given at somebody else's tablet, for one operation there.
struct Signature {
  std::string token_sha256 = {};
  std::string session_sha256 = {};  ///< of the tablet on which it was given
  std::string operation = {};
  Uuid person_id = {};  ///< who signed
  UtcTime good_until = {};
};

inline constexpr std::chrono::seconds kSignatureGood{90};

/// Signatures that were given and not used yet. Not for several threads at once.
class Signatures {
 public:
  /// @return the token that stands for it
  std::string give(std::string session_sha256, std::string operation, const Uuid& person_id, UtcTime now,
                   const RandomBytes& random);

  /// Uses one up. Nothing when there is none by this token, or it is of another tablet, operation or person, or too
  /// old; then it stays as it was.
  std::optional<Signature> take(const std::string& token, const std::string& session_sha256,
                                const std::string& operation, const Uuid& person_id, UtcTime now);

  /// The operation came to nothing: it may be tried again.
  void give_back(Signature signature);

  std::size_t count() const { return given_.size(); }

 private:
  void drop_old(UtcTime now);

  std::vector<Signature> given_;
};

}  // namespace brakewright::shop
