#pragma once

#include <optional>
#include <vector>

#include "core/mount/mount.hpp"

namespace brakewright::mount {

/// A stack that somebody put together, held to the rules of find_stacks.
struct OwnStack {
  std::optional<Stack> stack = {};  ///< there when it keeps them all
  /// What it breaks: the rules of Miss, and "order" (first, alone) for pieces that are not in the order of assembly,
  /// "bore" for one that does not go on the arbor.
  std::vector<Miss> broken = {};
};

/// @param pieces  from the shoulder outward, the nut last, the part left out; spacers in any order among themselves
/// @throws InputError  as find_stacks
/// Degenerate: no pieces are in no order. Source: methods 8.
OwnStack check_stack(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces);

}  // namespace brakewright::mount
