#include "store/journal_rows.hpp"

#include <nlohmann/json.hpp>
#include <utility>

#include "shop/journal/chain.hpp"
#include "shop/times.hpp"

namespace brakewright::store {

using namespace shop;

Change newest_in(Database& database) {
  Query row = database.query("SELECT seq, by_person_id, at, entry_sha256 FROM change ORDER BY seq DESC LIMIT 1");
  if (!row.next()) return {};
  return {.seq = row.integer(0),
          .by_person_id = parse_uuid(row.text(1)),
          .at = parse_time(row.text(2)),
          .entry_sha256 = row.text(3)};
}

std::string named_key(Database& database) {
  Query row = database.query("SELECT detail_json FROM change WHERE kind = 'journal.key' ORDER BY seq DESC LIMIT 1");
  if (!row.next()) return {};
  const auto detail = nlohmann::json::parse(row.text(0), nullptr, false);
  if (!detail.is_object() || !detail.contains("public_key") || !detail["public_key"].is_string()) return {};
  return detail["public_key"].get<std::string>();
}

Change entry_behind(const Change& before, const std::string& kind, std::string detail_json) {
  const Uuid id = make_uuid7(before.at.time_since_epoch().count(), fresh_bytes);
  return {.seq = 0,
          .id = id,
          .kind = kind,
          .job_id = std::nullopt,
          .subject_id = id,
          .detail_json = std::move(detail_json),
          .by_person_id = before.by_person_id,
          .at = before.at};
}

JournalHead head_in(const Query& row) {
  return {.seq = row.integer(0), .entry_sha256 = row.text(1), .public_key = row.text(2), .signature = row.text(3)};
}

void write_seal(Database& database, const Uuid& job_id, const JournalHead& head) {
  database.query("INSERT INTO journal_seal (seq, job_id, entry_sha256, public_key, signature) VALUES (?, ?, ?, ?, ?)")
      .bind(0, head.seq)
      .bind(1, to_text(job_id))
      .bind(2, head.entry_sha256)
      .bind(3, head.public_key)
      .bind(4, head.signature)
      .run();
}

}  // namespace brakewright::store
