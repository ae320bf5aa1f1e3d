#include <netinet/tcp.h>

#include <array>
#include <boost/asio/write.hpp>
#include <memory>

#include "server/http/engine.hpp"

namespace brakewright::http {
namespace {

using Error = boost::system::error_code;

constexpr std::string_view kHeartbeat = ":\n\n";
constexpr int kSendBufferBytes = 64 * 1024;
constexpr unsigned kUnacknowledgedMs = 30'000;

/// One client that listens. It pulls from the hub what follows its cursor whenever it has nothing left to send.
class EventStream : public std::enable_shared_from_this<EventStream> {
 public:
  EventStream(Engine& engine, Wire wire, std::string head, EventsAfter after)
      : engine_(engine),
        wire_(std::move(wire)),
        writing_late_(engine.io),
        heartbeat_(engine.io),
        life_(engine.io),
        cursor_(after.id.value_or(engine.hub.newest())),
        heard_(engine.hub.said()),
        text_(std::move(head)) {
    ++engine_.streams;
  }

  ~EventStream() {
    engine_.open.erase(this);
    --engine_.streams;
  }

  EventStream(const EventStream&) = delete;
  EventStream& operator=(const EventStream&) = delete;

  void start() {
    const std::weak_ptr<EventStream> weak = weak_from_this();
    engine_.open[this] = {.news =
                              [weak] {
                                if (const auto self = weak.lock()) self->pull();
                              },
                          .stop =
                              [weak] {
                                if (const auto self = weak.lock()) self->close();
                              }};
    notice_vanished_clients();
    life_.start(engine_.options.limits.stream_life, [weak] {
      if (const auto self = weak.lock()) self->close();
    });
    watch_for_end();
    // Who has just been answered may come with an id that the hub has not read yet.
    if (cursor_ <= engine_.hub.newest()) return greet(engine_.hub.greet(cursor_));
    read_apart(
        [after = cursor_](EventHub& hub) {
          hub.refresh();
          return hub.greet(after);
        },
        &EventStream::greet);
  }

 private:
  void greet(EventBatch greeting) {
    cursor_ = greeting.cursor;
    text_ += greeting.text;
    write();
  }

  void notice_vanished_clients() {
    Error ignored;
    wire_.socket().set_option(asio::socket_base::send_buffer_size(kSendBufferBytes), ignored);
    wire_.socket().set_option(asio::socket_base::keep_alive(true), ignored);
    ::setsockopt(wire_.socket().native_handle(), IPPROTO_TCP, TCP_USER_TIMEOUT, &kUnacknowledgedMs,
                 sizeof kUnacknowledgedMs);
  }

  /// A client has nothing to say here; what it sends is dropped, and its end is noticed.
  void watch_for_end() {
    wire_.async_read_some(asio::buffer(dropped_), [self = shared_from_this()](const Error& error, std::size_t) {
      error ? self->close() : self->watch_for_end();
    });
  }

  void pull() {
    if (busy_ || closed_) return;
    EventBatch batch = engine_.hub.next(cursor_);
    if (batch.behind) return fetch();
    take(std::move(batch));
  }

  void take(EventBatch batch) {
    cursor_ = batch.cursor;
    text_ = std::move(batch.text) + engine_.hub.passing(heard_);
    text_.empty() ? wait_for_heartbeat() : write();
  }

  void fetch() {
    read_apart([cursor = cursor_](EventHub& hub) { return hub.fetch(cursor); }, &EventStream::fetched);
  }

  void fetched(EventBatch batch) { batch.text.empty() ? pull() : take(std::move(batch)); }

  /// Has a worker read what may block, and goes on with it here.
  void read_apart(std::function<EventBatch(EventHub&)> read, void (EventStream::*then)(EventBatch)) {
    busy_ = true;
    asio::post(engine_.workers, [self = shared_from_this(), read = std::move(read), then]() mutable {
      Engine& engine = self->engine_;
      std::optional<EventBatch> batch;
      try {
        batch = read(engine.hub);
      } catch (const std::exception&) {
        // The client comes back later with the same cursor, and nothing is skipped.
      }
      asio::post(engine.io, [self = std::move(self), batch = std::move(batch), then]() mutable {
        self->busy_ = false;
        batch ? (self.get()->*then)(std::move(*batch)) : self->close();
      });
    });
  }

  void write() {
    if (closed_) return;
    busy_ = true;
    const std::weak_ptr<EventStream> weak = weak_from_this();
    writing_late_.start(engine_.options.limits.write, [weak] {
      if (const auto self = weak.lock()) self->cut_off();
    });
    asio::async_write(wire_, asio::buffer(text_), [self = shared_from_this()](const Error& error, std::size_t) {
      self->writing_late_.met();
      self->busy_ = false;
      if (error) return self->close();
      self->text_.clear();
      self->pull();
    });
  }

  void wait_for_heartbeat() {
    const std::weak_ptr<EventStream> weak = weak_from_this();
    heartbeat_.start(engine_.options.limits.heartbeat, [weak] {
      const auto self = weak.lock();
      if (!self || self->busy_ || self->closed_) return;
      self->text_ = kHeartbeat;
      self->write();
    });
  }

  /// Ends a client that takes nothing, and what the system still holds for it.
  void cut_off() {
    Error ignored;
    wire_.socket().set_option(asio::socket_base::linger(true, 0), ignored);
    wire_.socket().close(ignored);
    close();
  }

  void close() {
    if (std::exchange(closed_, true)) return;
    Error ignored;
    heartbeat_.met();
    writing_late_.met();
    life_.met();
    wire_.socket().shutdown(asio::ip::tcp::socket::shutdown_both, ignored);
    wire_.socket().close(ignored);
    engine_.open.erase(this);
  }

  Engine& engine_;
  Wire wire_;
  Deadline writing_late_;
  Deadline heartbeat_;
  Deadline life_;
  std::int64_t cursor_;
  std::uint64_t heard_;
  std::string text_;  ///< being sent
  bool busy_ = false;
  bool closed_ = false;
  std::array<char, 512> dropped_{};
};

}  // namespace

void serve_events(Engine& engine, Wire wire, std::string head, EventsAfter after) {
  std::make_shared<EventStream>(engine, std::move(wire), std::move(head), after)->start();
}

}  // namespace brakewright::http
