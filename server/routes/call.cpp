#include "server/routes/call.hpp"

#include <algorithm>
#include <limits>
#include <locale>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <stdexcept>
#include <vector>

#include "calc/parse_json.hpp"
#include "core/input_error.hpp"
#include "server/http/target.hpp"
#include "server/routes/refusals.hpp"

namespace brakewright::server {
namespace {

constexpr std::size_t kLongestDecimal = 24;
constexpr std::size_t kLongestNumber = 15;  // digits; every such whole number is exact in JavaScript

struct Parameter {
  std::string name;
  bool in_query;
  bool required;
  Json schema;
};

const Json& resolved(const Json& description, const Json& value) {
  const auto reference = value.find("$ref");
  if (reference == value.end()) return value;
  return description.at(Json::json_pointer(reference->get<std::string>().substr(1)));
}

std::int64_t whole_number(const std::string& text, const std::string& name) {
  const bool digits = !text.empty() && text.size() <= kLongestNumber &&
                      std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits) throw InputError("wrong_type", name, "a whole number is needed here");
  return std::stoll(text);
}

double decimal_number(const std::string& text, const std::string& name) {
  const bool plain =
      !text.empty() && text.size() <= kLongestDecimal && text.find_first_not_of("-0123456789.") == std::string::npos;
  std::istringstream stream(text);
  stream.imbue(std::locale::classic());
  double value = 0;
  if (!plain || !(stream >> value) || stream.peek() != std::istringstream::traits_type::eof()) {
    throw InputError("wrong_type", name, "a number is needed here, with a point before its decimals");
  }
  return value;
}

void check_decimal(const std::string& text, const Parameter& parameter) {
  const double value = decimal_number(text, parameter.name);
  const auto least = parameter.schema.value("minimum", std::numeric_limits<double>::lowest());
  const auto most = parameter.schema.value("maximum", std::numeric_limits<double>::max());
  if (value >= least && value <= most) return;
  throw InputError(
      "out_of_range", parameter.name,
      "accepted here: " + parameter.schema.at("minimum").dump() + " to " + parameter.schema.at("maximum").dump());
}

void check_integer(const std::string& text, const Parameter& parameter) {
  const std::int64_t value = whole_number(text, parameter.name);
  const std::int64_t least = parameter.schema.value("minimum", std::int64_t{0});
  const std::int64_t most = parameter.schema.value("maximum", std::numeric_limits<std::int64_t>::max());
  if (value >= least && value <= most) return;
  const std::string upper = parameter.schema.contains("maximum") ? " to " + std::to_string(most) : " up";
  throw InputError("out_of_range", parameter.name, "accepted here: " + std::to_string(least) + upper);
}

void check_text(const std::string& text, const Parameter& parameter) {
  const Json& schema = parameter.schema;
  if (text.size() > schema.value("maxLength", std::size_t{2'000})) {
    throw InputError("too_long", parameter.name,
                     "at most " + std::to_string(schema.value("maxLength", 2'000)) + " characters are accepted here");
  }
  if (schema.contains("enum")) {
    std::string accepted;
    for (const Json& word : schema["enum"]) {
      if (word == text) return;
      accepted += (accepted.empty() ? "" : ", ") + word.get<std::string>();
    }
    throw InputError("out_of_range", parameter.name, "accepted here: " + accepted);
  }
}

void check_parameter(const std::string& text, const Parameter& parameter) {
  const std::string type = parameter.schema.value("type", "string");
  if (type == "integer") return check_integer(text, parameter);
  if (type == "number") return check_decimal(text, parameter);
  if (type == "boolean") {
    if (text != "true" && text != "false") throw InputError("wrong_type", parameter.name, "true or false is needed");
    return;
  }
  check_text(text, parameter);
}

std::vector<Parameter> parameters_of(const Json& description, const Json& path, const Json& operation) {
  std::vector<Parameter> parameters;
  for (const Json& owner : {path, operation}) {
    if (!owner.contains("parameters")) continue;
    for (const Json& entry : owner["parameters"]) {
      const Json& told = resolved(description, entry);
      parameters.push_back({.name = told.at("name"),
                            .in_query = told.at("in") == "query",
                            .required = told.value("required", false),
                            .schema = resolved(description, told.at("schema"))});
    }
  }
  return parameters;
}

void check_parameters(const std::vector<Parameter>& parameters, const Call& call) {
  for (const Parameter& parameter : parameters) {
    const auto text = call.text(parameter.name);
    if (text) {
      check_parameter(*text, parameter);
    } else if (parameter.required) {
      throw InputError("missing", parameter.name, "this parameter is needed");
    }
  }
}

http::Body body_of(const Json& operation) {
  if (!operation.contains("requestBody")) return http::Body::none;
  const Json& content = operation["requestBody"]["content"];
  if (content.contains("application/pdf")) return http::Body::pdf;
  return content.contains("text/csv") ? http::Body::csv : http::Body::json;
}

Described described_of(const std::string& pattern, const Json& operation, const std::string& method,
                       const std::vector<Parameter>& parameters) {
  const std::string name = operation.at("operationId");
  if (!operation.contains("x-right")) throw std::logic_error("described without a right: " + name);
  Described described{.id = name, .right = right_named(operation.at("x-right")), .writes = method != "get"};
  described.signable = operation.value("x-signable", false);
  described.of_a_job = pattern.find("{job_id}") != std::string::npos;
  described.signs = std::any_of(parameters.begin(), parameters.end(),
                                [](const Parameter& one) { return one.name == "by_person_id"; });
  return described;
}

http::Route route_of(std::vector<Parameter> parameters, const Json& described, Described what, Operation operation,
                     Gate gate) {
  http::Route route;
  for (const Parameter& parameter : parameters) {
    if (parameter.in_query) route.query.push_back(parameter.name);
  }
  route.body = body_of(described);
  route.handle = [parameters = std::move(parameters), operation = std::move(operation), what = std::move(what),
                  gate = std::move(gate)](const http::Request& request, const http::Captures& captures) {
    return with_refusals([&] {
      const Call call(request, captures);
      return gate(what, call, [&] {
        check_parameters(parameters, call);
        return operation(call);
      });
    });
  };
  return route;
}

std::string upper(std::string text) {
  for (char& c : text) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  return text;
}

}  // namespace

std::optional<std::string> Call::text(std::string_view name) const {
  const std::string key(name);
  if (const auto found = captures_.find(key); found != captures_.end()) return found->second;
  if (const auto found = request_.query.find(key); found != request_.query.end()) return found->second;
  return std::nullopt;
}

std::string Call::needed_text(std::string_view name) const {
  const auto found = text(name);
  if (!found) throw InputError("missing", std::string(name), "this parameter is needed");
  return *found;
}

std::optional<std::int64_t> Call::number(std::string_view name) const {
  const auto found = text(name);
  if (!found) return std::nullopt;
  return whole_number(*found, std::string(name));
}

std::optional<double> Call::decimal(std::string_view name) const {
  const auto found = text(name);
  if (!found) return std::nullopt;
  return decimal_number(*found, std::string(name));
}

bool Call::flag(std::string_view name) const { return text(name) == "true" || text(name) == "1"; }

std::optional<shop::Uuid> Call::optional_id(std::string_view name) const {
  if (!text(name)) return std::nullopt;
  return id(name);
}

shop::Uuid Call::id(std::string_view name) const {
  try {
    return shop::parse_uuid(needed_text(name));
  } catch (const InputError& error) {
    throw error.field().empty() ? error.within(std::string(name)) : error;
  }
}

Json Call::body() const { return calc::parse_json(request_.body); }

http::Router router_of(const Json& description, const std::string& prefix, const Operations& operations,
                       const Gate& gate) {
  http::Router router;
  std::size_t used = 0;
  for (const auto& [pattern, path] : description.at("paths").items()) {
    for (const char* method : {"get", "put", "post", "delete"}) {
      if (!path.contains(method)) continue;
      const std::string name = path[method].at("operationId");
      const auto found = operations.find(name);
      if (found == operations.end()) throw std::logic_error("described, but not there: " + name);
      auto parameters = parameters_of(description, path, path[method]);
      Described what = described_of(pattern, path[method], method, parameters);
      http::Route route = route_of(std::move(parameters), path[method], std::move(what), found->second, gate);
      route.method = upper(method);
      route.pattern = prefix + pattern;
      router.add(std::move(route));
      ++used;
    }
  }
  if (used != operations.size()) throw std::logic_error("some operations are not described");
  return router;
}

http::Response json_answer(const Json& body) {
  http::Response response;
  response.body = body.dump(-1, ' ', false, Json::error_handler_t::replace);
  return response;
}

}  // namespace brakewright::server
