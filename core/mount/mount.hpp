#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// The stack on the arbor: which pieces from the pegboard carry a part, in which order.
namespace brakewright::mount {

/// The lathe's arbor, measured from its shoulder towards its tip, millimetres.
struct Arbor {
  double diameter_mm = 0;
  double thread_start_mm = 0;  ///< the stack must reach at least so far, or the nut runs out of thread
  double tip_mm = 0;
  double nut_engagement_mm = 0;  ///< thread that the nut needs beyond the stack
};

enum class PartKind { hubless, hubbed };

/// What of the part touches the stack, millimetres.
struct PartSeat {
  PartKind kind = PartKind::hubless;
  // hubless: a hat with a centre bore, clamped between two rings
  double bore_mm = 0;
  double flange_mm = 0;
  double flat_inner_mm = 0;  ///< machined flat of the hat's outer face: the second clamp bears here
  double flat_outer_mm = 0;
  std::optional<double> flat_inner_inboard_mm = {};  ///< flat on the shoulder side; the outer face's when left out
  std::optional<double> flat_outer_inboard_mm = {};
  // hubbed: a hub with two bearing races
  double hub_length_mm = 0;
  double inner_race_mm = 0;  ///< small-end diameter of the race on the shoulder side
  double outer_race_mm = 0;  ///< small-end diameter of the race on the nut side
};

enum class PieceKind { cone, spring, clamp, taper, spacer, nut };

/// One piece of the pegboard, millimetres. Only the dimensions of its kind are looked at.
struct Piece {
  std::string id;
  PieceKind kind = PieceKind::spacer;
  double bore_mm = 0;
  double length_mm = 0;
  double small_mm = 0;       ///< cone, taper: small-end diameter
  double large_mm = 0;       ///< cone, taper: large-end diameter
  double ring_inner_mm = 0;  ///< clamp: bearing ring
  double ring_outer_mm = 0;
  double cup_depth_mm = 0;  ///< clamp: room for spring and cone; 0 where there is no cup
  double cup_bore_mm = 0;
  double solid_mm = 0;                    ///< spring: pressed flat
  double free_mm = 0;                     ///< spring: without load
  bool weighted = false;                  ///< spacer
  bool damping = false;                   ///< spacer
  double runout_um = 0;                   ///< recorded, peak to valley; 0 where none is recorded
  std::optional<double> outside_mm = {};  ///< taper: what stands outside the hub; (1-q) of its length when left out
};

struct Stack {
  std::vector<std::string> pieces;  ///< ids from the shoulder outward, the part itself left out
  double length_mm = 0;             ///< from the shoulder to the nut
  std::vector<double> q;            ///< how far up the cone, or each taper, the part sits: 0 small end, 1 large end
  std::vector<std::string> why;     ///< a sentence for each piece, in the same order
};

/// The one dimension that keeps the best almost-fitting stack from fitting.
struct Miss {
  std::string rule;    ///< "cone", "cup_bore", "spring_room", "ring_inboard", "ring_outboard", "ring_pair",
                       ///< "taper_inner", "taper_outer", "length"; "no_<kind>" when the pegboard has none that fits
                       ///< the arbor; "combination" when more than one rule would have to give
  double miss_mm = 0;  ///< by how much; 0 for "no_<kind>" and "combination"
  std::string text;    ///< what to buy or turn
};

struct Answer {
  std::vector<Stack> stacks;  ///< best first
  std::vector<Miss> nearest;  ///< only when there is no stack: least miss first
};

/// The best stacks that carry `part` on `arbor`, exactly: no better one exists among `pieces`.
///
/// Hubless, from the shoulder: clamp, spring, cone (both inside that clamp's cup), part, clamp, spacers, nut.
/// Hubbed: taper, part, taper, spacers, nut. A piece whose bore differs from the arbor's by more than 0.1 mm does not
/// go on it. With q = (bore - small)/(large - small):
///   cone 0.25 <= q <= 0.75, taper 0.2 <= q <= 0.8; cup bore >= cone's large end + 2 mm;
///   solid < cup depth - (1-q) cone length < free; each ring inside the flat that it bears on; ring outer diameters
///   within 2 mm of each other; thread start <= length <= tip - nut engagement.
/// Better is, in this order: a damping spacer, fewer pieces, a larger clamp ring (the smaller of the two), less
/// |q - 0.5| (summed over tapers), less root-sum-square of recorded runouts, less length, ids in order.
/// Lengths are compared as whole nanometres and runouts as whole nanometres, so that ties are ties on every machine.
///
/// @param count  how many stacks at most, >= 1
/// @throws InputError  "out_of_range" naming the field when a dimension is not finite or contradicts itself (tip before
///         thread start, cone with its small end the larger, ring inner beyond outer, spring whose solid length is not
///         below its free one), "duplicate_id" for two pieces of one id
/// Source: methods of mounting are common practice, no source; the search is exhaustive with bounds.
Answer find_stacks(const Arbor& arbor, const PartSeat& part, const std::vector<Piece>& pieces, std::size_t count);

}  // namespace brakewright::mount
