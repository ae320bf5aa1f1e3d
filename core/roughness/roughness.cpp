#include "core/roughness/roughness.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <string>

#include "core/input_error.hpp"
#include "core/roughness/gaussian.hpp"
#include "core/want.hpp"

namespace brakewright::roughness {
namespace {

constexpr double kLeastToCutoff = 20, kLeastToShortCutoff = 4, kLeastRatio = 10;
constexpr double kRounding = 1e-9;
/// Of a spacing: what a length in whole spacings may be off by and still be whole.
constexpr double kWhole = 1e-6;

void check(const Profile& profile) {
  want(profile.spacing_um, 1e-3, 1e4, "spacing_um", "must be more than 0 (0.001 to 10000 um)");
  const auto& z_um = profile.z_um;
  if (z_um.empty()) throw InputError("missing", "z_um", "the heights of the profile are needed");
  if (z_um.size() > kMostPoints) {
    throw InputError("too_many", "z_um", "at most " + std::to_string(kMostPoints) + " heights: cut out one stretch");
  }
  const auto good = [](double height) { return std::abs(height) <= 1e6; };
  const auto bad = std::find_if_not(z_um.begin(), z_um.end(), good);
  if (bad == z_um.end()) return;
  want(*bad, -1e6, 1e6, "z_um[" + std::to_string(bad - z_um.begin()) + "]", "must be within 1000000 um of 0");
}

void check(const Profile& profile, double cutoff_mm, const Settings& settings) {
  want(cutoff_mm, 1e-3, 1e3, "cutoff_mm", "must be more than 0 (0.001 to 1000 mm)");
  const double cutoff_um = 1e3 * cutoff_mm;
  want(profile.spacing_um * kLeastToCutoff <= cutoff_um, "spacing_um",
       "must be at most a twentieth of the cut-off, or the filter has too few points");
  if (const auto short_um = settings.short_cutoff_um) {
    want(settings.filter == Filter::gaussian, "short_cutoff_um", "must be left out where nothing is filtered");
    want(*short_um, profile.spacing_um * kLeastToShortCutoff, cutoff_um / kLeastRatio, "short_cutoff_um",
         "must be from four spacings to a tenth of the cut-off");
  }
  if (settings.discard_ends_mm) {
    want(*settings.discard_ends_mm, 0, 1e6, "discard_ends_mm", "must be 0 or more (mm)");
  }
}

/// A stretch of points.
struct Stretch {
  std::size_t first = 0, count = 0;
};

/// The first point that lies at a place or beyond it.
std::size_t point_at(double place_um, double spacing_um) {
  return static_cast<std::size_t>(std::ceil(std::max(0.0, place_um / spacing_um - kWhole)));
}

/// Without the ends, and without a last point that only closes a whole number of cut-offs.
Stretch between_ends(const Profile& profile, double cutoff_um, double discard_um) {
  const std::size_t count = profile.z_um.size(), of_cutoff = point_at(cutoff_um, profile.spacing_um);
  if (count < of_cutoff) throw InputError("too_short", "z_um", "the profile must be one cut-off long at least");
  Stretch left{.first = point_at(discard_um, profile.spacing_um), .count = 0};
  if (2 * left.first + of_cutoff > count) {
    throw InputError("too_short", "discard_ends_mm", "must leave one cut-off at least between the ends");
  }
  left.count = count - 2 * left.first;
  const double steps_um = static_cast<double>(left.count - 1) * profile.spacing_um;
  const double whole = std::round(steps_um / cutoff_um);
  if (whole >= 1 && std::abs(steps_um - whole * cutoff_um) <= kWhole * profile.spacing_um) --left.count;
  return left;
}

void take_out_mean(std::vector<double>& heights) {
  const double first = heights.front();
  double mean = 0;
  for (const double height : heights) mean += (height - first) / static_cast<double>(heights.size());
  for (double& height : heights) height = (height - first) - mean;
}

void read_sections(Roughness& found, double spacing_um) {
  const double cutoff_um = 1e3 * found.cutoff_mm;
  const std::span<const double> evaluated(found.evaluated_um);
  const auto place = [&](int section) { return point_at(section * cutoff_um, spacing_um); };
  while (place(found.sections + 1) <= evaluated.size()) {
    const std::size_t from = place(found.sections), to = place(found.sections + 1);
    const auto section = evaluated.subspan(from, to - from);
    const auto [low, high] = std::minmax_element(section.begin(), section.end());
    found.rz_um += *high - *low;
    double ra_um = 0;
    for (const double height : section) ra_um += std::abs(height) / static_cast<double>(section.size());
    found.ra_low_um = found.sections == 0 ? ra_um : std::min(found.ra_low_um, ra_um);
    found.ra_high_um = std::max(found.ra_high_um, ra_um);
    ++found.sections;
  }
  if (found.sections > 0) found.rz_um /= found.sections;
}

Roughness read(const Profile& profile, double cutoff_mm, const Settings& settings) {
  check(profile, cutoff_mm, settings);
  const bool filtered = settings.filter == Filter::gaussian;
  const double cutoff_um = 1e3 * cutoff_mm;
  const double discard_um = settings.discard_ends_mm ? 1e3 * *settings.discard_ends_mm : filtered ? cutoff_um / 2 : 0;
  const Stretch stretch = between_ends(profile, cutoff_um, discard_um);
  Roughness found;
  found.cutoff_mm = cutoff_mm;
  found.first = stretch.first;
  std::vector<double> z_um = profile.z_um;
  if (settings.short_cutoff_um) z_um = mean_line(z_um, profile.spacing_um, *settings.short_cutoff_um);
  found.mean_line_um = filtered ? mean_line(z_um, profile.spacing_um, cutoff_um) : std::vector<double>(z_um.size(), 0);
  for (std::size_t i = stretch.first; i < stretch.first + stretch.count; ++i) {
    found.evaluated_um.push_back(z_um[i] - found.mean_line_um[i]);
  }
  take_out_mean(found.evaluated_um);
  const auto [low, high] = std::minmax_element(profile.z_um.begin(), profile.z_um.end());
  const double rounding_um = kRounding * (*high - *low);
  const auto rounding = [rounding_um](double um) { return std::abs(um) <= rounding_um; };
  if (std::all_of(found.evaluated_um.begin(), found.evaluated_um.end(), rounding)) {
    std::fill(found.evaluated_um.begin(), found.evaluated_um.end(), 0.0);
  }
  found.heights_um = heights_of(found.evaluated_um);
  read_sections(found, profile.spacing_um);
  return found;
}

struct CutoffRange {
  double cutoff_mm, ra_over_um, ra_to_um;
};
constexpr CutoffRange kRanges[] = {{0.08, 0.006, 0.02}, {0.25, 0.02, 0.1}, {0.8, 0.1, 2}, {2.5, 2, 10}, {8, 10, 80}};
constexpr std::size_t kUsual = 2;

bool fits(const Profile& profile, const CutoffRange& range) {
  const double cutoff_um = 1e3 * range.cutoff_mm, spacing_um = profile.spacing_um;
  if (kLeastToCutoff * spacing_um > cutoff_um) return false;
  // half a cut-off at each end, and one between
  return 2 * point_at(cutoff_um / 2, spacing_um) + point_at(cutoff_um, spacing_um) <= profile.z_um.size();
}

}  // namespace

Roughness roughness_of(const Profile& profile, const Settings& settings) {
  check(profile);
  return read(profile, settings.cutoff_mm ? *settings.cutoff_mm : suggested_cutoff(profile), settings);
}

double suggested_cutoff(const Profile& profile) {
  check(profile);
  const auto ra_um = [&](double cutoff_mm) { return read(profile, cutoff_mm, {}).heights_um.ra; };
  const CutoffRange* longest = nullptr;
  const CutoffRange* usual = nullptr;
  for (const CutoffRange& range : kRanges) {
    if (!fits(profile, range)) continue;
    const double read_um = ra_um(range.cutoff_mm);
    if (read_um > range.ra_over_um && read_um <= range.ra_to_um) return range.cutoff_mm;
    longest = &range;
    if (&range <= &kRanges[kUsual]) usual = &range;
  }
  if (longest == nullptr) {
    const bool coarse = kLeastToCutoff * profile.spacing_um > 1e3 * std::rbegin(kRanges)->cutoff_mm;
    if (coarse) throw InputError("out_of_range", "spacing_um", "must be at most 400 um, a twentieth of a cut-off");
    throw InputError("too_short", "z_um",
                     "the profile must be twice as long as the shortest cut-off (0.08, 0.25, 0.8, 2.5 or 8 mm) that "
                     "twenty of its points fit into");
  }
  if (usual == nullptr) usual = longest;
  const double read_um = ra_um(usual->cutoff_mm);
  const CutoffRange* chosen = usual;
  for (const CutoffRange& range : kRanges) {
    if (fits(profile, range) && read_um > range.ra_over_um) chosen = &range;
  }
  return chosen->cutoff_mm;
}

}  // namespace brakewright::roughness
