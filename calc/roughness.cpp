#include "core/roughness/roughness.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/methods.hpp"
#include "calc/reader.hpp"

namespace brakewright::calc {
namespace {

using roughness::Roughness;

constexpr std::int64_t kMostColumns = 2000;

/// The evaluated heights by columns, each with its lowest and highest, so that a small drawing loses no peak.
Json columns_of(const Roughness& found, double spacing_um, std::size_t wanted) {
  if (wanted == 0) return nullptr;
  const std::size_t count = found.evaluated_um.size(), columns = std::min(wanted, count);
  Json x_mm = Json::array(), low_um = Json::array(), high_um = Json::array();
  for (std::size_t column = 0; column < columns; ++column) {
    const std::size_t from = column * count / columns, to = (column + 1) * count / columns;
    const auto begin = found.evaluated_um.begin();
    const auto [low, high] =
        std::minmax_element(begin + static_cast<std::ptrdiff_t>(from), begin + static_cast<std::ptrdiff_t>(to));
    const double middle = static_cast<double>(found.first) + static_cast<double>(from + to - 1) / 2;
    x_mm.push_back(middle * spacing_um * 1e-3);
    low_um.push_back(*low);
    high_um.push_back(*high);
  }
  return {{"x_mm", std::move(x_mm)}, {"low_um", std::move(low_um)}, {"high_um", std::move(high_um)}};
}

}  // namespace

Json run_roughness(const Json& input) {
  Reader reader(input);
  const roughness::Profile profile{.spacing_um = reader.number("spacing_um"), .z_um = reader.numbers("z_um")};
  roughness::Settings settings;
  settings.cutoff_mm = reader.optional_number("cutoff_mm");
  settings.short_cutoff_um = reader.optional_number("short_cutoff_um");
  if (reader.optional_one_of("filter", {"gaussian", "none"}).value_or("gaussian") == "none") {
    settings.filter = roughness::Filter::none;
  }
  settings.discard_ends_mm = reader.optional_number("discard_ends_mm");
  const auto columns = reader.optional_integer("columns", 0, kMostColumns).value_or(0);
  reader.done();
  const Roughness found = roughness::roughness_of(profile, settings);
  const auto& um = found.heights_um;
  return {{"Ra_um", um.ra},
          {"Rq_um", um.rq},
          {"Rp_um", um.rp},
          {"Rv_um", um.rv},
          {"Rt_um", um.rt},
          {"Rz_um", found.rz_um},
          {"Ra_low_um", found.ra_low_um},
          {"Ra_high_um", found.ra_high_um},
          {"Rsk", or_null(um.rsk)},
          {"Rku", or_null(um.rku)},
          {"cutoff_mm", found.cutoff_mm},
          {"cutoff_source", settings.cutoff_mm ? "as given" : std::string(roughness::kCutoffSource)},
          {"sections", found.sections},
          {"evaluated_mm", static_cast<double>(found.evaluated_um.size()) * profile.spacing_um * 1e-3},
          {"drawn", columns_of(found, profile.spacing_um, static_cast<std::size_t>(columns))}};
}

}  // namespace brakewright::calc
