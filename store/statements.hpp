#pragma once

#include <string>
#include <utility>
#include <vector>

#include "store/rows.hpp"
#include "store/sqlite.hpp"

/// The statements by which entities go into their table and come out of it.
namespace brakewright::store {

/// "?, ?, ?"
inline std::string marks(std::size_t count) {
  std::string text;
  for (std::size_t k = 0; k < count; ++k) text += k == 0 ? "?" : ", ?";
  return text;
}

/// Statement that only ever inserts: a row that is there already is refused.
template <class E>
std::string insert_sql(const std::string& table) {
  return "INSERT INTO " + table + " (" + column_list<E>() + ") VALUES (" + marks(columns_of<E>().size()) + ")";
}

/// Statement that inserts, or replaces the row with the same key.
template <class E>
std::string upsert_sql(const std::string& table, const std::string& key) {
  std::string sql = insert_sql<E>(table) + " ON CONFLICT (" + key + ") DO UPDATE SET ";
  bool first = true;
  for (const auto& name : columns_of<E>()) {
    sql += (first ? "" : ", ") + name + " = excluded." + name;
    first = false;
  }
  return sql;
}

template <class E>
void write_row(Database& database, const std::string& sql, const E& entity) {
  Query query = database.query(sql);
  RowWriter(query).write(entity);
  query.run();
}

template <class E>
std::vector<E> rows(Query query) {
  std::vector<E> found;
  while (query.next()) found.push_back(row_as<E>(query));
  return found;
}

}  // namespace brakewright::store
