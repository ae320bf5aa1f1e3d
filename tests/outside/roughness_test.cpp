#include "core/roughness/roughness.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "core/roughness/gaussian.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::roughness {
namespace {

using outside::Table;

Profile profile_in(const std::string& file) {
  const Table table(file);
  Profile profile{.spacing_um = 1e3 * (table.number(1, "x_mm") - table.number(0, "x_mm")), .z_um = {}};
  for (std::size_t row = 0; row < table.size(); ++row) profile.z_um.push_back(table.number(row, "z_um"));
  return profile;
}

std::vector<std::pair<std::string, double>> named(const Heights& heights) {
  return {{"Ra", heights.ra}, {"Rq", heights.rq},           {"Rp", heights.rp},          {"Rv", heights.rv},
          {"Rt", heights.rt}, {"Rsk", heights.rsk.value()}, {"Rku", heights.rku.value()}};
}

// ISO 16610-21: alpha, the weight at six distances and the weight beyond three, computed (iso16610_21_constants.csv,
// twelve digits; the last three to six).
TEST(OutsideRoughness, TheGaussianWeightIsThatOfTheStandard) {
  const Table table("iso16610_21_constants.csv");
  const auto of = [&](const std::string& key) { return table.number(table.row_of(key), "value"); };
  EXPECT_NEAR(kAlpha, of("alpha"), 1e-15);
  constexpr double cutoff_mm = 0.8;
  const auto weight = [&](double cutoffs) { return cutoff_mm * gaussian_weight(cutoffs * cutoff_mm, cutoff_mm); };
  EXPECT_NEAR(weight(0), of("weight_peak_times_cutoff"), 1e-11);
  for (const std::string at : {"0.1", "0.25", "0.5", "0.75", "1"}) {
    EXPECT_NEAR(weight(std::stod(at)), of("weight_times_cutoff_at_x=" + at + "*cutoff"), 1e-11) << at;
  }
  for (const std::string at : {"0.5", "0.6", "1"}) {
    double beyond = 0;
    constexpr double step = 1e-4;
    for (double x = std::stod(at) + step / 2; x < 3; x += step) beyond += 2 * step * weight(x);
    EXPECT_NEAR(beyond / of("weight_fraction_outside_+-" + at + "*cutoff"), 1, 5e-6) << at;
  }
}

// ISO 16610-21, the share of a wave's height in the mean line and in the roughness, computed
// (iso16610_21_transmission.csv, twelve digits).
TEST(OutsideRoughness, EachSinePassesTheFilterWithItsShareOfTheStandard) {
  const Table table("iso16610_21_transmission.csv");
  constexpr double cutoff_um = 800, spacing_um = 1;
  constexpr std::size_t middle = 2000;
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double waves = table.number(row, "wavelength_over_cutoff");
    const double line = table.number(row, "waviness_amplitude_ratio");
    EXPECT_NEAR(mean_line_share(waves), line, 1e-11 * line + 1e-40);
    Profile profile{.spacing_um = spacing_um, .z_um = {}};
    for (std::size_t i = 0; i <= 2 * middle; ++i) {
      const double place_um = static_cast<double>(i) - static_cast<double>(middle);
      profile.z_um.push_back(std::cos(2 * std::numbers::pi * place_um / (waves * cutoff_um)));
    }
    const auto found = mean_line(profile.z_um, spacing_um, cutoff_um);
    EXPECT_NEAR(found[middle], line, 1e-9) << waves;
    EXPECT_NEAR(profile.z_um[middle] - found[middle], table.number(row, "roughness_amplitude_ratio"), 1e-9) << waves;
  }
  EXPECT_EQ(table.size(), 22U);
}

// Plain sums over whole periods of a sine, a triangle and feed marks (profile_*_expected.csv, from_file_samples, seven
// to ten digits); continuous_exact is the closed form, which a hundred points to a wave meet within 0.3 %.
TEST(OutsideRoughness, HeightParametersOfKnownShapesAreTheirPlainSumsAndNearlyTheirClosedForms) {
  for (const std::string shape : {"sine", "triangle", "turned_parabola"}) {
    const Profile profile = profile_in("profile_" + shape + ".csv");
    const Table expected("profile_" + shape + "_expected.csv");
    const auto found = roughness_of(profile, {.cutoff_mm = 0.8, .filter = Filter::none});
    EXPECT_EQ(found.evaluated_um.size(), profile.z_um.size());
    for (const auto& [name, value] : named(found.heights_um)) {
      const double sums = expected.number(expected.row_of(name), "from_file_samples");
      EXPECT_NEAR(value, sums, std::max(1e-9, 6e-8 * std::abs(sums))) << shape << " " << name;
      const double exact = expected.number(expected.row_of(name), "continuous_exact");
      EXPECT_NEAR(value, exact, 3e-3 * std::abs(exact) + 1e-9) << shape << " " << name;
    }
    // each section of 0.8 mm holds whole waves: all of the height
    EXPECT_EQ(found.sections, 5) << shape;
    EXPECT_NEAR(found.rz_um, found.heights_um.rt, 1e-9) << shape;
  }
}

// A sum of four sines through the filter, by closed form (profile_filter_mix_mid4mm_expected.csv, eight digits; the
// profile itself is written to 1e-6 um).
TEST(OutsideRoughness, ASumOfSinesThroughTheFilterHasTheParametersOfTheClosedForm) {
  const Profile profile = profile_in("profile_filter_mix.csv");
  const Table expected("profile_filter_mix_mid4mm_expected.csv");
  const auto found = roughness_of(profile, {.cutoff_mm = 0.8, .discard_ends_mm = 4});
  EXPECT_EQ(found.first, 4000U);
  EXPECT_EQ(found.evaluated_um.size(), 4000U);
  for (const auto& [name, value] : named(found.heights_um)) {
    EXPECT_NEAR(value, expected.number(expected.row_of(name), "roughness_profile_4mm_to_8mm"), 1e-6) << name;
  }
}

// profile_filter_mix_expected.csv: what of each of the four sines is left, by closed form; their sum at every point
// that is one and a half cut-offs or more from an end.
TEST(OutsideRoughness, OfEachSineOfASumTheRoughnessAndTheMeanLineKeepTheirShares) {
  const Profile profile = profile_in("profile_filter_mix.csv");
  const Table expected("profile_filter_mix_expected.csv");
  const auto line = mean_line(profile.z_um, profile.spacing_um, 800);
  for (std::size_t i = 1200; i < profile.z_um.size() - 1200; ++i) {
    double rough_um = 0, line_um = 0;
    for (std::size_t row = 0; row < expected.size(); ++row) {
      if (expected.text(row, "kind") != "component") continue;
      const double waves = 1e-3 * static_cast<double>(i) / expected.number(row, "wavelength_mm");
      const double height = std::sin(2 * std::numbers::pi * waves + expected.number(row, "phase_rad"));
      rough_um += height * expected.number(row, "roughness_amplitude_um");
      line_um += height * expected.number(row, "waviness_amplitude_um");
    }
    ASSERT_NEAR(profile.z_um[i] - line[i], rough_um, 1e-6) << i;
    ASSERT_NEAR(line[i], line_um, 1e-7) << i;
  }
}

// ISO 4288:1996, table 1, from memory (iso4288_cutoffs_from_memory.csv): a fine wave whose Ra lies in the middle of a
// range is read with that range's cut-off.
TEST(OutsideRoughness, TheSuggestedCutOffIsThatOfTheTable) {
  const Table table("iso4288_cutoffs_from_memory.csv");
  int ranges = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.text(row, "parameter") != "Ra") continue;
    const double low_um = table.number(row, "greater_than_um"), high_um = table.number(row, "up_to_um");
    const double cutoff_mm = table.number(row, "sampling_length_mm");
    const double length_mm = table.number(row, "evaluation_length_mm") + cutoff_mm;
    Profile profile{.spacing_um = cutoff_mm * 1e3 / 400, .z_um = {}};
    const double amplitude_um = std::sqrt(low_um * high_um) * std::numbers::pi / 2;
    for (double place_um = 0; place_um <= 1e3 * length_mm; place_um += profile.spacing_um) {
      profile.z_um.push_back(amplitude_um * std::sin(2 * std::numbers::pi * place_um / (15 * profile.spacing_um)));
    }
    EXPECT_EQ(suggested_cutoff(profile), cutoff_mm);
    EXPECT_EQ(roughness_of(profile, {}).sections, 5) << cutoff_mm;
    ++ranges;
  }
  EXPECT_EQ(ranges, 5);
}

}  // namespace
}  // namespace brakewright::roughness
