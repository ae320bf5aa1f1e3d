#include "calc/calc.hpp"

#include <fmt/core.h>

#include <iostream>
#include <nlohmann/json.hpp>

#include "api/description.hpp"
#include "calc/parse_json.hpp"
#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "core/input_error.hpp"

namespace brakewright::cli {
namespace {

constexpr std::size_t kMostBytes = 8'000'000;

int refuse(const InputError& error) {
  const calc::Json body = {{"error", {{"code", error.code()}, {"field", error.field()}, {"message", error.what()}}}};
  std::cerr << body.dump(-1, ' ', false, calc::Json::error_handler_t::replace) << '\n';
  return bad_input;
}

int list() {
  for (const calc::Method& method : calc::methods()) fmt::print("{:<14} {}\n", method.name, method.summary);
  return done;
}

std::string names() {
  std::string all;
  for (const calc::Method& method : calc::methods()) all += (all.empty() ? "" : ", ") + std::string(method.name);
  return all;
}

int schema(const calc::Method& method) {
  const calc::Json both = {{"input", api::schema_of(api::calc_component(method.name, "Input"))},
                           {"output", api::schema_of(api::calc_component(method.name, "Output"))}};
  std::cout << both.dump(2) << '\n';
  return done;
}

}  // namespace

int calc(const CalcOptions& options) {
  if (options.list) return list();
  try {
    const calc::Method* method = calc::find(options.name);
    if (method == nullptr) throw InputError("unknown_method", "name", "accepted here: " + names());
    if (options.schema) return schema(*method);
    const calc::Json answer = method->run(calc::parse_json(read_whole("-", kMostBytes)));
    std::cout << answer.dump() << '\n';
    return done;
  } catch (const InputError& error) {
    return refuse(error);
  }
}

}  // namespace brakewright::cli
