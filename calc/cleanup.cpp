#include "core/cleanup/cleanup.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

/// One depth for the whole face, or a list with one for each angle; 0 when absent.
PerPoint read_scoring(Reader& reader, const Json& input, std::string_view name) {
  if (!reader.has(name)) return {0};
  if (input.at(std::string(name)).is_array()) return reader.numbers(name);
  return {reader.number(name)};
}

}  // namespace

Json run_cleanup(const Json& input) {
  Reader reader(input);
  CleanupInput cleanup;
  cleanup.thickness_mm = reader.numbers("thickness_mm");
  cleanup.outboard_um = reader.numbers("outboard_um");
  cleanup.angles_deg = reader.numbers("angles_deg");
  cleanup.score_outboard_um = read_scoring(reader, input, "score_outboard_um");
  cleanup.score_inboard_um = read_scoring(reader, input, "score_inboard_um");
  cleanup.margin_um = reader.number_or("margin_um", 0);
  cleanup.dial_um_per_mark = reader.above("dial_um_per_mark", 0);
  cleanup.dial_inboard_um_per_mark = reader.optional_number("dial_inboard_um_per_mark");
  cleanup.machine_to_mm = reader.optional_number("machine_to_mm");
  cleanup.discard_mm = reader.optional_number("discard_mm");
  cleanup.use_fit = reader.boolean_or("use_fit", false);
  reader.done();
  return to_json(least_cleanup(cleanup));
}

}  // namespace brakewright::calc
