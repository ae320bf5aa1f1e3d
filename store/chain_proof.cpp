#include "store/chain_proof.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "core/input_error.hpp"
#include "shop/journal/chain.hpp"
#include "shop/journal/signing.hpp"
#include "store/journal_rows.hpp"

namespace brakewright::store {

using namespace shop;
using nlohmann::json;

namespace {

/// An entry as it is stored.
struct StoredEntry {
  std::int64_t seq = 0;
  std::string id, kind;
  std::optional<std::string> job_id;
  std::string subject_id, detail_json, by_person_id, at, salt, detail_sha256, entry_sha256;

  std::string hash_behind(const std::string& previous, std::int64_t as_seq) const {
    return entry_sha256_of(previous, {.seq = as_seq,
                                      .id = id,
                                      .kind = kind,
                                      .job_id = job_id ? std::optional<std::string_view>(*job_id) : std::nullopt,
                                      .subject_id = subject_id,
                                      .by_person_id = by_person_id,
                                      .at = at,
                                      .detail_sha256 = detail_sha256});
  }
};

constexpr const char* kEntries =
    "SELECT seq, id, kind, job_id, subject_id, detail_json, by_person_id, at, salt, detail_sha256, entry_sha256 "
    "FROM change ";

StoredEntry entry_in(const Query& row) {
  StoredEntry entry;
  entry.seq = row.integer(0);
  entry.id = row.text(1);
  entry.kind = row.text(2);
  if (!row.is_null(3)) entry.job_id = row.text(3);
  entry.subject_id = row.text(4);
  entry.detail_json = row.text(5);
  entry.by_person_id = row.text(6);
  entry.at = row.text(7);
  entry.salt = row.text(8);
  entry.detail_sha256 = row.text(9);
  entry.entry_sha256 = row.text(10);
  return entry;
}

std::string entry_name(std::int64_t seq, const std::string& kind) {
  return "entry " + std::to_string(seq) + " (" + kind + ")";
}

std::string hash_at(Database& database, std::int64_t seq) {
  Query row = database.query("SELECT entry_sha256 FROM change WHERE seq = ?");
  return row.bind(0, seq).next() ? row.text(0) : "";
}

/// Why an entry does not hang on the one before: as far as it can be told.
std::string why_unchained(Database& database, const StoredEntry& entry, const std::string& previous) {
  Query rows = database.query("SELECT seq FROM change ORDER BY seq");
  while (rows.next()) {
    const std::int64_t place = rows.integer(0);
    // Where two changed places, the hash before this one's old place stands at that place or where this one is now.
    for (const std::string& before : {hash_at(database, place - 1), hash_at(database, place)}) {
      if (place != entry.seq && entry.hash_behind(before, place) == entry.entry_sha256) {
        return " was moved: it was written as entry " + std::to_string(place);
      }
    }
  }
  Query next = database.query(std::string(kEntries) + "WHERE seq = ?");
  if (next.bind(0, entry.seq + 1).next()) {
    const StoredEntry after = entry_in(next);
    if (after.hash_behind(previous, entry.seq) == after.entry_sha256) {
      return " was put in: the one behind it was written as entry " + std::to_string(entry.seq);
    }
    if (after.hash_behind(entry.entry_sha256, after.seq) == after.entry_sha256) {
      return " was altered: its content has not the hash that the entry behind it was chained to";
    }
  }
  return " was altered, put in or moved: its hash does not follow from it and from the entry before";
}

/// Entries that a later "person.erased" names, each with the seq of that one.
std::map<std::int64_t, std::int64_t> erasures(Database& database) {
  std::map<std::int64_t, std::int64_t> named;
  Query rows = database.query("SELECT seq, detail_json FROM change WHERE kind = 'person.erased' ORDER BY seq");
  while (rows.next()) {
    const json detail = json::parse(rows.text(1), nullptr, false);
    if (!detail.is_object() || !detail.contains("entries") || !detail["entries"].is_array()) continue;
    for (const json& seq : detail["entries"]) {
      if (seq.is_number_integer()) named[seq.get<std::int64_t>()] = rows.integer(0);
    }
  }
  return named;
}

std::optional<std::string> fault_of_detail(const StoredEntry& entry,
                                           const std::map<std::int64_t, std::int64_t>& erased) {
  if (entry.detail_json.empty() && entry.salt.empty()) {
    const auto named = erased.find(entry.seq);
    if (named != erased.end() && named->second > entry.seq) return {};
    return " lost its detail, and no later entry says that it was erased";
  }
  try {
    if (detail_sha256_of(entry.salt, entry.detail_json) == entry.detail_sha256) return {};
  } catch (const InputError&) {
    // told below
  }
  return " was altered: its detail has not the hash that it was written with";
}

std::set<std::string> named_keys(Database& database) {
  std::set<std::string> keys;
  Query rows = database.query("SELECT detail_json FROM change WHERE kind = 'journal.key'");
  while (rows.next()) {
    const json detail = json::parse(rows.text(0), nullptr, false);
    if (detail.is_object() && detail.contains("public_key") && detail["public_key"].is_string()) {
      keys.insert(detail["public_key"].get<std::string>());
    }
  }
  return keys;
}

bool signed_by_its_key(const JournalHead& head) {
  return signature_holds(head.public_key, signed_text(head.seq, head.entry_sha256), head.signature);
}

constexpr const char* kSeals =
    "SELECT change.seq, change.entry_sha256, journal_seal.public_key, journal_seal.signature, change.job_id, "
    "journal_seal.job_id, journal_seal.entry_sha256 FROM change LEFT JOIN journal_seal USING (seq) "
    "WHERE change.kind = 'job.sealed' ";

std::optional<ChainFault> fault_of_seal_row(const Query& row, const std::set<std::string>& keys) {
  const JournalHead head = head_in(row);
  const std::string name = entry_name(head.seq, "job.sealed");
  if (row.is_null(2)) return ChainFault{head.seq, "the signature of " + name + " is not there"};
  if (row.text(4) != row.text(5) || row.text(6) != head.entry_sha256 || !signed_by_its_key(head) ||
      !keys.contains(head.public_key)) {
    return ChainFault{head.seq, "the signature of " + name + " does not hold"};
  }
  return {};
}

}  // namespace

std::optional<ChainFault> fault_of_chain(Database& database, std::optional<std::int64_t> until) {
  const auto erased = erasures(database);
  std::string previous;
  std::int64_t last = 0;
  Query rows = database.query(std::string(kEntries) + "ORDER BY seq");
  while (rows.next()) {
    const StoredEntry entry = entry_in(rows);
    if (until && entry.seq > *until) break;
    if (entry.seq != last + 1) {
      return ChainFault{last + 1, "the journal goes from entry " + std::to_string(last) + " to entry " +
                                      std::to_string(entry.seq) + ": what was between them was cut out"};
    }
    const std::string name = entry_name(entry.seq, entry.kind);
    if (entry.hash_behind(previous, entry.seq) != entry.entry_sha256) {
      return ChainFault{entry.seq, name + why_unchained(database, entry, previous)};
    }
    if (const auto fault = fault_of_detail(entry, erased)) return ChainFault{entry.seq, name + *fault};
    if (entry.kind == "journal.resumed") {
      return ChainFault{entry.seq,
                        name + " says that the journal did not end where its signed head said: " + entry.detail_json};
    }
    previous = entry.entry_sha256;
    last = entry.seq;
  }
  if (until && last < *until) {
    return ChainFault{last + 1, "the journal has no entry " + std::to_string(last + 1) + ", and goes on behind it"};
  }
  return {};
}

std::optional<ChainFault> fault_of_head(Database& database, const std::optional<std::string>& own_key) {
  const Change newest = newest_in(database);
  Query row = database.query("SELECT seq, entry_sha256, public_key, signature, count(*) OVER () FROM journal_head");
  if (!row.next()) {
    if (newest.seq == 0) return {};
    return ChainFault{newest.seq, "the journal's signed head is not there"};
  }
  const JournalHead head = head_in(row);
  if (row.integer(4) != 1) return ChainFault{head.seq, "the journal has more than one head"};
  if (head.seq > newest.seq) {
    return ChainFault{newest.seq + 1, "the journal ends with entry " + std::to_string(newest.seq) +
                                          ", and its signed head is entry " + std::to_string(head.seq) +
                                          ": the last entries were cut off"};
  }
  if (head.seq != newest.seq || head.entry_sha256 != newest.entry_sha256) {
    return ChainFault{head.seq,
                      "the journal's signed head, entry " + std::to_string(head.seq) +
                          ", is not the newest entry as it stands: entries were put behind it or written anew"};
  }
  if (!signed_by_its_key(head)) {
    return ChainFault{head.seq, "the signature under the journal's head does not hold"};
  }
  if (head.public_key != named_key(database)) {
    return ChainFault{head.seq, "the journal's head is signed with a key that the journal does not name"};
  }
  if (own_key && *own_key != head.public_key) {
    return ChainFault{head.seq, "the journal's head is signed with another key than the one beside the file"};
  }
  return {};
}

std::optional<ChainFault> fault_of_signed_seals(Database& database) {
  const auto keys = named_keys(database);
  Query rows = database.query(std::string(kSeals) + "ORDER BY change.seq");
  std::int64_t sealed = 0;
  while (rows.next()) {
    if (rows.is_null(4)) continue;
    ++sealed;
    if (auto fault = fault_of_seal_row(rows, keys)) return fault;
  }
  if (database.number("SELECT count(*) FROM journal_seal") != sealed) {
    return ChainFault{0, "a signature of a seal belongs to no entry that seals a job"};
  }
  return {};
}

std::optional<ChainFault> fault_of_signed_seal(Database& database, std::int64_t seq) {
  Query row = database.query(std::string(kSeals) + "AND change.seq = ?");
  if (!row.bind(0, seq).next()) return ChainFault{seq, "entry " + std::to_string(seq) + " seals no job"};
  return fault_of_seal_row(row, named_keys(database));
}

}  // namespace brakewright::store
