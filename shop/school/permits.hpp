#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"
#include "shop/school/entities.hpp"

/// Whether somebody may cut without anybody beside them, and what is missing. Rules as pure functions.
namespace brakewright::shop {

enum class PermitNeedKind { safety_points, measuring, steady_hand, supervised_cuts, practice };

/// One thing that the rule asks, with how much of it is there.
struct PermitNeed {
  PermitNeedKind what = PermitNeedKind::safety_points;
  std::int64_t done = 0;
  std::int64_t of = 0;
  std::string text = {};  ///< for people

  bool is_met() const { return done >= of; }
};

/// How somebody did in a study that is closed.
struct StudyMark {
  Uuid study_id = {};
  Uuid person_id = {};
  UtcTime closed_at = {};
  std::int64_t parts_within = 0;  ///< those with |En| <= 1
  std::int64_t parts_marked = 0;
  std::optional<double> sd_um = {};
  double u_common_um = 0;  ///< standard uncertainty that all their readings share: bias, and the references
};

struct PermitState {
  Uuid person_id = {};
  bool leads = false;                 ///< a teacher or a lead hand, who needs none
  bool stands = false;                ///< may cut
  std::optional<Permit> permit = {};  ///< the newest, standing or not
  std::vector<PermitNeed> needs = {};
  bool is_ready = false;  ///< all needs are met
};

/// What the state of one person rests on. The references must outlive the call; all may hold others' things too.
struct PermitMatter {
  const Person& person;
  const PermitRule& rule;
  const std::vector<SafetyPoint>& points;
  const std::vector<SafetyAnswer>& answers;
  const std::vector<SupervisedCut>& cuts;
  const std::vector<Permit>& permits;
  const std::vector<StudyMark>& marks;
  UtcTime now = {};
  std::optional<double> practice_points = {};  ///< the best of this person's runs that count; absent: none does
};

/// The newest mark of a person; nothing without one.
const StudyMark* newest_mark(const std::vector<StudyMark>& marks, const Uuid& person_id);

/// The newest answer of a person to a point as it is worded now; nothing without one.
const SafetyAnswer* answer_in_force(const std::vector<SafetyAnswer>& answers, const Uuid& person_id,
                                    const SafetyPoint& point);

/// A permit stands from the moment it is given to the end of its last day (UTC), unless it is withdrawn. What the rule
/// asks meanwhile is told, and decides about the next one. Visitors have none.
PermitState permit_state(const PermitMatter& matter);

/// Whether somebody who leads signed for this person at this job: within the last 12 hours (common practice, no
/// source), and since a permit of theirs was withdrawn.
/// @param state  of the person
bool stands_by(const PermitState& state, const std::vector<SupervisedCut>& cuts, const Uuid& job_id, UtcTime now);

}  // namespace brakewright::shop
