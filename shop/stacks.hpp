#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/mount/mount.hpp"
#include "shop/entities.hpp"

/// From a part's seat, a lathe and the pegboard to stacks: where records become input of core/mount.
namespace brakewright::shop {

struct StackAdvice {
  std::vector<std::string> missing = {};  ///< fields still needed: "seat.bore", "lathe", "lathe.tip", ...
  mount::Answer answer = {};              ///< empty while something is missing; pieces are named by their ids as text
};

/// What core/mount needs of the part. A bore that was read counts before one that was typed among the seat's.
/// @param missing  gets the fields that are not known
mount::PartSeat seat_of(const JobFile& file, const Part& part, std::vector<std::string>& missing);
mount::Arbor arbor_of(const Lathe* lathe, std::vector<std::string>& missing);

/// One piece, by its id, as core/mount takes it.
mount::Piece piece_for_mount(const Piece& piece);

/// The best stacks for a part.
/// @param lathe  null when the job has none yet
/// @param pieces  those that may be used: active ones that are on the board, or are out for this job
/// @throws InputError  for dimensions that contradict themselves, with the field of the part, lathe or piece
StackAdvice advise_stacks(const JobFile& file, const Part& part, const Lathe* lathe, const std::vector<Piece>& pieces,
                          std::size_t count);

}  // namespace brakewright::shop
