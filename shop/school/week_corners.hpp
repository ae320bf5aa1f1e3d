#pragma once

#include <map>
#include <set>
#include <vector>

#include "shop/school/week.hpp"

/// What each corner of an insert cut. Rules as pure functions.
namespace brakewright::shop {

/// Passes of one corner as they are counted together.
struct CornerUse {
  std::int64_t passes = 0;
  std::set<Uuid> part_ids = {};
  double cut_m = 0;
  std::optional<double> metal_cm3 = {};
  std::set<std::int64_t> job_numbers = {};
};

using CornerUses = std::map<Uuid, CornerUse>;

/// Counts a pass of this job for the corners on its tools. The metal of a face is the length of its cut times the feed
/// times the depth that its dial was set to: the area that the edge went over times the depth. A dial counts as it was
/// typed for the lathe.
/// @param lathes  of the shop; a pass of none of them tells no metal
void count_pass(CornerUses& uses, const JobFile& file, const Pass& pass, const std::vector<Lathe>& lathes);

/// The inserts that are in use, in the shop's order, each with its corners on record.
std::vector<WeekInsert> inserts_of(const CornerUses& uses, const std::vector<Insert>& inserts,
                                   const std::vector<Corner>& corners);

}  // namespace brakewright::shop
