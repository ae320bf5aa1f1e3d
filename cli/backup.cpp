#include "store/backup.hpp"

#include <fmt/core.h>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "shop/times.hpp"

namespace brakewright::cli {
namespace fs = std::filesystem;

int backup(const BackupOptions& options) {
  const fs::path folder = options.folder.empty() ? backup_folder(options.shop) : options.folder;
  if (options.list) {
    for (const auto& kept : store::backups(folder)) {
      fmt::print("{}  {:>12} bytes  {}\n", shop::to_text(kept.at), kept.bytes, (folder / kept.name).string());
    }
    return done;
  }
  if (!fs::exists(options.shop)) {
    throw InputError("no_such_file", "shop", "there is no shop in " + options.shop.string());
  }
  const auto made = store::back_up(options.shop, folder, surroundings().now(), options.keep);
  fmt::print("{}\n", (folder / made.name).string());
  return done;
}

int restore(const RestoreOptions& options) {
  const fs::path folder = options.folder.empty() ? backup_folder(options.shop) : options.folder;
  fs::path from = options.from;
  if (from.empty()) {
    const auto newest = store::newest_good_backup(folder);
    if (!newest) throw InputError("no_backup", "from", "there is no good backup in " + folder.string());
    from = folder / newest->name;
  }
  if (!fs::exists(from)) throw InputError("no_such_file", "from", "there is no backup " + from.string());
  const auto restored = store::restore(from, options.shop, surroundings().now());
  fmt::print("restored {} from {}\n", options.shop.string(), from.string());
  if (!restored.safety_copy.empty()) fmt::print("what was there before is kept as {}\n", restored.safety_copy.string());
  for (const auto& [table, rows] : restored.rows) fmt::print("  {:>8}  {}\n", rows, table);
  return done;
}

}  // namespace brakewright::cli
