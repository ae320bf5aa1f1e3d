#pragma once

#include <vector>

#include "core/mount/pegboard.hpp"

namespace brakewright::mount {

/// Why nothing fits: for each rule, the least by which it would have to give while all others are kept; least first.
std::vector<Miss> nearest_misses(const Pegboard& pegboard);

}  // namespace brakewright::mount
