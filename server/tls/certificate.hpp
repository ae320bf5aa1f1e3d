#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "server/http/server.hpp"
#include "shop/times.hpp"

/// The shop's own certificate: made at first use, kept beside the shop.
namespace brakewright::server {

/// By what a machine is reached.
struct CertificateNames {
  std::vector<std::string> names;      ///< "localhost", "shop-pc.local"
  std::vector<std::string> addresses;  ///< "127.0.0.1", "::1", "192.168.1.20"
};

struct ShopCertificate {
  http::Identity identity;
  /// SHA-256 of the certificate (DER) as browsers show it: 32 pairs of hex digits with colons between them.
  std::string fingerprint;
  shop::UtcTime valid_until = {};
};

/// The certificate kept in `file`, or a new one there when there is none, when it ends within 30 days, or when it lacks
/// one of the names. A new one keeps the private key, and lasts 825 days, the longest that browsers of every maker
/// take. Self-signed, on curve P-256, and may certify nothing else.
/// @param file  PEM of certificate and private key; written whole or not at all, readable by its owner alone
/// @throws std::runtime_error  with a sentence for people when the file cannot be read or written
ShopCertificate shop_certificate(const std::filesystem::path& file, const CertificateNames& names, shop::UtcTime now);

}  // namespace brakewright::server
