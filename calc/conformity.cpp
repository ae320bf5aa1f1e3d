#include "core/uncertainty/conformity.hpp"

#include <nlohmann/json.hpp>

#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {

Json run_conformity(const Json& input) {
  Reader reader(input);
  const double value = reader.number("value");
  const double u = reader.at_least("u", 0.0);
  const Limits limits{.lower = reader.optional_number("lower"), .upper = reader.optional_number("upper")};
  const double confidence = reader.number_or("confidence", 0.95);
  reader.done();

  const ConformityAnswer answer = judge_conformity(value, u, limits, confidence);
  return {{"p_conform", answer.p_conform},
          {"guard", answer.guard},
          {"verdict", name_of(answer.verdict)},
          {"p_best", answer.p_best}};
}

}  // namespace brakewright::calc
