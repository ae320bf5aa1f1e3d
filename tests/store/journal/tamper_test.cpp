#include <fstream>
#include <set>

#include "core/uncertainty/random.hpp"
#include "tests/store/journal/shop_on_disk.hpp"

namespace brakewright::store {
namespace {

constexpr int kEdits = 1000;

std::string cell_of(const Query& row, int column) {
  if (row.type_name(column) != "real") return row.type_name(column) + " " + row.text(column);
  const double number = row.real(column);
  return "real " + std::string(reinterpret_cast<const char*>(&number), sizeof number);
}

/// Every record that is stored: each table's rows with their rowid, and the definitions; not the index of words, which
/// is made from them and which SQLite's own check holds to them.
std::string dump_of(const fs::path& file) {
  Database database(file, Access::read);
  std::string dump;
  Query tables = database.query("SELECT type, name, coalesce(sql, '') FROM sqlite_schema ORDER BY type, name");
  while (tables.next()) {
    dump += tables.text(1) + ":" + tables.text(2) + "\n";
    if (tables.text(0) != "table" || tables.text(1).starts_with("job_search")) continue;
    const std::string name = tables.text(1);
    const std::int64_t columns = database.number("SELECT count(*) FROM pragma_table_info('" + name + "')");
    Query rows = database.query("SELECT * FROM \"" + name + "\" ORDER BY 1, 2");
    while (rows.next()) {
      for (int k = 0; k < static_cast<int>(columns); ++k) {
        const std::string cell = cell_of(rows, k);
        dump += std::to_string(cell.size()) + ":" + cell;
      }
      dump += "\n";
    }
  }
  return dump;
}

/// The dump, or that the file cannot be read through any more.
std::string dump_or_damage(const fs::path& file) {
  try {
    return dump_of(file);
  } catch (const shop::StoreError&) {
    return "damaged";
  }
}

class Tampering : public ShopOnDisk {
 protected:
  fs::path whole() const { return file().string() + ".whole"; }

  std::size_t below(std::size_t count) { return static_cast<std::size_t>(draw_.below(count)); }

  template <class T>
  const T& one_of(const std::vector<T>& all) {
    return all[below(all.size())];
  }

  static std::vector<std::string> texts(Database& database, const std::string& sql) {
    std::vector<std::string> found;
    Query rows = database.query(sql);
    while (rows.next()) found.push_back(rows.text(0));
    return found;
  }

  /// One edit drawn at random, described; empty when what was drawn cannot be done to this row.
  std::string edit(Database& database) {
    const std::string table = one_of(texts(database,
                                           "SELECT name FROM sqlite_schema WHERE type = 'table' AND rootpage > 0 AND "
                                           "name NOT LIKE 'job_search%' ORDER BY name"));
    const std::string key = one_of(texts(database, "SELECT name FROM pragma_table_info('" + table + "') LIMIT 1"));
    const auto keys = texts(database, "SELECT rowid FROM \"" + table + "\" ORDER BY rowid");
    if (keys.empty()) return "";
    const std::string row = one_of(keys);
    switch (below(8)) {
      case 0:
        database.script("DELETE FROM " + table + " WHERE rowid = " + row);
        return "deleted " + row + " of " + table;
      case 1:
        return copied(database, table, row);
      case 2: {
        const std::string other = one_of(keys);
        if (other == row) return "";
        database.script("UPDATE " + table + " SET rowid = -1 WHERE rowid = " + row + "; UPDATE " + table +
                        " SET rowid = " + row + " WHERE rowid = " + other + "; UPDATE " + table +
                        " SET rowid = " + other + " WHERE rowid = -1");
        return "swapped " + row + " and " + other + " of " + table;
      }
      default:
        return byte_of_value(database, table, row);
    }
  }

  /// The row once more, under a free rowid and, where it has one, another id.
  std::string copied(Database& database, const std::string& table, const std::string& row) {
    std::string columns;
    std::string values;
    bool first = true;
    for (const auto& column : texts(database, "SELECT name FROM pragma_table_info('" + table + "') ORDER BY cid")) {
      const bool id = column == "id" || (column == "part_id" && table == "measuring_plan") ||
                      (column == "name" && table == "counter");
      columns += (first ? "" : ", ") + column;
      if (first && table != "counter") {
        values += "(SELECT max(rowid) + 1 FROM " + table + ")";
      } else {
        values += std::string(first ? "" : ", ") +
                  (id ? "substr(" + column + ", 1, length(" + column + ") - 1) || 'x'" : column);
      }
      first = false;
    }
    database.script("INSERT INTO " + table + " (" + columns + ") SELECT " + values + " FROM " + table +
                    " WHERE rowid = " + row);
    return "copied " + row + " of " + table;
  }

  std::string byte_of_value(Database& database, const std::string& table, const std::string& row) {
    const std::string column =
        one_of(texts(database, "SELECT name FROM pragma_table_info('" + table + "') ORDER BY cid"));
    std::string type;
    std::string text;
    std::int64_t number = 0;
    double real = 0;
    {
      Query value = database.query("SELECT \"" + column + "\" FROM " + table + " WHERE rowid = " + row);
      if (!value.next()) return "";
      type = value.type_name(0);
      text = value.text(0);
      number = value.integer(0);
      real = value.real(0);
    }
    Query put = database.query("UPDATE " + table + " SET \"" + column + "\" = ? WHERE rowid = " + row);
    if (type == "integer") {
      put.bind(0, number ^ (std::int64_t{1} << below(40)));
    } else if (type == "real") {
      std::uint64_t bits = 0;
      std::memcpy(&bits, &real, sizeof bits);
      bits ^= std::uint64_t{1} << below(52);
      std::memcpy(&real, &bits, sizeof real);
      put.bind(0, real);
    } else if (type == "text" && !text.empty()) {
      char& byte = text[below(text.size())];
      byte = static_cast<char>(byte ^ (1 << below(6)));
      put.bind(0, text);
    } else {
      return "";
    }
    put.run();
    return "a byte of " + column + " in row " + row + " of " + table;
  }

  std::string edit_of_rows() {
    Database database(file(), Access::write);
    std::string what;
    try {
      tamper(database, [&] { what = edit(database); });
    } catch (const shop::StoreError&) {
      return "";  // the database itself refuses such a row
    }
    return what;
  }

  std::string edit_of_file() {
    std::fstream bytes(file(), std::ios::in | std::ios::out | std::ios::binary);
    const auto at = static_cast<std::streamoff>(below(fs::file_size(file())));
    bytes.seekg(at);
    const int byte = bytes.get();
    bytes.seekp(at);
    bytes.put(static_cast<char>(byte ^ (1 << below(8))));
    return "byte " + std::to_string(at) + " of the file";
  }

  std::string found_by_check() const {
    try {
      return store::prove(file()).fault.value_or("");
    } catch (const shop::StoreError& error) {
      return error.what();
    }
  }

  void keep_whole() {
    write_shop();
    {
      Database database(file(), Access::write);
      database.text("PRAGMA journal_mode = DELETE");
    }
    ASSERT_EQ(fault(), "nothing wrong");
    fs::copy(file(), whole());
  }

  Random draw_{20261126};
};

TEST_F(Tampering, WithAnyValueOrRowOfAnyTableIsFound) {
  keep_whole();
  const std::string before = dump_of(file());
  std::set<std::string> tables;
  int unchanged = 0;
  for (int done = 0; done < kEdits;) {
    fs::copy(whole(), file(), fs::copy_options::overwrite_existing);
    const std::string what = edit_of_rows();
    if (what.empty()) continue;
    ++done;
    tables.insert(what.substr(what.rfind(' ') + 1));
    const std::string found = found_by_check();
    if (!found.empty()) continue;
    // Then it altered nothing: such as a value put in the place of the same one.
    ++unchanged;
    ASSERT_EQ(dump_or_damage(file()) == before, true) << what;
  }
  EXPECT_LE(unchanged, kEdits / 100);
  EXPECT_GE(tables.size(), 25U);
}

TEST_F(Tampering, WithAnyByteOfTheFileIsFoundOrAlteredNoRecord) {
  keep_whole();
  const std::string before = dump_of(file());
  int found = 0;
  for (int done = 0; done < kEdits; ++done) {
    fs::copy(whole(), file(), fs::copy_options::overwrite_existing);
    const std::string what = edit_of_file();
    if (!found_by_check().empty()) {
      ++found;
      continue;
    }
    ASSERT_EQ(dump_or_damage(file()) == before, true) << what;
  }
  // The file of a small shop is mostly pages of nearly empty tables and indexes, whose spare bytes hold nothing.
  EXPECT_GE(found, kEdits / 5);
}

}  // namespace
}  // namespace brakewright::store
