#include "shop/limits.hpp"

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

void check_range(const std::optional<Limit>& limit, const std::string& path, Length least, Length most) {
  if (!limit) return;
  const Length value = limit->value.value;
  if (value >= least && value <= most) return;
  constexpr std::int64_t kShown = 10'000;
  throw InputError("out_of_range", path + ".value.text",
                   "must be from " + format(least, Unit::mm, kShown) + " to " + format(most, Unit::mm, kShown) +
                       "; is the unit right?");
}

void check_order(const std::optional<Limit>& lower, const std::optional<Limit>& upper, const std::string& path,
                 const std::string& message) {
  if (lower && upper && lower->value.value > upper->value.value) {
    throw InputError("limits_disagree", path + ".value.text", message);
  }
}

}  // namespace

void check_limits(const Limits& limits, const std::string& path) {
  constexpr Length kMm{1'000'000};
  constexpr Length kUm{1'000};
  check_range(limits.nominal, path + ".nominal", kMm, {100 * kMm.nm});
  check_range(limits.machine_to, path + ".machine_to", kMm, {100 * kMm.nm});
  check_range(limits.discard, path + ".discard", kMm, {100 * kMm.nm});
  check_range(limits.variation, path + ".variation", kUm, {5 * kMm.nm});
  check_range(limits.runout, path + ".runout", kUm, {5 * kMm.nm});
  check_range(limits.scoring, path + ".scoring", kUm, {10 * kMm.nm});
  check_range(limits.finish_ra, path + ".finish_ra", {10}, {100 * kUm.nm});
  check_order(limits.discard, limits.machine_to, path + ".machine_to",
              "machine-to (after a cut) cannot be thinner than discard (in use); have the two changed places?");
  check_order(limits.machine_to, limits.nominal, path + ".nominal",
              "nominal (new) cannot be thinner than machine-to (after a cut)");
  check_order(limits.discard, limits.nominal, path + ".nominal",
              "nominal (new) cannot be thinner than discard (in use)");
}

void check_outer_diameter(const std::optional<TypedLength>& diameter, const std::string& path) {
  if (!diameter || (diameter->value.nm >= 100'000'000 && diameter->value.nm <= 600'000'000)) return;
  throw InputError("out_of_range", path + ".text", "must be from 100 to 600 mm; is the unit right?");
}

TypedLength typed_in_field(const std::string& text, Unit default_unit, const std::string& field) {
  try {
    return parse_length(text, default_unit).typed;
  } catch (const InputError& refusal) {
    throw refusal.within(field);
  }
}

}  // namespace brakewright::shop
