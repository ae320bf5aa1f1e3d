#include "api/description.hpp"

#include <yaml-cpp/yaml.h>

#include <cctype>
#include <deque>
#include <nlohmann/json.hpp>
#include <regex>
#include <stdexcept>

extern "C" const char openapi_yaml_bytes[];
extern "C" const char openapi_yaml_bytes_end[];

namespace brakewright::api {
namespace {

constexpr std::string_view kSchemaReference = "#/components/schemas/";

Json typed_scalar(const YAML::Node& node) {
  const std::string& text = node.Scalar();
  const bool quoted = node.Tag() == "!";
  if (quoted) return text;
  if (text == "true" || text == "false") return text == "true";
  if (text == "null" || text == "~" || text.empty()) return nullptr;
  static const std::regex integer("[-+]?[0-9]+");
  static const std::regex decimal("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?");
  if (std::regex_match(text, integer)) return std::stoll(text);
  if (std::regex_match(text, decimal)) return std::stod(text);
  return text;
}

Json to_json(const YAML::Node& node) {
  if (node.IsMap()) {
    Json object = Json::object();
    for (const auto& entry : node) object[entry.first.Scalar()] = to_json(entry.second);
    return object;
  }
  if (node.IsSequence()) {
    Json list = Json::array();
    for (const auto& item : node) list.push_back(to_json(item));
    return list;
  }
  return node.IsScalar() ? typed_scalar(node) : Json(nullptr);
}

/// Turns references to components into references to `$defs`, and tells which components they name.
void localise(Json& schema, std::deque<std::string>& named) {
  if (schema.is_object()) {
    if (const auto reference = schema.find("$ref"); reference != schema.end() && reference->is_string()) {
      const std::string target = *reference;
      if (target.starts_with(kSchemaReference)) {
        named.push_back(target.substr(kSchemaReference.size()));
        *reference = "#/$defs/" + named.back();
      }
    }
  }
  if (schema.is_structured()) {
    for (Json& inner : schema) localise(inner, named);
  }
}

const Json& schemas() {
  static const Json empty = Json::object();
  const Json& all = openapi();
  return all.contains("components") ? all["components"]["schemas"] : empty;
}

const Json& schema_named(std::string_view name) {
  const auto found = schemas().find(std::string(name));
  if (found == schemas().end()) throw std::out_of_range("no schema is called " + std::string(name));
  return *found;
}

}  // namespace

std::string_view openapi_yaml() {
  return {openapi_yaml_bytes, static_cast<std::size_t>(openapi_yaml_bytes_end - openapi_yaml_bytes)};
}

const Json& openapi() {
  static const Json description = to_json(YAML::Load(std::string(openapi_yaml())));
  return description;
}

std::vector<std::string> components() {
  std::vector<std::string> names;
  for (const auto& [name, schema] : schemas().items()) names.push_back(name);
  return names;
}

Json schema_of(std::string_view component) {
  std::deque<std::string> named;
  Json body = schema_named(component);
  localise(body, named);

  Json whole = {{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", component}};
  whole.update(body);
  Json definitions = Json::object();
  for (; !named.empty(); named.pop_front()) {
    const std::string name = named.front();
    if (definitions.contains(name)) continue;
    Json inner = schema_named(name);
    localise(inner, named);
    definitions[name] = std::move(inner);
  }
  if (!definitions.empty()) whole["$defs"] = std::move(definitions);
  return whole;
}

std::string calc_component(std::string_view method, std::string_view input_or_output) {
  std::string name = "Calc";
  bool capital = true;
  for (const char letter : method) {
    if (letter == '-') {
      capital = true;
      continue;
    }
    name += capital ? static_cast<char>(std::toupper(static_cast<unsigned char>(letter))) : letter;
    capital = false;
  }
  return name.append(input_or_output);
}

}  // namespace brakewright::api
