#pragma once

#include <string>

#include "core/mount/pegboard.hpp"

namespace brakewright::mount {

/// A sentence on what this piece does in the stack.
std::string why_of(const Piece& piece, const Carrier& carrier, const PartSeat& part);

}  // namespace brakewright::mount
