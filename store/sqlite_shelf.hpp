#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "shop/json.hpp"
#include "shop/shelf.hpp"
#include "store/statements.hpp"

namespace brakewright::store {

enum class Rows {
  change,  ///< a put of a row that is there replaces it
  final    ///< a row is put once
};

/// A shelf kept in a table of the shop's database, which has `place INTEGER PRIMARY KEY` and then the columns of E's
/// field list (store/rows.hpp), those of `key` UNIQUE. List it in store/rooms.cpp, so that the journal can rebuild it.
template <class E>
class SqliteShelf final : public shop::Shelf<E> {
 public:
  /// @param key  the columns that tell rows apart, such as "id" or "person_id, kind"
  SqliteShelf(Database& database, std::string table, Rows rows, const std::string& key = "id")
      : database_(database),
        table_(std::move(table)),
        put_sql_(rows == Rows::change ? upsert_sql<E>(table_, key) : insert_sql<E>(table_)),
        select_sql_("SELECT " + column_list<E>() + " FROM " + table_) {}

  const std::string& word() const override { return table_; }

  void put(const E& entity) override {
    if (!database_.in_transaction()) throw std::logic_error("a shelf is written within a transaction only");
    write_row(database_, put_sql_, entity);
  }

  void put_told(const std::string& detail_json) override { put(shop::from_json<E>(shop::parse_json(detail_json))); }

  std::vector<E> all() override { return rows<E>(database_.query(select_sql_ + " ORDER BY place")); }

  std::optional<E> find(const shop::Uuid& id) override {
    auto found = where("id", id);
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
  }

  std::vector<E> where(const std::string& column, const shop::Uuid& id) override {
    return rows<E>(std::move(
        database_.query(select_sql_ + " WHERE " + column + " = ? ORDER BY place").bind(0, shop::to_text(id))));
  }

 private:
  Database& database_;
  std::string table_;
  std::string put_sql_;
  std::string select_sql_;
};

}  // namespace brakewright::store
