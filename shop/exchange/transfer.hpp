#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "shop/json.hpp"
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
};

/// Stores an export, all of it or nothing. What is here already under the same id stays as it is here. A shop export
/// into an empty shop makes the same shop: exporting it gives the same text. Into a shop in use it adds the jobs that
/// are new, with their journal; the settings stay.
/// @param text  at most 200 MB of JSON
/// @throws InputError with the field's path for what is no such export, or names things that are not in it; StoreError
Imported import_export(Store& store, std::string_view text);

}  // namespace brakewright::shop
