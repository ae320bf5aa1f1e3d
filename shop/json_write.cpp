#include "shop/json_all.hpp"
#include "shop/json_writing.hpp"
#include "shop/states.hpp"

namespace brakewright::shop {

Json to_json(const TypedLength& length) {
  return {{"text", length.text},
          {"unit", std::string(word_of(length.unit))},
          {"nm", length.value.nm},
          {"resolution_nm", length.resolution_nm}};
}

namespace json_writing {

Json json_of(const Reading& reading) {
  return to_json(reading, reading.withdrawn_at ? ReadingState::withdrawn : ReadingState::current);
}

Json json_of(const JobFile& file) {
  Writer writer;
  fields(file, writer);
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    writer.object["readings"][k]["state"] = std::string(word_of(states[k]));
  }
  return std::move(writer.object);
}

}  // namespace json_writing

Json to_json(const Limits& limits) { return json_writing::json_of(limits); }

Json to_json(const Reading& reading, ReadingState state) {
  json_writing::Writer writer;
  fields(reading, writer);
  writer.object["state"] = std::string(word_of(state));
  return std::move(writer.object);
}

#define BRAKEWRIGHT_WRITE(Entity)       \
  template Json to_json(const Entity&); \
  template std::string json_text(const Entity&);
BRAKEWRIGHT_ALL_JSON(BRAKEWRIGHT_WRITE)

}  // namespace brakewright::shop
