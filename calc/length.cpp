#include "core/length/length.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

constexpr double kMostMm = 1e6;

std::optional<Plausible> read_plausible(Reader& reader) {
  const auto range = reader.optional_numbers("plausible_mm");
  if (!range) return std::nullopt;
  const std::string path = reader.path_of("plausible_mm");
  if (range->size() != 2) throw InputError("sizes_differ", path, "two numbers are needed here: lowest and highest");
  for (const double mm : *range) {
    if (std::abs(mm) > kMostMm) throw InputError("out_of_range", path, "must lie within 1 km");
  }
  if ((*range)[0] > (*range)[1]) throw InputError("out_of_range", path, "the lowest stands first, then the highest");
  return Plausible{.low = {std::llround((*range)[0] * 1e6)}, .high = {std::llround((*range)[1] * 1e6)}};
}

ParsedLength parse_at(const std::string& text, Unit unit, std::optional<Plausible> plausible, const std::string& path) {
  try {
    return parse_length(text, unit, plausible);
  } catch (const InputError& error) {
    throw error.within(path);
  }
}

}  // namespace

Json run_length(const Json& input) {
  Reader reader(input);
  const std::string text = reader.text("text");
  const Unit default_unit =
      reader.optional_one_of("default_unit", {"mm", "in"}).value_or("mm") == "mm" ? Unit::mm : Unit::in;
  const auto plausible = read_plausible(reader);
  reader.done();

  const ParsedLength parsed = parse_at(text, default_unit, plausible, "text");
  Json answer = {{"nm", parsed.typed.value.nm},
                 {"mm", parsed.typed.value.mm()},
                 {"in", parsed.typed.value.in()},
                 {"unit", name_of(parsed.typed.unit)},
                 {"resolution_nm", parsed.typed.resolution_nm}};
  if (parsed.ask) answer["ask"] = name_of(*parsed.ask);
  return answer;
}

}  // namespace brakewright::calc
