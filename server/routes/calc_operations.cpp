#include <nlohmann/json.hpp>

#include "calc/calc.hpp"
#include "server/routes/operations.hpp"

namespace brakewright::server {
namespace {

http::Response list_methods(const Call&) {
  Json list = Json::array();
  for (const calc::Method& method : calc::methods()) {
    list.push_back({{"name", method.name}, {"summary", method.summary}});
  }
  return json_answer(list);
}

http::Response compute(const Call& call) {
  const calc::Method* method = calc::find(call.needed_text("name"));
  if (method == nullptr) {
    std::string known;
    for (const calc::Method& other : calc::methods()) known.append(known.empty() ? "" : ", ").append(other.name);
    throw http::Refusal(404, "no_such_method", "name", "there is no such computation; known: " + known);
  }
  return json_answer(method->run(call.body()));
}

}  // namespace

void add_calc_operations(Operations& operations) {
  operations["calc_methods"] = list_methods;
  operations["calc"] = compute;
}

}  // namespace brakewright::server
