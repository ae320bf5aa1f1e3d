#include "shop/school/week_help.hpp"

#include <algorithm>

namespace brakewright::shop {
namespace {

constexpr std::chrono::days kSoon{14};
constexpr std::size_t kMostNamed = 3;

std::string counted(std::int64_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

void tell_reading(const HelpMatter& matter, std::vector<WeekHelp>& help) {
  const std::int64_t readings = matter.person.readings, in_doubt = matter.jobs.in_doubt;
  if (readings < kEnoughForShare || 5 * in_doubt < readings) return;
  help.push_back({.what = WeekHelpWith::reading,
                  .text = std::to_string(in_doubt) + " of " + std::to_string(readings) +
                          " readings were questioned, taken back or read again",
                  .job_numbers = matter.jobs.in_doubt_numbers});
}

void tell_measuring(const HelpMatter& matter, std::vector<WeekHelp>& help) {
  auto until = matter.marks;
  std::erase_if(until, [&](const StudyMark& one) { return one.closed_at >= matter.to; });
  const StudyMark* mark = newest_mark(until, matter.person.person_id);
  if (mark == nullptr || 2 * mark->parts_within >= mark->parts_marked) return;
  help.push_back({.what = WeekHelpWith::measuring,
                  .text = std::to_string(mark->parts_within) + " of " + std::to_string(mark->parts_marked) +
                          " reference parts within their uncertainty",
                  .study_id = mark->study_id});
}

void tell_bench(const HelpMatter& matter, std::vector<WeekHelp>& help) {
  if (matter.person.decided_otherwise > 0) {
    help.push_back({.what = WeekHelpWith::deciding,
                    .text = std::to_string(matter.person.decided_otherwise) + " decided otherwise than computed",
                    .job_numbers = matter.jobs.decided_numbers});
  }
  if (matter.person.stopped_passes > 0) {
    help.push_back({.what = WeekHelpWith::cutting,
                    .text = counted(matter.person.stopped_passes, "pass", "passes") + " stopped before the end",
                    .job_numbers = matter.jobs.stopped_numbers});
  }
}

void tell_permit(const HelpMatter& matter, std::vector<WeekHelp>& help) {
  for (const PermitState& state : matter.permits) {
    if (state.person_id != matter.person.person_id) continue;
    for (const PermitNeed& need : state.needs) {
      if (matter.asks_safety && need.what == PermitNeedKind::safety_points && !need.is_met()) {
        help.push_back({.what = WeekHelpWith::safety, .text = need.text});
      }
    }
    if (!state.permit || state.permit->withdrawn_at) continue;
    const auto lapses = std::chrono::sys_days(state.permit->lapses_on);
    if (lapses < std::chrono::floor<std::chrono::days>(matter.from) || lapses > matter.to + kSoon) continue;
    help.push_back(
        {.what = WeekHelpWith::permit, .text = "the permit's last day is " + to_text(state.permit->lapses_on)});
  }
}

void tell_competences(const HelpMatter& matter, std::vector<WeekHelp>& help) {
  std::vector<std::string> names;
  for (const Competence& one : matter.competences) {
    const bool had_help = std::any_of(matter.evidence.begin(), matter.evidence.end(), [&](const Evidence& evidence) {
      return evidence.person_id == matter.person.person_id && evidence.competence_id == one.id &&
             evidence.level == EvidenceLevel::with_help && !evidence.withdrawn_at && evidence.at >= matter.from &&
             evidence.at < matter.to;
    });
    if (had_help && level_reached(matter.evidence, matter.person.person_id, one.id) == EvidenceLevel::with_help) {
      names.push_back(one.name);
    }
  }
  if (names.empty()) return;
  std::string text = "with help so far: " + names.front();
  for (std::size_t k = 1; k < std::min(names.size(), kMostNamed); ++k) text += "; " + names[k];
  if (names.size() > kMostNamed) text += "; and " + std::to_string(names.size() - kMostNamed) + " more";
  help.push_back({.what = WeekHelpWith::competence, .text = text});
}

}  // namespace

std::vector<WeekHelp> help_of(const HelpMatter& matter) {
  std::vector<WeekHelp> help;
  tell_reading(matter, help);
  tell_measuring(matter, help);
  tell_bench(matter, help);
  tell_permit(matter, help);
  tell_competences(matter, help);
  return help;
}

}  // namespace brakewright::shop
