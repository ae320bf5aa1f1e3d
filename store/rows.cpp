#include "store/rows.hpp"

#include <nlohmann/json.hpp>

#include "shop/json.hpp"

namespace brakewright::store {

using nlohmann::json;

namespace {

template <class T>
std::string joined_entities(const std::vector<T>& entities) {
  shop::Json list = shop::Json::array();
  for (const T& entity : entities) list.push_back(shop::to_json(entity));
  return list.dump();
}

template <class T>
void split_entities(const std::string& text, std::vector<T>& entities) {
  entities.clear();
  for (const shop::Json& item : shop::Json::parse(text)) entities.push_back(shop::from_json<T>(item));
}

}  // namespace

std::string joined_list(const std::vector<Length>& lengths) {
  json list = json::array();
  for (const Length length : lengths) list.push_back(length.nm);
  return list.dump();
}

std::string joined_list(const std::vector<std::string>& texts) { return json(texts).dump(); }

std::string joined_list(const std::vector<double>& numbers) { return json(numbers).dump(); }

std::string joined_list(const std::vector<shop::Uuid>& ids) {
  json list = json::array();
  for (const shop::Uuid& id : ids) list.push_back(shop::to_text(id));
  return list.dump();
}

std::string joined_list(const std::vector<shop::ProofMark>& marks) { return joined_entities(marks); }
std::string joined_list(const std::vector<shop::ForeseenPass>& passes) { return joined_entities(passes); }

void split_list(const std::string& text, std::vector<double>& numbers) {
  numbers = json::parse(text).get<std::vector<double>>();
}

void split_list(const std::string& text, std::vector<shop::Uuid>& ids) {
  ids.clear();
  for (const json& item : json::parse(text)) ids.push_back(shop::parse_uuid(item.get<std::string>()));
}

void split_list(const std::string& text, std::vector<shop::ProofMark>& marks) { split_entities(text, marks); }
void split_list(const std::string& text, std::vector<shop::ForeseenPass>& passes) { split_entities(text, passes); }

void split_list(const std::string& text, std::vector<Length>& lengths) {
  lengths.clear();
  for (const json& item : json::parse(text)) lengths.push_back({item.get<std::int64_t>()});
}

void split_list(const std::string& text, std::vector<std::string>& texts) {
  texts = json::parse(text).get<std::vector<std::string>>();
}

}  // namespace brakewright::store
