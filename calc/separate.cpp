#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/separation/separation.hpp"

namespace brakewright::calc {
namespace {

Json written(const OrderSeparation& order) {
  return {{"order", order.order},
          {"positions", order.positions},
          {"separable", order.separable},
          {"gain", or_null(order.gain)}};
}

Json written(const PositionFigures& position) {
  return {{"turn_deg", position.turn_deg},
          {"runout_um", position.runout_um},
          {"distinct_angles", position.distinct_angles},
          {"order_used", position.order_used},
          {"residual_sd_um", position.residual_sd_um},
          {"blind_orders", position.blind_orders}};
}

}  // namespace

PositionTrace read_position(Reader& reader) {
  PositionTrace position{
      .turn_deg = reader.number("turn_deg"),
      .trace = {.angles_deg = reader.numbers("angles_deg"), .values_um = reader.numbers("values_um")}};
  reader.done();
  return position;
}

Json run_separate(const Json& input) {
  Reader reader(input);
  SeparationInput in;
  for (Reader& position : reader.objects("positions")) in.positions.push_back(read_position(position));
  in.max_order = static_cast<int>(reader.integer("max_order", 1, 100));
  in.noise_sd_um = reader.optional_number("noise_sd_um");
  if (const auto studs = reader.optional_integer("studs", 2, 24)) in.studs = static_cast<int>(*studs);
  reader.done();
  const Separation found = separate(in);
  Json orders = Json::array(), positions = Json::array();
  for (const auto& order : found.orders) orders.push_back(written(order));
  for (const auto& position : found.positions) positions.push_back(written(position));
  return {{"carrier", to_json(found.carrier)},
          {"part", to_json(found.part)},
          {"together", to_json(found.together)},
          {"not_separable", found.not_separable},
          {"residual_sd_um", or_null(found.residual_sd_um)},
          {"dof", found.dof},
          {"orders", std::move(orders)},
          {"order_asked", found.order_asked},
          {"order_used", found.order_used},
          {"carrier_runout_um", found.carrier_runout_um},
          {"part_runout_um", found.part_runout_um},
          {"p_repeats", or_null(found.p_repeats)},
          {"next_turn_deg", or_null(found.next_turn_deg)},
          {"positions", std::move(positions)},
          {"advice", to_json(found.advice)}};
}

}  // namespace brakewright::calc
