#include "core/chatter/twin_limit.hpp"

#include <nlohmann/json.hpp>
#include <string>

#include "calc/chatter_u.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

using namespace chatter;

/// The core names a tool's fields `tool.zeta`, this input `zeta_tool`.
TwinLimit limit_of(const TwinCut& cut) {
  try {
    return twin_limit(cut);
  } catch (const InputError& error) {
    const auto& field = error.field();
    const auto dot = field.find('.');
    if (dot == std::string::npos) throw;
    const std::string body = field.substr(0, dot), quantity = field.substr(dot + 1);
    const std::string named = quantity == "k_n_per_m" ? "k_" + body
                              : quantity == "fn_hz"   ? "fn_" + body + "_hz"
                                                      : quantity + "_" + body;
    throw InputError(error.code(), named, error.what());
  }
}

}  // namespace

Json run_twin_limit(const Json& input) {
  Reader reader(input);
  const TwinCut cut{.tool = {.k_n_per_m = reader.number("k_tool"),
                             .zeta = reader.number("zeta_tool"),
                             .fn_hz = reader.number("fn_tool_hz")},
                    .disc = {.k_n_per_m = reader.number("k_disc"),
                             .zeta = reader.number("zeta_disc"),
                             .fn_hz = reader.number("fn_disc_hz")},
                    .kf_n_per_m2 = reader.number("kf_n_per_m2")};
  const auto u = read_u_relative(reader);
  reader.done();
  const TwinLimit found = limit_of(cut);
  return {{"disc_mode_mm", found.disc_mode.depth_mm},
          {"tools_only_mm", found.tools_only.depth_mm},
          {"single_side_mm", found.single_side.depth_mm},
          {"chatter_hz", found.disc_mode.chatter_hz},
          {"tools_only_hz", found.tools_only.chatter_hz},
          {"single_side_hz", found.single_side.chatter_hz},
          {"limit_mm", found.least().depth_mm},
          {"governed_by", found.disc_governs ? "disc" : "tools"},
          {"limit_band_mm", u ? json_of(band_of_twin_limit(cut, *u)) : Json(nullptr)}};
}

}  // namespace brakewright::calc
