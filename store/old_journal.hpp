#pragma once

#include "store/sqlite_store.hpp"

namespace brakewright::store {

/// Whether a shop has entries and nothing of a chain: no hash, no head, no entry of the journal's own. Only with no key
/// beside the file either is it from before there was a chain; otherwise its hashes were taken out.
bool is_before_the_chain(Database& database);

/// Chains the entries of such a shop and says so in an entry "journal.chained". Where they do not tell the shop as it
/// stands, "brought" entries behind it tell every row.
void chain_old_entries(SqliteStore& store);

/// Says in an entry "journal.resumed" that the journal does not end where its signed head says, so that what was cut
/// off its end or put behind it stays visible when the head moves on.
void note_broken_end(SqliteStore& store);

/// Names the shop's key in an entry "journal.key" where the journal named another one last: the shop was brought back,
/// or elsewhere, without its key. In an empty shop the first entry does it.
void name_new_key(SqliteStore& store);

}  // namespace brakewright::store
