#include <gtest/gtest.h>

#include "tests/server/running_shop.hpp"

namespace brakewright::server {
namespace {

using test::Answer;
using test::Json;
using test::RawClient;
using test::RunningShop;

constexpr const char* kPassword = "a long brass hinge";

/// A book that is only counted.
struct CountedBook final : shop::SessionBook {
  std::map<std::string, shop::Session> kept;
  std::vector<shop::Session> sessions() override { return {}; }
  void put(const shop::Session& session) override { kept[session.token_sha256] = session; }
  void remove(const std::string& token_sha256) override { kept.erase(token_sha256); }
};

std::string cookie_of(const Answer& answer) {
  const std::string& header = answer.headers.at("set-cookie");
  return header.substr(0, header.find(';'));
}

/// A shop whose teacher has just closed its doors.
struct ClosedShop {
  explicit ClosedShop(std::shared_ptr<CountedBook> book = std::make_shared<CountedBook>())
      : kept(book), shop(options(book)) {
    shop.write("POST", "/doors/first", {{"id", shop.teacher()}, {"name", ""}, {"password", kPassword}});
  }

  static ShopServerOptions options(const std::shared_ptr<CountedBook>& book) {
    ShopServerOptions wanted;
    wanted.doors.book = book;
    return wanted;
  }

  Answer sign_in(RawClient& client, const std::string& secret) {
    const Json body = {{"person_id", shop.teacher()}, {"secret", secret}};
    return client.write("POST", "/api/v1/sessions", body.dump());
  }

  std::shared_ptr<CountedBook> kept;
  RunningShop shop;
};

TEST(DoorsOfAServer, TakeTenThousandSignInsInBoundedRoom) {
  const auto book = std::make_shared<CountedBook>();
  ClosedShop closed(book);
  RawClient client(closed.shop.port());
  std::set<std::string> cookies;
  for (int k = 0; k < 10'000; ++k) {
    const Answer answer = closed.sign_in(client, kPassword);
    ASSERT_EQ(answer.status, 200) << k << answer.body;
    cookies.insert(cookie_of(answer));
    ASSERT_LE(book->kept.size(), 40U);
  }
  EXPECT_EQ(cookies.size(), 10'000U);
  EXPECT_EQ(book->kept.size(), 40U);
}

TEST(DoorsOfAServer, SendTheSessionOfATabletThatNobodyTouchesToItsEnd) {
  ClosedShop closed;
  RawClient client(closed.shop.port());
  const std::string cookie = cookie_of(closed.sign_in(client, kPassword));
  const auto look = [&](const std::string& idle) {
    return client.get("/api/v1/pegboard", "Cookie: " + cookie + "\r\nIdle-Seconds: " + idle + "\r\n").status;
  };
  for (int k = 0; k < 50; ++k) ASSERT_EQ(look("0"), 200);
  // The clock of this shop goes on by some seconds with each request, so that half an hour passes.
  int looks = 0;
  while (look("100000") == 200 && looks < 2000) ++looks;
  EXPECT_LT(looks, 2000);
  EXPECT_GT(looks, 100);
  EXPECT_EQ(look("0"), 401);
}

}  // namespace
}  // namespace brakewright::server
