#include "server/http/events.hpp"

#include <gtest/gtest.h>

#include <regex>

#include "server/http/server.hpp"
#include "tests/server/raw_client.hpp"

namespace brakewright::http {
namespace {

using test::RawClient;
using namespace std::chrono_literals;

/// A journal of numbered lines.
class Journal {
 public:
  void add(int count) {
    const std::lock_guard lock(guard_);
    newest_ += count;
  }
  std::int64_t newest() {
    const std::lock_guard lock(guard_);
    return newest_;
  }
  std::vector<Event> after(std::int64_t id, std::size_t limit) {
    const std::lock_guard lock(guard_);
    ++reads;
    std::vector<Event> events;
    while (id < newest_ && events.size() < limit) {
      ++id;
      events.push_back({id, "", "{\"seq\":" + std::to_string(id) + "}"});
    }
    return events;
  }
  std::atomic<int> reads = 0;

 private:
  std::mutex guard_;
  std::int64_t newest_ = 0;
};

EventHub hub_over(Journal& journal, EventHub::Limits limits = {}) {
  return EventHub([&](std::int64_t id, std::size_t limit) { return journal.after(id, limit); },
                  [&] { return journal.newest(); }, limits);
}

std::vector<std::int64_t> ids_in(const std::string& text) {
  std::vector<std::int64_t> ids;
  const std::regex line("data: \\{\"seq\":([0-9]+)\\}");
  for (std::sregex_iterator it(text.begin(), text.end(), line), end; it != end; ++it)
    ids.push_back(std::stoll((*it)[1]));
  return ids;
}

TEST(EventHub, GivesEachEventOnceAndInOrderFromMemoryOrFromTheSource) {
  Journal journal;
  journal.add(50);
  EventHub hub = hub_over(journal, {.held = 20, .page = 7, .most_behind = 1000});
  journal.add(100);
  hub.refresh();
  std::int64_t cursor = 3;
  std::vector<std::int64_t> seen;
  for (int turn = 0; turn < 100 && cursor < 150; ++turn) {
    EventBatch batch = hub.next(cursor);
    if (batch.behind) batch = hub.fetch(cursor);
    for (const std::int64_t id : ids_in(batch.text)) seen.push_back(id);
    cursor = batch.cursor;
  }
  ASSERT_EQ(seen.size(), 147U);
  for (std::size_t i = 0; i < seen.size(); ++i) EXPECT_EQ(seen[i], static_cast<std::int64_t>(i) + 4);
  EXPECT_TRUE(hub.next(150).text.empty());
}

TEST(EventHub, TellsWhoIsTooFarBehindToReadEverythingAnew) {
  Journal journal;
  journal.add(2000);
  EventHub hub = hub_over(journal, {.held = 20, .page = 7, .most_behind = 1000});
  EXPECT_NE(hub.greet(999).text.find("id: 2000\nevent: resync\n"), std::string::npos);
  EXPECT_NE(hub.greet(1000).text.find("id: 1000\nevent: hello\n"), std::string::npos);
  EXPECT_NE(hub.greet(2001).text.find("event: resync"), std::string::npos) << "ahead of us: another history";
  EXPECT_EQ(hub.greet(999).cursor, 2000);
}

TEST(EventHub, FetchesNothingThatMemoryHasNotRead) {
  Journal journal;
  journal.add(10);
  EventHub hub = hub_over(journal);
  journal.add(5);
  EventBatch batch = hub.next(3);
  ASSERT_TRUE(batch.behind);
  batch = hub.fetch(3);
  EXPECT_EQ(batch.cursor, 10);
  EXPECT_EQ(ids_in(batch.text).size(), 7U);
  EXPECT_TRUE(hub.next(batch.cursor).text.empty());
  hub.refresh();
  EXPECT_EQ(ids_in(hub.next(batch.cursor).text).size(), 5U);
}

TEST(EventHub, ReadsTheSourceOnceForAllStreams) {
  Journal journal;
  EventHub hub = hub_over(journal);
  journal.add(5);
  hub.refresh();
  const int reads = journal.reads;
  for (int stream = 0; stream < 100; ++stream) EXPECT_EQ(ids_in(hub.next(0).text).size(), 5U);
  EXPECT_EQ(journal.reads, reads);
}

struct Streaming {
  explicit Streaming(ServerLimits limits = {}, EventHub::Limits hub_limits = {}) : hub(hub_over(journal, hub_limits)) {
    ServerOptions options;
    options.host_names = {"127.0.0.1", "localhost"};
    options.limits = limits;
    const auto handler = [](const Request& request) {
      Response response;
      if (request.path != "/events") return response;
      response.content_type = "text/event-stream";
      response.events = EventsAfter{};
      const auto after = request.query.find("after");
      if (after != request.query.end()) response.events->id = std::stoll(after->second);
      return response;
    };
    server = std::make_unique<HttpServer>(options, handler, hub);
    server->start();
  }

  void happen(int count) {
    journal.add(count);
    server->news();
  }

  Journal journal;
  EventHub hub;
  std::unique_ptr<HttpServer> server;
};

RawClient& listening(RawClient& client, const std::string& after = "") {
  client.send("GET /events" + after + " HTTP/1.1\r\nHost: localhost\r\n\r\n");
  client.until("data: {\"seq\":");
  client.until("\n\n");
  return client;
}

TEST(EventStream, HearsWhatHappensAfterItBegan) {
  Streaming streaming;
  streaming.happen(3);
  RawClient client(streaming.server->port());
  listening(client, "?after=3");
  streaming.happen(2);
  EXPECT_EQ(ids_in(client.until("{\"seq\":5}\n\n")), (std::vector<std::int64_t>{4, 5}));
}

TEST(EventStream, TakesInWhoKnowsMoreThanTheHubHasReadYet) {
  Streaming streaming;
  streaming.journal.add(5);
  RawClient client(streaming.server->port());
  client.send("GET /events?after=5 HTTP/1.1\r\nHost: localhost\r\n\r\n");
  EXPECT_NE(client.until("{\"seq\":5}\n\n").find("id: 5\nevent: hello\n"), std::string::npos);
  streaming.happen(1);
  EXPECT_EQ(ids_in(client.until("{\"seq\":6}\n\n")), std::vector<std::int64_t>{6});
}

TEST(EventStream, ResumesWithoutGapOrRepetition) {
  Streaming streaming;
  std::vector<std::int64_t> seen;
  for (int round = 1; round <= 10; ++round) {
    RawClient client(streaming.server->port());
    listening(client, "?after=" + std::to_string(seen.empty() ? 0 : seen.back()));
    streaming.happen(7);
    const auto ids = ids_in(client.until("{\"seq\":" + std::to_string(7 * round) + "}\n\n"));
    seen.insert(seen.end(), ids.begin(), ids.end());
  }
  ASSERT_EQ(seen.size(), 70U);
  for (std::size_t i = 0; i < seen.size(); ++i) EXPECT_EQ(seen[i], static_cast<std::int64_t>(i) + 1);
}

TEST(EventStream, ManyHoldNoThread) {
  Streaming streaming;
  std::vector<std::unique_ptr<RawClient>> clients;
  for (int i = 0; i < 60; ++i) {
    clients.push_back(std::make_unique<RawClient>(streaming.server->port()));
    listening(*clients.back());
  }
  EXPECT_EQ(RawClient(streaming.server->port()).get("/plain").status, 200);
  streaming.happen(1);
  for (auto& client : clients) EXPECT_EQ(ids_in(client->until("{\"seq\":1}\n\n")).size(), 1U);
}

TEST(EventStream, BeatsWhileNothingHappens) {
  Streaming streaming(ServerLimits{.heartbeat = 30ms});
  RawClient client(streaming.server->port());
  listening(client);
  EXPECT_EQ(client.until(":\n\n"), ":\n\n");
  EXPECT_EQ(client.until(":\n\n"), ":\n\n");
}

TEST(EventStream, EndsAfterItsLife) {
  Streaming streaming(ServerLimits{.stream_life = 100ms});
  RawClient client(streaming.server->port());
  EXPECT_TRUE(listening(client).hung_up());
}

TEST(EventStream, OneThatReadsNothingIsEndedAndHoldsUpNobody) {
  Streaming streaming(ServerLimits{.write = 200ms, .heartbeat = 20ms},
                      {.held = 100, .page = 2000, .most_behind = 1'000'000});
  RawClient deaf(streaming.server->port(), "127.0.0.1", 4096);
  deaf.send("GET /events?after=0 HTTP/1.1\r\nHost: localhost\r\n\r\n");
  RawClient other(streaming.server->port());
  listening(other);
  streaming.happen(60'000);
  EXPECT_NE(other.until("{\"seq\":60000}\n\n").size(), 0U);
  EXPECT_TRUE(deaf.cut_off()) << "it comes back with its last id";
}

TEST(EventStream, OneWhoseClientIsGoneIsGivenUp) {
  Streaming streaming(ServerLimits{.streams = 1});
  {
    RawClient gone(streaming.server->port());
    listening(gone);
    EXPECT_EQ(RawClient(streaming.server->port()).get("/events").status, 503);
  }
  for (int attempt = 0; attempt < 200; ++attempt) {
    RawClient next(streaming.server->port());
    next.send("GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n");
    if (next.until("\r\n\r\n").find(" 200 ") != std::string::npos) return;
    std::this_thread::sleep_for(10ms);
  }
  FAIL() << "the place was never free again";
}

TEST(EventStream, EndsWhenTheServerIsStopped) {
  Streaming streaming;
  RawClient client(streaming.server->port());
  listening(client);
  streaming.server->stop();
  EXPECT_TRUE(client.hung_up());
}

}  // namespace
}  // namespace brakewright::http
