#include "store/rows.hpp"

#include <nlohmann/json.hpp>

namespace brakewright::store {

using nlohmann::json;

std::string joined_list(const std::vector<Length>& lengths) {
  json list = json::array();
  for (const Length length : lengths) list.push_back(length.nm);
  return list.dump();
}

std::string joined_list(const std::vector<std::string>& texts) { return json(texts).dump(); }

void split_list(const std::string& text, std::vector<Length>& lengths) {
  lengths.clear();
  for (const json& item : json::parse(text)) lengths.push_back({item.get<std::int64_t>()});
}

void split_list(const std::string& text, std::vector<std::string>& texts) {
  texts = json::parse(text).get<std::vector<std::string>>();
}

}  // namespace brakewright::store
