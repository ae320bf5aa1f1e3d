#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <type_traits>
#include <vector>

#include "shop/fields.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"
#include "store/sqlite.hpp"

/// Entities as rows: columns in the order of the field lists. A typed length takes four columns (_nm, _unit,
/// _resolution_nm, _text), a struct its own fields behind its name; an absent optional is null in all of them.
namespace brakewright::store {

std::string joined_list(const std::vector<Length>& lengths);
std::string joined_list(const std::vector<std::string>& texts);
std::string joined_list(const std::vector<double>& numbers);
std::string joined_list(const std::vector<shop::Uuid>& ids);
std::string joined_list(const std::vector<shop::ProofMark>& marks);
std::string joined_list(const std::vector<shop::ForeseenPass>& passes);
void split_list(const std::string& json, std::vector<Length>& lengths);
void split_list(const std::string& json, std::vector<std::string>& texts);
void split_list(const std::string& json, std::vector<double>& numbers);
void split_list(const std::string& json, std::vector<shop::Uuid>& ids);
void split_list(const std::string& json, std::vector<shop::ProofMark>& marks);
void split_list(const std::string& json, std::vector<shop::ForeseenPass>& passes);

template <class T>
struct Inner {
  using type = T;
};
template <class T>
struct Inner<std::optional<T>> {
  using type = T;
};

/// Collects column names.
struct ColumnNames {
  std::vector<std::string>& names;
  std::string prefix;

  template <class T>
  void operator()(const char* name, const T&, const shop::Rule& rule) const {
    using Value = typename Inner<T>::type;
    const std::string column = prefix + name;
    if constexpr (std::is_same_v<Value, TypedLength>) {
      for (const char* tail : {"_nm", "_unit", "_resolution_nm", "_text"}) names.push_back(column + tail);
    } else if constexpr (shop::HasFields<Value>) {
      Value shape{};
      fields(shape, ColumnNames{names, column + "_"});
    } else if constexpr (std::is_same_v<Value, Length> || std::is_same_v<Value, std::vector<Length>>) {
      names.push_back(column + "_nm");
    } else {
      names.push_back(rule.json ? column + "_json" : column);
    }
  }
};

template <class E>
std::vector<std::string> columns_of() {
  std::vector<std::string> names;
  E shape{};
  fields(shape, ColumnNames{names, ""});
  return names;
}

/// How many columns an optional value of this type takes.
template <class T>
int width_of() {
  static const int width = [] {
    std::vector<std::string> names;
    ColumnNames{names, ""}("", T{}, {});
    return static_cast<int>(names.size());
  }();
  return width;
}

/// Binds an entity to the parameters of a statement.
class RowWriter {
 public:
  explicit RowWriter(Query& query) : query_(query) {}

  template <class T>
  void operator()(const char*, const T& value, const shop::Rule&) {
    write(value);
  }

  void write(const shop::Uuid& id) { query_.bind(place_++, shop::to_text(id)); }
  void write(const std::string& text) { query_.bind(place_++, text); }
  void write(std::int64_t number) { query_.bind(place_++, number); }
  void write(double number) { query_.bind(place_++, number); }
  void write(bool yes) { query_.bind(place_++, std::int64_t{yes}); }
  void write(Length length) { query_.bind(place_++, length.nm); }
  void write(shop::UtcTime time) { query_.bind(place_++, shop::to_text(time)); }
  void write(shop::Date date) { query_.bind(place_++, shop::to_text(date)); }
  template <class T>
  void write(const std::vector<T>& list) {
    query_.bind(place_++, joined_list(list));
  }

  void write(const TypedLength& length) {
    write(length.value);
    write(length.unit);
    write(length.resolution_nm);
    write(length.text);
  }

  template <class T>
  requires std::is_enum_v<T>
  void write(T word) { query_.bind(place_++, shop::word_of(word)); }

  template <shop::HasFields T>
  void write(const T& entity) {
    fields(entity, *this);
  }

  template <class T>
  void write(const std::optional<T>& value) {
    if (value) {
      write(*value);
      return;
    }
    for (int k = 0; k < width_of<T>(); ++k) query_.bind_null(place_++);
  }

  int place() const { return place_; }

 private:
  Query& query_;
  int place_ = 0;
};

/// Reads an entity from the columns of the present row.
class RowReader {
 public:
  explicit RowReader(const Query& query, int column = 0) : query_(query), column_(column) {}

  template <class T>
  void operator()(const char*, T& value, const shop::Rule&) {
    read(value);
  }

  void read(shop::Uuid& id) { id = shop::parse_uuid(query_.text(column_++)); }
  void read(std::string& text) { text = query_.text(column_++); }
  void read(std::int64_t& number) { number = query_.integer(column_++); }
  void read(double& number) { number = query_.real(column_++); }
  void read(bool& yes) { yes = query_.integer(column_++) != 0; }
  void read(Length& length) { length.nm = query_.integer(column_++); }
  void read(shop::UtcTime& time) { time = shop::parse_time(query_.text(column_++)); }
  void read(shop::Date& date) { date = shop::parse_date(query_.text(column_++)); }
  template <class T>
  void read(std::vector<T>& list) {
    split_list(query_.text(column_++), list);
  }

  void read(TypedLength& length) {
    read(length.value);
    read(length.unit);
    read(length.resolution_nm);
    read(length.text);
  }

  template <class T>
  requires std::is_enum_v<T>
  void read(T& word) { word = shop::parse_word<T>(query_.text(column_++)); }

  template <shop::HasFields T>
  void read(T& entity) {
    fields(entity, *this);
  }

  template <class T>
  void read(std::optional<T>& value) {
    if (!query_.is_null(column_)) {
      read(value.emplace());
      return;
    }
    value.reset();
    column_ += width_of<T>();
  }

  int column() const { return column_; }

 private:
  const Query& query_;
  int column_;
};

template <class E>
E row_as(const Query& query, int column = 0) {
  E entity{};
  RowReader(query, column).read(entity);
  return entity;
}

/// "a, b, c" with an optional "alias." before each.
template <class E>
std::string column_list(const std::string& alias = "") {
  std::string list;
  for (const auto& name : columns_of<E>())
    list += (list.empty() ? "" : ", ") + (alias.empty() ? "" : alias + ".") + name;
  return list;
}

}  // namespace brakewright::store
