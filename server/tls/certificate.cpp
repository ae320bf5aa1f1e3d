#include "server/tls/certificate.hpp"

#include <fcntl.h>
#include <openssl/bio.h>
#include <openssl/bn.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <stdexcept>

namespace brakewright::server {
namespace {

constexpr std::chrono::days kLasts{825};
constexpr std::chrono::days kRenewBefore{30};
constexpr std::chrono::hours kClocksDiffer{24};
constexpr int kSerialBits = 127;

template <auto Free>
struct Freeing {
  template <class T>
  void operator()(T* owned) const {
    Free(owned);
  }
};
using Bio = std::unique_ptr<BIO, Freeing<BIO_free_all>>;
using Key = std::unique_ptr<EVP_PKEY, Freeing<EVP_PKEY_free>>;
using Certificate = std::unique_ptr<X509, Freeing<X509_free>>;
using Extension = std::unique_ptr<X509_EXTENSION, Freeing<X509_EXTENSION_free>>;
using Number = std::unique_ptr<BIGNUM, Freeing<BN_free>>;

/// Of OpenSSL's own, for what cannot fail but for want of memory.
void must(bool ok) {
  if (!ok)
    throw std::runtime_error(std::string("the certificate cannot be made: ") +
                             ERR_reason_error_string(ERR_get_error()));
}

std::time_t seconds_of(shop::UtcTime time) {
  return std::chrono::duration_cast<std::chrono::seconds>(time.time_since_epoch()).count();
}

shop::UtcTime end_of(const X509* certificate) {
  std::tm calendar{};
  must(ASN1_TIME_to_tm(X509_get0_notAfter(certificate), &calendar) == 1);
  return shop::UtcTime(std::chrono::seconds(::timegm(&calendar)));
}

std::string fingerprint_of(const X509* certificate) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned size = 0;
  must(X509_digest(certificate, EVP_sha256(), digest.data(), &size) == 1);
  constexpr std::string_view kHex = "0123456789ABCDEF";
  std::string text;
  for (unsigned k = 0; k < size; ++k) {
    if (k > 0) text += ':';
    text += kHex[digest[k] >> 4U];
    text += kHex[digest[k] & 15U];
  }
  return text;
}

std::string text_of(BIO* bio) {
  char* bytes = nullptr;
  const long size = BIO_get_mem_data(bio, &bytes);
  return {bytes, static_cast<std::size_t>(size)};
}

std::string pem_of(X509* certificate) {
  const Bio out(BIO_new(BIO_s_mem()));
  must(PEM_write_bio_X509(out.get(), certificate) == 1);
  return text_of(out.get());
}

std::string pem_of(EVP_PKEY* key) {
  const Bio out(BIO_new(BIO_s_mem()));
  must(PEM_write_bio_PrivateKey(out.get(), key, nullptr, nullptr, 0, nullptr, nullptr) == 1);
  return text_of(out.get());
}

bool names_all(X509* certificate, const CertificateNames& wanted) {
  for (const std::string& name : wanted.names) {
    if (X509_check_host(certificate, name.c_str(), name.size(), 0, nullptr) != 1) return false;
  }
  for (const std::string& address : wanted.addresses) {
    if (X509_check_ip_asc(certificate, address.c_str(), 0) != 1) return false;
  }
  return true;
}

void extend(X509* certificate, int kind, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  const Extension extension(X509V3_EXT_conf_nid(nullptr, &context, kind, value.c_str()));
  must(extension && X509_add_ext(certificate, extension.get(), -1) == 1);
}

std::string alternative_names(const CertificateNames& names) {
  std::string list;
  for (const std::string& name : names.names) list += (list.empty() ? "DNS:" : ",DNS:") + name;
  for (const std::string& address : names.addresses) list += (list.empty() ? "IP:" : ",IP:") + address;
  return list;
}

Certificate made_certificate(EVP_PKEY* key, const CertificateNames& names, shop::UtcTime now) {
  Certificate made(X509_new());
  must(made && X509_set_version(made.get(), X509_VERSION_3) == 1);
  const Number serial(BN_new());
  must(serial && BN_rand(serial.get(), kSerialBits, BN_RAND_TOP_ONE, BN_RAND_BOTTOM_ANY) == 1);
  must(BN_to_ASN1_INTEGER(serial.get(), X509_get_serialNumber(made.get())) != nullptr);
  must(ASN1_TIME_set(X509_getm_notBefore(made.get()), seconds_of(now - kClocksDiffer)) != nullptr);
  must(ASN1_TIME_set(X509_getm_notAfter(made.get()), seconds_of(now - kClocksDiffer + kLasts)) != nullptr);
  must(X509_set_pubkey(made.get(), key) == 1);
  X509_NAME* subject = X509_get_subject_name(made.get());
  constexpr std::array<unsigned char, 11> kName{'B', 'r', 'a', 'k', 'e', 'w', 'r', 'i', 'g', 'h', 't'};
  must(X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_ASC, kName.data(), kName.size(), -1, 0) == 1);
  must(X509_set_issuer_name(made.get(), subject) == 1);
  extend(made.get(), NID_basic_constraints, "critical,CA:FALSE");
  extend(made.get(), NID_key_usage, "critical,digitalSignature");
  extend(made.get(), NID_ext_key_usage, "serverAuth");
  extend(made.get(), NID_subject_key_identifier, "hash");
  extend(made.get(), NID_subject_alt_name, alternative_names(names));
  must(X509_sign(made.get(), key, EVP_sha256()) > 0);
  return made;
}

struct Kept {
  Key key;
  Certificate certificate;
};

std::optional<Kept> read_kept(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    if (!std::filesystem::exists(file)) return std::nullopt;
    throw std::runtime_error(file.string() + " cannot be read; it holds the shop's certificate");
  }
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const auto reader = [&] { return Bio(BIO_new_mem_buf(text.data(), static_cast<int>(text.size()))); };
  Kept kept;
  kept.key.reset(PEM_read_bio_PrivateKey(reader().get(), nullptr, nullptr, nullptr));
  kept.certificate.reset(PEM_read_bio_X509(reader().get(), nullptr, nullptr, nullptr));
  const bool whole =
      kept.key && kept.certificate && X509_check_private_key(kept.certificate.get(), kept.key.get()) == 1;
  if (!whole) {
    throw std::runtime_error(file.string() +
                             " is no certificate with its private key; move it away and a new one is made");
  }
  return kept;
}

void write_whole(const std::filesystem::path& file, const std::string& text) {
  const std::filesystem::path beside = file.string() + ".new";
  constexpr mode_t kOwnerAlone = 0600;
  ::unlink(beside.c_str());
  const int out = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, kOwnerAlone);
  const bool written =
      out >= 0 && ::write(out, text.data(), text.size()) == static_cast<ssize_t>(text.size()) && ::fsync(out) == 0;
  if (out >= 0) ::close(out);
  std::error_code failed;
  if (written) std::filesystem::rename(beside, file, failed);
  if (!written || failed) throw std::runtime_error(file.string() + " cannot be written; it keeps the certificate");
}

}  // namespace

ShopCertificate shop_certificate(const std::filesystem::path& file, const CertificateNames& names, shop::UtcTime now) {
  std::optional<Kept> kept = read_kept(file);
  const bool holds =
      kept && names_all(kept->certificate.get(), names) && end_of(kept->certificate.get()) >= now + kRenewBefore;
  if (!holds) {
    if (!kept) kept.emplace(Kept{.key = Key(EVP_EC_gen("P-256")), .certificate = {}});
    must(kept->key != nullptr);
    kept->certificate = made_certificate(kept->key.get(), names, now);
    write_whole(file, pem_of(kept->certificate.get()) + pem_of(kept->key.get()));
  }
  return {.identity = {.certificate = pem_of(kept->certificate.get()), .private_key = pem_of(kept->key.get())},
          .fingerprint = fingerprint_of(kept->certificate.get()),
          .valid_until = end_of(kept->certificate.get())};
}

}  // namespace brakewright::server
