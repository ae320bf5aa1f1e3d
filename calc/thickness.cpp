#include "core/thickness/thickness.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"

namespace brakewright::calc {

Json run_thickness(const Json& input) {
  Reader reader(input);
  ThicknessInput thickness;
  thickness.readings = read_points(reader.objects("readings"));
  thickness.micrometer = read_micrometer(reader.object("micrometer"));
  thickness.part_temperature_c = reader.number_or("part_temperature_c", 20);
  thickness.variation_limit_mm = reader.optional_number("variation_limit_mm");
  thickness.discard_mm = reader.optional_number("discard_mm");
  thickness.machine_to_mm = reader.optional_number("machine_to_mm");
  read_draws(reader, thickness.confidence, thickness.seed, thickness.draws);
  reader.done();
  return to_json(reduce_thickness(thickness));
}

}  // namespace brakewright::calc
