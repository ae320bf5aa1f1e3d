#include "shop/study.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <set>

namespace brakewright::shop {
namespace {

/// A screw wears: what lies further back than so many jobs is left out.
constexpr std::size_t kMostJobs = 60;

std::size_t jobs_in(const std::vector<FinishedCut>& cuts) {
  std::set<Uuid> jobs;
  for (const FinishedCut& cut : cuts) jobs.insert(cut.job_id);
  return jobs.size();
}

void keep_last_jobs(std::vector<FinishedCut>& cuts) {
  std::set<Uuid> jobs;
  auto oldest = cuts.rbegin();
  for (; oldest != cuts.rend(); ++oldest) {
    jobs.insert(oldest->job_id);
    if (jobs.size() > kMostJobs) break;
  }
  cuts.erase(cuts.begin(), oldest.base());
}

std::optional<MountRecord> mounts_in(const std::vector<FinishedCut>& cuts) {
  std::set<Uuid> jobs;
  double squares = 0, count = 0;
  for (const FinishedCut& cut : cuts) {
    if (!cut.mount_runout_um) continue;
    jobs.insert(cut.job_id);
    squares += *cut.mount_runout_um * *cut.mount_runout_um;
    ++count;
  }
  if (jobs.size() < kJobsForAStudy) return std::nullopt;
  return MountRecord{.jobs = jobs.size(), .rms_um = std::sqrt(squares / count)};
}

std::string two_places(double um) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", um);
  return text;
}

}  // namespace

BenchFigures typed_figures(const Lathe& lathe) {
  return {.dial_um_per_mark = lathe.dial_um_per_mark,
          .dial_inboard_um_per_mark = lathe.dial_inboard_um_per_mark.value_or(lathe.dial_um_per_mark),
          .dial_sd_um = lathe.dial_sd_um,
          .mount_rms_um = lathe.mount_runout_um / 2.5};
}

std::vector<FinishedCut> cuts_on(const FinishedCuts& all, const Uuid& lathe_id, UtcTime before) {
  std::vector<FinishedCut> found;
  for (const auto& [job, cuts] : all) {
    for (const FinishedCut& cut : cuts) {
      if (cut.lathe_id == lathe_id && cut.sealed_at < before) found.push_back(cut);
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const FinishedCut& a, const FinishedCut& b) { return a.sealed_at < b.sealed_at; });
  return found;
}

LatheRecord record_of(const Lathe& lathe, std::vector<FinishedCut> cuts) {
  keep_last_jobs(cuts);
  LatheRecord record{.lathe_id = lathe.id};
  record.jobs = jobs_in(cuts);
  record.needs = record.jobs < kJobsForAStudy ? kJobsForAStudy - record.jobs : 0;
  record.mount = mounts_in(cuts);
  if (record.needs == 0) {
    dials::LatheStudyInput input;
    for (const FinishedCut& cut : cuts) input.jobs.push_back(cut.cut);
    input.dial_um_per_mark = lathe.dial_um_per_mark;
    input.dial_inboard_um_per_mark = lathe.dial_inboard_um_per_mark;
    record.study = dials::study_lathe(input);
  }
  record.cuts = std::move(cuts);
  return record;
}

BenchFigures figures_from(const Lathe& lathe, const LatheRecord& record, bool drums) {
  BenchFigures figures = typed_figures(lathe);
  if (record.mount) figures.mount_rms_um = record.mount->rms_um;
  const std::string from = "from " + std::to_string(record.jobs) + " finished jobs on this lathe";
  if (record.study && record.study->spread) {
    const dials::LatheStudy& study = *record.study;
    if (study.separable && study.outboard && study.inboard) {
      figures.dial_um_per_mark = study.outboard->um_per_mark;
      figures.dial_inboard_um_per_mark = study.inboard->um_per_mark;
    } else if (study.mean) {
      const double factor = study.mean->um_per_mark / study.mean->nominal_um;
      figures.dial_um_per_mark *= factor;
      figures.dial_inboard_um_per_mark *= factor;
    }
    // A scatter that the measurements explain by themselves is not none.
    const double measured_um = study.spread->dial_sd_um;
    figures.dial_sd_um = measured_um > 0 ? measured_um : std::min(figures.dial_sd_um, study.spread->high95_um);
    const std::string inboard =
        drums ? "" : " outboard and " + two_places(figures.dial_inboard_um_per_mark) + " um inboard";
    figures.basis = "A mark is " + two_places(figures.dial_um_per_mark) + " um" + inboard + ", a setting scatters by " +
                    two_places(figures.dial_sd_um) + " um: " + from + ".";
  }
  if (record.mount) {
    figures.basis += (figures.basis.empty() ? "" : " ") + std::string("Mounting adds ") +
                     two_places(figures.mount_rms_um) + " um of runout (root mean square): from " +
                     std::to_string(record.mount->jobs) + " finished jobs on this lathe.";
  }
  return figures;
}

}  // namespace brakewright::shop
