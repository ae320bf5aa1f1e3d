#pragma once

#include <string>

#include "shop/entities.hpp"
#include "store/sqlite.hpp"

/// Rows of the journal beside its entries, and entries that the store makes itself.
namespace brakewright::store {

/// The newest entry; one with seq 0 and no hash in an empty journal. Of its fields only seq, by_person_id, at and
/// entry_sha256 are filled in.
shop::Change newest_in(Database& database);

/// The public key that the newest entry "journal.key" names; empty when there is none.
std::string named_key(Database& database);

/// An entry of the store's own, by the person and at the time of the entry before it.
shop::Change entry_behind(const shop::Change& before, const std::string& kind, std::string detail_json);

/// From the columns seq, entry_sha256, public_key, signature.
shop::JournalHead head_in(const Query& row);

void write_seal(Database& database, const shop::Uuid& job_id, const shop::JournalHead& head);

}  // namespace brakewright::store
