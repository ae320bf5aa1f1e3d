#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "server/http/events.hpp"
#include "server/http/message.hpp"

namespace brakewright::http {

/// Bounds within which a stranger on the network can use up nothing that matters.
struct ServerLimits {
  std::uint32_t header_bytes = 8 * 1024;          ///< 431 beyond
  std::uint64_t body_bytes = 8 * 1024 * 1024;     ///< 413 beyond
  std::uint64_t bodies_bytes = 64 * 1024 * 1024;  ///< of all requests being read or answered; 503 beyond
  std::size_t connections = 512;                  ///< further ones are closed at once
  /// A class behind one address translator: 30 tablets with the 6 connections of a browser and an open stream are 210.
  std::size_t connections_per_address = 256;
  std::size_t streams = 128;  ///< of events; 503 beyond
  std::size_t workers = 4;    ///< threads that run handlers

  std::chrono::milliseconds idle{60'000};          ///< between two requests of one connection
  std::chrono::milliseconds header{10'000};        ///< from the first byte of a request to the end of its headers
  std::chrono::milliseconds body{30'000};          ///< for the body, and 1 s more for each 50 kB of it
  std::chrono::milliseconds write{30'000};         ///< for the answer, and 1 s more for each 50 kB of it
  std::chrono::milliseconds heartbeat{10'000};     ///< a comment on a stream on which nothing happens
  std::chrono::milliseconds stream_life{120'000};  ///< then the client comes back by itself, if it still may
  std::chrono::milliseconds farewell{5'000};       ///< for requests being answered when the server is stopped
};

/// With whom a client speaks, as PEM.
struct Identity {
  std::string certificate;
  std::string private_key;
};

struct ServerOptions {
  std::vector<std::string> addresses = {"127.0.0.1"};  ///< to listen on; those of IPv6 without brackets
  std::uint16_t port = 0;                              ///< 0: any free one
  std::vector<std::string> host_names;                 ///< see check_host_and_origin
  ServerLimits limits;
  std::optional<Identity> identity;  ///< speak TLS; who comes without it is sent to https on the same port
};

/// An address or port that cannot be had; the message says so to people, and what to do.
class CannotListen : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Answers a request; runs on a worker thread, several at a time. What it throws becomes the answer of a Refusal, or
/// is logged and answered as an internal error.
using Handler = std::function<Response(const Request&)>;

/// An HTTP/1.1 server: one thread that reads and writes, a few that run handlers, so that neither a slow client nor an
/// open stream of events holds a thread.
class HttpServer {
 public:
  /// Takes the port; who connects waits until start(). @throws CannotListen
  HttpServer(ServerOptions options, Handler handler, EventHub& hub);
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  /// Answers from now on. Called once.
  void start();

  std::uint16_t port() const;

  /// Tells that the hub's source has something new; returns at once, from any thread.
  void news();

  /// Refuses new connections, ends streams and idle connections, lets requests finish that are being answered.
  void stop();

 private:
  class Implementation;
  std::unique_ptr<Implementation> inner_;
};

}  // namespace brakewright::http
