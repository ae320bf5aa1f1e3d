#include <nlohmann/json.hpp>

#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/length/length.hpp"

namespace brakewright::calc {

Json run_length(const Json& input) {
  Reader reader(input);
  reader.done();
  return {};
}

}  // namespace brakewright::calc
