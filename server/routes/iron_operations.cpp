#include <map>
#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"
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

}  // namespace

void add_iron_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
  operations["pegboard"] = [&](const Call&) { return json_answer(pegboard_of(shop)); };
  operations["put_piece"] = put_operation<shop::Piece>(
      "piece_id", [&](const shop::Piece& piece, const shop::Uuid& by) { return shop.put_piece(piece, by); });
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
  operations["put_band"] = put_operation<shop::Band>(
      "band_id", [&](const shop::Band& band, const shop::Uuid& by) { return shop.put_band(band, by); });
}

}  // namespace brakewright::server
