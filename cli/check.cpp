#include <fmt/core.h>

#include <iostream>
#include <optional>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "store/schema.hpp"
#include "store/sqlite.hpp"

namespace brakewright::cli {
namespace {

using Fault = std::optional<std::string>;

constexpr std::int64_t kPage = 500;

Fault fault_of_file(const std::filesystem::path& file) {
  store::Database database(file, store::Access::read);
  const std::string found = store::integrity(database);
  if (found != "ok") return "the file is damaged: " + found;
  store::Query broken = database.query("PRAGMA foreign_key_check");
  if (broken.next()) return "a row of " + broken.text(0) + " names a row of " + broken.text(2) + " that is not there";
  fmt::print("file      whole, {} bytes\n", std::filesystem::file_size(file));
  return {};
}

Fault fault_of_journal(shop::Shop& shop) {
  std::int64_t last = 0;
  while (true) {
    const auto page = shop.changes(last, kPage, std::nullopt);
    for (const shop::Change& change : page) {
      if (change.seq != last + 1) return fmt::format("the journal goes from entry {} to entry {}", last, change.seq);
      last = change.seq;
    }
    if (page.size() < static_cast<std::size_t>(kPage)) break;
  }
  fmt::print("journal   {} entries, no gap\n", last);
  return {};
}

Fault fault_of_seals(shop::Shop& shop) {
  std::int64_t jobs = 0;
  std::int64_t sealed = 0;
  while (true) {
    const shop::JobPage page = shop.jobs({.state = {}, .words = {}, .limit = kPage, .offset = jobs});
    for (const shop::JobLine& line : page.lines) {
      ++jobs;
      if (line.job.state != shop::JobState::sealed) continue;
      ++sealed;
      if (!shop.seal_holds(line.job.id)) {
        return fmt::format("job {} is not what was sealed: its content no longer has the hash of its seal",
                           line.job.number);
      }
    }
    if (page.lines.size() < static_cast<std::size_t>(kPage)) break;
  }
  fmt::print("seals     {} of {} jobs sealed, every seal holds\n", sealed, jobs);
  return {};
}

}  // namespace

int check(const CheckOptions& options) {
  auto opened = open_to_read(options.shop);
  Fault fault = fault_of_file(options.shop);
  if (!fault) fault = fault_of_journal(*opened.shop);
  if (!fault) fault = fault_of_seals(*opened.shop);
  if (!fault) {
    fmt::print("nothing wrong\n");
    return done;
  }
  std::cerr << "brakewright: " << options.shop.string() << ": " << *fault << '\n';
  return found_wrong;
}

}  // namespace brakewright::cli
