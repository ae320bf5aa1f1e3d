#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/json.hpp"

namespace brakewright::server {
namespace {

constexpr std::int64_t kChangesAtOnce = 500;

/// A browser that comes back by itself tells in a header which event it had last; that is newer than its address.
std::optional<std::int64_t> last_event_id(const Call& call) {
  const std::string_view text = call.request().header("last-event-id");
  std::int64_t id = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), id);
  const bool whole = error == std::errc() && end == text.data() + text.size() && id >= 0;
  return whole ? std::optional(id) : call.number("after");
}

/// Everybody who is signed in hears of every change. What belongs to a job is told whole; of anything else whose it is
/// alone, since the right answers, reference sizes and readings of open studies are in there too.
Json told_to_all(const shop::Change& change) {
  Json told = shop::to_json(change);
  if (change.job_id) return told;
  Json ids = Json::object();
  for (const auto& [name, value] : told["detail"].items()) {
    if (name == "id" || name.ends_with("_id")) ids[name] = value;
  }
  told["detail"] = std::move(ids);
  told["salt"] = "";
  return told;
}

http::Event event_of(const shop::Change& change) {
  http::Event event;
  event.id = change.seq;
  event.data = told_to_all(change).dump(-1, ' ', false, Json::error_handler_t::replace);
  return event;
}

}  // namespace

void add_event_operations(Operations& operations, Surroundings& around) {
  operations["events"] = [](const Call& call) {
    http::Response response;
    response.content_type = "text/event-stream";
    response.events = http::EventsAfter{last_event_id(call)};
    return response;
  };
  operations["job_changes"] = [&](const Call& call) {
    Json list = Json::array();
    const std::int64_t limit = call.number("limit").value_or(kChangesAtOnce);
    for (const shop::Change& change :
         around.shop.changes(call.number("after").value_or(0), limit, job_id_of(call, around))) {
      list.push_back(shop::to_json(change));
    }
    return json_answer(list);
  };
}

http::EventHub events_of(shop::Shop& shop) {
  const auto source = [&shop](std::int64_t after, std::size_t limit) {
    std::vector<http::Event> events;
    for (const shop::Change& change : shop.changes(after, static_cast<std::int64_t>(limit), std::nullopt)) {
      events.push_back(event_of(change));
    }
    return events;
  };
  return http::EventHub(source, [&shop] { return shop.last_seq(); }, {});
}

}  // namespace brakewright::server
