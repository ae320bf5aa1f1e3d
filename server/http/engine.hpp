#pragma once

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <unordered_map>
#include <utility>  // Boost.Asio 1.74 needs it and does not say so

#include "server/http/server.hpp"
#include "server/http/wire.hpp"

/// Inside of the server; included by its own sources only.
namespace brakewright::http {

namespace asio = boost::asio;

/// What all connections of one server share. Everything but `io`, `workers` and `hub` belongs to the io thread.
struct Engine {
  Engine(ServerOptions wanted, Handler answer, EventHub& events)
      : options(std::move(wanted)), handler(std::move(answer)), hub(events), workers(options.limits.workers) {}

  ServerOptions options;
  Handler handler;
  EventHub& hub;

  std::optional<asio::ssl::context> tls;  ///< with it whoever comes without TLS is sent to it

  bool stopping = false;
  std::uint64_t bodies_bytes = 0;
  std::size_t streams = 0;
  std::map<std::string, std::size_t> connections_of;  ///< by address of the client

  /// Each open connection by itself as a key: how to tell it that something is new, and that it is to end.
  struct Ears {
    std::function<void()> news;
    std::function<void()> stop;
  };
  std::unordered_map<const void*, Ears> open;

  std::mt19937_64 request_ids{std::random_device{}()};

  // Last, so that they go first: what they still hold refers to all of the above.
  asio::io_context io{1};
  asio::thread_pool workers;
};

/// Ends what is under way on a socket when it takes too long; lives on the io thread.
class Deadline {
 public:
  explicit Deadline(asio::io_context& io) : timer_(io) {}

  /// Runs `late` after that time unless met() or start() comes first.
  void start(std::chrono::milliseconds time, std::function<void()> late) {
    const std::uint64_t mine = ++*turn_;
    timer_.expires_after(time);
    timer_.async_wait([turn = turn_, mine, late = std::move(late)](const boost::system::error_code& error) {
      if (!error && mine == *turn) late();
    });
  }

  void met() {
    ++*turn_;
    timer_.cancel();
  }

 private:
  asio::steady_timer timer_;
  std::shared_ptr<std::uint64_t> turn_ = std::make_shared<std::uint64_t>(0);  ///< outlives us in a queued call
};

/// Takes over a socket, reads requests and answers them until it ends.
void serve_connection(Engine& engine, asio::ip::tcp::socket socket);

/// Takes over a wire and sends events on it until it ends. @param head  the response's head, to be sent first
void serve_events(Engine& engine, Wire wire, std::string head, EventsAfter after);

}  // namespace brakewright::http
