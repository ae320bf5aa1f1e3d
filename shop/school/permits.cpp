#include "shop/school/permits.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright::shop {
namespace {

PermitNeed safety_need(const PermitMatter& matter) {
  PermitNeed need{.what = PermitNeedKind::safety_points};
  for (const SafetyPoint& point : matter.points) {
    if (!point.active) continue;
    ++need.of;
    const SafetyAnswer* answer = answer_in_force(matter.answers, matter.person.id, point);
    if (answer != nullptr && answer->was_right) ++need.done;
  }
  if (need.of == 0) return {.what = need.what, .of = 1, .text = "no safety points are entered yet"};
  need.text = std::to_string(need.done) + " of " + std::to_string(need.of) + " safety points answered right";
  return need;
}

void add_measuring_needs(const PermitMatter& matter, std::vector<PermitNeed>& needs) {
  const StudyMark* mark = newest_mark(matter.marks, matter.person.id);
  PermitNeed share{.what = PermitNeedKind::measuring, .of = 1, .text = "no closed study of reference parts yet"};
  if (mark != nullptr) {
    share.of = std::max<std::int64_t>(
        1, std::llround(std::ceil(matter.rule.share_within * static_cast<double>(mark->parts_marked) - 1e-9)));
    share.done = mark->parts_within;
    share.text = std::to_string(mark->parts_within) + " of " + std::to_string(mark->parts_marked) +
                 " reference parts within their uncertainty; " + std::to_string(share.of) + " are asked";
  }
  needs.push_back(std::move(share));
  if (!matter.rule.sd_at_most) return;
  PermitNeed steady{.what = PermitNeedKind::steady_hand, .of = 1, .text = "repeated readings not known yet"};
  if (mark != nullptr && mark->sd_um) {
    steady.done = *mark->sd_um <= matter.rule.sd_at_most->um() ? 1 : 0;
    steady.text = "repeated readings differ by " + format(Length{std::llround(*mark->sd_um * 1'000)}, Unit::mm, 100) +
                  " (standard deviation); at most " + format(*matter.rule.sd_at_most, Unit::mm, 100) + " is asked";
  }
  needs.push_back(std::move(steady));
}

PermitNeed cuts_need(const PermitMatter& matter) {
  PermitNeed need{.what = PermitNeedKind::supervised_cuts, .of = matter.rule.supervised_cuts};
  need.done = std::count_if(matter.cuts.begin(), matter.cuts.end(),
                            [&](const SupervisedCut& cut) { return cut.person_id == matter.person.id; });
  need.text = std::to_string(need.done) + " of " + std::to_string(need.of) + " cuts under supervision signed";
  return need;
}

PermitNeed practice_need(const PermitMatter& matter) {
  PermitNeed need{.what = PermitNeedKind::practice, .of = *matter.rule.practice_points};
  const std::string asked = "; " + std::to_string(need.of) + " points are asked";
  if (!matter.practice_points) {
    need.text = "no safe run at the simulated bench yet" + asked;
    return need;
  }
  need.done = std::llround(std::floor(*matter.practice_points + 1e-9));
  need.text = std::to_string(need.done) + " in the best safe run at the simulated bench" + asked;
  return need;
}

const Permit* newest_permit(const PermitMatter& matter) {
  const Permit* newest = nullptr;
  for (const Permit& permit : matter.permits) {
    if (permit.person_id != matter.person.id) continue;
    if (newest == nullptr || permit.at >= newest->at) newest = &permit;
  }
  return newest;
}

bool stands(const Permit* permit, UtcTime now) {
  return permit != nullptr && !permit->withdrawn_at && permit->at <= now &&
         std::chrono::floor<std::chrono::days>(now) <= std::chrono::sys_days(permit->lapses_on);
}

}  // namespace

const StudyMark* newest_mark(const std::vector<StudyMark>& marks, const Uuid& person_id) {
  const StudyMark* newest = nullptr;
  for (const StudyMark& mark : marks) {
    if (mark.person_id != person_id || mark.parts_marked == 0) continue;
    if (newest == nullptr || mark.closed_at >= newest->closed_at) newest = &mark;
  }
  return newest;
}

const SafetyAnswer* answer_in_force(const std::vector<SafetyAnswer>& answers, const Uuid& person_id,
                                    const SafetyPoint& point) {
  const SafetyAnswer* newest = nullptr;
  for (const SafetyAnswer& answer : answers) {
    if (answer.person_id != person_id || answer.safety_point_id != point.id || answer.at < point.asked_since) continue;
    if (newest == nullptr || answer.at >= newest->at) newest = &answer;
  }
  return newest;
}

bool stands_by(const PermitState& state, const std::vector<SupervisedCut>& cuts, const Uuid& job_id, UtcTime now) {
  constexpr std::chrono::hours kLasts{12};
  UtcTime from = now - kLasts;
  if (state.permit && state.permit->withdrawn_at) from = std::max(from, *state.permit->withdrawn_at);
  return std::any_of(cuts.begin(), cuts.end(), [&](const SupervisedCut& cut) {
    return cut.person_id == state.person_id && cut.job_id == job_id && cut.at >= from;
  });
}

PermitState permit_state(const PermitMatter& matter) {
  PermitState state{.person_id = matter.person.id};
  state.leads = brakewright::shop::leads(matter.person.role);
  if (const Permit* newest = newest_permit(matter)) state.permit = *newest;
  if (matter.rule.needs_safety_points) state.needs.push_back(safety_need(matter));
  if (matter.rule.needs_measuring) add_measuring_needs(matter, state.needs);
  if (matter.rule.supervised_cuts > 0) state.needs.push_back(cuts_need(matter));
  if (matter.rule.practice_points) state.needs.push_back(practice_need(matter));
  state.is_ready = std::all_of(state.needs.begin(), state.needs.end(), [](const auto& need) { return need.is_met(); });
  state.stands = state.leads || (matter.person.role == Role::student && matter.person.active &&
                                 stands(state.permit ? &*state.permit : nullptr, matter.now));
  return state;
}

}  // namespace brakewright::shop
