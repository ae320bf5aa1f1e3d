#include <map>
#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"
#include "shop/exchange/pieces_csv.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

Json pegboard_of(shop::Shop& shop) {
  std::map<shop::Uuid, shop::Booking> last;
  for (const shop::Booking& booking : shop.last_bookings()) last.emplace(booking.piece_id, booking);
  Json list = Json::array();
  for (const shop::Piece& piece : shop.pieces()) {
    const auto found = last.find(piece.id);
    std::optional<shop::Booking> booking;
    if (found != last.end()) booking = found->second;
    list.push_back({{"piece", shop::to_json(piece)},
                    {"state", shop::word_of(shop::state_of(booking))},
                    {"last_booking", booking ? shop::to_json(*booking) : Json(nullptr)}});
  }
  return list;
}

std::string_view word_of(shop::PieceOutcome outcome) {
  switch (outcome) {
    case shop::PieceOutcome::added:
      return "added";
    case shop::PieceOutcome::changed:
      return "changed";
    case shop::PieceOutcome::known:
      return "known";
    case shop::PieceOutcome::refused:
      break;
  }
  return "refused";
}

Json json_of(const shop::PiecesReport& report) {
  Json lines = Json::array();
  for (const shop::PieceLine& line : report.lines) {
    lines.push_back({{"line", line.line},
                     {"name", line.name},
                     {"outcome", word_of(line.outcome)},
                     {"field", line.field},
                     {"message", line.message}});
  }
  return {{"stored", report.stored}, {"added", report.added},     {"changed", report.changed},
          {"known", report.known},   {"refused", report.refused}, {"lines", std::move(lines)}};
}

http::Response import_pieces(const Call& call, shop::Shop& shop) {
  const auto unit = call.text("unit");
  const shop::ImportOptions options{.default_unit = !unit           ? shop.settings().default_unit
                                                    : *unit == "in" ? Unit::in
                                                                    : Unit::mm,
                                    .dry_run = call.flag("dry_run")};
  return json_answer(json_of(shop::import_pieces(shop, call.request().body, options, call.by())));
}

http::Response export_pieces_csv(shop::Shop& shop) {
  http::Response response;
  response.content_type = "text/csv; charset=utf-8";
  response.body = shop::pieces_csv(shop.pieces());
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"brakewright-pieces.csv\"");
  return response;
}

}  // namespace

void add_iron_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
  operations["pegboard"] = [&](const Call&) { return json_answer(pegboard_of(shop)); };
  operations["put_piece"] = put_operation<shop::Piece>(
      "piece_id", [&](const shop::Piece& piece, const shop::Uuid& by) { return shop.put_piece(piece, by); });
  operations["import_pieces"] = [&](const Call& call) { return import_pieces(call, shop); };
  operations["export_pieces_csv"] = [&](const Call&) { return export_pieces_csv(shop); };
  operations["bookings_of"] = [&](const Call& call) {
    return json_answer(list_of(shop.bookings_of(call.id("piece_id"))));
  };
  operations["book"] = [&](const Call& call) {
    return json_answer(shop::to_json(shop.book(shop::from_json<shop::NewBooking>(call.body()), call.by())));
  };
  operations["put_insert"] = put_operation<shop::Insert>(
      "insert_id", [&](const shop::Insert& insert, const shop::Uuid& by) { return shop.put_insert(insert, by); });
  operations["put_corner"] = put_operation<shop::Corner>(
      "corner_id", [&](const shop::Corner& corner, const shop::Uuid& by) { return shop.put_corner(corner, by); });
  operations["put_taper_plate"] = put_operation<shop::TaperPlate>(
      "taper_plate_id",
      [&](const shop::TaperPlate& plate, const shop::Uuid& by) { return shop.put_taper_plate(plate, by); });
  operations["put_band"] = put_operation<shop::Band>(
      "band_id", [&](const shop::Band& band, const shop::Uuid& by) { return shop.put_band(band, by); });
}

}  // namespace brakewright::server
