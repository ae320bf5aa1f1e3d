#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string_view>

#include "calc/calc.hpp"
#include "calc/parse_json.hpp"
#include "core/input_error.hpp"
#include "shop/json.hpp"

/// The JSON door, as the server opens it: any bytes are read or refused with a reason, every computation answers a
/// body with finite numbers or refuses it, and what is read as a thing of the shop is written so that it is read as
/// the same again.
namespace {

using namespace brakewright;
using Json = nlohmann::ordered_json;

void hold_to_finite(const Json& value) {
  if (value.is_number_float() && !std::isfinite(value.get<double>())) std::abort();
  if (value.is_structured()) {
    for (const Json& inner : value) hold_to_finite(inner);
  }
}

template <class E>
void read_and_write(const Json& body) {
  const E entity = shop::from_json<E>(body);
  const Json written = shop::to_json(entity);
  if (shop::to_json(shop::from_json<E>(written)) != written) std::abort();
}

struct Door {
  std::string_view name;
  void (*go_through)(const Json& body);
};

constexpr auto kDoors = std::to_array<Door>({
    {"Settings", read_and_write<shop::Settings>},
    {"Person", read_and_write<shop::Person>},
    {"Instrument", read_and_write<shop::Instrument>},
    {"Lathe", read_and_write<shop::Lathe>},
    {"KnownPart", read_and_write<shop::KnownPart>},
    {"Job", read_and_write<shop::Job>},
    {"Part", read_and_write<shop::Part>},
    {"MeasuringPlan", read_and_write<shop::MeasuringPlan>},
    {"JobFile", read_and_write<shop::JobFile>},
    {"NewJob", read_and_write<shop::NewJob>},
    {"NewReading", read_and_write<shop::NewReading>},
    {"NewZeroCheck", read_and_write<shop::NewZeroCheck>},
    {"NewFinding", read_and_write<shop::NewFinding>},
    {"NewDecision", read_and_write<shop::NewDecision>},
    {"NewCut", read_and_write<shop::NewCut>},
    {"NewAmendment", read_and_write<shop::NewAmendment>},
});

}  // namespace

/// An input is the name of a computation or of a thing of the shop, a line end, and a body.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input(reinterpret_cast<const char*>(data), size);
  const std::size_t line_end = std::min(input.find('\n'), input.size());
  const std::string_view name = input.substr(0, line_end);
  try {
    const Json body = calc::parse_json(input.substr(std::min(line_end + 1, input.size())));
    if (const calc::Method* method = calc::find(name)) hold_to_finite(method->run(body));
    for (const Door& door : kDoors) {
      if (door.name == name) door.go_through(body);
    }
  } catch (const InputError& error) {
    if (error.code().empty() || *error.what() == '\0') std::abort();
  }
  return 0;
}
