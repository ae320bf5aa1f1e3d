#include <algorithm>
#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "shop/json.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

constexpr std::int64_t kLinesAtOnce = 50;

std::string name_of(const std::optional<shop::Uuid>& person_id, const std::vector<shop::Person>& people) {
  const auto found =
      std::find_if(people.begin(), people.end(), [&](const auto& person) { return person.id == person_id; });
  return found == people.end() ? "" : found->name;
}

shop::JobQuery query_of(const Call& call) {
  shop::JobQuery query;
  if (const auto state = call.text("state")) query.state = shop::parse_word<shop::JobState>(*state);
  query.vehicle_of = call.optional_id("vehicle_of");
  query.words = call.text("words").value_or("");
  query.limit = call.number("limit").value_or(kLinesAtOnce);
  query.offset = call.number("offset").value_or(0);
  return query;
}

}  // namespace

Json board_of(const Call& call, Surroundings& around) {
  const shop::JobPage page = around.shop.jobs(query_of(call));
  const std::vector<shop::Person> people = around.shop.people();
  Json lines = Json::array();
  for (const shop::JobLine& line : page.lines) {
    Json parts = Json::array();
    for (const shop::Part& part : line.parts) parts.push_back(shop::to_json(part));
    lines.push_back({{"job", shop::to_json(line.job)},
                     {"parts", std::move(parts)},
                     {"waits_for", shop::word_of(line.waits_for)},
                     {"worker_name", name_of(line.job.worker_person_id, people)}});
  }
  return {{"lines", std::move(lines)}, {"total", page.total}};
}

}  // namespace brakewright::server
