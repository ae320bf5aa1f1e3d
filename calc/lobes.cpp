#include "core/chatter/lobes.hpp"

#include <nlohmann/json.hpp>

#include "calc/chatter_u.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

using namespace chatter;

Mode read_mode(Reader& reader) {
  return {.k_n_per_m = reader.number("k_n_per_m"),
          .zeta = reader.number("zeta"),
          .fn_hz = reader.number("fn_hz"),
          .weight = reader.number_or("weight", 1)};
}

struct Modes {
  std::vector<Mode> bare;
  std::vector<bool> banded;  ///< whether the damping band is on it
};

Modes read_modes(Reader& reader) {
  if (!reader.has("modes")) {
    const Modes one{.bare = {read_mode(reader)}, .banded = {true}};
    check(one.bare.front(), "");
    return one;
  }
  Modes modes;
  for (Reader& mode : reader.objects("modes")) {
    modes.bare.push_back(read_mode(mode));
    modes.banded.push_back(mode.boolean_or("banded", true));
    mode.done();
  }
  for (const char* field : {"k_n_per_m", "zeta", "fn_hz", "weight"}) {
    if (reader.has(field)) throw InputError("out_of_range", field, "one mode here, or modes, not both");
  }
  check(modes.bare);
  return modes;
}

std::vector<std::optional<Limit>> limits_of(const std::vector<Mode>& modes, double force,
                                            const std::vector<double>& rpm) {
  if (modes.size() > 1 || modes.front().weight < 0) return limits(modes, force, rpm);
  std::vector<std::optional<Limit>> found;
  for (std::size_t i = 0; i < rpm.size(); ++i) {
    try {
      found.push_back(limit_of_one_mode(modes.front(), force, rpm[i]));
    } catch (const InputError& error) {
      throw InputError(error.code(), error.field() == "rpm" ? "rpm[" + std::to_string(i) + "]" : error.field(),
                       error.what());
    }
  }
  return found;
}

template <class Value>
Json list_of(const std::vector<std::optional<Limit>>& limits, const Value& value) {
  Json list = Json::array();
  for (const auto& limit : limits) list.push_back(limit ? Json(value(*limit)) : Json(nullptr));
  return list;
}

Json depths(const std::vector<std::optional<Limit>>& limits) {
  return list_of(limits, [](const Limit& limit) { return limit.depth_mm; });
}

/// The same with the damping that a band on the disc's edge gives.
Json banded(const Modes& modes, double force, const std::vector<double>& rpm, double factor, double bare_mm) {
  if (!(factor >= 1 && factor <= 1000)) throw InputError("out_of_range", "zeta_factor", "must be from 1 to 1000");
  std::vector<Mode> damped = modes.bare;
  for (std::size_t i = 0; i < damped.size(); ++i) {
    if (modes.banded[i]) damped[i].zeta *= factor;
    if (damped[i].zeta > 0.99) throw InputError("out_of_range", "zeta_factor", "must leave zeta at most 0.99");
  }
  const double least_mm = absolute_limit(damped, force).depth_mm;
  return {{"absolute_limit_mm", least_mm},
          {"worth", least_mm / bare_mm},
          {"limit_mm", depths(limits_of(damped, force, rpm))}};
}

}  // namespace

Json run_lobes(const Json& input) {
  Reader reader(input);
  const double force = reader.number("kf_n_per_m2");
  const auto rpm = reader.numbers("rpm");
  if (rpm.empty() || rpm.size() > 10000) throw InputError("out_of_range", "rpm", "from one to 10000 speeds");
  const auto modes = read_modes(reader);
  const auto factor = reader.optional_number("zeta_factor");
  const auto u = read_u_relative(reader);
  reader.done();
  const Limit least = absolute_limit(modes.bare, force);
  const auto found = limits_of(modes.bare, force, rpm);
  return {{"limit_mm", depths(found)},
          {"absolute_limit_mm", least.depth_mm},
          {"chatter_hz", list_of(found, [](const Limit& limit) { return limit.chatter_hz; })},
          {"absolute_chatter_hz", least.chatter_hz},
          {"lobe", list_of(found, [](const Limit& limit) { return limit.whole_waves; })},
          {"absolute_limit_band_mm", u ? json_of(band_of_absolute_limit(modes.bare, force, *u)) : Json(nullptr)},
          {"banded", factor ? banded(modes, force, rpm, *factor, least.depth_mm) : Json(nullptr)}};
}

}  // namespace brakewright::calc
