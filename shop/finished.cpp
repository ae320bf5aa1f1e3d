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

void Shop::learn_finished() {
  constexpr std::int64_t kAtOnce = 200;
  Ground ground;
  {
    const std::lock_guard lock(guard_);
    if (all_finished_known_) return;
    ground = {.settings = store_.settings(),
              .instruments = known_instruments(),
              .zero_checks = known_zero_checks(),
              .lathes = known_lathes(),
              .ready = {},
              .bench = {}};
  }
  std::vector<Uuid> jobs;
  // A job that is sealed between two pages moves the rest of them back: one stands in both, none in neither.
  for (std::int64_t offset = 0;; offset += kAtOnce) {
    const std::lock_guard lock(guard_);
    const JobPage page = store_.jobs({.state = JobState::sealed, .words = "", .limit = kAtOnce, .offset = offset});
    for (const JobLine& line : page.lines) {
      if (line.job.lathe_id) jobs.push_back(line.job.id);
    }
    if (static_cast<std::int64_t>(page.lines.size()) < kAtOnce) break;
  }
  // Whoever comes while another is at it takes what that one has not begun, and only then what it has not ended.
  for (const bool begun_too : {false, true}) {
    for (const Uuid& job_id : jobs) {
      std::optional<JobFile> known;
      {
        const std::lock_guard lock(guard_);
        if (finished_.contains(job_id) || (!begun_too && finished_begun_.contains(job_id))) continue;
        finished_begun_.insert(job_id);
        known = store_.job_file(job_id);
      }
      auto cuts = known ? cuts_of(*known, ground.context()) : std::vector<FinishedCut>{};
      const std::lock_guard lock(guard_);
      finished_.emplace(job_id, std::move(cuts));
    }
  }
  const std::lock_guard lock(guard_);
  all_finished_known_ = true;
  finished_begun_.clear();
}

void Shop::note_finished(const JobFile& file) {
  const Settings house = store_.settings();
  const AssessContext context{house, known_instruments(), known_zero_checks(), known_lathes()};
  finished_.insert_or_assign(file.job.id, cuts_of(file, context));
}

std::optional<BenchFigures> Shop::bench_figures(const JobFile& asked) {
  if (!asked.job.lathe_id) return std::nullopt;
  const Lathe* lathe = find(known_lathes(), *asked.job.lathe_id);
  if (lathe == nullptr) return std::nullopt;
  learn_finished();
  const bool drums = !asked.parts.empty() && is_drum(asked.parts.front().kind);
  return figures_from(*lathe, record_of(*lathe, cuts_on(finished_, lathe->id, asked.job.opened_at)), drums);
}

LatheRecord Shop::lathe_study(const Uuid& lathe_id) {
  {
    const std::lock_guard lock(guard_);
    expect_lathe(lathe_id, "lathe_id");
  }
  learn_finished();
  Lathe lathe;
  std::vector<FinishedCut> cuts;
  {
    const std::lock_guard lock(guard_);
    lathe = *find(known_lathes(), lathe_id);
    cuts = cuts_on(finished_, lathe_id, UtcTime::max());
  }
  return record_of(lathe, std::move(cuts));
}

}  // namespace brakewright::shop
