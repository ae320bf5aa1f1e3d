#include "core/verdict/drum_study.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/uncertainty/conformity.hpp"
#include "core/verdict/uncut_limits.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kLobes = 3;
constexpr float kLobedShare = 0.5F;

/// Cosines and sines of the odd orders at the half turn of angles that a grid of doubled angles stands for.
struct OddWaves {
  std::array<std::array<float, kDrawnOrders>, kGrid> cosine{}, sine{};
};

OddWaves odd_waves() {
  OddWaves waves;
  for (std::size_t i = 0; i < kGrid; ++i) {
    const double angle = std::numbers::pi * static_cast<double>(i) / kGrid;
    for (std::size_t k = 1; k <= kDrawnOrders; k += 2) {
      waves.cosine[i][k - 1] = static_cast<float>(std::cos(static_cast<double>(k) * angle));
      waves.sine[i][k - 1] = static_cast<float>(std::sin(static_cast<double>(k) * angle));
    }
  }
  return waves;
}

/// The trace's odd orders, with room for those that are added.
CurveBlock odd_part(const CurveBlock& trace) {
  CurveBlock odd;
  odd.level = Lanes::all(0);
  odd.orders = std::max(trace.orders, kLobes);
  for (std::size_t k = 0; k < odd.orders; ++k) {
    const bool kept = k % 2 == 0 && k < trace.orders;
    odd.cosine[k] = kept ? trace.cosine[k] : Lanes::all(0);
    odd.sine[k] = kept ? trace.sine[k] : Lanes::all(0);
  }
  return odd;
}

/// Lobes that nobody read: as large as half of the two-lobed share of the radius.
void add_lobes(const CurveBlock& diameter, Random& random, CurveBlock& odd) {
  if (diameter.orders == 0) return;
  std::array<float, kLanes> cosine, sine;
  for (std::size_t l = 0; l < kLanes; ++l) {
    const float two_lobed = 0.5F * std::hypot(diameter.cosine[0].array()[l], diameter.sine[0].array()[l]);
    const float sd = kLobedShare * two_lobed / std::numbers::sqrt2_v<float>;
    cosine[l] = sd * static_cast<float>(random.normal());
    sine[l] = sd * static_cast<float>(random.normal());
  }
  odd.cosine[kLobes - 1] += Lanes::from(cosine);
  odd.sine[kLobes - 1] += Lanes::from(sine);
}

/// Ends of the radius over all depths: -t/2 with the odd share added in one half of the turn and taken off in the
/// other.
Extremes radius_ends(const std::vector<CurveGrid>& grids, const CurveBlock& odd) {
  static const OddWaves waves = odd_waves();
  Extremes ends{};
  const std::size_t step = kGrid / grids[0].count;
  for (std::size_t i = 0; i < grids[0].count; ++i) {
    Lanes share = Lanes::all(0);
    for (std::size_t k = 0; k < odd.orders; k += 2) {
      share += waves.cosine[i * step][k] * odd.cosine[k] + waves.sine[i * step][k] * odd.sine[k];
    }
    const Lanes size = larger(share, -1.0F * share);
    Lanes high = -0.5F * grids[0].values[i], low = high;
    for (const CurveGrid& grid : grids) {
      high = larger(high, -0.5F * grid.values[i]);
      low = smaller(low, -0.5F * grid.values[i]);
    }
    ends.highest = i == 0 ? high + size : larger(ends.highest, high + size);
    ends.lowest = i == 0 ? low - size : smaller(ends.lowest, low - size);
  }
  return ends;
}

}  // namespace

Taper taper_of(const Thickness& mirrored, const PartReadings& part, double confidence) {
  double most = mirrored.circles[0].mean_mm, least = most;
  for (const CircleOfThickness& circle : mirrored.circles) {
    most = std::max(most, circle.mean_mm);
    least = std::min(least, circle.mean_mm);
  }
  Taper taper{.mm = most - least, .p_within = {}};
  if (!part.limits.taper || mirrored.circles.size() < 2) return taper;
  const double spots = static_cast<double>(part.readings.size()) / static_cast<double>(mirrored.circles.size());
  const double one = std::hypot(part.micrometer.repeatability_mm, part.micrometer.resolution_mm / std::sqrt(12.0));
  const double limit = part.limits.taper->value_mm;
  taper.p_within =
      judge_conformity(taper.mm, one * std::sqrt(2 / spots), {.lower = -limit, .upper = limit}, confidence).p_conform;
  return taper;
}

GatheredDraws gather_drum(const VerdictInput& input, const PartReadings& part, std::size_t index,
                          ThicknessStudy& thickness, PartStudy& study) {
  GatheredDraws gathered;
  const auto trace = part.arbor_runout
                         ? face_study_of(input, *part.arbor_runout, {}, stream_of(index, Purpose::cleanup_face),
                                         "arbor_runout", "inside")
                         : nullptr;
  Random random(input.seed, stream_of(index, Purpose::lobes));
  CutDraws cut = cut_draws(input, part, index);
  const UncutLimits limits = uncut_limits(part, thickness.centre_mm());
  std::vector<CurveGrid> grids;
  std::vector<Extremes> ends;
  for (std::size_t b = 0; b < thickness.blocks(); ++b) {
    const auto depths = thickness.next();
    std::size_t orders = 0;
    for (const CurveBlock& depth : depths) orders = std::max(orders, depth.orders);
    grids.clear();
    ends.clear();
    for (const CurveBlock& depth : depths) {
      grids.push_back(on_grid(depth, orders));
      ends.push_back(extremes(grids.back()));
    }
    CurveBlock odd = odd_part(trace ? trace->next() : CurveBlock{});
    if (!trace) add_lobes(depths[0], random, odd);
    cut.mount(odd);
    thickness.take(ends);
    note_as_it_is(ends, thickness.common_um(), limits, study.as_it_is_holds);
    append(gathered.final_um, -2.0F * cut.next_bore(radius_ends(grids, odd)) + thickness.common_um());
    append(gathered.lowest_um, lowest_of(ends) + thickness.common_um());
  }
  return gathered;
}

void put_drum_figures(const VerdictInput& input, const PartReadings& part, PartVerdict& verdict) {
  const Taper taper = taper_of(verdict.thickness, part, input.confidence);
  verdict.taper_mm = taper.mm;
  verdict.p_taper_within = taper.p_within;
  const Thickness& thickness = verdict.thickness;
  double high = (part.mirror_mm - thickness.min_mm) / 2, low = (part.mirror_mm - thickness.max_mm) / 2;
  if (part.arbor_runout) {
    const auto& values = part.arbor_runout->outboard.values_um;
    double mean = 0;
    for (const double value : values) mean += value / static_cast<double>(values.size());
    const double middle = (part.mirror_mm - thickness.mean_mm) / 2;
    high = std::max(high, middle + (*std::max_element(values.begin(), values.end()) - mean) / 1000);
    low = std::min(low, middle + (*std::min_element(values.begin(), values.end()) - mean) / 1000);
  }
  Cleanup& cut = verdict.cleanup;
  cut.outboard_cut_um = (high - low) * 1000 + part.scoring.outboard_um + input.margin_um;
  cut.outboard_marks = marks_for(cut.outboard_cut_um, input.lathe.dial_um_per_mark);
  cut.final_mm = part.mirror_mm - 2 * (low + cut.outboard_cut_um / 1000);
  const double travel = static_cast<double>(cut.outboard_marks) * input.lathe.dial_um_per_mark / 1000;
  cut.final_whole_marks_mm = part.mirror_mm - 2 * (low + travel);
  cut.removed_mean_outboard_um = (thickness.mean_mm - cut.final_mm) * 500;
  cut.start_min_mm = thickness.min_mm;
  if (verdict.machine_to) cut.over_machine_to_mm = cut.final_whole_marks_mm - verdict.machine_to->value_mm;
  if (part.limits.discard) cut.over_discard_mm = cut.final_whole_marks_mm - part.limits.discard->value_mm;
}

}  // namespace brakewright
