#include <map>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/words.hpp"

/// The pegboard, cutting edges, damping bands and tapered plates.
namespace brakewright::shop {

namespace {

void need(const std::optional<Length>& length, const std::string& field) {
  if (!length || length->nm <= 0) throw InputError("missing", field, "a piece of this kind needs this dimension");
}

void expect_less(const std::optional<Length>& low, const std::optional<Length>& high, const std::string& field,
                 const std::string& than) {
  if (low && high && low->nm >= high->nm) throw InputError("out_of_range", field, "must be less than " + than);
}

}  // namespace

void check_dimensions(const Piece& piece) {
  switch (piece.kind) {
    case PieceKind::cone:
    case PieceKind::taper:
      need(piece.small, "small_nm");
      need(piece.large, "large_nm");
      expect_less(piece.small, piece.large, "small_nm", "the large end");
      break;
    case PieceKind::spring:
      need(piece.solid, "solid_nm");
      need(piece.free, "free_nm");
      expect_less(piece.solid, piece.free, "solid_nm", "the free length");
      break;
    case PieceKind::clamp:
      need(piece.ring_inner, "ring_inner_nm");
      need(piece.ring_outer, "ring_outer_nm");
      expect_less(piece.ring_inner, piece.ring_outer, "ring_inner_nm", "the ring's outer diameter");
      break;
    case PieceKind::spacer:
    case PieceKind::nut:
      break;
  }
  if ((piece.weighted || piece.damping) && piece.kind != PieceKind::spacer) {
    throw InputError("out_of_range", piece.weighted ? "weighted" : "damping", "only a spacer can be that");
  }
}

PieceState state_of(const std::optional<Booking>& last) {
  if (!last) return PieceState::on_board;
  if (last->kind == BookingKind::taken) return PieceState::in_use;
  return last->kind == BookingKind::missing ? PieceState::missing : PieceState::on_board;
}

std::vector<Piece> Shop::pieces() {
  const std::lock_guard lock(guard_);
  return store_.pieces();
}

std::vector<Booking> Shop::last_bookings() {
  const std::lock_guard lock(guard_);
  return store_.last_bookings();
}

std::vector<Booking> Shop::bookings_of(const Uuid& piece_id) {
  const std::lock_guard lock(guard_);
  expect_piece(piece_id, "piece_id");
  return store_.bookings_of(piece_id);
}

Piece Shop::put_piece(Piece piece, const Uuid& by) {
  put_pieces({piece}, by);
  return piece;
}

std::int64_t Shop::put_pieces(const std::vector<Piece>& pieces, const Uuid& by) {
  for (const Piece& piece : pieces) {
    check(piece);
    check_dimensions(piece);
  }
  return changing(by, [&] {
    std::map<Uuid, Piece> present;
    for (Piece& piece : store_.pieces()) present.emplace(piece.id, std::move(piece));
    std::int64_t put = 0;
    for (const Piece& piece : pieces) {
      const auto [known, added] = present.try_emplace(piece.id, piece);
      if (!added && known->second == piece) continue;
      if (added || known->second.active != piece.active) note_pegboard();
      known->second = piece;
      store_.put(piece);
      record(added ? "piece.added" : "piece.changed", {}, piece.id, json_text(piece), by);
      ++put;
    }
    return put;
  });
}

void Shop::note_pegboard() {
  pegboard_is_empty_.reset();
  ++context_;  // what a job waits for may change
}

Booking Shop::book(const NewBooking& wanted, const Uuid& by) {
  check(wanted);
  return changing(by, [&] {
    if (const auto stored = store_.booking(wanted.id)) {
      if (stored->piece_id == wanted.piece_id && stored->kind == wanted.kind) return *stored;
      throw RuleError("id_taken", "id", "another booking has this id");
    }
    expect_piece(wanted.piece_id, "piece_id");
    if (wanted.job_id) file(*wanted.job_id);
    return put_booking(wanted, by);
  });
}

void Shop::expect_piece(const Uuid& id, const std::string& field) {
  const auto all = store_.pieces();
  if (find(all, id) == nullptr) throw RuleError("unknown_piece", field, "no piece of this shop has this id");
}

Booking Shop::put_booking(const NewBooking& wanted, const Uuid& by) {
  const Booking made{.id = wanted.id,
                     .piece_id = wanted.piece_id,
                     .kind = wanted.kind,
                     .job_id = wanted.job_id,
                     .note = wanted.note,
                     .by_person_id = by,
                     .at = surroundings_.now()};
  store_.put(made);
  record("piece." + std::string(word_of(made.kind)), {}, made.piece_id, json_text(made), by);
  return made;
}

std::vector<Insert> Shop::inserts() {
  const std::lock_guard lock(guard_);
  return store_.inserts();
}

Insert Shop::put_insert(Insert insert, const Uuid& by) {
  check(insert);
  return changing(by, [&] {
    const auto all = store_.inserts();
    const Insert* present = find(all, insert.id);
    if (present != nullptr && *present == insert) return insert;
    store_.put(insert);
    record(present == nullptr ? "insert.added" : "insert.changed", {}, insert.id, json_text(insert), by);
    return insert;
  });
}

std::vector<Corner> Shop::corners() {
  const std::lock_guard lock(guard_);
  return store_.corners();
}

Corner Shop::put_corner(Corner corner, const Uuid& by) {
  check(corner);
  return changing(by, [&] {
    const auto inserts = store_.inserts();
    const Insert* insert = find(inserts, corner.insert_id);
    if (insert == nullptr) throw RuleError("unknown_insert", "insert_id", "no insert of this shop has this id");
    if (corner.number > insert->corners) {
      throw InputError("out_of_range", "number", "this insert has corners 1 to " + std::to_string(insert->corners));
    }
    const auto all = store_.corners();
    for (const Corner& other : all) {
      if (other.insert_id == corner.insert_id && other.number == corner.number && other.id != corner.id) {
        throw RuleError("corner_taken", "number", "this corner of the insert is on record already");
      }
    }
    const Corner* present = find(all, corner.id);
    if (present != nullptr && corner.used_m != 0) corner.used_m = present->used_m;
    if (present != nullptr && *present == corner) return corner;
    store_.put(corner);
    record(present == nullptr ? "corner.added" : "corner.changed", {}, corner.id, json_text(corner), by);
    return corner;
  });
}

std::vector<Band> Shop::bands() {
  const std::lock_guard lock(guard_);
  return store_.bands();
}

Band Shop::put_band(Band band, const Uuid& by) {
  check(band);
  expect_less(band.least_diameter, band.most_diameter, "least_diameter_nm", "the largest");
  return changing(by, [&] {
    const auto all = store_.bands();
    const Band* present = find(all, band.id);
    if (present != nullptr && *present == band) return band;
    store_.put(band);
    record(present == nullptr ? "band.added" : "band.changed", {}, band.id, json_text(band), by);
    return band;
  });
}

std::vector<TaperPlate> Shop::taper_plates() {
  const std::lock_guard lock(guard_);
  return store_.taper_plates();
}

TaperPlate Shop::put_taper_plate(TaperPlate plate, const Uuid& by) {
  check(plate);
  return changing(by, [&] {
    const auto all = store_.taper_plates();
    const TaperPlate* present = find(all, plate.id);
    if (present != nullptr && *present == plate) return plate;
    store_.put(plate);
    record(present == nullptr ? "taper_plate.added" : "taper_plate.changed", {}, plate.id, json_text(plate), by);
    return plate;
  });
}

}  // namespace brakewright::shop
