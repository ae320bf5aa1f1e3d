#include "core/chatter/twin_limit.hpp"

#include "core/input_error.hpp"

namespace brakewright::chatter {
namespace {

void check_one(const Mode& mode, const char* path) {
  check(mode, path);
  if (!(mode.weight > 0)) throw InputError("out_of_range", std::string(path) + "weight", "must be more than 0");
}

}  // namespace

std::array<Mode, 2> opposed_modes(const TwinCut& cut) {
  std::array<Mode, 2> modes{cut.tool, cut.disc};
  modes[1].weight *= 2;
  return modes;
}

TwinLimit twin_limit(const TwinCut& cut) {
  check_one(cut.tool, "tool.");
  check_one(cut.disc, "disc.");
  const Mode one_sided[] = {cut.tool, cut.disc};
  TwinLimit found{.disc_mode = absolute_limit(opposed_modes(cut), cut.kf_n_per_m2),
                  .tools_only = absolute_limit({&cut.tool, 1}, cut.kf_n_per_m2),
                  .single_side = absolute_limit(one_sided, cut.kf_n_per_m2)};
  found.disc_governs = found.disc_mode.depth_mm <= found.tools_only.depth_mm;
  return found;
}

Band95 band_of_twin_limit(const TwinCut& cut, const RelativeU& u) {
  if (twin_limit(cut).disc_governs) return band_of_absolute_limit(opposed_modes(cut), cut.kf_n_per_m2, u);
  return band_of_absolute_limit({&cut.tool, 1}, cut.kf_n_per_m2, u);
}

}  // namespace brakewright::chatter
