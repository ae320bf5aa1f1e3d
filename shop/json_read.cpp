#include "shop/json_all.hpp"
#include "shop/json_reading.hpp"

namespace brakewright::shop {

TypedLength typed_length_from_json(const Json& value, const std::string& path) {
  json_reading::ObjectReader reader(value, path);
  std::string text;
  Unit unit{};
  std::int64_t ignored = 0;
  reader("text", text, rules::typed);
  reader("unit", unit, rules::plain);
  reader("nm", ignored, rules::made);
  reader("resolution_nm", ignored, rules::made);
  reader.done();
  return json_reading::at_path(reader.path_of("text"), [&] {
    check_text(text, rules::typed.text);
    return parse_length(text, unit).typed;
  });
}

#define BRAKEWRIGHT_READ(Entity) template Entity from_json<Entity>(const Json&, const std::string&);
BRAKEWRIGHT_ALL_JSON(BRAKEWRIGHT_READ)

Json parse_json(std::string_view text, std::size_t most_bytes, int deepest) {
  if (text.size() > most_bytes) {
    throw InputError("too_large", "", "at most " + std::to_string(most_bytes) + " bytes are accepted");
  }
  std::vector<std::set<std::string>> names;
  const auto watch = [&](int depth, Json::parse_event_t event, Json& parsed) {
    using Event = Json::parse_event_t;
    if (event == Event::object_start || event == Event::array_start) {
      if (depth >= deepest) {
        throw InputError("too_deep", "", "lists and objects go at most " + std::to_string(deepest) + " levels deep");
      }
      names.emplace_back();
    } else if (event == Event::object_end || event == Event::array_end) {
      names.pop_back();
    } else if (event == Event::key && !names.back().insert(parsed.get<std::string>()).second) {
      throw InputError("not_json", "", "the field " + parsed.dump() + " stands twice in one object");
    }
    return true;
  };
  try {
    return Json::parse(text, watch);
  } catch (const Json::parse_error& refusal) {
    throw InputError("not_json", "", "this is not JSON: byte " + std::to_string(refusal.byte) + " is unexpected");
  } catch (const Json::out_of_range&) {
    throw InputError("not_json", "", "a number in it is larger than any double");
  }
}

}  // namespace brakewright::shop
