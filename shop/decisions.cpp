#include <algorithm>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/limits.hpp"
#include "shop/places.hpp"
#include "shop/seal.hpp"
#include "shop/states.hpp"

namespace brakewright::shop {

namespace {

void expect_part(const JobFile& file, const Uuid& part_id) {
  if (std::none_of(file.parts.begin(), file.parts.end(), [&](const Part& part) { return part.id == part_id; })) {
    throw RuleError("unknown_part", "part_id", "this job has no such part");
  }
}

[[noreturn]] void id_taken(const char* what) {
  throw RuleError("id_taken", "id", std::string("another ") + what + " has this id");
}

Action action_of(brakewright::Action action) {
  switch (action) {
    case brakewright::Action::leave:
      return Action::leave;
    case brakewright::Action::cut:
      return Action::cut;
    case brakewright::Action::replace:
      return Action::replace;
    case brakewright::Action::measure_again:
      return Action::measure_again;
  }
  return Action::measure_again;
}

/// Lowest thickness, or largest diameter, that the readings of a stage come to.
std::optional<double> worst_mm(const MapAssessment& map) {
  if (map.thickness) return map.thickness->min_mm;
  if (map.diameter) return map.diameter->max_mm;
  return std::nullopt;
}

/// The same of a part as it is now: after the cut where that was measured, else before it.
std::optional<double> worst_mm(const JobFile& file, const Part& part, const PartAssessment& assessed) {
  std::optional<double> before;
  std::optional<double> after;
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const Reading& reading = file.readings[k];
    if (states[k] != ReadingState::current || reading.part_id != part.id) continue;
    if (reading.quantity != size_of(part.kind)) continue;
    auto& worst = reading.stage == Stage::after ? after : before;
    const double mm = reading.value.value.mm();
    worst = is_drum(part.kind) ? std::max(worst.value_or(mm), mm) : std::min(worst.value_or(mm), mm);
  }
  if (after) return worst_mm(assessed.after).value_or(*after);
  if (before) return worst_mm(assessed.before).value_or(*before);
  return std::nullopt;
}

void refuse_cut_at_discard(const JobFile& file, const Assessment& assessment) {
  for (std::size_t k = 0; k < file.parts.size() && k < assessment.parts.size(); ++k) {
    const Part& part = file.parts[k];
    const auto& discard = part.limits.discard;
    const auto worst = worst_mm(file, part, assessment.parts[k]);
    if (!discard || !worst) continue;
    const double limit_mm = discard->value.value.mm();
    const bool drum = is_drum(part.kind);
    if (drum ? *worst < limit_mm : *worst > limit_mm) continue;
    const std::string side = part.side == Side::left ? "left" : "right";
    throw RuleError("below_discard", "action",
                    "the " + side + " part is " + format({static_cast<std::int64_t>(*worst * 1e6)}, Unit::mm, 1000) +
                        (drum ? " at its largest, at or over its discard diameter of "
                              : " at its lowest, at or under its discard thickness of ") +
                        discard->value.text + "; nobody can decide to cut it");
  }
}

/// What was computed of an assessment: the verdict of discs, or of drums.
template <class F>
void with_verdict(const Assessment& assessed, F&& use) {
  if (assessed.verdict) use(*assessed.verdict);
  if (assessed.drums) use(*assessed.drums);
}

}  // namespace

Finding Shop::add_finding(Finding finding, const Uuid& by) {
  check(finding);
  return changing(by, [&] {
    JobFile& present = open_file(finding.job_id);
    expect_part(present, finding.part_id);
    if (const Finding* stored = find(present.findings, finding.id)) {
      if (stored->part_id == finding.part_id && stored->kind == finding.kind && stored->note == finding.note &&
          stored->judgement == finding.judgement) {
        return *stored;
      }
      id_taken("finding");
    }
    if (finding.kind == FindingKind::nothing_found && finding.judgement == Judgement::reject) {
      throw InputError("out_of_range", "judgement", "nothing found is no reason to rule a part out");
    }
    finding.by_person_id = by;
    finding.at = surroundings_.now();
    finding.withdrawn_at.reset();
    finding.withdrawn_by_person_id.reset();
    store_.put(finding);
    record("finding.added", finding.job_id, finding.id, json_text(finding), by);
    present.findings.push_back(finding);
    return finding;
  });
}

Finding Shop::withdraw_finding(const Uuid& job_id, const Uuid& finding_id, const Uuid& by) {
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    const auto found = std::find_if(present.findings.begin(), present.findings.end(),
                                    [&](const Finding& finding) { return finding.id == finding_id; });
    if (found == present.findings.end()) {
      throw RuleError("unknown_finding", "finding_id", "this job has no such finding");
    }
    if (found->withdrawn_at) return *found;
    Finding next = *found;
    next.withdrawn_at = surroundings_.now();
    next.withdrawn_by_person_id = by;
    store_.put(next);
    record("finding.withdrawn", job_id, next.id, json_text(next), by);
    *found = next;
    return next;
  });
}

Decision Shop::decide(const Uuid& id, const Uuid& job_id, Action action, const std::string& reason, const Uuid& by) {
  check(NewDecision{id, action, reason});
  auto assessed = assessment(job_id);
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const Decision* stored = find(present.decisions, id)) {
      if (stored->action == action && stored->reason == reason) return *stored;
      id_taken("decision");
    }
    if (assessed.seq != present.seq) assessed = assess_now(present);
    Decision made;
    made.id = id;
    made.job_id = job_id;
    with_verdict(assessed, [&](const auto& verdict) {
      made.computed_action = action_of(verdict.action);
      made.computed_p = std::clamp(verdict.p, 0.0, 1.0);
      if (surroundings_.verdict_json) made.computed_json = surroundings_.verdict_json(assessed);
    });
    if (made.computed_json.empty()) made.computed_json = "{}";
    if (action == Action::cut) refuse_cut_at_discard(present, assessed);
    const bool blank = reason.find_first_not_of(" \t\r\n") == std::string::npos;
    if (action != made.computed_action && blank) {
      throw RuleError("reason_needed", "reason", "a decision other than the computed one needs its reason in words");
    }
    made.action = action;
    made.reason = reason;
    made.by_person_id = by;
    made.at = surroundings_.now();
    store_.put(made);
    record("decision.made", job_id, id, json_text(made), by);
    present.decisions.push_back(made);
    return made;
  });
}

Cut Shop::record_cut(Cut cut, const Uuid& by) {
  check(NewCut{cut.id, cut.part_id, cut.outboard_marks, cut.inboard_marks, cut.note});
  return changing(by, [&] {
    JobFile& present = open_file(cut.job_id);
    expect_part(present, cut.part_id);
    if (const Cut* stored = find(present.cuts, cut.id)) {
      if (stored->part_id == cut.part_id && stored->outboard_marks == cut.outboard_marks &&
          stored->inboard_marks == cut.inboard_marks && stored->note == cut.note) {
        return *stored;
      }
      id_taken("cut");
    }
    check_marks(*find(present.parts, cut.part_id), cut.inboard_marks, "inboard_marks");
    if (cut.outboard_marks == 0 && cut.inboard_marks == 0) {
      throw InputError("out_of_range", "outboard_marks", "a cut takes at least one mark on one side");
    }
    if (present.decisions.empty() || present.decisions.back().action != Action::cut) {
      throw RuleError("not_decided", "part_id", "a cut is recorded once it was decided; decide first");
    }
    cut.lathe_id = cut.lathe_id ? cut.lathe_id : present.job.lathe_id;
    if (!cut.lathe_id) throw InputError("missing", "lathe_id", "say on which lathe: what a mark means is the lathe's");
    expect_lathe(cut.lathe_id, "lathe_id");
    const Lathe& lathe = *find(known_lathes(), *cut.lathe_id);
    cut.dial_um_per_mark = lathe.dial_um_per_mark;
    cut.dial_inboard_um_per_mark = lathe.dial_inboard_um_per_mark;
    cut.by_person_id = by;
    cut.at = surroundings_.now();
    store_.put(cut);
    record("cut.recorded", cut.job_id, cut.id, json_text(cut), by);
    present.cuts.push_back(cut);
    return cut;
  });
}

Job Shop::seal(const Uuid& job_id, const Uuid& by) {
  return changing(by, [&] {
    JobFile& present = file(job_id);
    if (present.job.state == JobState::sealed) return present.job;
    if (present.decisions.empty() || present.decisions.back().action == Action::measure_again) {
      throw RuleError("not_decided", "job_id", "a job is sealed once it is decided: leave, cut or replace");
    }
    switch (waits_for(present)) {
      case WaitsFor::cut:
        throw RuleError("not_cut", "job_id",
                        "a cut was decided and is not recorded for each part; record it, or decide anew");
      case WaitsFor::finish:
        throw RuleError("not_finished", "job_id",
                        "a part was cut in guided passes, and washing it or the white cloth is not ticked");
      case WaitsFor::readings_after:
        throw RuleError("not_measured_after", "job_id", "the readings after the cut are not complete");
      default:
        break;
    }
    JobFile sealed = present;
    sealed.job.state = JobState::sealed;
    sealed.job.sealed_by_person_id = by;
    sealed.job.sealed_at = sealed.job.changed_at = surroundings_.now();
    ++sealed.job.version;
    sealed.job.seal_sha256 = seal_of(sealed);
    store_.put(sealed.job);
    record("job.sealed", job_id, job_id, json_text(sealed.job), by);
    present.job = sealed.job;
    note_finished(present);
    return sealed.job;
  });
}

bool Shop::seal_holds(const Uuid& job_id) {
  const std::lock_guard lock(guard_);
  files_.erase(job_id);  // what the store has now, not what is remembered of it
  const JobFile& present = file(job_id);
  return present.job.state == JobState::sealed && present.job.seal_sha256 == seal_of(present);
}

Amendment Shop::amend(Amendment amendment, const Uuid& by) {
  check(NewAmendment{amendment.id, amendment.text, amendment.subject_id});
  return changing(by, [&] {
    JobFile& present = file(amendment.job_id);
    if (present.job.state != JobState::sealed) {
      throw RuleError("not_sealed", "job_id", "this job is open; change the thing itself");
    }
    if (const Amendment* stored = find(present.amendments, amendment.id)) {
      if (stored->text == amendment.text && stored->subject_id == amendment.subject_id) return *stored;
      id_taken("amendment");
    }
    if (amendment.subject_id) {
      const Uuid& subject = *amendment.subject_id;
      const bool known = find(present.readings, subject) != nullptr || find(present.findings, subject) != nullptr ||
                         find(present.decisions, subject) != nullptr || find(present.cuts, subject) != nullptr ||
                         find(present.parts, subject) != nullptr;
      if (!known) throw RuleError("unknown_subject", "subject_id", "this job has nothing with this id");
    }
    amendment.by_person_id = by;
    amendment.at = surroundings_.now();
    store_.put(amendment);
    record("amendment.added", amendment.job_id, amendment.id, json_text(amendment), by);
    present.amendments.push_back(amendment);
    return amendment;
  });
}

}  // namespace brakewright::shop
