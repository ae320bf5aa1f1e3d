#include <gtest/gtest.h>

#include <thread>

#include "tests/server/running_shop.hpp"

namespace brakewright::server {
namespace {

using test::Json;
using test::RawClient;
using test::RunningShop;

/// A page that listens: reads one event after another.
class Listener {
 public:
  Listener(RunningShop& shop, const std::string& query, const std::string& headers = "") : client_(shop.port()) {
    client_.send("GET /api/v1/events" + query + " HTTP/1.1\r\nHost: localhost\r\n" + headers + "\r\n");
    client_.until("\r\n\r\n");
    client_.until("retry: 1500\n\n");
  }

  /// The next event, comments passed over.
  std::string next() {
    std::string event = client_.until("\n\n");
    while (event.starts_with(':')) event = client_.until("\n\n");
    return event;
  }

  /// The change in the next event.
  Json change() {
    const std::string event = next();
    return Json::parse(event.substr(event.find("data: ") + 6));
  }

 private:
  RawClient client_;
};

std::int64_t seq_of(RunningShop& shop) { return shop.read("/health")["seq"]; }

TEST(Live, TellsEachTabletOfTheReadingsOfTheOthers) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::int64_t seq = seq_of(shop);
  Listener first(shop, "?after=" + std::to_string(seq));
  Listener second(shop, "?after=" + std::to_string(seq));
  EXPECT_NE(first.next().find("event: hello"), std::string::npos);
  EXPECT_NE(second.next().find("event: hello"), std::string::npos);
  const Json reading = shop.reading(file, 0, "21.234");
  shop.write("POST", "/jobs/" + RunningShop::id_of(file) + "/readings", reading);
  for (Listener* listener : {&first, &second}) {
    const Json change = listener->change();
    EXPECT_EQ(change.at("seq"), seq + 1);
    EXPECT_EQ(change.at("subject_id"), reading["id"]);
    EXPECT_EQ(change.at("detail").at("value").at("text"), "21.234");
  }
}

TEST(Live, ATabletThatComesBackHearsEachChangeOnce) {
  RunningShop shop;
  const Json file = shop.open_job();
  const std::string path = "/jobs/" + RunningShop::id_of(file) + "/readings";
  const std::int64_t start = seq_of(shop);
  std::thread writing([&] {
    for (int i = 0; i < 40; ++i) shop.write("POST", path, shop.reading(file, i % 4, "21.23" + std::to_string(i % 10)));
  });
  std::vector<std::int64_t> heard;
  while (heard.size() < 40) {
    const std::int64_t last = heard.empty() ? start : heard.back();
    Listener listener(shop, "?after=" + std::to_string(start), "Last-Event-ID: " + std::to_string(last) + "\r\n");
    listener.next();
    for (int i = 0; i < 3 && heard.size() < 40; ++i) heard.push_back(listener.change()["seq"]);
  }
  writing.join();
  for (std::size_t i = 0; i < heard.size(); ++i) EXPECT_EQ(heard[i], start + 1 + static_cast<std::int64_t>(i));
}

TEST(Live, ATabletThatKnowsAnotherHistoryIsToldToReadAnew) {
  RunningShop shop;
  Listener listener(shop, "?after=1000000");
  const std::string event = listener.next();
  EXPECT_NE(event.find("event: resync"), std::string::npos);
  EXPECT_NE(event.find("id: " + std::to_string(seq_of(shop)) + "\n"), std::string::npos);
}

TEST(Live, TheJournalOfAJobTellsTheSameAsTheEvents) {
  RunningShop shop;
  const Json file = shop.open_job();
  Listener listener(shop, "?after=0");
  listener.next();
  std::vector<Json> heard;
  for (std::int64_t i = 0; i < seq_of(shop); ++i) heard.push_back(listener.change());
  const Json journal = shop.read("/jobs/" + RunningShop::id_of(file) + "/changes");
  ASSERT_FALSE(journal.empty());
  for (const Json& change : journal) {
    EXPECT_NE(std::find(heard.begin(), heard.end(), change), heard.end()) << change;
  }
}

}  // namespace
}  // namespace brakewright::server
