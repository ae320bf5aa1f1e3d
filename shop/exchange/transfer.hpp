#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "shop/json.hpp"
#include "shop/shelf.hpp"
#include "shop/shop.hpp"

/// Jobs and shops as JSON (JobExport and ShopExport of the API), to carry elsewhere, and back in.
namespace brakewright::shop {

/// Everything of one job with the people, instruments, lathes, pieces, edges and zero checks that it names, what was
/// booked off the pegboard for it, and its journal.
/// @throws RuleError when the job is unknown
Json export_job(Shop& shop, const Uuid& job_id);

/// The whole shop with its journal. Taken between two writes: nothing in it is half done.
Json export_shop(Shop& shop);

struct Renumbered {
  std::int64_t was = 0;
  std::int64_t is = 0;
};

/// What became of an import.
struct Imported {
  std::int64_t jobs_added = 0;
  std::int64_t jobs_known = 0;         ///< were there already with the same id; left as they stand here
  std::int64_t others_added = 0;       ///< people, instruments, lathes, pieces, edges, bands, zero checks, known parts
  std::vector<Renumbered> renumbered;  ///< jobs whose number was taken here
  std::int64_t secrets_left_behind = 0;  ///< PINs and passwords that people choose anew, since none leaves a shop
};

/// Who brings an export in, and when; the shop's first teacher, else its first person, where nobody is named.
struct Importer {
  std::optional<Uuid> by = {};
  std::vector<AnyShelf*> rooms = {};  ///< of the shop that it goes into: an empty one gets their rows from the journal
  UtcTime now = std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
};

/// Stores an export, all of it or nothing. What is here already under the same id stays as it is here. A shop export
/// into an empty shop makes the same shop: exporting it gives the same text. Into a shop in use it adds the jobs that
/// are new; the settings stay. What was added is told by entries of this shop's journal, and the entries that came
/// along stand behind them as another shop's (shop/journal/telling.hpp). PINs and passwords never come along.
/// @param text  at most 200 MB of JSON
/// @throws InputError with the field's path for what is no such export, or names things that are not in it; StoreError
Imported import_export(Store& store, std::string_view text, const Importer& importer = {});

}  // namespace brakewright::shop
