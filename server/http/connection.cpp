#include <spdlog/spdlog.h>

#include <array>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/string_body.hpp>
#include <cctype>
#include <memory>
#include <optional>

#include "server/http/engine.hpp"
#include "server/http/guard.hpp"
#include "server/http/target.hpp"

namespace brakewright::http {
namespace {

namespace beast = boost::beast;
using Error = boost::system::error_code;
using Parser = beast::http::request_parser<beast::http::string_body>;

constexpr std::size_t kBufferBytes = 64 * 1024;
constexpr std::uint64_t kBytesPerSecond = 50'000;  ///< slower than this is too slow
constexpr std::string_view kContinue = "HTTP/1.1 100 Continue\r\n\r\n";
constexpr std::chrono::milliseconds kDrain{2'000};  ///< for a client that still sends what was refused
constexpr std::uint64_t kDrainBytes = 32 * 1024 * 1024;

std::string text_of(beast::string_view text) { return {text.data(), text.size()}; }

std::string lower(beast::string_view text) {
  std::string result = text_of(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

std::chrono::milliseconds with_size(std::chrono::milliseconds base, std::uint64_t bytes) {
  return base + std::chrono::seconds(bytes / kBytesPerSecond);
}

Refusal refusal_of(const Error& error, const ServerLimits& limits) {
  using Kind = beast::http::error;
  if (error == Kind::header_limit || error == Kind::buffer_overflow) {
    return {431, "headers_too_large", "", "headers take " + std::to_string(limits.header_bytes) + " bytes at most"};
  }
  if (error == Kind::body_limit) {
    return {413, "too_large", "", "a body takes " + std::to_string(limits.body_bytes) + " bytes at most"};
  }
  return {400, "bad_request", "", "this is not HTTP/1.1"};
}

/// Runs the handler; whatever it throws becomes an answer, and a fault of ours a line in the log.
Response answer(const Handler& handler, const Request& request) {
  try {
    return handler(request);
  } catch (const Refusal& refusal) {
    return response_of(refusal);
  } catch (const std::exception& error) {
    spdlog::error("request {} {} {}: {}", request.id, request.method, request.path, error.what());
  } catch (...) {
    spdlog::error("request {} {} {}: something was thrown that is no exception", request.id, request.method,
                  request.path);
  }
  return internal_error(request.id);
}

/// One connection: await a request, read it, have it answered, write the answer, from the start again.
class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(Engine& engine, asio::ip::tcp::socket socket)
      : engine_(engine), limits_(engine.options.limits), wire_(std::move(socket)), deadline_(engine.io) {
    Error ignored;
    client_ = wire_.socket().remote_endpoint(ignored).address().to_string();
    local_ = wire_.socket().local_endpoint(ignored).address().to_string();
    wire_.socket().set_option(asio::ip::tcp::no_delay(true), ignored);
    ++engine_.connections_of[client_];
  }

  ~Connection() {
    release_body();
    engine_.open.erase(this);
    if (--engine_.connections_of[client_] == 0) engine_.connections_of.erase(client_);
  }

  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void start() {
    const std::weak_ptr<Connection> weak = weak_from_this();
    engine_.open[this] = {.news = [] {},
                          .stop =
                              [weak] {
                                const auto self = weak.lock();
                                if (self && self->idle_) self->close();
                              }};
    engine_.tls ? await_greeting() : await_request();
  }

 private:
  /// Who begins with a handshake gets TLS; others are told where it is, see take_header().
  void await_greeting() {
    start_deadline(limits_.header);
    idle_ = true;
    wire_.socket().async_wait(asio::ip::tcp::socket::wait_read, [self = shared_from_this()](const Error& error) {
      self->idle_ = false;
      if (error || self->late_) return self->close();
      if (!self->wire_.begins_with_tls()) return self->begin();
      self->wire_.secure(*self->engine_.tls, [self](const Error& failed) { failed ? self->close() : self->begin(); });
    });
  }

  void begin() {
    deadline_.met();
    await_request();
  }

  void await_request() {
    if (engine_.stopping) return close();
    parser_.emplace();
    parser_->header_limit(limits_.header_bytes);
    parser_->body_limit(limits_.body_bytes);
    request_ = {};
    if (buffer_.size() > 0) return read_header();
    idle_ = true;
    deadline_.start(limits_.idle, [self = weak_from_this()] {
      if (const auto s = self.lock()) s->close();
    });
    wire_.async_read_some(buffer_.prepare(kBufferBytes / 8),
                          [self = shared_from_this()](const Error& error, std::size_t bytes) {
                            self->deadline_.met();
                            self->idle_ = false;
                            if (error) return self->close();
                            self->buffer_.commit(bytes);
                            self->read_header();
                          });
  }

  /// From now on, too late means an answer that says so.
  void start_deadline(std::chrono::milliseconds time) {
    late_ = false;
    deadline_.start(time, [weak = weak_from_this()] {
      const auto self = weak.lock();
      if (!self) return;
      Error ignored;
      self->late_ = true;
      self->wire_.socket().cancel(ignored);
    });
  }

  void read_header() {
    start_deadline(limits_.header);
    beast::http::async_read_header(wire_, buffer_, *parser_,
                                   [self = shared_from_this()](const Error& error, std::size_t) {
                                     self->deadline_.met();
                                     if (error) return self->refuse_broken(error);
                                     self->take_header();
                                   });
  }

  void refuse_broken(const Error& error) {
    if (late_) return refuse({408, "too_slow", "", "the request took too long to arrive"});
    const bool said_something = error.category() == beast::http::make_error_code(beast::http::error{}).category() &&
                                error != beast::http::error::end_of_stream;
    if (!said_something || error == beast::http::error::partial_message) return close();
    refuse(refusal_of(error, limits_));
  }

  void take_header() {
    const auto& message = parser_->get();
    request_.id = fmt::format("{:016x}", engine_.request_ids());
    request_.method = text_of(message.method_string());
    request_.local_address = local_;
    request_.secure = wire_.is_secure();
    request_.remote_address = client_;
    for (const auto& field : message) request_.headers.emplace_back(lower(field.name_string()), text_of(field.value()));
    try {
      check_host_and_origin(request_, engine_.options.host_names);
      Target target = parse_target({message.target().data(), message.target().size()});
      request_.path = std::move(target.path);
      request_.query = std::move(target.query);
      if (engine_.tls && !wire_.is_secure()) return send_to_tls({message.target().data(), message.target().size()});
      reserve_body();
    } catch (const Refusal& refusal) {
      return refuse(refusal);
    }
    const bool asks_first = lower(message[beast::http::field::expect]) == "100-continue" && !parser_->is_done();
    if (!asks_first) return read_body();
    asio::async_write(wire_, asio::buffer(kContinue), [self = shared_from_this()](const Error& error, std::size_t) {
      error ? self->close() : self->read_body();
    });
  }

  void send_to_tls(const std::string& target) {
    constexpr int kElsewhereForGood = 308;
    Response response;
    response.status = kElsewhereForGood;
    response.headers.emplace_back("Location", "https://" + std::string(request_.header("host")) + target);
    keep_alive_ = false;
    write(std::move(response));
  }

  void reserve_body() {
    const auto told = parser_->content_length();
    const std::uint64_t bytes = told ? *told : parser_->chunked() ? limits_.body_bytes : 0;
    if (engine_.bodies_bytes + bytes > limits_.bodies_bytes) {
      throw Refusal(503, "busy", "", "too much is being sent at once; try again in a moment", {{"Retry-After", "2"}});
    }
    reserved_bytes_ = bytes;
    engine_.bodies_bytes += bytes;
  }

  void release_body() { engine_.bodies_bytes -= std::exchange(reserved_bytes_, 0); }

  void read_body() {
    start_deadline(with_size(limits_.body, reserved_bytes_));
    beast::http::async_read(wire_, buffer_, *parser_, [self = shared_from_this()](const Error& error, std::size_t) {
      self->deadline_.met();
      if (error) return self->refuse_broken(error);
      self->keep_alive_ = self->parser_->get().keep_alive();
      self->request_.body = std::move(self->parser_->get().body());
      self->dispatch();
    });
  }

  /// A worker hands the connection back with the answer and keeps no hold on it, so that it ends on the io thread.
  void dispatch() {
    asio::post(engine_.workers, [self = shared_from_this(), work = asio::make_work_guard(engine_.io)]() mutable {
      Engine& engine = self->engine_;
      Response response = answer(engine.handler, self->request_);
      asio::post(engine.io, [self = std::move(self), response = std::move(response)]() mutable {
        response.events ? self->become_stream(std::move(response)) : self->write(std::move(response));
      });
    });
  }

  void become_stream(Response response) {
    if (engine_.streams >= limits_.streams) {
      return refuse({503, "busy", "", "too many pages are listening at once", {{"Retry-After", "10"}}});
    }
    if (request_.method == "HEAD") {
      response.events.reset();
      return write(std::move(response));
    }
    serve_events(engine_, std::move(wire_), head_of(response, request_.id, false, std::nullopt), *response.events);
  }

  void refuse(const Refusal& refusal) {
    keep_alive_ = false;
    if (request_.id.empty()) request_.id = fmt::format("{:016x}", engine_.request_ids());
    write(response_of(refusal));
  }

  void write(Response response) {
    release_body();
    response_ = std::move(response);
    keep_alive_ = keep_alive_ && !engine_.stopping;
    const std::string_view content = response_.content();
    head_ = head_of(response_, request_.id, keep_alive_, content.size());
    const bool head_alone = request_.method == "HEAD" || response_.status == 304;
    const std::array<asio::const_buffer, 2> parts = {
        asio::buffer(head_), head_alone ? asio::const_buffer() : asio::buffer(content.data(), content.size())};
    start_deadline(with_size(limits_.write, content.size()));
    asio::async_write(wire_, parts, [self = shared_from_this()](const Error& error, std::size_t) {
      self->deadline_.met();
      self->response_ = {};
      if (error) return self->close();
      self->keep_alive_ ? self->await_request() : self->drain();
    });
  }

  /// A client that is still sending would have its answer swept away by a hard end: read on a little.
  void drain() {
    Error ignored;
    wire_.socket().shutdown(asio::ip::tcp::socket::shutdown_send, ignored);
    start_deadline(kDrain);
    buffer_.clear();
    drain_more(0);
  }

  void drain_more(std::uint64_t so_far) {
    wire_.async_read_some(buffer_.prepare(kBufferBytes / 2),
                          [self = shared_from_this(), so_far](const Error& error, std::size_t bytes) {
                            const std::uint64_t drained = so_far + bytes;
                            if (error || self->late_ || drained > kDrainBytes) return self->close();
                            self->drain_more(drained);
                          });
  }

  void close() {
    Error ignored;
    deadline_.met();
    wire_.socket().shutdown(asio::ip::tcp::socket::shutdown_both, ignored);
    wire_.socket().close(ignored);
  }

  Engine& engine_;
  const ServerLimits& limits_;
  Wire wire_;
  std::string client_;
  std::string local_;
  Deadline deadline_;
  beast::flat_buffer buffer_{kBufferBytes};
  std::optional<Parser> parser_;
  Request request_;
  Response response_;
  std::string head_;
  std::uint64_t reserved_bytes_ = 0;
  bool idle_ = false;
  bool keep_alive_ = false;
  bool late_ = false;
};

}  // namespace

void serve_connection(Engine& engine, asio::ip::tcp::socket socket) {
  std::make_shared<Connection>(engine, std::move(socket))->start();
}

}  // namespace brakewright::http
