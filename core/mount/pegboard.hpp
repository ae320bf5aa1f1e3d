#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/mount/rules.hpp"
#include "core/mount/spacers.hpp"

namespace brakewright::mount {

/// What holds the part, without spacers and nut: two clamps with a cone and the springs that fit behind it, or two
/// tapers.
struct Carrier {
  const Piece* first = nullptr;       ///< clamp or taper at the shoulder
  const Piece* second = nullptr;      ///< clamp or taper at the nut
  const Piece* cone = nullptr;        ///< null for tapers
  std::vector<const Piece*> springs;  ///< best first; empty for tapers
  Seat first_seat;                    ///< on the cone, or on the first taper
  Seat second_seat;                   ///< on the second taper
  Nm length = 0;                      ///< from the shoulder, part included
  double off_middle = 0;              ///< |q - 0.5|, summed over tapers
};

/// Carriers that share one clamp ring size (0 for tapers).
struct RingGroup {
  Nm ring = 0;
  std::vector<Carrier> carriers;
};

/// The pieces that go on the arbor, sorted by what they are.
class Pegboard {
 public:
  Pegboard(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces);

  const std::vector<const Piece*>& of(PieceKind kind) const { return by_kind_[static_cast<std::size_t>(kind)]; }
  SpacerSearch spacers() const;

  /// All carriers that keep every rule but the stack's length, largest ring first; springs cut to the best `count`.
  std::vector<RingGroup> carriers(std::size_t count) const;

  const Arbor& arbor() const { return arbor_; }
  const PartSeat& part() const { return part_; }

 private:
  struct Inner {  // what sits in the first clamp's cup
    const Piece* cone;
    Seat seat;
    std::vector<const Piece*> springs;
  };
  std::vector<Inner> inner_for(const Piece& clamp, std::size_t count) const;
  std::vector<RingGroup> clamp_carriers(std::size_t count) const;
  std::vector<RingGroup> taper_carriers() const;

  Arbor arbor_;
  PartSeat part_;
  std::vector<std::vector<const Piece*>> by_kind_;
};

/// The flat that the first clamp bears on, inner and outer diameter.
std::pair<double, double> shoulder_flat(const PartSeat& part);

/// Square of a recorded runout in whole nanometres.
Nm runout_squared(const Piece& piece);

}  // namespace brakewright::mount
