#include "store/practice_file.hpp"

#include <condition_variable>
#include <exception>
#include <mutex>
#include <optional>

#include "core/input_error.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

const fs::path kInMemory = ":memory:";

std::optional<shop::Uuid> run_named(const std::string& name) {
  try {
    return shop::parse_uuid(name);
  } catch (const InputError&) {
    return std::nullopt;
  }
}

/// An act that waits for the disk.
struct Waiting {
  const shop::KeptAct& act;
  const shop::OpenRun& after;
  bool done = false;
  std::exception_ptr failed = {};
};

class PracticeFile final : public shop::PracticeBook {
 public:
  explicit PracticeFile(const fs::path& file) : database_(file, Access::write) {
    database_.script(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;"
        "CREATE TABLE IF NOT EXISTS open_run (run_id TEXT PRIMARY KEY, acts INTEGER NOT NULL, view_json TEXT NOT NULL,"
        " at_ms INTEGER NOT NULL, ends INTEGER NOT NULL) WITHOUT ROWID, STRICT;"
        "CREATE TABLE IF NOT EXISTS act (run_id TEXT NOT NULL, number INTEGER NOT NULL, act_json TEXT NOT NULL,"
        " outcome_json TEXT NOT NULL, PRIMARY KEY (run_id, number)) WITHOUT ROWID, STRICT");
  }

  std::vector<shop::OpenRun> open_runs() override {
    const std::lock_guard lock(database_guard_);
    std::vector<shop::OpenRun> all;
    std::vector<std::string> nobodys;
    {
      Query query = database_.query("SELECT run_id, acts, view_json, at_ms, ends FROM open_run");
      while (query.next()) {
        const auto run_id = run_named(query.text(0));
        if (!run_id) {
          nobodys.push_back(query.text(0));
          continue;
        }
        all.push_back({.run_id = *run_id,
                       .acts = query.integer(1),
                       .view_json = query.text(2),
                       .at = shop::UtcTime(milliseconds(query.integer(3))),
                       .ends = query.integer(4) != 0});
      }
    }
    for (const std::string& name : nobodys) drop(name);
    return all;
  }

  std::vector<shop::KeptAct> acts(const shop::Uuid& run_id) override {
    const std::lock_guard lock(database_guard_);
    std::vector<shop::KeptAct> found;
    Query query = database_.query("SELECT number, act_json, outcome_json FROM act WHERE run_id = ? ORDER BY number");
    query.bind(0, shop::to_text(run_id));
    while (query.next()) found.push_back({query.integer(0), query.text(1), query.text(2)});
    return found;
  }

  void keep(const shop::KeptAct& act, const shop::OpenRun& after) override {
    Waiting own{.act = act, .after = after};
    std::unique_lock lock(queue_guard_);
    queue_.push_back(&own);
    while (!own.done) {
      if (writing_) {
        written_.wait(lock);
        continue;
      }
      writing_ = true;
      const std::vector<Waiting*> together = std::move(queue_);
      queue_.clear();
      lock.unlock();
      write(together);
      lock.lock();
      for (Waiting* one : together) one->done = true;
      writing_ = false;
      written_.notify_all();
    }
    if (own.failed) std::rethrow_exception(own.failed);
  }

  void forget(const shop::Uuid& run_id) override {
    const std::lock_guard lock(database_guard_);
    drop(shop::to_text(run_id));
  }

 private:
  void drop(const std::string& run_id) {
    in_transaction([&] {
      for (const char* sql : {"DELETE FROM act WHERE run_id = ?", "DELETE FROM open_run WHERE run_id = ?"}) {
        database_.query(sql).bind(0, run_id).run();
      }
    });
  }

  /// Where the medium fails all of them have failed; one that is refused for itself has failed alone.
  void write(const std::vector<Waiting*>& together) {
    try {
      const std::lock_guard lock(database_guard_);
      in_transaction([&] {
        for (Waiting* one : together) write_alone(*one);
      });
    } catch (...) {
      for (Waiting* one : together) one->failed = std::current_exception();
    }
  }

  void write_alone(Waiting& one) {
    database_.script("SAVEPOINT one_act");
    try {
      write_one(one.act, one.after);
    } catch (const shop::StoreError& error) {
      if (!database_.in_transaction()) throw;
      database_.script("ROLLBACK TO one_act");
      one.failed = std::make_exception_ptr(
          shop::StoreError(error.cause(), "act " + std::to_string(one.act.number) + " of practice run " +
                                              shop::to_text(one.after.run_id) + " could not be kept: " + error.what()));
    }
    database_.script("RELEASE one_act");
  }

  void write_one(const shop::KeptAct& act, const shop::OpenRun& after) {
    database_.query("INSERT INTO act VALUES (?, ?, ?, ?)")
        .bind(0, shop::to_text(after.run_id))
        .bind(1, act.number)
        .bind(2, act.act_json)
        .bind(3, act.outcome_json)
        .run();
    database_.query("INSERT OR REPLACE INTO open_run VALUES (?, ?, ?, ?, ?)")
        .bind(0, shop::to_text(after.run_id))
        .bind(1, after.acts)
        .bind(2, after.view_json)
        .bind(3, std::int64_t{after.at.time_since_epoch().count()})
        .bind(4, std::int64_t{after.ends})
        .run();
  }

  template <class F>
  void in_transaction(F&& work) {
    database_.script("BEGIN IMMEDIATE");
    try {
      work();
      database_.script("COMMIT");
    } catch (...) {
      if (database_.in_transaction()) database_.script("ROLLBACK");
      throw;
    }
  }

  std::mutex database_guard_;
  Database database_;
  std::mutex queue_guard_;  ///< of what follows; the database's is never taken while it is held
  std::condition_variable written_;
  std::vector<Waiting*> queue_;
  bool writing_ = false;
};

std::unique_ptr<shop::PracticeBook> readable_book(const fs::path& file) {
  auto book = std::make_unique<PracticeFile>(file);
  book->open_runs();
  if (file != kInMemory) fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
  return book;
}

}  // namespace

std::unique_ptr<shop::PracticeBook> open_practice_book(const fs::path& file) {
  try {
    return readable_book(file);
  } catch (const shop::StoreError& error) {
    if (error.cause() != shop::StoreError::Cause::damaged) throw;
  }
  for (const char* tail : {"-wal", "-shm", "-journal"}) fs::remove(file.string() + tail);
  fs::rename(file, file.string() + ".damaged");
  return readable_book(file);
}

fs::path practice_beside(const fs::path& shop_file) { return shop_file.string() + ".practice"; }

}  // namespace brakewright::store
