#include "core/runout/scratch.hpp"

#include <nlohmann/json.hpp>

#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

Json share(const std::optional<ScratchShare>& share) {
  if (!share) return nullptr;
  return {{"runout_um", share->runout_um}, {"high_deg", share->high_deg}};
}

}  // namespace

Json run_scratch(const Json& input) {
  Reader reader(input);
  std::vector<ScratchMark> marks;
  for (auto& mark : reader.objects("marks")) {
    marks.push_back({.centre_deg = mark.number("centre_deg"),
                     .arc_deg = mark.number("arc_deg"),
                     .infeed_um = mark.number("infeed_um")});
    mark.done();
  }
  reader.done();
  const auto reading = read_scratches(marks);
  Json sizes = Json::array();
  for (const auto& size : reading.marks) {
    sizes.push_back(
        {{"amplitude_um", size.amplitude_um}, {"runout_um", size.runout_um}, {"upper_bound", size.upper_bound}});
  }
  return {{"marks", sizes}, {"part", share(reading.part)}, {"mount", share(reading.mount)}};
}

}  // namespace brakewright::calc
