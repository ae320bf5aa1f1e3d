#include <nlohmann/json.hpp>
#include <type_traits>

#include "shop/fields.hpp"
#include "shop/json.hpp"
#include "shop/json_all.hpp"
#include "shop/states.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

Json written(const Uuid& id) { return to_text(id); }
Json written(UtcTime time) { return to_text(time); }
Json written(Date date) { return to_text(date); }
Json written(Length length) { return length.nm; }
Json written(const TypedLength& length) { return to_json(length); }
Json written(const std::string& text) { return text; }
Json written(double number) { return number; }
Json written(std::int64_t number) { return number; }
Json written(bool yes) { return yes; }

template <class E>
requires std::is_enum_v<E> Json written(E value) { return std::string(word_of(value)); }

template <HasFields E>
Json written(const E& entity) {
  return to_json(entity);
}

template <class T>
Json written(const std::optional<T>& value) {
  return value ? written(*value) : Json(nullptr);
}

template <class T>
Json written(const std::vector<T>& values) {
  Json list = Json::array();
  for (const T& value : values) list.push_back(written(value));
  return list;
}

template <class T>
inline constexpr bool is_length =
    std::is_same_v<T, Length> || std::is_same_v<T, std::optional<Length>> || std::is_same_v<T, std::vector<Length>>;

struct Writer {
  Json object = Json::object();

  template <class T>
  void operator()(const char* name, const T& value, const Rule& rule) {
    if constexpr (std::is_same_v<T, std::string>) {
      if (rule.json) {
        object[name] = value.empty() ? Json::object() : Json::parse(value);
        return;
      }
    }
    object[is_length<T> ? std::string(name) + "_nm" : std::string(name)] = written(value);
  }
};

}  // namespace

Json to_json(const TypedLength& length) {
  return {{"text", length.text},
          {"unit", std::string(word_of(length.unit))},
          {"nm", length.value.nm},
          {"resolution_nm", length.resolution_nm}};
}

namespace {

template <class E>
Json json_of(const E& entity) {
  Writer writer;
  fields(entity, writer);
  return std::move(writer.object);
}

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

}  // namespace

template <class E>
Json to_json(const E& entity) {
  return json_of(entity);
}

Json to_json(const Limits& limits) { return json_of(limits); }

Json to_json(const Reading& reading, ReadingState state) {
  Writer writer;
  fields(reading, writer);
  writer.object["state"] = std::string(word_of(state));
  return std::move(writer.object);
}

template <class E>
std::string json_text(const E& entity) {
  return to_json(entity).dump();
}

#define BRAKEWRIGHT_WRITE(Entity)       \
  template Json to_json(const Entity&); \
  template std::string json_text(const Entity&);
BRAKEWRIGHT_ALL_JSON(BRAKEWRIGHT_WRITE)

}  // namespace brakewright::shop
