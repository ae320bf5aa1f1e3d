#include "server/http/events.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace brakewright::http {
namespace {

constexpr int kComeBackAfterMs = 1500;
constexpr std::size_t kMostPassing = 64;

std::string text_of(const Event& event) {
  const std::string name = event.name.empty() ? "" : "event: " + event.name + "\n";
  return fmt::format("id: {}\n{}data: {}\n\n", event.id, name, event.data);
}

}  // namespace

EventHub::EventHub(Source source, std::function<std::int64_t()> newest, Limits limits)
    : source_(std::move(source)), limits_(limits), newest_(newest()), oldest_after_(newest_) {}

void EventHub::refresh() {
  const std::lock_guard one_at_a_time(refreshing_);
  for (;;) {
    const std::vector<Event> fresh = source_(newest(), limits_.page);
    if (fresh.empty()) return;
    const std::lock_guard lock(guard_);
    for (const Event& event : fresh) held_.push_back({event.id, text_of(event)});
    newest_ = fresh.back().id;
    while (held_.size() > limits_.held) {
      oldest_after_ = held_.front().id;
      held_.pop_front();
    }
  }
}

void EventHub::say(const std::string& name, const std::string& data) {
  const std::lock_guard lock(guard_);
  passing_.push_back(fmt::format("event: {}\ndata: {}\n\n", name, data));
  ++said_;
  if (passing_.size() > kMostPassing) passing_.pop_front();
}

std::uint64_t EventHub::said() const {
  const std::lock_guard lock(guard_);
  return said_;
}

std::string EventHub::passing(std::uint64_t& heard) const {
  const std::lock_guard lock(guard_);
  const std::uint64_t missed = std::min<std::uint64_t>(said_ - heard, passing_.size());
  std::string text;
  for (auto one = passing_.end() - static_cast<std::ptrdiff_t>(missed); one != passing_.end(); ++one) text += *one;
  heard = said_;
  return text;
}

std::int64_t EventHub::newest() const {
  const std::lock_guard lock(guard_);
  return newest_;
}

bool EventHub::out_of_reach(std::int64_t cursor) const {
  return cursor > newest_ || newest_ - cursor > limits_.most_behind;
}

EventBatch EventHub::resync() const {
  return {.cursor = newest_, .text = text_of({newest_, "resync", fmt::format(R"({{"seq":{}}})", newest_)})};
}

EventBatch EventHub::greet(std::int64_t after) const {
  const std::lock_guard lock(guard_);
  EventBatch batch = out_of_reach(after) ? resync() : EventBatch{.cursor = after};
  if (batch.text.empty()) batch.text = text_of({after, "hello", fmt::format(R"({{"seq":{}}})", newest_)});
  batch.text = fmt::format("retry: {}\n\n{}", kComeBackAfterMs, batch.text);
  return batch;
}

EventBatch EventHub::next(std::int64_t cursor) const {
  const std::lock_guard lock(guard_);
  if (out_of_reach(cursor)) return resync();
  if (cursor < oldest_after_) return {.cursor = cursor, .behind = true};
  EventBatch batch{.cursor = cursor};
  auto first = std::upper_bound(held_.begin(), held_.end(), cursor,
                                [](std::int64_t id, const Held& held) { return id < held.id; });
  for (std::size_t taken = 0; first != held_.end() && taken < limits_.page; ++first, ++taken) {
    batch.text += first->text;
    batch.cursor = first->id;
  }
  return batch;
}

EventBatch EventHub::fetch(std::int64_t cursor) const {
  EventBatch batch{.cursor = cursor};
  const std::int64_t in_memory = newest();
  for (const Event& event : source_(cursor, limits_.page)) {
    if (event.id > in_memory) break;
    batch.text += text_of(event);
    batch.cursor = event.id;
  }
  if (batch.text.empty()) batch.cursor = std::max(cursor, in_memory);  // the source has a gap here: go past it
  return batch;
}

}  // namespace brakewright::http
