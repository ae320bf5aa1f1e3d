#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/json.hpp"
#include "shop/states.hpp"

namespace brakewright::server {
namespace {

/// A reading with the state that the other readings of its job give it.
http::Response answer(Surroundings& around, const shop::Reading& reading) {
  const shop::JobFile file = around.shop.job_file(reading.job_id);
  const std::vector<shop::ReadingState> states = shop::states_of(file.readings);
  for (std::size_t i = 0; i < file.readings.size(); ++i) {
    if (file.readings[i].id == reading.id) return json_answer(shop::to_json(file.readings[i], states[i]));
  }
  return json_answer(shop::to_json(reading));
}

}  // namespace

void add_reading_operations(Operations& operations, Surroundings& around) {
  operations["add_reading"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::NewReading>(call.body());
    return answer(around, around.shop.add_reading(job_id_of(call, around), wanted, call.by()));
  };
  operations["withdraw_reading"] = [&](const Call& call) {
    return answer(around, around.shop.withdraw_reading(job_id_of(call, around), call.id("reading_id"), call.by()));
  };
}

}  // namespace brakewright::server
