#pragma once

#include <cstdint>
#include <limits>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/input_error.hpp"
#include "shop/json.hpp"
#include "shop/shelf.hpp"
#include "shop/store.hpp"

/// What the entries of the journal tell, and how a shop is made of them again.
///
/// The kind of an entry says of which table it tells a row, "reading.added" of reading; its detail is that row's JSON
/// as it was written. Entries that tell no row, beside those of rooms (shop/shelf.hpp):
///   journal.key      {public_key, before}: signed with this key from here on
///   journal.chained  {entries, told}: so many entries before this one are from before there was a chain; unless
///                    `told`, they did not tell the whole shop, and "brought" entries after this one tell every row
///   journal.brought  {entries}: the next so many entries are another shop's, of jobs that were carried here; what is
///                    here of them is told by the "brought" entries behind them
///   journal.resumed  {head_seq, head_entry_sha256, found_seq, found_entry_sha256}: the journal did not end where its
///                    signed head says
/// "brought.<table>" tells a row of that table, "brought.job_file" a whole job. "person.erased" {person, entries} tells
/// a person's row and names the entries that were emptied.
namespace brakewright::shop {

/// The table of which an entry of this kind tells a row; "job_file" for a whole job; empty where it tells none.
/// @param room_words  the words of the rooms' shelves
std::string told_table(std::string_view kind, const std::set<std::string>& room_words = {});

/// Puts a job with all that belongs to it.
void put_file(Store& store, const JobFile& file);

/// An entry whose row cannot be put again.
class TellingError : public InputError {
 public:
  TellingError(std::int64_t seq, const std::string& kind, const std::string& why)
      : InputError("not_told", "changes",
                   "entry " + std::to_string(seq) + " (" + kind + ") tells no row that can be put: " + why),
        seq_(seq) {}
  std::int64_t seq() const { return seq_; }

 private:
  std::int64_t seq_;
};

/// Which entry told a thing last: by its table and id.
using ToldBy = std::map<std::pair<std::string, Uuid>, std::int64_t>;

/// Puts into `to` what the entries of `from` tell, in their order; within a transaction of `to`. Entries are read in
/// pages; what is kept of all of them is which told each thing last, and the rows that stand in for erased ones.
/// @param until  the last entry that is told; a detail that was erased later stays so
/// @throws TellingError
ToldBy retell(Store& from, Store& to, const std::vector<AnyShelf*>& rooms,
              std::int64_t until = std::numeric_limits<std::int64_t>::max());

}  // namespace brakewright::shop
