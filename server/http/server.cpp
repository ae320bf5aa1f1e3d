#include "server/http/server.hpp"

#include <spdlog/spdlog.h>

#include <atomic>
#include <boost/asio/ip/v6_only.hpp>
#include <stdexcept>
#include <thread>

#include "server/http/engine.hpp"

namespace brakewright::http {
namespace {

using Error = boost::system::error_code;

constexpr std::chrono::milliseconds kRefreshAtLeastEvery{5'000};

std::string sentence_for(const Error& error, const std::string& address, std::uint16_t port) {
  const std::string where = address + " port " + std::to_string(port);
  if (error == asio::error::address_in_use) {
    return where + " is in use: another program, or another Brakewright, listens there. Stop it, or choose --port.";
  }
  if (error == asio::error::access_denied) return where + " may not be used; choose a --port above 1023.";
  return where + " cannot be listened on: " + error.message();
}

asio::ssl::context tls_for(const Identity& identity) {
  using Context = asio::ssl::context;
  Context context(Context::tls_server);
  context.set_options(Context::default_workarounds | Context::no_sslv2 | Context::no_sslv3 | Context::no_tlsv1 |
                      Context::no_tlsv1_1 | Context::no_compression);
  context.use_certificate_chain(asio::buffer(identity.certificate));
  context.use_private_key(asio::buffer(identity.private_key), Context::pem);
  return context;
}

}  // namespace

class HttpServer::Implementation {
 public:
  Implementation(ServerOptions options, Handler handler, EventHub& hub)
      : engine_(std::move(options), std::move(handler), hub), farewell_(engine_.io), refresh_(engine_.io) {
    if (engine_.options.identity) engine_.tls.emplace(tls_for(*engine_.options.identity));
    for (const std::string& address : engine_.options.addresses) listen(address);
  }

  void start() {
    for (auto& acceptor : acceptors_) accept(acceptor);
    refresh_now_and_then();
    thread_ = std::thread([this] { run(); });
  }

  ~Implementation() { stop(); }

  std::uint16_t port() const { return port_; }

  void news() {
    if (refresh_queued_.exchange(true)) return;
    asio::post(engine_.workers, [this] {
      refresh_queued_ = false;
      try {
        engine_.hub.refresh();
      } catch (const std::exception& error) {
        spdlog::error("events could not be read: {}", error.what());
      }
      asio::post(engine_.io, [this] { tell_all([](const Engine::Ears& ears) { return ears.news; }); });
    });
  }

  void stop() {
    if (!thread_.joinable()) return;
    asio::post(engine_.io, [this] {
      engine_.stopping = true;
      Error ignored;
      for (auto& acceptor : acceptors_) acceptor.close(ignored);
      refresh_.met();
      tell_all([](const Engine::Ears& ears) { return ears.stop; });
      farewell_.start(engine_.options.limits.farewell, [this] { engine_.io.stop(); });
      end_when_alone();
    });
    thread_.join();
    engine_.workers.join();
  }

 private:
  void listen(const std::string& address) {
    Error error;
    const auto ip = asio::ip::make_address(address, error);
    if (error) throw CannotListen(address + " is not an address of this machine");
    const asio::ip::tcp::endpoint endpoint(ip, port_ != 0 ? port_ : engine_.options.port);
    asio::ip::tcp::acceptor acceptor(engine_.io);
    acceptor.open(endpoint.protocol(), error);
    if (!error) acceptor.set_option(asio::socket_base::reuse_address(true), error);
    if (!error && ip.is_v6()) acceptor.set_option(asio::ip::v6_only(true), error);
    if (!error) acceptor.bind(endpoint, error);
    if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
    if (error && ip.is_v6() && error != asio::error::address_in_use)
      return;  // a machine without IPv6 still has the other address
    if (error) throw CannotListen(sentence_for(error, address, endpoint.port()));
    port_ = acceptor.local_endpoint().port();
    acceptors_.push_back(std::move(acceptor));
  }

  void accept(asio::ip::tcp::acceptor& acceptor) {
    acceptor.async_accept([this, &acceptor](const Error& error, asio::ip::tcp::socket socket) {
      if (engine_.stopping) return;
      if (error) return accept_later(acceptor);
      if (has_room_for(socket)) serve_connection(engine_, std::move(socket));
      accept(acceptor);
    });
  }

  /// Out of file descriptors, most likely: give others time to end.
  void accept_later(asio::ip::tcp::acceptor& acceptor) {
    const auto timer = std::make_shared<asio::steady_timer>(engine_.io, std::chrono::milliseconds(200));
    timer->async_wait([this, timer, &acceptor](const Error&) {
      if (!engine_.stopping) accept(acceptor);
    });
  }

  bool has_room_for(const asio::ip::tcp::socket& socket) const {
    Error error;
    const auto client = socket.remote_endpoint(error);
    if (error || engine_.open.size() >= engine_.options.limits.connections) return false;
    const auto found = engine_.connections_of.find(client.address().to_string());
    return found == engine_.connections_of.end() || found->second < engine_.options.limits.connections_per_address;
  }

  /// What another process writes into the same store is noticed too, if later.
  void refresh_now_and_then() {
    refresh_.start(kRefreshAtLeastEvery, [this] {
      news();
      refresh_now_and_then();
    });
  }

  template <class Choose>
  void tell_all(Choose choose) {
    std::vector<std::function<void()>> calls;
    for (const auto& [who, ears] : engine_.open) calls.push_back(choose(ears));
    for (const auto& call : calls) call();
  }

  void end_when_alone() {
    if (engine_.open.empty()) return engine_.io.stop();
    const auto timer = std::make_shared<asio::steady_timer>(engine_.io, std::chrono::milliseconds(10));
    timer->async_wait([this, timer](const Error&) { end_when_alone(); });
  }

  void run() {
    for (;;) {
      try {
        engine_.io.run();
        return;
      } catch (const std::exception& error) {
        spdlog::error("a connection ended with a fault: {}", error.what());
      }
    }
  }

  Engine engine_;
  Deadline farewell_;
  Deadline refresh_;
  std::vector<asio::ip::tcp::acceptor> acceptors_;
  std::uint16_t port_ = 0;
  std::atomic<bool> refresh_queued_ = false;
  std::thread thread_;
};

HttpServer::HttpServer(ServerOptions options, Handler handler, EventHub& hub)
    : inner_(std::make_unique<Implementation>(std::move(options), std::move(handler), hub)) {}

HttpServer::~HttpServer() = default;

void HttpServer::start() { inner_->start(); }
std::uint16_t HttpServer::port() const { return inner_->port(); }
void HttpServer::news() { inner_->news(); }
void HttpServer::stop() { inner_->stop(); }

}  // namespace brakewright::http
