#pragma once

#include <vector>

#include "core/mount/mount.hpp"

namespace brakewright::mount {

/// Refuses dimensions that are not finite or contradict themselves, as find_stacks says.
void check_dimensions(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces);

}  // namespace brakewright::mount
