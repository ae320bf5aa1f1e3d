#include "shop/school/week_corners.hpp"

#include <algorithm>

#include "shop/find.hpp"
#include "shop/progress.hpp"

namespace brakewright::shop {
namespace {

constexpr double kUmPerMm = 1000;

/// On which a pass was cut: that of its plan, else of the part's last mount before it, else of the job.
const Lathe* lathe_of(const JobFile& file, const Pass& pass, const std::vector<Lathe>& lathes) {
  std::optional<Uuid> id = file.job.lathe_id;
  for (const Mount& mount : file.mounts) {
    if (mount.part_id == pass.part_id && mount.at <= pass.at) id = mount.lathe_id;
  }
  if (pass.plan_id) {
    if (const CutPlan* plan = find(file.cut_plans, *pass.plan_id)) id = plan->lathe_id;
  }
  return id ? find(lathes, *id) : nullptr;
}

struct Edge {
  std::optional<Uuid> corner_id;
  std::int64_t marks = 0;
  double dial_um_per_mark = 0;  ///< 0 where no lathe tells it
};

void count_edge(CornerUses& uses, const JobFile& file, const Pass& pass, const Edge& edge) {
  if (!edge.corner_id) return;
  CornerUse& use = uses[*edge.corner_id];
  ++use.passes;
  use.part_ids.insert(pass.part_id);
  use.job_numbers.insert(file.job.number);
  const Part* part = find(file.parts, pass.part_id);
  if (part == nullptr || pass.outcome != PassOutcome::finished || edge.marks <= 0) return;
  const double cut_m = cut_length_m(*part, pass.feed_mm_per_rev);
  use.cut_m += cut_m;
  if (cut_m <= 0 || edge.dial_um_per_mark <= 0) return;
  const double depth_mm = static_cast<double>(edge.marks) * edge.dial_um_per_mark / kUmPerMm;
  use.metal_cm3 = use.metal_cm3.value_or(0) + cut_m * pass.feed_mm_per_rev * depth_mm;  // m mm mm are cm3
}

WeekCorner told(const Corner& corner, const CornerUses& uses) {
  WeekCorner line{.number = corner.number, .condition = corner.condition, .used_m = corner.used_m};
  const auto found = uses.find(corner.id);
  if (found == uses.end()) return line;
  const CornerUse& use = found->second;
  line.passes = use.passes;
  line.parts = static_cast<std::int64_t>(use.part_ids.size());
  line.cut_m = use.cut_m;
  line.metal_cm3 = use.metal_cm3;
  line.job_numbers.assign(use.job_numbers.begin(), use.job_numbers.end());
  return line;
}

}  // namespace

void count_pass(CornerUses& uses, const JobFile& file, const Pass& pass, const std::vector<Lathe>& lathes) {
  const Lathe* lathe = lathe_of(file, pass, lathes);
  const double outboard_um = lathe == nullptr ? 0 : lathe->dial_um_per_mark;
  const double inboard_um = lathe == nullptr ? 0 : lathe->dial_inboard_um_per_mark.value_or(outboard_um);
  count_edge(uses, file, pass, {pass.outboard_corner_id, pass.outboard_marks, outboard_um});
  count_edge(uses, file, pass, {pass.inboard_corner_id, pass.inboard_marks, inboard_um});
}

std::vector<WeekInsert> inserts_of(const CornerUses& uses, const std::vector<Insert>& inserts,
                                   const std::vector<Corner>& corners) {
  std::vector<WeekInsert> all;
  for (const Insert& insert : inserts) {
    if (!insert.active) continue;
    WeekInsert line{.insert_id = insert.id, .corners = insert.corners};
    std::int64_t spent = 0;
    for (const Corner& corner : corners) {
      if (corner.insert_id != insert.id) continue;
      line.corner_use.push_back(told(corner, uses));
      line.used_m += corner.used_m;
      line.passes += line.corner_use.back().passes;
      spent += corner.condition != EdgeCondition::sharp ? 1 : 0;
    }
    std::sort(line.corner_use.begin(), line.corner_use.end(),
              [](const WeekCorner& a, const WeekCorner& b) { return a.number < b.number; });
    line.sharp_corners = insert.corners - spent;
    all.push_back(std::move(line));
  }
  return all;
}

}  // namespace brakewright::shop
