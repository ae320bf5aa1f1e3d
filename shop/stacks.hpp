#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/mount/mount.hpp"
#include "core/mount/own_stack.hpp"
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

/// The pieces that may go on an arbor for a job: active ones that hang on the board, or are out for this very job.
/// @param last  of each piece that was ever booked, the newest
std::vector<Piece> pieces_for(const Uuid& job_id, const std::vector<Piece>& all, const std::vector<Booking>& last);

/// The best stacks for a part; what misses names pieces by their names.
/// @param lathe  null when the job has none yet
/// @param pieces  those that may be used
/// @throws InputError  for dimensions that contradict themselves, with the field of the part ("seat.flat_outer"),
///                     lathe ("lathe.tip") or piece
StackAdvice advise_stacks(const JobFile& file, const Part& part, const Lathe* lathe, const std::vector<Piece>& pieces,
                          std::size_t count);

/// What becomes of pieces that somebody put together.
struct OwnStackAdvice {
  std::vector<std::string> missing = {};  ///< as StackAdvice
  mount::OwnStack answer = {};            ///< empty while something is missing
};

/// @param pieces  from the shoulder outward, the nut last
/// @throws InputError  as advise_stacks
OwnStackAdvice check_own_stack(const JobFile& file, const Part& part, const Lathe* lathe,
                               const std::vector<Piece>& pieces);

}  // namespace brakewright::shop
