#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/json.hpp"
#include "shop/words.hpp"

/// The queue before each lathe.
namespace brakewright::server {
namespace {

Json json_of(const shop::LatheQueue& queue) {
  Json lines = Json::array();
  for (const shop::QueueLine& line : queue.lines) {
    const auto& quartiles = line.minutes_quartiles;
    lines.push_back({{"entry", shop::to_json(line.entry)},
                     {"job_number", line.job_number},
                     {"vehicle", line.vehicle},
                     {"waits_for", shop::word_of(line.waits_for)},
                     {"minutes", line.minutes},
                     {"minutes_low", quartiles ? Json(quartiles->low) : Json(nullptr)},
                     {"minutes_high", quartiles ? Json(quartiles->high) : Json(nullptr)},
                     {"starts_in_minutes", line.starts_in_minutes},
                     {"rests_on_plans", line.rests_on_plans},
                     {"meanwhile", line.meanwhile}});
  }
  return {{"lathe_id", shop::to_text(queue.lathe_id)},
          {"handling_min", queue.times.handling_min},
          {"cut_min", queue.times.cut_min},
          {"rests_on_parts", queue.times.parts},
          {"lines", std::move(lines)}};
}

}  // namespace

void add_queue_operations(Operations& operations, Surroundings& around) {
  operations["queue"] = [&](const Call& call) {
    return json_answer(json_of(around.school->queue(call.id("lathe_id"))));
  };
  operations["join_queue"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewQueueEntry>(call.body());
    return json_answer(json_of(around.school->join_queue(call.id("lathe_id"), wanted, call.by())));
  };
  operations["leave_queue"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::EndReason>(call.body());
    return json_answer(
        json_of(around.school->leave_queue(call.id("lathe_id"), call.id("entry_id"), wanted.why, call.by())));
  };
}

}  // namespace brakewright::server
