#include <algorithm>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/places.hpp"
#include "shop/plans.hpp"

/// Passes planned, looked ahead at and settled on.
namespace brakewright::shop {

/// What a plan rests on, copied so that nothing is locked while it is worked out.
struct Shop::Bench {
  JobFile file;
  Part part;
  Settings settings;
  std::optional<Lathe> lathe;
  std::optional<Insert> insert;
  BenchFigures figures;
  std::shared_ptr<const Assessment> assessment;

  PlanContext context() const {
    return {.file = file,
            .part = part,
            .assessment = *assessment,
            .settings = settings,
            .lathe = lathe ? &*lathe : nullptr,
            .insert = insert ? &*insert : nullptr,
            .bench = figures};
  }
};

namespace {

std::optional<Insert> insert_for(const std::vector<Insert>& all, const std::optional<Uuid>& wanted) {
  for (const Insert& insert : all) {
    if (wanted ? insert.id == *wanted : insert.active) return insert;
  }
  if (wanted) throw RuleError("unknown_insert", "insert_id", "no insert of this shop has this id");
  return std::nullopt;
}

bool same_passes(const std::vector<PlannedPass>& a, const std::vector<ForeseenPass>& b) { return a == settings_of(b); }

void check_tools(const std::vector<PlannedPass>& passes, const Part& part) {
  for (std::size_t k = 0; k < passes.size(); ++k) {
    check_marks(part, passes[k].inboard_marks, "passes[" + std::to_string(k) + "].inboard_marks");
  }
}

std::string in_mm(double mm) { return format({static_cast<std::int64_t>(mm * 1e6)}, Unit::mm, 1000); }

constexpr double kSame_mm = 1e-9;

void check_size(const PlanAdvice& seen, const Part& part) {
  const double size_mm = *seen.final_mm;
  if (part.limits.discard && size_mm >= part.limits.discard->value.value.mm()) {
    throw RuleError("over_discard", "passes",
                    "these passes would open the drum to " + in_mm(size_mm) + ", at or over the discard diameter of " +
                        part.limits.discard->value.text + "; nobody can settle on them");
  }
  if (seen.machine_to_mm && size_mm > *seen.machine_to_mm + kSame_mm) {
    throw RuleError("over_machine_to", "passes",
                    "these passes would open the drum to " + in_mm(size_mm) + ", and it may be turned to " +
                        in_mm(*seen.machine_to_mm) + "; take fewer marks, or decide anew");
  }
}

/// Refuses passes that nobody may settle on.
void check_left(const PlanAdvice& seen, const Part& part) {
  const double left_mm = *seen.final_mm;
  if (is_drum(part.kind)) return check_size(seen, part);
  if (part.limits.discard && left_mm <= part.limits.discard->value.value.mm()) {
    throw RuleError("below_discard", "passes",
                    "these passes would leave " + in_mm(left_mm) + ", at or under the discard thickness of " +
                        part.limits.discard->value.text + "; nobody can settle on them");
  }
  if (seen.machine_to_mm && left_mm < *seen.machine_to_mm - kSame_mm) {
    throw RuleError("below_machine_to", "passes",
                    "these passes would leave " + in_mm(left_mm) + ", and the part may be cut to " +
                        in_mm(*seen.machine_to_mm) + "; take fewer marks, or decide anew");
  }
}

}  // namespace

Shop::Bench Shop::bench_for(const Uuid& job_id, const Uuid& part_id, std::optional<Uuid> insert_id) {
  Bench bench;
  bench.assessment = assessed(job_id);
  const std::lock_guard lock(guard_);
  bench.file = file(job_id);
  const Part* part = find(bench.file.parts, part_id);
  if (part == nullptr) throw RuleError("unknown_part", "part_id", "this job has no such part");
  bench.part = *part;
  bench.settings = store_.settings();
  bench.insert = insert_for(store_.inserts(), insert_id);
  const auto& lathe_id = bench.file.job.lathe_id;
  if (const Lathe* lathe = lathe_id ? find(known_lathes(), *lathe_id) : nullptr) {
    bench.lathe = *lathe;
    bench.figures = bench.assessment->bench.value_or(typed_figures(*lathe));
  }
  return bench;
}

PlanAdvice Shop::plan(const Uuid& job_id, const Uuid& part_id, std::optional<Uuid> insert_id, bool own_size) {
  return plan_passes(bench_for(job_id, part_id, insert_id).context(), !own_size);
}

PlanAdvice Shop::foresight(const Uuid& job_id, const Uuid& part_id, const NewForesight& wanted) {
  check(wanted);
  const Bench bench = bench_for(job_id, part_id, wanted.insert_id);
  check_tools(wanted.passes, bench.part);
  return foresee_passes(bench.context(), wanted.passes);
}

CutPlan Shop::settle_plan(const Uuid& job_id, const NewCutPlan& wanted, const Uuid& by) {
  check(wanted);
  assessed(job_id);  // outside of the change, so that nobody waits for it
  return changing(by, [&] {
    JobFile& present = open_file(job_id);
    if (const CutPlan* stored = find(present.cut_plans, wanted.id)) {
      if (stored->part_id == wanted.part_id && same_passes(wanted.passes, stored->passes)) return *stored;
      throw RuleError("id_taken", "id", "another plan has this id");
    }
    if (present.decisions.empty() || present.decisions.back().action != Action::cut) {
      throw RuleError("not_decided", "part_id", "passes are settled on once the cut was decided; decide first");
    }
    expect_lathe(wanted.lathe_id, "lathe_id");
    if (present.job.lathe_id != wanted.lathe_id) {
      throw RuleError("other_lathe", "lathe_id", "the job is on another lathe; change the job's lathe first");
    }
    if (wanted.passes.empty()) throw InputError("too_few", "passes", "a plan has one pass or more");
    const Bench bench = bench_for(job_id, wanted.part_id, wanted.insert_id);
    check_tools(wanted.passes, bench.part);
    const PlanAdvice seen = foresee_passes(bench.context(), wanted.passes);
    if (!seen.missing.empty()) {
      throw RuleError("not_enough_known", "part_id",
                      "what these passes do cannot be told without: " + seen.missing.front());
    }
    if (seen.refusal) throw InputError(seen.refusal->code, seen.refusal->field, seen.refusal->message);
    check_left(seen, bench.part);
    CutPlan made{.id = wanted.id, .job_id = job_id, .part_id = wanted.part_id, .lathe_id = wanted.lathe_id};
    made.insert_id = bench.insert->id;
    made.passes = seen.passes;
    made.time_s = seen.time_s;
    made.final_mm = *seen.final_mm;
    made.by_hand = !same_passes(wanted.passes, plan_passes(bench.context()).passes) &&
                   !same_passes(wanted.passes, plan_passes(bench.context(), false).passes);
    made.by_person_id = by;
    made.at = surroundings_.now();
    store_.put(made);
    record("plan.settled", job_id, made.id, json_text(made), by);
    present.cut_plans.push_back(made);
    return made;
  });
}

}  // namespace brakewright::shop
