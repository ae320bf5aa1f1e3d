#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/length/length.hpp"
#include "shop/times.hpp"
#include "shop/uuid.hpp"

/// The shop's iron beside its lathes: what hangs on the pegboard, the cutting edges, the damping bands and the
/// tapered plates.
namespace brakewright::shop {

enum class PieceKind { cone, spring, clamp, taper, spacer, nut };

/// One piece that goes on an arbor. Only the dimensions of its kind are asked for; core/mount says what each means.
struct Piece {
  Uuid id = {};
  std::string name = {};  ///< what is stamped or painted on it
  PieceKind kind = PieceKind::spacer;
  std::string hook = {};  ///< where on the pegboard it hangs
  Unit unit = Unit::mm;   ///< in which it was entered, and is shown
  Length bore = {};
  Length length = {};
  std::optional<Length> small = {};       ///< cone, taper: small-end diameter
  std::optional<Length> large = {};       ///< cone, taper: large-end diameter
  std::optional<Length> ring_inner = {};  ///< clamp: bearing ring, diameters
  std::optional<Length> ring_outer = {};
  std::optional<Length> cup_depth = {};  ///< clamp: room for spring and cone
  std::optional<Length> cup_bore = {};
  std::optional<Length> solid = {};      ///< spring: pressed flat
  std::optional<Length> free = {};       ///< spring: without load
  std::optional<Length> outside = {};    ///< taper: what stands outside the hub
  bool weighted = false;                 ///< spacer
  bool damping = false;                  ///< spacer
  std::optional<double> runout_um = {};  ///< recorded, peak to valley
  std::string note = {};
  bool active = true;

  friend bool operator==(const Piece&, const Piece&) = default;
};

/// @throws InputError  when a dimension that the piece's kind needs is missing or contradicts another; field as in JSON
void check_dimensions(const Piece& piece);

enum class BookingKind { taken, returned, missing, found };

/// A piece goes off the pegboard or comes back. Never changed; the last one says where the piece is.
struct Booking {
  Uuid id = {};
  Uuid piece_id = {};
  BookingKind kind = BookingKind::taken;
  std::optional<Uuid> job_id = {};  ///< for which it was taken, or after which it came back
  std::string note = {};
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Booking&, const Booking&) = default;
};

enum class PieceState { on_board, in_use, missing };

/// Where a piece is by its last booking; on the board when it was never booked.
PieceState state_of(const std::optional<Booking>& last);

/// An indexable cutting insert.
struct Insert {
  Uuid id = {};
  std::string name = {};
  Length nose_radius{400'000};
  double max_speed_m_per_min = 120;  ///< most surface speed that its maker allows in grey iron
  std::int64_t corners = 3;
  std::string note = {};
  bool active = true;

  friend bool operator==(const Insert&, const Insert&) = default;
};

enum class EdgeCondition { sharp, worn, chipped };

/// One corner of an insert and what it has cut.
struct Corner {
  Uuid id = {};
  Uuid insert_id = {};
  std::int64_t number = 1;  ///< 1 to the insert's corners
  EdgeCondition condition = EdgeCondition::sharp;
  double used_m = 0;  ///< length of cut so far, along the surface; counted up by each pass on record
  std::string note = {};

  friend bool operator==(const Corner&, const Corner&) = default;
};

/// A damping band for the rim of the part.
struct Band {
  Uuid id = {};
  std::string name = {};
  std::string hook = {};
  std::optional<Length> least_diameter = {};
  std::optional<Length> most_diameter = {};
  std::string note = {};
  bool active = true;

  friend bool operator==(const Band&, const Band&) = default;
};

/// A plate that goes between hub and part, thicker on one side, to take the tilt out of a flange.
struct TaperPlate {
  Uuid id = {};
  std::string name = {};
  std::string hook = {};
  double taper_um = 50;  ///< thickest less thinnest place, across its diameter
  Length diameter{150'000'000};
  std::int64_t studs = 5;
  std::string note = {};
  bool active = true;

  friend bool operator==(const TaperPlate&, const TaperPlate&) = default;
};

}  // namespace brakewright::shop
