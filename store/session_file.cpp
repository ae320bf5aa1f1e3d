#include "store/session_file.hpp"

#include "core/input_error.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

class SessionFile final : public shop::SessionBook {
 public:
  explicit SessionFile(const fs::path& file) : database_(file, Access::write) {
    database_.script(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL;"
        "CREATE TABLE IF NOT EXISTS session (token_sha256 TEXT PRIMARY KEY, person_id TEXT NOT NULL,"
        " made_at_ms INTEGER NOT NULL, seen_at_ms INTEGER NOT NULL) WITHOUT ROWID, STRICT");
  }

  std::vector<shop::Session> sessions() override {
    std::vector<shop::Session> all;
    Query query = database_.query("SELECT token_sha256, person_id, made_at_ms, seen_at_ms FROM session");
    while (query.next()) {
      all.push_back({.token_sha256 = query.text(0),
                     .person_id = shop::parse_uuid(query.text(1)),
                     .made_at = shop::UtcTime(milliseconds(query.integer(2))),
                     .seen_at = shop::UtcTime(milliseconds(query.integer(3)))});
    }
    return all;
  }

  void put(const shop::Session& session) override {
    database_.query("INSERT OR REPLACE INTO session VALUES (?, ?, ?, ?)")
        .bind(0, session.token_sha256)
        .bind(1, shop::to_text(session.person_id))
        .bind(2, std::int64_t{session.made_at.time_since_epoch().count()})
        .bind(3, std::int64_t{session.seen_at.time_since_epoch().count()})
        .run();
  }

  void remove(const std::string& token_sha256) override {
    database_.query("DELETE FROM session WHERE token_sha256 = ?").bind(0, token_sha256).run();
  }

 private:
  Database database_;
};

std::unique_ptr<shop::SessionBook> opened(const fs::path& file) {
  auto book = std::make_unique<SessionFile>(file);
  book->sessions();
  return book;
}

}  // namespace

std::unique_ptr<shop::SessionBook> open_sessions(const fs::path& file) {
  try {
    auto book = opened(file);
    fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
    return book;
  } catch (const shop::StoreError&) {
  } catch (const InputError&) {
  }
  for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(file.string() + tail);
  auto book = opened(file);
  fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
  return book;
}

fs::path sessions_beside(const fs::path& shop_file) { return shop_file.string() + ".sessions"; }

}  // namespace brakewright::store
