#pragma once

#include <vector>

#include "shop/school/week.hpp"

/// Who needs help with what, from records alone. Rules as pure functions.
namespace brakewright::shop {

/// Jobs of one person in which something did not go well.
struct HelpJobs {
  std::int64_t in_doubt = 0;  ///< readings questioned or taken back, each counted once
  JobNumbers in_doubt_numbers = {};
  JobNumbers decided_numbers = {};
  JobNumbers stopped_numbers = {};
};

/// What the help of one person rests on. The references must outlive the call; all may hold others' things too.
struct HelpMatter {
  const WeekPerson& person;
  const HelpJobs& jobs;
  const std::vector<PermitState>& permits;
  const std::vector<StudyMark>& marks;
  const std::vector<Competence>& competences;
  const std::vector<Evidence>& evidence;
  bool asks_safety = true;  ///< there are safety points, and the span is the present one: how they stood is not kept
  UtcTime from = {};
  UtcTime to = {};
};

/// - reading: of ten readings or more a fifth or more was questioned or taken back
/// - measuring: in the newest study closed before the span's end fewer than half the parts within their uncertainty
/// - deciding, cutting: once is enough
/// - safety: points unanswered or answered wrongly
/// - permit: a standing one that lapses from the span's beginning to two weeks after its end
/// - competence: done with help in the span and not alone yet
/// The marks are common practice, no source.
std::vector<WeekHelp> help_of(const HelpMatter& matter);

}  // namespace brakewright::shop
