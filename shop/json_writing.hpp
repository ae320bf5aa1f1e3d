#pragma once

#include <nlohmann/json.hpp>
#include <type_traits>

#include "shop/fields.hpp"
#include "shop/json.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

/// How shop/json.hpp writes an entity by its field list; only for the files that instantiate it.
namespace brakewright::shop {
namespace json_writing {

inline Json written(const Uuid& id) { return to_text(id); }
inline Json written(UtcTime time) { return to_text(time); }
inline Json written(Date date) { return to_text(date); }
inline Json written(Length length) { return length.nm; }
inline Json written(const TypedLength& length) { return to_json(length); }
inline Json written(const std::string& text) { return text; }
inline Json written(double number) { return number; }
inline Json written(std::int64_t number) { return number; }
inline Json written(bool yes) { return yes; }

template <class E>
requires std::is_enum_v<E> Json written(E value) { return std::string(word_of(value)); }

template <HasFields E>
Json written(const E& entity) {
  return to_json(entity);
}

template <class T>
Json written(const std::vector<T>& values);

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

template <class E>
Json json_of(const E& entity) {
  Writer writer;
  fields(entity, writer);
  return std::move(writer.object);
}
Json json_of(const Reading& reading);  ///< with its state
Json json_of(const JobFile& file);     ///< with the state of each reading

}  // namespace json_writing

template <class E>
Json to_json(const E& entity) {
  return json_writing::json_of(entity);
}

template <class E>
std::string json_text(const E& entity) {
  return to_json(entity).dump();
}

}  // namespace brakewright::shop
