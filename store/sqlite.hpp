#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "shop/store.hpp"

/// SQLite with destructors and exceptions; nothing of the shop.
namespace brakewright::store {

/// One prepared statement in use. Parameters and columns count from 0. Goes back to its database when destroyed.
class Query {
 public:
  Query(sqlite3* database, sqlite3_stmt* statement, bool owned);
  ~Query();
  Query(Query&&) noexcept;
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;
  Query& operator=(Query&&) = delete;

  Query& bind(int place, std::int64_t value);
  Query& bind(int place, double value);
  Query& bind(int place, std::string_view text);
  Query& bind_null(int place);

  /// Steps to the next row; false at the end. @throws StoreError
  bool next();
  /// For statements without rows, or whose rows do not matter.
  void run();

  bool is_null(int column) const;
  std::string type_name(int column) const;  ///< "integer", "real", "text", "blob" or "null"
  std::int64_t integer(int column) const;
  double real(int column) const;
  std::string text(int column) const;

 private:
  sqlite3* database_;
  sqlite3_stmt* statement_;
  bool owned_;
};

enum class Access { read, write };

/// One connection. Not for several threads at once.
class Database {
 public:
  /// @param file    created when missing and access is write; ":memory:" for one that ends with the connection
  /// @throws StoreError
  Database(const std::filesystem::path& file, Access access);

  /// A statement, prepared once and kept.
  Query query(std::string_view sql);
  /// Runs any number of statements without parameters.
  void script(const std::string& sql);
  /// First column of the first row. @throws StoreError when there is none
  std::int64_t number(std::string_view sql);
  std::string text(std::string_view sql);

  bool in_transaction() const;
  sqlite3* handle() const { return handle_.get(); }
  const std::filesystem::path& file() const { return file_; }

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };

  std::filesystem::path file_;
  std::unique_ptr<sqlite3, Close> handle_;
  std::map<std::string, std::unique_ptr<sqlite3_stmt, Finalize>, std::less<>> statements_;
};

/// Throws the StoreError of an SQLite result code, in words for people.
[[noreturn]] void fail(sqlite3* database, int code);

}  // namespace brakewright::store
