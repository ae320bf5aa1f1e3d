#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "shop/exchange/readings_csv.hpp"
#include "shop/exchange/transfer.hpp"
#include "shop/words.hpp"
#include "store/rooms.hpp"

namespace brakewright::cli {
namespace {

constexpr std::size_t kMostJsonBytes = 200'000'000;
constexpr std::size_t kMostCsvBytes = 8'000'000;

shop::Uuid bringer(shop::Shop& shop, const std::string& name) {
  if (name.empty())
    throw InputError("missing", "by", "readings carry who brought them in; name the person with --by NAME");
  return person_named(shop, name, "by").id;
}

int import_table(const ImportOptions& options, const std::string& text) {
  if (options.job.empty()) {
    throw InputError("missing", "job", "a table of readings belongs to one job; name it with --job NUMBER");
  }
  auto opened = open_to_write(options.shop);
  shop::Shop& shop = *opened.shop;
  const shop::Uuid by = bringer(shop, options.by);
  const shop::JobFile file = job_named(shop, options.job);
  const Unit unit = options.unit.empty() ? shop.settings().default_unit : shop::parse_word<Unit>(options.unit);
  const auto report =
      shop::import_readings(shop, file.job.id, text, {.default_unit = unit, .dry_run = options.dry_run}, by);
  for (const shop::ImportLine& line : report.refused) {
    fmt::print("line {}{}{}: {}\n", line.line, line.field.empty() ? "" : ", ", line.field, line.message);
  }
  fmt::print("{} {}, {} known already, {} refused\n", report.added, options.dry_run ? "would be added" : "added",
             report.known, report.refused.size());
  return report.refused.empty() ? done : found_wrong;
}

int import_json(const ImportOptions& options, const std::string& text) {
  if (options.dry_run)
    throw InputError("not_accepted", "dry_run", "only a table of readings can be tried without storing");
  auto opened = open_to_write(options.shop);
  const auto rooms = store::shelves_of_rooms(store::database_of(*opened.store));
  shop::Importer importer;
  for (const auto& room : rooms) importer.rooms.push_back(room.get());
  if (!options.by.empty()) importer.by = bringer(*opened.shop, options.by);
  const shop::Imported imported = shop::import_export(*opened.store, text, importer);
  for (const auto& [was, is] : imported.renumbered)
    fmt::print("job {} is job {} here: its number was taken\n", was, is);
  fmt::print("{} jobs added, {} known already; {} people, instruments, lathes, zero checks and known parts added\n",
             imported.jobs_added, imported.jobs_known, imported.others_added);
  if (imported.secrets_left_behind > 0) {
    fmt::print(
        "{} PINs and passwords were left behind, since none leaves a shop: its doors are open until a teacher "
        "chooses a password\n",
        imported.secrets_left_behind);
  }
  return done;
}

}  // namespace

int import_from(const ImportOptions& options) {
  const std::string text = read_whole(options.from, kMostJsonBytes);
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first != std::string::npos && text[first] == '{') return import_json(options, text);
  if (text.size() > kMostCsvBytes) throw InputError("too_large", "", "no more than 8 MB of readings are read at once");
  return import_table(options, text);
}

}  // namespace brakewright::cli
