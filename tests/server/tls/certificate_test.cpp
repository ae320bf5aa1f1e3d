#include "server/tls/certificate.hpp"

#include <gtest/gtest.h>
#include <openssl/pem.h>
#include <openssl/x509v3.h>

#include <fstream>
#include <memory>

namespace brakewright::server {
namespace {

using namespace std::chrono_literals;

class ShopCertificateTest : public testing::Test {
 protected:
  ShopCertificateTest() { std::filesystem::remove(file); }
  ~ShopCertificateTest() override { std::filesystem::remove(file); }

  ShopCertificate made(std::chrono::seconds later = 0s) { return shop_certificate(file, names, start + later); }

  static std::unique_ptr<X509, decltype(&X509_free)> read(const ShopCertificate& shop) {
    const std::string& pem = shop.identity.certificate;
    BIO* bio = BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size()));
    std::unique_ptr<X509, decltype(&X509_free)> certificate(PEM_read_bio_X509(bio, nullptr, nullptr, nullptr),
                                                            X509_free);
    BIO_free(bio);
    return certificate;
  }

  void write(const std::string& text) { std::ofstream(file) << text; }

  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / ("brakewright-certificate-" + std::to_string(::getpid()) + ".pem");
  const shop::UtcTime start = shop::parse_time("2026-03-02T08:00:00.000Z");
  CertificateNames names{.names = {"localhost", "shop-pc.local"}, .addresses = {"127.0.0.1", "::1", "192.168.1.20"}};
};

TEST_F(ShopCertificateTest, NamesTheMachineAndCertifiesNothingElse) {
  const auto certificate = read(made());
  ASSERT_TRUE(certificate);
  EXPECT_EQ(X509_check_host(certificate.get(), "shop-pc.local", 0, 0, nullptr), 1);
  EXPECT_EQ(X509_check_ip_asc(certificate.get(), "192.168.1.20", 0), 1);
  EXPECT_EQ(X509_check_ip_asc(certificate.get(), "::1", 0), 1);
  EXPECT_EQ(X509_check_ip_asc(certificate.get(), "192.168.1.21", 0), 0);
  EXPECT_EQ(X509_check_ca(certificate.get()), 0);
  EXPECT_EQ(X509_self_signed(certificate.get(), 1), 1);
}

TEST_F(ShopCertificateTest, IsKeptForItsOwnerAloneAndFoundAgain) {
  const ShopCertificate first = made();
  EXPECT_EQ(std::filesystem::status(file).permissions(),
            std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  const ShopCertificate again = made(24h * 365);
  EXPECT_EQ(again.fingerprint, first.fingerprint);
  EXPECT_EQ(again.identity.private_key, first.identity.private_key);
  EXPECT_EQ(first.fingerprint.size(), 32 * 3 - 1U);
}

TEST_F(ShopCertificateTest, IsRenewedWithTheSameKeyWhenItEndsOrTheMachineGotAnotherAddress) {
  const ShopCertificate first = made();
  EXPECT_EQ(first.valid_until, start + 24h * 824);
  const ShopCertificate renewed = made(24h * 800);
  EXPECT_NE(renewed.fingerprint, first.fingerprint);
  EXPECT_EQ(renewed.valid_until, start + 24h * (800 + 824));
  names.addresses.push_back("192.168.1.99");
  const ShopCertificate moved = made(24h * 800);
  EXPECT_NE(moved.fingerprint, renewed.fingerprint);
  EXPECT_EQ(moved.identity.private_key, first.identity.private_key);
}

TEST_F(ShopCertificateTest, AFileThatIsNoneIsLeftAlone) {
  for (const std::string& text :
       {std::string("not a certificate"), made().identity.certificate, made().identity.private_key}) {
    write(text);
    EXPECT_THROW(made(), std::runtime_error);
    std::ifstream in(file);
    EXPECT_EQ(std::string(std::istreambuf_iterator<char>(in), {}), text);
    in.close();
    std::filesystem::remove(file);
  }
}

}  // namespace
}  // namespace brakewright::server
