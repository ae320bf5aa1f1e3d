#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <string>
#include <vector>

namespace brakewright::http {

/// One thing that happened. Ids count up, gaps allowed.
struct Event {
  std::int64_t id = 0;
  std::string name;  ///< empty: the unnamed event, which pages receive as "message"
  std::string data;  ///< one line
};

/// What a stream is to send next.
struct EventBatch {
  std::int64_t cursor = 0;  ///< id of the last event that the client has after it
  std::string text{};       ///< in the format of text/event-stream; empty when there is nothing new
  bool behind = false;      ///< nothing was taken: the wanted events are no longer held in memory, use fetch()
};

/// Hands what happened to any number of streams, each at its own speed.
///
/// There is no queue for a client. Each stream is a number, the last id that it has; the newest events are held once,
/// for all, and older ones are read again from where they are kept. So a slow client costs no memory, and each client
/// gets every event once and in order, however often it comes back. Who is further behind than `most_behind`, or
/// ahead of all that is known (the shop was restored from a backup), gets one "resync" event with the newest id in
/// place of all that, and is to read everything anew.
/// All methods may be called from any thread.
class EventHub {
 public:
  struct Limits {
    std::size_t held = 1024;           ///< events in memory
    std::size_t page = 128;            ///< events in one batch
    std::int64_t most_behind = 5'000;  ///< in ids
  };

  /// Events with id > after, oldest first, at most `limit`; may block on a disk.
  using Source = std::function<std::vector<Event>(std::int64_t after, std::size_t limit)>;

  /// @param newest  id of the newest event there is; may block
  EventHub(Source source, std::function<std::int64_t()> newest, Limits limits);

  /// Reads what is new from the source. Call it after something happened.
  void refresh();

  /// Tells something that passes: to the streams that are open now, without an id, and never again. Only the newest
  /// few are held for a stream that is busy. Then call for the streams to look, as after refresh().
  void say(const std::string& name, const std::string& data);

  /// How much was said so far.
  std::uint64_t said() const;

  /// What was said since, in the format of text/event-stream; `heard` becomes said().
  std::string passing(std::uint64_t& heard) const;

  /// The id of the newest event in memory.
  std::int64_t newest() const;

  /// The greeting of a stream that begins: how long to wait before coming back, and a "hello" (or "resync") event that
  /// carries the newest id. @param after  the last id that the client has; with one above newest() call refresh() first
  EventBatch greet(std::int64_t after) const;

  /// What follows `cursor`, out of memory, without blocking.
  EventBatch next(std::int64_t cursor) const;

  /// What follows `cursor` up to newest(), out of the source.
  EventBatch fetch(std::int64_t cursor) const;

 private:
  struct Held {
    std::int64_t id;
    std::string text;
  };

  bool out_of_reach(std::int64_t cursor) const;
  EventBatch resync() const;

  Source source_;
  Limits limits_;
  std::mutex refreshing_;
  mutable std::mutex guard_;
  std::deque<Held> held_;
  std::deque<std::string> passing_;  ///< the newest of what was said
  std::uint64_t said_ = 0;
  std::int64_t newest_;
  std::int64_t oldest_after_;  ///< memory has everything with an id above this one
};

}  // namespace brakewright::http
