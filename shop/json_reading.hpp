#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <type_traits>

#include "shop/fields.hpp"
#include "shop/json.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

/// How shop/json.hpp reads an entity by its field list; only for the files that instantiate it.
namespace brakewright::shop {
namespace json_reading {

inline constexpr double kLargestExact = 9007199254740992.0;  // 2^53: beyond it a number from a page is no longer whole

[[noreturn]] inline void wrong_type(const Json& value, const std::string& path, const std::string& needed) {
  throw InputError("wrong_type", path, needed + " is needed here, not " + value.type_name());
}

inline const std::string& text_in(const Json& value, const std::string& path) {
  if (!value.is_string()) wrong_type(value, path, "text");
  return value.get_ref<const std::string&>();
}

/// Runs a parser that knows no path and puts the path before its refusal.
template <class F>
auto at_path(const std::string& path, F&& parse) {
  try {
    return parse();
  } catch (const InputError& refusal) {
    throw refusal.within(path);
  }
}

inline void read(const Json& value, const std::string& path, Uuid& id) {
  const auto& text = text_in(value, path);
  id = at_path(path, [&] { return parse_uuid(text); });
}

inline void read(const Json& value, const std::string& path, UtcTime& time) {
  const auto& text = text_in(value, path);
  time = at_path(path, [&] { return parse_time(text); });
}

inline void read(const Json& value, const std::string& path, Date& date) {
  const auto& text = text_in(value, path);
  date = at_path(path, [&] { return parse_date(text); });
}

inline void read(const Json& value, const std::string& path, std::string& text) { text = text_in(value, path); }

inline void read(const Json& value, const std::string& path, bool& yes) {
  if (!value.is_boolean()) wrong_type(value, path, "true or false");
  yes = value.get<bool>();
}

inline void read(const Json& value, const std::string& path, double& number) {
  if (!value.is_number()) wrong_type(value, path, "a number");
  number = value.get<double>();
  if (!std::isfinite(number)) throw InputError("not_finite", path, "a finite number is needed here");
}

inline void read(const Json& value, const std::string& path, std::int64_t& number) {
  double exact = 0;
  read(value, path, exact);
  if (exact != std::floor(exact)) throw InputError("wrong_type", path, "a whole number is needed here");
  if (std::abs(exact) > kLargestExact) throw InputError("out_of_range", path, "the number is too large");
  number = static_cast<std::int64_t>(exact);
}

inline void read(const Json& value, const std::string& path, Length& length) { read(value, path, length.nm); }

inline void read(const Json& value, const std::string& path, TypedLength& length) {
  length = typed_length_from_json(value, path);
}

template <class E>
requires std::is_enum_v<E>
void read(const Json& value, const std::string& path, E& word) {
  const auto& text = text_in(value, path);
  word = at_path(path, [&] { return parse_word<E>(text); });
}

template <HasFields E>
void read(const Json& value, const std::string& path, E& entity);

template <class T>
void read(const Json& value, const std::string& path, std::vector<T>& list);

template <class T>
void read(const Json& value, const std::string& path, std::optional<T>& optional) {
  if (value.is_null()) {
    optional.reset();
    return;
  }
  T read_value{};
  read(value, path, read_value);
  optional = std::move(read_value);
}

template <class T>
void read(const Json& value, const std::string& path, std::vector<T>& list) {
  if (!value.is_array()) wrong_type(value, path, "a list");
  list.clear();
  for (const Json& item : value) {
    T read_value{};
    read(item, path + "[" + std::to_string(list.size()) + "]", read_value);
    list.push_back(std::move(read_value));
  }
}

template <class T>
inline constexpr bool is_length =
    std::is_same_v<T, Length> || std::is_same_v<T, std::optional<Length>> || std::is_same_v<T, std::vector<Length>>;
template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

class ObjectReader {
 public:
  ObjectReader(const Json& object, std::string path) : object_(object), path_(std::move(path)) {
    if (!object_.is_object()) wrong_type(object_, path_, "an object");
  }

  template <class T>
  void operator()(const char* name, T& member, const Rule& rule) {
    const std::string key = is_length<T> ? std::string(name) + "_nm" : std::string(name);
    const Json* value = find(key);
    const bool absent = value == nullptr || (value->is_null() && !is_optional<T>);
    if (absent && rule.needed) throw InputError("missing", path_of(key), "this field is needed");
    if (absent) return;
    if constexpr (std::is_same_v<T, std::string>) {
      if (rule.json) {
        if (!value->is_object()) wrong_type(*value, path_of(key), "an object");
        member = value->dump();
        return;
      }
    }
    read(*value, path_of(key), member);
  }

  const Json* find(const std::string& key) {
    asked_.insert(key);
    const auto found = object_.find(key);
    return found == object_.end() ? nullptr : &*found;
  }

  std::string path_of(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }

  void done() const {
    for (const auto& [key, value] : object_.items()) {
      if (asked_.contains(key)) continue;
      std::string known;
      for (const auto& asked : asked_) known += (known.empty() ? "" : ", ") + asked;
      throw InputError("unknown_field", path_of(key), "there is no such field; known here: " + known);
    }
  }

 private:
  const Json& object_;
  std::string path_;
  std::set<std::string> asked_;
};

template <HasFields E>
void read(const Json& value, const std::string& path, E& entity) {
  ObjectReader reader(value, path);
  fields(entity, reader);
  if constexpr (std::is_same_v<E, Reading>) {
    if (const Json* state = reader.find("state")) {
      ReadingState ignored{};
      read(*state, reader.path_of("state"), ignored);
    }
  }
  reader.done();
}

}  // namespace json_reading

template <class E>
E from_json(const Json& value, const std::string& path) {
  E entity{};
  json_reading::read(value, path, entity);
  check(entity, path);
  return entity;
}

}  // namespace brakewright::shop
