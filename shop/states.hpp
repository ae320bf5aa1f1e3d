#pragma once

#include <vector>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// Which of a job's readings count, in the order given.
///
/// A reading that was taken back is `withdrawn`. One that another supersedes is `superseded` as long as any reading
/// later in its line stands. Two readings that supersede the same one (two tablets at once) are both `current`:
/// repeats at one point, nothing lost. Taking back the last of a line brings back the one before it.
/// Degenerate case: a reading that names an unknown one as superseded is current.
std::vector<ReadingState> states_of(const std::vector<Reading>& readings);

}  // namespace brakewright::shop
