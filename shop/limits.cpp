#include "shop/limits.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"

namespace brakewright::shop {
namespace {

constexpr Length kMm{1'000'000};
constexpr Length kUm{1'000};
constexpr std::int64_t kShown = 10'000;

std::string in_mm(Length length) { return format(length, Unit::mm, kShown); }

/// Where a figure of the wrong size comes from, as far as one can tell.
std::string likely_slip(const TypedLength& value, Length least, Length most) {
  const auto fits = [&](double factor) {
    const double nm = static_cast<double>(value.value.nm) * factor;
    return nm >= static_cast<double>(least.nm) && nm <= static_cast<double>(most.nm);
  };
  if (value.unit == Unit::mm && fits(25.4)) return "; was it typed in inches?";
  if (value.unit == Unit::in && fits(1 / 25.4)) return "; was it typed in millimetres?";
  return "; is the unit right?";
}

void check_range(const std::optional<TypedLength>& value, const std::string& path, Length least, Length most,
                 const std::string& what = "") {
  if (!value || (value->value >= least && value->value <= most)) return;
  throw InputError("out_of_range", path + ".text",
                   what + "must be from " + in_mm(least) + " to " + in_mm(most) + likely_slip(*value, least, most));
}

void check_range(const std::optional<Limit>& limit, const std::string& path, Length least, Length most,
                 const std::string& what = "") {
  if (limit) check_range(std::optional(limit->value), path + ".value", least, most, what);
}

void check_order(const std::optional<Limit>& lower, const std::optional<Limit>& upper, const std::string& path,
                 const std::string& message) {
  if (lower && upper && lower->value.value > upper->value.value) {
    throw InputError("limits_disagree", path + ".value.text", message);
  }
}

template <class T>
void refuse_other_kind(const std::optional<T>& given, const std::string& path, const char* message) {
  if (given) throw InputError("other_kind", path, message);
}

void check_disc_limits(const Limits& limits, const std::string& path) {
  const std::string of_a_disc = "the limits of a disc are thicknesses: ";
  check_range(limits.nominal, path + "nominal", kMm, {100 * kMm.nm}, of_a_disc);
  check_range(limits.machine_to, path + "machine_to", kMm, {100 * kMm.nm}, of_a_disc);
  check_range(limits.discard, path + "discard", kMm, {100 * kMm.nm}, of_a_disc);
  check_range(limits.variation, path + "variation", kUm, {5 * kMm.nm});
  check_range(limits.runout, path + "runout", kUm, {5 * kMm.nm});
  check_order(limits.discard, limits.machine_to, path + "machine_to",
              "machine-to (after a cut) cannot be thinner than discard (in use); have the two changed places?");
  check_order(limits.machine_to, limits.nominal, path + "nominal",
              "nominal (new) cannot be thinner than machine-to (after a cut)");
  check_order(limits.discard, limits.nominal, path + "nominal",
              "nominal (new) cannot be thinner than discard (in use)");
  refuse_other_kind(limits.out_of_round, path + "out_of_round", "out-of-round is asked of a drum; of a disc variation");
  refuse_other_kind(limits.taper, path + "taper", "taper along the band is asked of a drum");
}

/// The diameters of one drum lie near each other: one that does not was typed in another unit, or is of another part.
void check_nearness(const Limits& limits, const std::string& path) {
  constexpr std::int64_t kMostApart = 50 * kMm.nm;
  for (const auto& [limit, name] :
       {std::pair{&limits.machine_to, "machine_to"}, std::pair{&limits.discard, "discard"}}) {
    const auto& other = limits.nominal ? limits.nominal : limits.machine_to;
    if (!*limit || !other || (*limit)->value.value.nm - other->value.value.nm <= kMostApart) continue;
    throw InputError(
        "limits_disagree", path + name + ".value.text",
        "the diameters of one drum lie within " + in_mm({kMostApart}) + " of each other; is the unit right?");
  }
}

void check_drum_limits(const Limits& limits, const std::string& path) {
  const std::string of_a_drum = "the limits of a drum are diameters: ";
  const Length least{50 * kMm.nm}, most{1500 * kMm.nm};
  check_range(limits.nominal, path + "nominal", least, most, of_a_drum);
  check_range(limits.machine_to, path + "machine_to", least, most, of_a_drum);
  check_range(limits.discard, path + "discard", least, most, of_a_drum);
  check_range(limits.out_of_round, path + "out_of_round", kUm, {5 * kMm.nm});
  check_range(limits.taper, path + "taper", kUm, {5 * kMm.nm});
  check_order(limits.machine_to, limits.discard, path + "machine_to",
              "machine-to (after a cut) cannot be larger than discard (in use); have the two changed places?");
  check_order(limits.nominal, limits.machine_to, path + "nominal",
              "nominal (new) cannot be larger than machine-to (after a cut)");
  check_order(limits.nominal, limits.discard, path + "nominal", "nominal (new) cannot be larger than discard (in use)");
  check_nearness(limits, path);
  refuse_other_kind(limits.variation, path + "variation",
                    "thickness variation is asked of a disc; of a drum out-of-round");
  refuse_other_kind(limits.runout, path + "runout", "face runout is asked of a disc; of a drum out-of-round");
}

template <class T>
void check_drum(const T& part, const std::string& path) {
  check_drum_limits(part.limits, path + "limits.");
  check_range(part.outer_diameter, path + "outer_diameter", {50 * kMm.nm}, {1700 * kMm.nm});
  check_range(part.band_width, path + "band_width", {5 * kMm.nm}, {500 * kMm.nm});
  check_range(part.lining_radius, path + "lining_radius", {20 * kMm.nm}, {750 * kMm.nm});
  const Limits& limits = part.limits;
  const auto& size = limits.nominal ? limits.nominal : limits.machine_to ? limits.machine_to : limits.discard;
  if (!size || !part.lining_radius) return;
  const double radius_mm = size->value.value.mm() / 2;
  if (std::abs(part.lining_radius->value.mm() / radius_mm - 1) <= 0.1) return;
  throw InputError("out_of_range", path + "lining_radius.text",
                   "the lining's radius must be near half of the drum's diameter, " +
                       in_mm({static_cast<std::int64_t>(radius_mm * 1e6)}) + "; was a diameter typed?");
}

template <class T>
void check_disc(const T& part, const std::string& path) {
  check_disc_limits(part.limits, path + "limits.");
  check_range(part.outer_diameter, path + "outer_diameter", {100 * kMm.nm}, {600 * kMm.nm});
  const char* of_a_drum = "this is asked of a drum, and the part is a disc";
  refuse_other_kind(part.band_width, path + "band_width", of_a_drum);
  refuse_other_kind(part.lining_radius, path + "lining_radius", of_a_drum);
  refuse_other_kind(part.lining_arc_deg, path + "lining_arc_deg", of_a_drum);
}

template <class T>
void check_any(const T& part, const std::string& path) {
  const std::string dotted = path.empty() ? "" : path + ".";
  check_range(part.limits.scoring, dotted + "limits.scoring", kUm, {10 * kMm.nm});
  check_range(part.limits.finish_ra, dotted + "limits.finish_ra", {10}, {100 * kUm.nm});
  is_drum(part.kind) ? check_drum(part, dotted) : check_disc(part, dotted);
}

}  // namespace

void check_sizes(const Part& part, const std::string& path) { check_any(part, path); }
void check_sizes(const KnownPart& part, const std::string& path) { check_any(part, path); }

TypedLength typed_in_field(const std::string& text, Unit default_unit, const std::string& field) {
  try {
    return parse_length(text, default_unit).typed;
  } catch (const InputError& refusal) {
    throw refusal.within(field);
  }
}

}  // namespace brakewright::shop
