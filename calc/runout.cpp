#include "core/runout/runout.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {

Json run_runout(const Json& input) {
  Reader reader(input);
  RunoutInput runout;
  runout.trace = {.angles_deg = reader.numbers("angles_deg"), .values_um = reader.numbers("values_um")};
  runout.indicator.resolution_um = reader.number_or("resolution_um", runout.indicator.resolution_um);
  runout.indicator.repeatability_um = reader.number_or("repeatability_um", runout.indicator.repeatability_um);
  runout.limit_um = reader.optional_number("limit_um");
  read_draws(reader, runout.confidence, runout.seed, runout.draws);
  reader.done();
  try {
    return to_json(reduce_runout(runout));
  } catch (const InputError& error) {
    const std::string& path = error.field();
    throw InputError(error.code(), path.substr(path.find('.') + 1), error.what());
  }
}

}  // namespace brakewright::calc
