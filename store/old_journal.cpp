#include "store/old_journal.hpp"

#include <nlohmann/json.hpp>

#include "shop/journal/chain.hpp"
#include "shop/journal/signing.hpp"
#include "shop/json.hpp"
#include "store/journal_rows.hpp"
#include "store/rebuild.hpp"
#include "store/statements.hpp"

namespace brakewright::store {

using namespace shop;

namespace {

void chain_all(Database& database) {
  Query entries = database.query("SELECT " + column_list<Change>() + " FROM change ORDER BY seq");
  std::string previous;
  while (entries.next()) {
    const Change entry = chained(row_as<Change>(entries), previous);
    previous = entry.entry_sha256;
    database.query("UPDATE change SET salt = ?, detail_sha256 = ?, entry_sha256 = ? WHERE seq = ?")
        .bind(0, entry.salt)
        .bind(1, entry.detail_sha256)
        .bind(2, entry.entry_sha256)
        .bind(3, entry.seq)
        .run();
  }
}

template <class E>
void tell_rows(SqliteStore& store, const std::string& table, const std::string& order = "place") {
  Query found = store.database().query("SELECT " + column_list<E>() + " FROM " + table + " ORDER BY " + order);
  while (found.next()) {
    const E row = row_as<E>(found);
    const Change newest = newest_in(store.database());
    Change entry = entry_behind(newest, "brought." + table, json_text(row));
    if constexpr (requires { row.id; }) entry.subject_id = row.id;
    store.append(std::move(entry));
  }
}

void tell_all_rows(SqliteStore& store) {
  tell_rows<Settings>(store, "settings", "only");
  tell_rows<Person>(store, "person");
  tell_rows<Instrument>(store, "instrument");
  tell_rows<Lathe>(store, "lathe");
  tell_rows<KnownPart>(store, "known_part");
  tell_rows<Piece>(store, "piece");
  tell_rows<Insert>(store, "cutting_insert");
  tell_rows<Corner>(store, "corner");
  tell_rows<Band>(store, "band");
  tell_rows<TaperPlate>(store, "taper_plate");
  tell_rows<Job>(store, "job", "number");
  tell_rows<Part>(store, "part");
  tell_rows<MeasuringPlan>(store, "measuring_plan");
  tell_rows<ZeroCheck>(store, "zero_check");
  tell_rows<Booking>(store, "booking");
  tell_rows<Reading>(store, "reading");
  tell_rows<Finding>(store, "finding");
  tell_rows<Decision>(store, "decision");
  tell_rows<Mount>(store, "mount");
  tell_rows<MountProof>(store, "mount_proof");
  tell_rows<CutPlan>(store, "cut_plan");
  tell_rows<Pass>(store, "pass");
  tell_rows<BenchStep>(store, "bench_step");
  tell_rows<Cut>(store, "cut");
  tell_rows<Refit>(store, "refit");
  tell_rows<Amendment>(store, "amendment");
}

void sign_old_seals(SqliteStore& store) {
  Query sealed = store.database().query(
      "SELECT seq, job_id, entry_sha256 FROM change WHERE kind = 'job.sealed' AND job_id IS NOT NULL ORDER BY seq");
  while (sealed.next()) {
    write_seal(store.database(), parse_uuid(sealed.text(1)),
               store.signed_head({.seq = sealed.integer(0), .entry_sha256 = sealed.text(2)}));
  }
}

}  // namespace

bool is_before_the_chain(Database& database) {
  const auto none = [&](const std::string& of) { return database.number("SELECT count(*) FROM " + of) == 0; };
  return !none("change") && none("change WHERE entry_sha256 <> '' OR kind LIKE 'journal.%'") && none("journal_head") &&
         none("journal_seal");
}

void chain_old_entries(SqliteStore& store) {
  Database& database = store.database();
  const std::int64_t last = database.number("SELECT max(seq) FROM change");
  store.transact([&] {
    chain_all(database);
    sign_old_seals(store);
    const bool told = !difference_from_journal(store).has_value();
    store.append(
        entry_behind(newest_in(database), "journal.chained",
                     R"({"entries":)" + std::to_string(last) + R"(,"told":)" + (told ? "true" : "false") + "}"));
    if (!told) tell_all_rows(store);
  });
}

void note_broken_end(SqliteStore& store) {
  Database& database = store.database();
  const Change newest = newest_in(database);
  const JournalHead head = store.journal_head();
  const bool in_place = head.seq == newest.seq && head.entry_sha256 == newest.entry_sha256;
  const bool own =
      head.seq == 0 || (head.public_key == named_key(database) &&
                        signature_holds(head.public_key, signed_text(head.seq, head.entry_sha256), head.signature));
  if ((in_place && own) || newest.seq == 0) return;
  const nlohmann::ordered_json detail{{"head_seq", head.seq},
                                      {"head_entry_sha256", head.entry_sha256},
                                      {"found_seq", newest.seq},
                                      {"found_entry_sha256", newest.entry_sha256}};
  store.transact([&] { store.append(entry_behind(newest, "journal.resumed", detail.dump())); });
}

void name_new_key(SqliteStore& store) {
  const Change newest = newest_in(store.database());
  if (newest.seq > 0) store.transact([&] { store.announce_key(newest); });
}

}  // namespace brakewright::store
