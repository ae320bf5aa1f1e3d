#include <chrono>

#include "shop/changing.hpp"
#include "shop/dial_evidence.hpp"
#include "shop/find.hpp"
#include "shop/progress.hpp"
#include "shop/study.hpp"

/// What the shop keeps in mind of its finished jobs.
namespace brakewright::shop {

namespace {

constexpr std::size_t kFewDraws = 100;  // what was removed is not drawn

double days_of(UtcTime at) { return std::chrono::duration<double, std::ratio<86'400>>(at.time_since_epoch()).count(); }

std::optional<Uuid> lathe_of(const JobFile& file, const Uuid& part_id) {
  for (const Cut& cut : file.cuts) {
    if (cut.part_id == part_id) return cut.lathe_id;
  }
  return std::nullopt;
}

std::vector<FinishedCut> cuts_of(const JobFile& file, const AssessContext& context) {
  std::vector<FinishedCut> cuts;
  if (file.job.state != JobState::sealed || !file.job.sealed_at) return cuts;
  for (std::size_t k = 0; k < file.parts.size(); ++k) {
    const Part& part = file.parts[k];
    const auto lathe_id = lathe_of(file, part.id);
    if (!lathe_id) continue;
    try {
      const auto check = check_of(file, k, context, kFewDraws);
      const auto evidence = check ? dial_evidence(file, part, *check, 0, context) : std::nullopt;
      // A usual touch loss in the place of the true one would be in every job alike, and pass for the dial's own error.
      if (!evidence || !evidence->outboard.touch_loss) continue;
      FinishedCut cut{.job_id = file.job.id, .job_number = file.job.number, .part_id = part.id, .lathe_id = *lathe_id};
      cut.sealed_at = *file.job.sealed_at;
      cut.cut = lathe_job_of(*evidence, days_of(cut.sealed_at));
      const MountProof* proof = proof_in_force(file, part.id);
      if (proof != nullptr && proof->goes_on) cut.mount_runout_um = proof->mount_runout_um;
      cuts.push_back(std::move(cut));
    } catch (const InputError&) {
      continue;  // figures that somebody confirmed and the core refuses say nothing of a lathe
    }
  }
  return cuts;
}

}  // namespace

const FinishedCuts& Shop::finished_cuts() {
  if (finished_) return *finished_;
  constexpr std::int64_t kAtOnce = 500;
  const Settings house = store_.settings();
  const AssessContext context{house, known_instruments(), known_zero_checks(), known_lathes()};
  FinishedCuts all;
  for (std::int64_t offset = 0;; offset += kAtOnce) {
    const JobPage page = store_.jobs({.state = JobState::sealed, .words = "", .limit = kAtOnce, .offset = offset});
    for (const JobLine& line : page.lines) {
      if (!line.job.lathe_id) continue;
      if (const auto known = store_.job_file(line.job.id)) all.emplace(line.job.id, cuts_of(*known, context));
    }
    if (static_cast<std::int64_t>(page.lines.size()) < kAtOnce) break;
  }
  finished_ = std::move(all);
  return *finished_;
}

void Shop::note_finished(const JobFile& file) {
  if (!finished_) return;
  const Settings house = store_.settings();
  const AssessContext context{house, known_instruments(), known_zero_checks(), known_lathes()};
  finished_->insert_or_assign(file.job.id, cuts_of(file, context));
}

std::optional<BenchFigures> Shop::bench_figures(const JobFile& asked) {
  if (!asked.job.lathe_id) return std::nullopt;
  const Lathe* lathe = find(known_lathes(), *asked.job.lathe_id);
  if (lathe == nullptr) return std::nullopt;
  return figures_from(*lathe, record_of(*lathe, cuts_on(finished_cuts(), lathe->id, asked.job.opened_at)));
}

LatheRecord Shop::lathe_study(const Uuid& lathe_id) {
  const std::lock_guard lock(guard_);
  expect_lathe(lathe_id, "lathe_id");
  return record_of(*find(known_lathes(), lathe_id), cuts_on(finished_cuts(), lathe_id, UtcTime::max()));
}

}  // namespace brakewright::shop
