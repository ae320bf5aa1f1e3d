#include "store/proof.hpp"

#include <exception>
#include <memory>
#include <new>

#include "shop/seal.hpp"
#include "shop/store.hpp"
#include "store/chain_proof.hpp"
#include "store/copy.hpp"
#include "store/key_file.hpp"
#include "store/rebuild.hpp"
#include "store/schema.hpp"

namespace brakewright::store {

using namespace shop;
namespace fs = std::filesystem;

namespace {

using Fault = std::optional<std::string>;

/// "1,204".
std::string grouped(std::int64_t number) {
  std::string text = std::to_string(number);
  for (auto at = static_cast<std::ptrdiff_t>(text.size()) - 3; at > 0; at -= 3) {
    text.insert(static_cast<std::size_t>(at), ",");
  }
  return text;
}

Fault fault_of_file(Database& database) {
  try {
    const std::string found = database.text("PRAGMA integrity_check(1)");
    if (found != "ok") return "the file is damaged: " + found;
    Query broken = database.query("PRAGMA foreign_key_check");
    if (broken.next()) return "a row of " + broken.text(0) + " names a row of " + broken.text(2) + " that is not there";
    database.script("INSERT INTO job_search (job_search) VALUES ('integrity-check')");
  } catch (const StoreError& error) {
    return std::string("the file is damaged: ") + error.what();
  }
  return {};
}

Fault fault_of_seals(SqliteStore& store, std::int64_t& sealed) {
  std::vector<Uuid> ids;
  {
    Query rows = store.database().query("SELECT id FROM job WHERE state = 'sealed' ORDER BY number");
    while (rows.next()) ids.push_back(parse_uuid(rows.text(0)));
  }
  sealed = static_cast<std::int64_t>(ids.size());
  for (const Uuid& id : ids) {
    const auto file = store.job_file(id);
    if (file && file->job.seal_sha256 == seal_of(*file)) continue;
    return "job " + (file ? std::to_string(file->job.number) : to_text(id)) +
           " is not what was sealed: its content no longer has the hash of its seal";
  }
  return {};
}

class Prover {
 public:
  Prover(std::unique_ptr<Database> copy, fs::path file)
      : store_(std::move(copy), nullptr), database_(store_.database()), file_(std::move(file)) {}

  Proof run() {
    if (whole_file() && whole_journal() && signed_head() && seals_hold()) rebuilt();
    return std::move(proof_);
  }

 private:
  bool found(const std::string& what, Fault fault, const std::string& words) {
    if (fault) {
      proof_.fault = std::move(fault);
    } else {
      proof_.proven.push_back({what, words});
    }
    return !proof_.fault;
  }

  bool found(const std::string& what, const std::optional<ChainFault>& fault, const std::string& words) {
    if (fault) proof_.entry = fault->seq;
    return found(what, fault ? Fault(fault->words) : Fault(), words);
  }

  bool whole_file() {
    return found("file", fault_of_file(database_), "whole, " + grouped(size()) + " bytes as last committed");
  }

  std::int64_t size() { return database_.number("PRAGMA page_count") * database_.number("PRAGMA page_size"); }

  bool whole_journal() {
    return found("journal", fault_of_chain(database_),
                 grouped(store_.last_seq()) + " entries, each chained to the one before" + chained_later());
  }

  /// What stood there when a journal was chained could have been anything.
  std::string chained_later() {
    std::string words;
    Query rows = database_.query("SELECT seq FROM change WHERE kind = 'journal.chained' ORDER BY seq");
    while (rows.next()) {
      const std::string seq = grouped(rows.integer(0));
      words += "; those before entry " + seq + " (journal.chained) were chained when it was written, and not before: " +
               "the chain proves them from then on";
    }
    return words;
  }

  bool signed_head() {
    const auto key = key_in(key_file_of(file_));
    const JournalHead head = store_.journal_head();
    std::string words = "no entry yet";
    if (head.seq > 0) {
      words = "entry " + grouped(head.seq) + " " + head.entry_sha256.substr(0, 16) + "... signed with the key " +
              head.public_key.substr(0, 16) + "..." + (key ? "" : ", which is not beside this file") + keys();
    }
    return found("head", fault_of_head(database_, key ? std::optional(key->public_key) : std::nullopt), words);
  }

  std::string keys() {
    const std::int64_t count = database_.number("SELECT count(*) FROM change WHERE kind = 'journal.key'");
    if (count < 2) return "";
    Query last = database_.query("SELECT max(seq) FROM change WHERE kind = 'journal.key'");
    last.next();
    return "; the key changed " + std::to_string(count - 1) + " times, last at entry " + grouped(last.integer(0));
  }

  bool seals_hold() {
    if (const auto unsigned_seal = fault_of_signed_seals(database_)) return found("seals", unsigned_seal, "");
    std::int64_t sealed = 0;
    const Fault fault = fault_of_seals(store_, sealed);
    return found("seals", fault,
                 grouped(sealed) + " of " + grouped(database_.number("SELECT count(*) FROM job")) +
                     " jobs sealed, every seal holds, and its signature");
  }

  bool rebuilt() {
    return found("rebuilt", difference_from_journal(store_),
                 "every table, made again from the journal, is as it stands");
  }

  SqliteStore store_;
  Database& database_;
  fs::path file_;
  Proof proof_;
};

}  // namespace

Proof prove(const fs::path& file) {
  std::unique_ptr<Database> copy;
  try {
    copy = copy_in_memory(file);
    const std::int64_t version = version_of(*copy);
    refuse_newer(*copy);
    if (version != newest_version()) {
      throw StoreError(StoreError::Cause::other,
                       file.string() +
                           " was written by an older Brakewright; serve it once with this one, which keeps "
                           "a copy and brings it up to date");
    }
  } catch (const StoreError& error) {
    if (error.cause() != StoreError::Cause::damaged) throw;
    return {.proven = {}, .fault = error.what(), .entry = {}};
  }
  try {
    return Prover(std::move(copy), file).run();
  } catch (const StoreError& error) {
    if (error.cause() != StoreError::Cause::damaged) throw;
    return {.proven = {}, .fault = error.what(), .entry = {}};
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {  // whatever reading a bent value ends in: a date, a number, a list in JSON
    return {.proven = {}, .fault = std::string("a row of the file cannot be read: ") + error.what(), .entry = {}};
  }
}

}  // namespace brakewright::store
