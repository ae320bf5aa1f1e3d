#include <nlohmann/json.hpp>
#include <set>

#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/gauge_study/order.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

std::vector<std::string> read_names(Reader& reader, const char* field) {
  const auto names = reader.labels(field);
  std::set<std::string> seen;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string path = std::string(field) + "[" + std::to_string(i) + "]";
    if (names[i].empty()) throw InputError("missing", path, "a name is needed here");
    if (!seen.insert(names[i]).second) throw InputError("duplicate", path, "each name once");
  }
  return names;
}

}  // namespace

Json run_gauge_plan(const Json& input) {
  Reader reader(input);
  const auto parts = read_names(reader, "parts"), operators = read_names(reader, "operators");
  const auto repeats = static_cast<std::size_t>(reader.integer("repeats", 1, 100));
  const auto seed = static_cast<std::uint64_t>(reader.optional_integer("seed", 0, 9007199254740991).value_or(1));
  reader.done();
  const auto plan = gauge_study::plan_study(parts.size(), operators.size(), repeats, seed);
  Json orders = Json::array();
  for (std::size_t i = 0; i < plan.size(); ++i) {
    Json turns = Json::array();
    for (const auto& turn : plan[i]) turns.push_back({{"part", parts[turn.part]}, {"repeat", turn.repeat}});
    orders.push_back({{"operator", operators[i]}, {"turns", std::move(turns)}});
  }
  return {{"orders", std::move(orders)}};
}

}  // namespace brakewright::calc
