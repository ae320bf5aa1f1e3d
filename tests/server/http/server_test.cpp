#include "server/http/server.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <memory>
#include <nlohmann/json.hpp>
#include <semaphore>
#include <thread>
#include <vector>

#include "tests/server/raw_client.hpp"

namespace brakewright::http {
namespace {

using nlohmann::json;
using test::Answer;
using test::RawClient;
using namespace std::chrono_literals;

ServerOptions with(ServerLimits limits) {
  ServerOptions options;
  options.host_names = {"127.0.0.1", "localhost"};
  options.limits = limits;
  return options;
}

/// A server whose handler echoes what it understood.
struct Echo {
  explicit Echo(ServerLimits limits = {})
      : server(
            with(limits), [this](const Request& request) { return answer(request); }, hub) {
    server.start();
  }

  Response answer(const Request& request) {
    ++handled;
    if (request.path == "/throws") throw std::runtime_error("the inside of the program");
    if (request.path == "/refuses") throw Refusal(409, "no", "a.b", "\"quoted\" <b>");
    if (request.path == "/waits") {
      waiting.release();
      go_on.acquire();
    }
    Response response;
    response.body = json({{"method", request.method}, {"path", request.path}, {"bytes", request.body.size()}}).dump();
    return response;
  }

  std::atomic<int> handled = 0;
  std::counting_semaphore<> waiting{0};
  std::counting_semaphore<> go_on{0};
  EventHub hub{[](std::int64_t, std::size_t) { return std::vector<Event>(); }, [] { return std::int64_t{0}; }, {}};
  HttpServer server;
};

void expect_refused(const Answer& answer, int status, const std::string& code) {
  EXPECT_EQ(answer.status, status);
  const json body = json::parse(answer.body, nullptr, false);
  ASSERT_TRUE(body.is_object()) << answer.body;
  EXPECT_EQ(body["error"]["code"], code);
  EXPECT_TRUE(body["error"]["field"].is_string());
  EXPECT_FALSE(body["error"]["message"].get<std::string>().empty());
  EXPECT_EQ(answer.headers.at("content-type"), "application/json");
}

TEST(HttpServer, AnswersSeveralRequestsOnOneConnection) {
  Echo echo;
  RawClient client(echo.server.port());
  EXPECT_EQ(json::parse(client.get("/one").body)["path"], "/one");
  EXPECT_EQ(json::parse(client.write("POST", "/two", "12345").body)["bytes"], 5);
  client.send("GET /three HTTP/1.1\r\nHost: localhost\r\n\r\nGET /four HTTP/1.1\r\nHost: localhost\r\n\r\n");
  EXPECT_EQ(json::parse(client.answer().body)["path"], "/three");
  EXPECT_EQ(json::parse(client.answer().body)["path"], "/four");
}

TEST(HttpServer, LeavesTheContentOutOfAnAnswerToHead) {
  Echo echo;
  RawClient client(echo.server.port());
  client.send("HEAD /one HTTP/1.1\r\nHost: localhost\r\n\r\n");
  EXPECT_GT(std::stoi(client.answer(true).headers.at("content-length")), 10);
  EXPECT_EQ(client.get("/two").status, 200) << "nothing of the first answer stands before the second";
}

TEST(HttpServer, TellsBrowsersNotToGuessFrameCacheOrRun) {
  Echo echo;
  const Answer answer = RawClient(echo.server.port()).get("/one");
  EXPECT_EQ(answer.headers.at("x-content-type-options"), "nosniff");
  EXPECT_EQ(answer.headers.at("cache-control"), "no-store");
  EXPECT_EQ(answer.headers.at("referrer-policy"), "no-referrer");
  EXPECT_NE(answer.headers.at("content-security-policy").find("frame-ancestors 'none'"), std::string::npos);
  EXPECT_EQ(answer.headers.count("server"), 0U);
}

TEST(HttpServer, RefusesHeadersWithoutEndBeforeTheyFillMemory) {
  Echo echo;
  RawClient client(echo.server.port());
  client.send("GET / HTTP/1.1\r\nHost: localhost\r\nX-Long: ");
  const std::string block(64 * 1024, 'x');
  int sent = 0;
  while (sent < 800 && client.send(block)) ++sent;
  EXPECT_LT(sent, 800) << "48 MiB of header were swallowed";
  EXPECT_EQ(echo.handled, 0);
}

TEST(HttpServer, SaysThatHeadersAreTooLarge) {
  Echo echo;
  RawClient client(echo.server.port());
  client.send("GET / HTTP/1.1\r\nHost: localhost\r\nX-Long: " + std::string(9'000, 'x') + "\r\n\r\n");
  expect_refused(client.answer(), 431, "headers_too_large");
  EXPECT_TRUE(client.hung_up());
}

TEST(HttpServer, RefusesABodyThatIsToldTooLargeWithoutReadingIt) {
  Echo echo;
  RawClient client(echo.server.port());
  client.send("POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 8388609\r\n\r\n");
  expect_refused(client.answer(), 413, "too_large");
  EXPECT_TRUE(client.hung_up());
  EXPECT_EQ(echo.handled, 0);
}

TEST(HttpServer, RefusesABodyThatGrowsTooLargeAndIsHeardByWhoStillSends) {
  Echo echo(ServerLimits{.body_bytes = 100'000});
  RawClient client(echo.server.port());
  client.send("POST / HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\n\r\n");
  for (int i = 0; i < 20; ++i) client.send("4000\r\n" + std::string(0x4000, 'x') + "\r\n");
  expect_refused(client.answer(), 413, "too_large");
  EXPECT_EQ(echo.handled, 0);
}

TEST(HttpServer, TakesABodyOfTheLargestSize) {
  Echo echo;
  const std::string body(8 * 1024 * 1024, 'x');
  EXPECT_EQ(json::parse(RawClient(echo.server.port()).write("POST", "/", body).body)["bytes"], body.size());
}

TEST(HttpServer, BoundsWhatAllBodiesTakeTogether) {
  Echo echo(ServerLimits{.body_bytes = 1000, .bodies_bytes = 1500});
  RawClient first(echo.server.port());
  first.send("POST /waits HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000\r\n\r\n" + std::string(1000, 'x'));
  echo.waiting.acquire();
  expect_refused(RawClient(echo.server.port()).write("POST", "/", std::string(501, 'x')), 503, "busy");
  EXPECT_EQ(RawClient(echo.server.port()).write("POST", "/", std::string(500, 'x')).status, 200);
  echo.go_on.release();
  EXPECT_EQ(first.answer().status, 200);
  EXPECT_EQ(RawClient(echo.server.port()).write("POST", "/", std::string(1000, 'x')).status, 200);
}

TEST(HttpServer, TellsWhoWaitsToGoOnSending) {
  Echo echo;
  RawClient client(echo.server.port());
  client.send("POST / HTTP/1.1\r\nHost: localhost\r\nExpect: 100-continue\r\nContent-Length: 3\r\n\r\n");
  EXPECT_EQ(client.until("\r\n\r\n"), "HTTP/1.1 100 Continue\r\n\r\n");
  client.send("abc");
  EXPECT_EQ(json::parse(client.answer().body)["bytes"], 3);
}

TEST(HttpServer, EndsARequestThatDripsIn) {
  Echo echo(ServerLimits{.header = 150ms});
  RawClient client(echo.server.port());
  std::thread drip([&] {
    for (const char c :
         std::string("GET / HTTP/1.1\r\nX-Slow: yyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyy")) {
      if (!client.send({&c, 1})) break;
      std::this_thread::sleep_for(10ms);
    }
  });
  expect_refused(client.answer(), 408, "too_slow");
  drip.join();
  EXPECT_TRUE(client.hung_up());
}

TEST(HttpServer, EndsABodyThatDoesNotArrive) {
  Echo echo(ServerLimits{.body = 100ms});
  RawClient client(echo.server.port());
  client.send("POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 10\r\n\r\nabc");
  expect_refused(client.answer(), 408, "too_slow");
}

TEST(HttpServer, EndsAConnectionOnWhichNothingIsAsked) {
  Echo echo(ServerLimits{.idle = 100ms});
  EXPECT_TRUE(RawClient(echo.server.port()).hung_up());
}

TEST(HttpServer, RefusesWhatIsNotHttp) {
  Echo echo;
  RawClient tls(echo.server.port());
  tls.send("\x16\x03\x01\x02\x01\r\n\r\n");
  expect_refused(tls.answer(), 400, "bad_request");
  RawClient absolute(echo.server.port());
  expect_refused(absolute.get("http://elsewhere/"), 400, "bad_target");
}

TEST(HttpServer, RefusesDetoursInAddresses) {
  Echo echo;
  for (const char* target :
       {"/../etc/passwd", "/a/%2e%2e/b", "/a/..%2fb", "/a/..%5cb", "/%00", "/%ff", "/%4", "/?a=1&a=2"}) {
    expect_refused(RawClient(echo.server.port()).get(target), 400, "bad_target");
  }
  EXPECT_EQ(echo.handled, 0);
  EXPECT_EQ(json::parse(RawClient(echo.server.port()).get("/a%20b/%25").body)["path"], "/a b/%");
}

TEST(HttpServer, SaysNothingOfTheInsideWhenItFails) {
  Echo echo;
  const Answer answer = RawClient(echo.server.port()).get("/throws");
  expect_refused(answer, 500, "internal");
  EXPECT_EQ(answer.body.find("inside of the program"), std::string::npos);
  EXPECT_NE(answer.body.find(answer.headers.at("x-request-id")), std::string::npos)
      << "so that the log can be searched";
}

TEST(HttpServer, GivesEveryRefusalOneShape) {
  Echo echo;
  const Answer answer = RawClient(echo.server.port()).get("/refuses");
  expect_refused(answer, 409, "no");
  EXPECT_EQ(json::parse(answer.body)["error"]["field"], "a.b");
}

TEST(HttpServer, IsNotCalledByANameThatIsNotOurs) {
  Echo echo;
  const auto asked_as = [&](const std::string& host) {
    RawClient client(echo.server.port());
    client.send("GET / HTTP/1.1\r\n" + (host.empty() ? "" : "Host: " + host + "\r\n") + "\r\n");
    return client.answer();
  };
  expect_refused(asked_as("rebound.example"), 421, "wrong_host");
  expect_refused(asked_as("127.0.0.1.rebound.example:80"), 421, "wrong_host");
  expect_refused(asked_as("10.1.2.3"), 421, "wrong_host");
  expect_refused(asked_as(""), 400, "bad_host");
  EXPECT_EQ(asked_as("LOCALHOST:1234").status, 200);
  EXPECT_EQ(asked_as("127.0.0.1").status, 200);
}

TEST(HttpServer, LetsOnlyItsOwnPagesWrite) {
  Echo echo;
  const auto written_from = [&](const std::string& headers) {
    RawClient client(echo.server.port());
    client.send("POST / HTTP/1.1\r\nHost: localhost:8520\r\nContent-Length: 0\r\n" + headers + "\r\n");
    return client.answer();
  };
  expect_refused(written_from("Origin: http://elsewhere.example\r\n"), 403, "wrong_origin");
  expect_refused(written_from("Origin: http://localhost:9999\r\n"), 403, "wrong_origin");
  expect_refused(written_from("Origin: null\r\n"), 403, "wrong_origin");
  expect_refused(written_from("Sec-Fetch-Site: cross-site\r\n"), 403, "wrong_origin");
  EXPECT_EQ(written_from("Origin: http://localhost:8520\r\nSec-Fetch-Site: same-origin\r\n").status, 200);
  EXPECT_EQ(written_from("").status, 200) << "a program has no origin";
}

TEST(HttpServer, ServesManyClientsAtOnce) {
  Echo echo;
  std::atomic<int> good = 0;
  std::vector<std::thread> clients;
  for (int i = 0; i < 64; ++i) {
    clients.emplace_back([&, i] {
      RawClient client(echo.server.port());
      for (int k = 0; k < 10; ++k) {
        const std::string path = std::string("/") + std::to_string(i) + "/" + std::to_string(k);
        if (json::parse(client.get(path).body)["path"] == path) ++good;
      }
    });
  }
  for (auto& client : clients) client.join();
  EXPECT_EQ(good, 640);
}

TEST(HttpServer, GivesOneAddressOnlyItsShareOfConnections) {
  Echo echo(ServerLimits{.connections_per_address = 2});
  RawClient first(echo.server.port());
  RawClient second(echo.server.port());
  EXPECT_EQ(first.get("/").status, 200);
  EXPECT_EQ(second.get("/").status, 200);
  EXPECT_TRUE(RawClient(echo.server.port()).hung_up());
  EXPECT_EQ(RawClient(echo.server.port(), "127.0.0.2").get("/").status, 200) << "another machine";
}

TEST(HttpServer, HasRoomForThirtyTabletsBehindOneAddress) {
  constexpr std::size_t kTablets = 30;
  constexpr std::size_t kConnectionsOfATablet = 7;
  Echo echo;
  std::vector<std::unique_ptr<RawClient>> clients;
  for (std::size_t k = 0; k < kTablets * kConnectionsOfATablet; ++k) {
    clients.push_back(std::make_unique<RawClient>(echo.server.port()));
  }
  for (const auto& client : clients) EXPECT_EQ(client->get("/").status, 200);
}

TEST(HttpServer, FinishesWhatItIsAnsweringWhenItIsStopped) {
  Echo echo;
  RawClient idle(echo.server.port());
  EXPECT_EQ(idle.get("/").status, 200);
  RawClient busy(echo.server.port());
  busy.send("GET /waits HTTP/1.1\r\nHost: localhost\r\n\r\n");
  echo.waiting.acquire();
  std::thread stopping([&] { echo.server.stop(); });
  EXPECT_TRUE(idle.hung_up());
  echo.go_on.release();
  const Answer answer = busy.answer();
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.headers.at("connection"), "close");
  stopping.join();
  EXPECT_THROW(RawClient(echo.server.port()), std::runtime_error);
}

TEST(HttpServer, SaysWhichPortIsTaken) {
  Echo echo;
  ServerOptions options;
  options.port = echo.server.port();
  try {
    HttpServer second(
        options, [](const Request&) { return Response(); }, echo.hub);
    FAIL() << "two servers on one port";
  } catch (const std::runtime_error& error) {
    EXPECT_NE(std::string(error.what()).find("in use"), std::string::npos) << error.what();
  }
}

}  // namespace
}  // namespace brakewright::http
