#include "calc/calc.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "calc/methods.hpp"

namespace brakewright::calc {
namespace {

constexpr auto kMethods = std::to_array<Method>({
    {"length", "Read a length as people type it, in inches or millimetres", run_length},
});

}  // namespace

std::span<const Method> methods() { return kMethods; }

const Method* find(std::string_view name) {
  const auto found = std::find_if(kMethods.begin(), kMethods.end(), [&](const Method& m) { return m.name == name; });
  return found == kMethods.end() ? nullptr : &*found;
}

}  // namespace brakewright::calc
