#include <algorithm>

#include "shop/json.hpp"
#include "shop/school/changing.hpp"

/// The queue before each lathe.
namespace brakewright::shop {
namespace {

constexpr std::int64_t kFinishedLookedAt = 60;

void expect_lathe(Shop& shop, const Uuid& lathe_id) {
  for (const Lathe& lathe : shop.lathes()) {
    if (lathe.id == lathe_id) return;
  }
  throw RuleError("unknown_lathe", "lathe_id", "no lathe of this shop has this id");
}

}  // namespace

std::vector<PartTime> School::finished_parts() {
  std::vector<PartTime> parts;
  for (const JobLine& line : shop_.jobs({.state = JobState::sealed, .words = "", .limit = kFinishedLookedAt}).lines) {
    const auto of_job = times_of(line.job.id);
    parts.insert(parts.end(), of_job.begin(), of_job.end());
  }
  return parts;
}

/// A sealed job stays as it is.
std::vector<PartTime> School::times_of(const Uuid& sealed_job_id) {
  {
    const std::lock_guard lock(kept_guard_);
    const auto known = part_times_.find(sealed_job_id);
    if (known != part_times_.end()) return known->second;
  }
  const auto times = part_times(shop_.job_file(sealed_job_id));
  const std::lock_guard lock(kept_guard_);
  return part_times_.try_emplace(sealed_job_id, times).first->second;
}

/// By the settled passes, or where none are by the computed ones.
std::map<Uuid, double> School::planned_s(const JobFile& file) {
  std::map<Uuid, double> planned;
  for (const CutPlan& plan : file.cut_plans) planned[plan.part_id] = plan.time_s;
  for (const Part& part : file.parts) {
    if (planned.contains(part.id)) continue;
    try {
      const PlanAdvice advice = shop_.plan(file.job.id, part.id, std::nullopt);
      if (!advice.passes.empty()) planned[part.id] = advice.time_s;
    } catch (const InputError&) {
      continue;  // not enough is known to plan; the usual time stands for it
    }
  }
  return planned;
}

std::vector<QueueEntry> School::queue_entries() {
  return looking([&] { return store_.queue_entries().all(); });
}

LatheQueue School::queue(const Uuid& lathe_id) {
  expect_lathe(shop_, lathe_id);
  LatheQueue queue{.lathe_id = lathe_id, .times = lathe_times(finished_parts(), lathe_id)};
  const auto entries = looking([&] { return store_.queue_entries().where("lathe_id", lathe_id); });
  const auto files = studies();
  double before = 0;
  for (const QueueEntry& entry : entries) {
    if (entry.left_at) continue;
    const JobFile file = shop_.job_file(entry.job_id);
    const WaitsFor waits = shop_.assessment(entry.job_id).waits_for;
    if (!needs_lathe(file, waits)) continue;
    const auto planned = planned_s(file);
    const Minutes left = minutes_left(file, planned, queue.times);
    QueueLine line{.entry = entry,
                   .job_number = file.job.number,
                   .vehicle = file.job.vehicle,
                   .waits_for = waits,
                   .minutes = left.middle,
                   .minutes_quartiles = left.quartiles,
                   .starts_in_minutes = before};
    line.rests_on_plans =
        std::all_of(file.parts.begin(), file.parts.end(), [&](const Part& part) { return planned.contains(part.id); });
    line.meanwhile =
        meanwhile(waits, reads_in_a_study(files, entry.person_id), has_open_safety_points(entry.person_id));
    before += line.minutes;
    queue.lines.push_back(std::move(line));
  }
  return queue;
}

bool School::reads_in_a_study(const std::vector<StudyFile>& files, const Uuid& person_id) {
  return std::any_of(files.begin(), files.end(), [&](const StudyFile& file) {
    const auto& people = file.study.person_ids;
    return !file.study.closed && std::find(people.begin(), people.end(), person_id) != people.end() &&
           !shop::open_places(file.study, person_id, file.readings).empty();
  });
}

bool School::has_open_safety_points(const Uuid& person_id) {
  const auto answers = safety_answers(person_id);
  const auto points = safety_points();
  return std::any_of(points.begin(), points.end(), [&](const SafetyPoint& point) {
    const SafetyAnswer* answer = answer_in_force(answers, person_id, point);
    return point.active && (answer == nullptr || !answer->was_right);
  });
}

LatheQueue School::join_queue(const Uuid& lathe_id, const NewQueueEntry& wanted, const Uuid& by) {
  check(wanted);
  expect_lathe(shop_, lathe_id);
  const JobFile file = shop_.job_file(wanted.job_id);
  const WaitsFor waits = shop_.assessment(wanted.job_id).waits_for;
  journaled(by, [&](const Recorder& recorder) {
    expect_own(wanted.person_id, by);
    expect_person(wanted.person_id, "person_id");
    const QueueEntry made{.id = wanted.id,
                          .lathe_id = lathe_id,
                          .job_id = wanted.job_id,
                          .person_id = wanted.person_id,
                          .joined_at = now_()};
    for (const QueueEntry& other : store_.queue_entries().where("job_id", wanted.job_id)) {
      if (other.id == wanted.id && other.lathe_id == lathe_id && other.person_id == wanted.person_id) return true;
      if (other.left_at) continue;
      throw RuleError("waits_already", "job_id", "this job waits for a lathe already");
    }
    if (!needs_lathe(file, waits)) throw RuleError("needs_no_lathe", "job_id", "this job needs the lathe no more");
    if (store_.queue_entries().find(wanted.id)) throw RuleError("id_taken", "id", "another entry has this id");
    recorder.put(store_.queue_entries(), made, "joined", wanted.job_id);
    return true;
  });
  return queue(lathe_id);
}

LatheQueue School::leave_queue(const Uuid& lathe_id, const Uuid& entry_id, const std::string& why, const Uuid& by) {
  journaled(by, [&](const Recorder& recorder) {
    auto found = store_.queue_entries().find(entry_id);
    if (!found || found->lathe_id != lathe_id) {
      throw RuleError("unknown_entry", "entry_id", "nothing in this lathe's queue has this id");
    }
    if (found->left_at) return true;
    expect_own(found->person_id, by);
    found->left_at = now_();
    found->left_why = why;
    check(*found);
    recorder.put(store_.queue_entries(), *found, "left", found->job_id);
    return true;
  });
  return queue(lathe_id);
}

}  // namespace brakewright::shop
