#include <nlohmann/json.hpp>

#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"
#include "shop/json.hpp"

namespace brakewright::server {
namespace {

constexpr std::int64_t kKnownPartsAtOnce = 20;

std::int64_t count_jobs(shop::Shop& shop, shop::JobState state) {
  return shop.jobs({.state = state, .words = "", .limit = 1, .offset = 0}).total;
}

Json shop_view(Surroundings& around) {
  shop::Shop& shop = around.shop;
  const std::int64_t seq = shop.last_seq();  // first, so that nothing after it is taken for known
  return {{"settings", shop::to_json(shop.settings())},
          {"people", list_of(shop.people())},
          {"instruments", list_of(shop.instruments())},
          {"lathes", list_of(shop.lathes())},
          {"inserts", list_of(shop.inserts())},
          {"corners", list_of(shop.corners())},
          {"bands", list_of(shop.bands())},
          {"taper_plates", list_of(shop.taper_plates())},
          {"open_jobs", count_jobs(shop, shop::JobState::open)},
          {"sealed_jobs", count_jobs(shop, shop::JobState::sealed)},
          {"seq", seq},
          {"address", around.address()}};
}

http::Response add_zero_check(const Call& call, shop::Shop& shop) {
  const auto wanted = shop::from_json<shop::NewZeroCheck>(call.body());
  return json_answer(shop::to_json(shop.add_zero_check(wanted.id, wanted.instrument_id, wanted.text,
                                                       wanted.default_unit, wanted.job_id, call.by())));
}

}  // namespace

void add_shop_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
  operations["health"] = [&](const Call&) {
    return json_answer({{"version", around.version}, {"store", "ok"}, {"seq", shop.last_seq()}});
  };
  operations["shop"] = [&](const Call&) { return json_answer(shop_view(around)); };
  operations["change_settings"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::Settings>(call.body());
    return json_answer(shop::to_json(shop.change_settings(wanted, call.by())));
  };
  operations["put_person"] = put_operation<shop::Person>(
      "person_id",
      [&](const shop::Person& person, const shop::Uuid& by) { return around.keeper->doors().put_person(person, by); });
  operations["put_instrument"] = put_operation<shop::Instrument>(
      "instrument_id",
      [&](const shop::Instrument& wanted, const shop::Uuid& by) { return shop.put_instrument(wanted, by); });
  operations["put_lathe"] = put_operation<shop::Lathe>(
      "lathe_id", [&](const shop::Lathe& lathe, const shop::Uuid& by) { return shop.put_lathe(lathe, by); });
  operations["put_known_part"] = put_operation<shop::KnownPart>(
      "known_part_id",
      [&](const shop::KnownPart& part, const shop::Uuid& by) { return shop.put_known_part(part, by); });
  operations["zero_checks"] = [&](const Call& call) {
    return json_answer(list_of(shop.zero_checks(call.optional_id("instrument_id"))));
  };
  operations["add_zero_check"] = [&](const Call& call) { return add_zero_check(call, shop); };
  operations["known_parts"] = [&](const Call& call) {
    return json_answer(
        list_of(shop.known_parts(call.text("words").value_or(""), call.number("limit").value_or(kKnownPartsAtOnce))));
  };
}

}  // namespace brakewright::server
