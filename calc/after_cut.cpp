#include "core/verdict/after_cut.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"

namespace brakewright::calc {

Json run_after_cut(const Json& input) {
  Reader reader(input);
  AfterCutInput cut;
  cut.before = read_points(reader.objects("before"));
  cut.after = read_points(reader.objects("after"));
  cut.micrometer_before = read_micrometer(reader.object("micrometer_before"));
  const auto after = reader.optional_object("micrometer_after");
  cut.micrometer_after = after ? read_micrometer(*after) : cut.micrometer_before;
  cut.temperature_before_c = reader.number_or("temperature_before_c", 20);
  cut.temperature_after_c = reader.number_or("temperature_after_c", 20);
  cut.outboard_marks = reader.optional_number("outboard_marks");
  cut.inboard_marks = reader.optional_number("inboard_marks");
  cut.dial_um_per_mark = reader.number_or("dial_um_per_mark", cut.dial_um_per_mark);
  cut.dial_inboard_um_per_mark = reader.optional_number("dial_inboard_um_per_mark");
  cut.dial_repeatability_um = reader.number_or("dial_repeatability_um", cut.dial_repeatability_um);
  cut.planned_final_mm = reader.optional_number("planned_final_mm");
  cut.ra_um = reader.optional_number("ra_um");
  cut.u_ra_relative = reader.number_or("u_ra_relative", cut.u_ra_relative);
  if (auto limits = reader.optional_object("limits")) cut.limits = read_limits(*limits);
  read_draws(reader, cut.confidence, cut.seed, cut.draws);
  reader.done();
  return to_json(check_after_cut(cut));
}

}  // namespace brakewright::calc
