#include <fmt/core.h>

#include <algorithm>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/commands.hpp"
#include "cli/shop_file.hpp"
#include "core/length/length.hpp"
#include "shop/json.hpp"
#include "shop/states.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::cli {
namespace {

using shop::word_of;

std::string spaced(std::string_view word) {
  std::string text(word);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::string day(const shop::UtcTime& time) { return shop::to_text(time).substr(0, 10); }

void print_limit(const char* name, const std::optional<shop::Limit>& limit) {
  if (!limit) {
    fmt::print("    {:<12} not known\n", name);
    return;
  }
  const auto& typed = limit->value;
  const Unit other = typed.unit == Unit::mm ? Unit::in : Unit::mm;
  fmt::print("    {:<12} {} ({}), {}{}{}\n", name, format(typed.value, typed.unit, typed.resolution_nm),
             format(typed.value, other, typed.resolution_nm), spaced(word_of(limit->source)),
             limit->source_note.empty() ? "" : ": ", limit->source_note);
}

void print_part(const shop::JobFile& file, const shop::Part& part) {
  const auto states = shop::states_of(file.readings);
  const auto count = [&](shop::Stage stage) {
    std::size_t current = 0;
    for (std::size_t i = 0; i < file.readings.size(); ++i) {
      const auto& reading = file.readings[i];
      if (reading.part_id == part.id && reading.stage == stage && states[i] == shop::ReadingState::current) ++current;
    }
    return current;
  };
  fmt::print("\n  {} rotor, {}, {}\n", spaced(word_of(part.side)), spaced(word_of(part.construction)),
             part.vented ? "vented" : "solid");
  print_limit("nominal", part.limits.nominal);
  print_limit("machine-to", part.limits.machine_to);
  print_limit("discard", part.limits.discard);
  print_limit("variation", part.limits.variation);
  print_limit("runout", part.limits.runout);
  fmt::print("    readings     {} before the cut, {} after\n", count(shop::Stage::before), count(shop::Stage::after));
  for (const auto& finding : file.findings) {
    if (finding.part_id != part.id || finding.withdrawn_at) continue;
    fmt::print("    seen         {}{}{}{}\n", spaced(word_of(finding.kind)),
               finding.judgement == shop::Judgement::reject ? " (rules the part out)" : "",
               finding.note.empty() ? "" : ": ", finding.note);
  }
  for (const auto& cut : file.cuts) {
    if (cut.part_id != part.id) continue;
    fmt::print("    cut          {} marks outboard, {} inboard, {} um a mark\n", cut.outboard_marks, cut.inboard_marks,
               cut.dial_um_per_mark);
  }
}

void print_job(const shop::JobFile& file) {
  const auto& job = file.job;
  fmt::print("Job {}, {}, {} axle, {}\n", job.number, word_of(job.state), word_of(job.axle), job.vehicle);
  fmt::print("  {}{}{}; brought by {}; opened {}\n", spaced(word_of(job.complaint)),
             job.complaint_note.empty() ? "" : ": ", job.complaint_note,
             job.brought_by.empty() ? "nobody named" : job.brought_by, day(job.opened_at));
  for (const auto& part : file.parts) print_part(file, part);
  if (!file.decisions.empty()) {
    const auto& decision = file.decisions.back();
    fmt::print("\n  decided {}: {}", day(decision.at), spaced(word_of(decision.action)));
    if (decision.action != decision.computed_action) {
      fmt::print(" (computed: {}); {}", spaced(word_of(decision.computed_action)), decision.reason);
    }
    fmt::print("\n");
  }
  if (job.sealed_at) fmt::print("  sealed {}, SHA-256 {}\n", day(*job.sealed_at), job.seal_sha256);
  for (const auto& amendment : file.amendments) fmt::print("  amended {}: {}\n", day(amendment.at), amendment.text);
}

/// The shop gives no more than 500 at once.
shop::JobPage page_of(shop::Shop& shop, shop::JobQuery query, std::int64_t limit) {
  shop::JobPage all;
  while (true) {
    const auto have = static_cast<std::int64_t>(all.lines.size());
    query.offset = have;
    query.limit = std::min<std::int64_t>(500, limit - have);
    if (query.limit < 1) return all;
    shop::JobPage page = shop.jobs(query);
    all.total = page.total;
    std::move(page.lines.begin(), page.lines.end(), std::back_inserter(all.lines));
    if (static_cast<std::int64_t>(page.lines.size()) < query.limit) return all;
  }
}

}  // namespace

int job_list(const JobListOptions& options) {
  auto opened = open_to_read(options.shop);
  shop::JobQuery query;
  if (!options.state.empty()) query.state = shop::parse_word<shop::JobState>(options.state);
  query.words = options.words;
  const shop::JobPage page = page_of(*opened.shop, query, options.limit);
  if (options.json) {
    shop::Json all = shop::Json::array();
    for (const auto& line : page.lines) all.push_back(shop::to_json(line.job));
    std::cout << all.dump(2) << '\n';
    return done;
  }
  for (const auto& line : page.lines) {
    const auto& job = line.job;
    fmt::print("{:>6}  {}  {:<6}  {:<5}  {:<12}  {}\n", job.number, day(job.opened_at), word_of(job.state),
               word_of(job.axle), spaced(word_of(job.complaint)), job.vehicle);
  }
  const auto shown = static_cast<std::int64_t>(page.lines.size());
  if (shown < page.total) fmt::print("{} of {} jobs; --limit shows more\n", shown, page.total);
  if (page.total == 0) fmt::print("no jobs\n");
  return done;
}

int job_show(const JobShowOptions& options) {
  auto opened = open_to_read(options.shop);
  const shop::JobFile file = job_named(*opened.shop, options.job);
  if (options.json) {
    std::cout << shop::to_json(file).dump(2) << '\n';
  } else {
    print_job(file);
  }
  return done;
}

}  // namespace brakewright::cli
