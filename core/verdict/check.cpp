#include "core/verdict/check.hpp"

#include <cmath>

#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright {
namespace {

void check_thickness_limit(const std::optional<LengthLimit>& limit, const char* field) {
  if (limit) want(limit->value_mm, 0.1, 1000, field, "a thickness from 0.1 to 1000 mm");
}

void check_small_limit(const std::optional<LengthLimit>& limit, const char* field) {
  if (limit) want(limit->value_mm, 1e-4, 10, field, "from 0.0001 to 10 mm");
}

void check_order(const std::optional<LengthLimit>& above, const std::optional<LengthLimit>& below, const char* field,
                 const char* accepted) {
  if (above && below && above->value_mm < below->value_mm) throw InputError("out_of_range", field, accepted);
}

void check_part(const PartReadings& part) {
  check(part.limits);
  if (part.name.size() > 200) throw InputError("out_of_range", "name", "at most 200 characters");
  want(part.scoring.outboard_um, 0, 1e5, "scoring.outboard_um", "a depth from 0 to 100000 um");
  want(part.scoring.inboard_um, 0, 1e5, "scoring.inboard_um", "a depth from 0 to 100000 um");
  want(part.scoring.u_um, 0, 1e4, "scoring.u_um", "from 0 to 10000 um");
  for (std::size_t i = 0; i < part.findings.size(); ++i) {
    const std::string& kind = part.findings[i].kind;
    if (kind.empty() || kind.size() > 200) {
      throw InputError("out_of_range", "findings[" + std::to_string(i) + "].kind", "from 1 to 200 characters");
    }
  }
}

void check_shop(const VerdictInput& input) {
  want(input.lathe.dial_um_per_mark, 0.01, 1e5, "lathe.dial_um_per_mark", "from 0.01 to 100000 um for one mark");
  if (input.lathe.dial_inboard_um_per_mark) {
    want(*input.lathe.dial_inboard_um_per_mark, 0.01, 1e5, "lathe.dial_inboard_um_per_mark",
         "from 0.01 to 100000 um for one mark");
  }
  want(input.lathe.dial_repeatability_um, 0, 1000, "lathe.dial_repeatability_um", "from 0 to 1000 um");
  want(input.lathe.mount_runout_um, 0, 1000, "lathe.mount_runout_um", "from 0 to 1000 um");
  want(input.margin_um, 0, 1e5, "margin_um", "from 0 to 100000 um");
  want(input.confidence, 0.5, 0.9999, "confidence", "from 0.5 to 0.9999");
  if (input.house_allowance) {
    want(input.house_allowance->value_mm, 0, 10, "house_allowance.value_mm", "from 0 to 10 mm");
  }
  if (input.wear_rate) {
    want(input.wear_rate->mm_per_unit, 1e-6, 100, "wear_rate.mm_per_unit", "from 0.000001 to 100 mm");
    want(input.wear_rate->relative_u, 0, 2, "wear_rate.relative_u", "from 0 to 2");
  }
  if (input.draws < 100 || input.draws > 200000) throw InputError("out_of_range", "draws", "from 100 to 200000");
}

}  // namespace

void check(const PartLimits& limits) {
  check_thickness_limit(limits.nominal, "limits.nominal.value_mm");
  check_thickness_limit(limits.machine_to, "limits.machine_to.value_mm");
  check_thickness_limit(limits.discard, "limits.discard.value_mm");
  check_small_limit(limits.variation, "limits.variation.value_mm");
  check_small_limit(limits.runout, "limits.runout.value_mm");
  check_small_limit(limits.scoring, "limits.scoring.value_mm");
  check_small_limit(limits.taper, "limits.taper.value_mm");
  if (limits.finish) want(limits.finish->value_um, 0.01, 1000, "limits.finish.value_um", "from 0.01 to 1000 um");
  check_order(limits.machine_to, limits.discard, "limits.machine_to.value_mm",
              "machine-to must not be under discard: the two may have been exchanged");
  check_order(limits.nominal, limits.machine_to, "limits.nominal.value_mm", "nominal must not be under machine-to");
  check_order(limits.nominal, limits.discard, "limits.nominal.value_mm", "nominal must not be under discard");
}

void check(const VerdictInput& input) {
  if (input.parts.empty()) throw InputError("too_few", "parts", "one part, or the two of an axle");
  if (input.parts.size() > 2) throw InputError("out_of_range", "parts", "one part, or the two of an axle");
  check_shop(input);
  for (std::size_t i = 0; i < input.parts.size(); ++i) {
    try {
      check_part(input.parts[i]);
    } catch (const InputError& error) {
      throw error.within("parts[" + std::to_string(i) + "]");
    }
  }
}

}  // namespace brakewright
