#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/input_error.hpp"
#include "core/length/length.hpp"

/// Any bytes are a length or refused as none, and a length that was read is read again from what is shown of it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace brakewright;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const Unit unit : {Unit::mm, Unit::in}) {
    try {
      const ParsedLength parsed = parse_length(text, unit, Plausible{{5'000'000}, {50'000'000}});
      const TypedLength& typed = parsed.typed;
      if (typed.resolution_nm < 1 || std::abs(typed.value.nm) > 1'000'000'000'000) std::abort();
      const TypedLength again = parse_length(typed.text, unit).typed;
      if (!(again == typed)) std::abort();
      // What is shown can round up past the kilometre to which reading is held.
      if (std::abs(typed.value.nm) > 999'000'000'000) continue;
      const TypedLength shown = parse_length(format(typed.value, typed.unit, typed.resolution_nm), unit).typed;
      if (2 * std::abs(shown.value.nm - typed.value.nm) > typed.resolution_nm + 1) std::abort();
    } catch (const InputError& error) {
      if (error.code() != "not_a_length") std::abort();
    }
  }
  return 0;
}
