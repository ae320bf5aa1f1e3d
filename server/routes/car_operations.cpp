#include <nlohmann/json.hpp>

#include "server/routes/car_answers.hpp"
#include "server/routes/operations.hpp"

namespace brakewright::server {

void add_car_operations(Operations& operations, Surroundings& around) {
  shop::Shop& shop = around.shop;
  operations["refit_advice"] = [&](const Call& call) {
    return json_answer(answer_of(shop.refit_advice(job_id_of(call, around), call.id("part_id"))));
  };
  operations["road_advice"] = [&](const Call& call) {
    return json_answer(
        answer_of(shop.road(job_id_of(call, around), {.speed_km_per_h = call.decimal("speed_km_per_h"),
                                                      .t_stop_s = call.decimal("t_stop_s"),
                                                      .stops = call.number("stops"),
                                                      .interval_s = call.decimal("interval_s"),
                                                      .axle_share = call.decimal("axle_share"),
                                                      .cheek_thickness_mm = call.decimal("cheek_thickness_mm")})));
  };
  operations["pulsation_advice"] = [&](const Call& call) {
    return json_answer(answer_of(shop.pulsation(job_id_of(call, around))));
  };
  operations["diagnosis_advice"] = [&](const Call& call) {
    return json_answer(answer_of(shop.diagnosis(job_id_of(call, around))));
  };
}

}  // namespace brakewright::server
