#include <algorithm>
#include <cmath>

#include "core/practice/marking.hpp"

namespace brakewright::practice {
namespace {

constexpr int kWantedPoints = 8;

/// Readings before the decision, by the fine micrometer or another.
struct Taken {
  std::vector<double> fine_deg = {};   ///< near the band's middle
  std::vector<double> point_deg = {};  ///< there, by the point micrometer
  int elsewhere = 0;
  int by_caliper = 0;
  bool zeroed = true;  ///< all of them
  double warmest_c = kRoom_c;
  bool looked = false;  ///< before the first of them
  int in_all = 0;
  int by_thimble = 0;                        ///< and not by the ratchet too
  int bridged = 0;                           ///< flat anvils across a groove
  std::vector<const Done*> misread = {};     ///< and not read rightly too
  std::vector<const Done*> on_a_speck = {};  ///< likewise
};

double angle_of(const Done& done) {
  return std::fmod(std::fmod(std::get<Measure>(done.act).angle_deg, 360) + 360, 360);
}

/// Whether the place of a reading that is odd, or was turned by the thimble, was also read rightly before the cut. A
/// speck lifts all readings until it is wiped off, so its place wants one after it.
bool read_rightly_too(const BenchState& state, const Done& odd) {
  constexpr double kSamePlace_deg = 5, kSamePlace_mm = 5;
  const Done* const from = odd.odd.on_speck ? &odd : state.done.data();
  return std::any_of(from, state.done.data() + state.done.size(), [&](const Done& done) {
    const auto* measure = std::get_if<Measure>(&done.act);
    return measure && measure->ratchet && measure->instrument_id != "caliper_coarse" && done.removed_mm3 == 0 &&
           done.outcome.shown_mm && !done.odd.misread && !done.odd.on_speck &&
           std::abs(measure->radius_mm - std::get<Measure>(odd.act).radius_mm) <= kSamePlace_mm &&
           std::abs(std::remainder(angle_of(done) - angle_of(odd), 360)) <= kSamePlace_deg;
  });
}

void note_oddness(const BenchState& state, const Done& done, Taken& taken) {
  const bool by_thimble = !std::get<Measure>(done.act).ratchet;
  if ((!done.odd.misread && !done.odd.on_speck && !by_thimble) || read_rightly_too(state, done)) return;
  if (done.odd.misread) taken.misread.push_back(&done);
  if (done.odd.on_speck) taken.on_a_speck.push_back(&done);
  taken.by_thimble += by_thimble;
}

/// What the readings themselves were spoilt by.
std::string spoilt_by(const Taken& taken) {
  std::string text;
  if (taken.by_thimble > 0) {
    text += " " + counted(taken.by_thimble, "reading") +
            " by the thimble instead of the ratchet: the force of a hand makes them low and lets them scatter.";
  }
  if (!taken.misread.empty()) {
    text += " The reading at " + in_words(angle_of(*taken.misread.front())) +
            " degrees is half a millimetre from its neighbours, a whole turn of the thimble, and was not read again.";
  }
  if (!taken.on_a_speck.empty()) {
    text += " The reading at " + in_words(angle_of(*taken.on_a_speck.front())) +
            " degrees stands out alone, on a speck: wipe, and read that place again.";
  }
  if (taken.elsewhere > 0) {
    text += " " + counted(taken.elsewhere, "reading") +
            " away from the middle of the band: beside the others, a taper shows in them as thickness that varies.";
  }
  if (taken.bridged > 0) {
    text += " " + counted(taken.bridged, "reading") +
            " across a groove or on the lip: flat anvils bridge it, the point micrometer reads the lowest metal.";
  }
  return text;
}

Taken taken_of(const BenchState& state) {
  const auto& shape = state.truth.make.shape;
  const double near = (shape.band_outer_radius_mm - shape.band_inner_radius_mm) / 4;
  const double middle = band_middle_mm(state.truth.make);
  Taken taken;
  for (const Done& done : state.done) {
    if (done.removed_mm3 > 0) break;
    if (std::holds_alternative<Look>(done.act) && taken.in_all == 0) taken.looked = true;
    const auto* measure = std::get_if<Measure>(&done.act);
    if (!measure || !done.outcome.shown_mm) continue;
    ++taken.in_all;
    taken.bridged += done.odd.bridged;
    const double angle = angle_of(done);
    if (measure->instrument_id == "caliper_coarse") {
      ++taken.by_caliper;
      continue;
    }
    note_oddness(state, done, taken);
    taken.zeroed = taken.zeroed && done.zeroed;
    taken.warmest_c = std::max(taken.warmest_c, done.temperature_c);
    if (std::abs(measure->radius_mm - middle) > near) {
      ++taken.elsewhere;
    } else {
      (measure->instrument_id == "micrometer_fine" ? taken.fine_deg : taken.point_deg).push_back(angle);
    }
  }
  return taken;
}

/// Distinct angles, and the largest gap between them.
std::pair<int, double> spread_of(std::vector<double> angles) {
  std::sort(angles.begin(), angles.end());
  std::vector<double> apart;
  for (double angle : angles) {
    if (apart.empty() || angle - apart.back() > 5) apart.push_back(angle);
  }
  if (apart.empty()) return {0, 360};
  double gap = apart.front() + 360 - apart.back();
  for (std::size_t i = 1; i < apart.size(); ++i) gap = std::max(gap, apart[i] - apart[i - 1]);
  return {static_cast<int>(apart.size()), gap};
}

}  // namespace

MarkedPart mark_measuring(const BenchState& state, const Facts&) {
  constexpr double kWidestGap_deg = 75, kCooled_c = 24;
  MarkedPart part{.code = "measuring", .of = 15};
  const Taken taken = taken_of(state);
  auto [fine, gap] = spread_of(taken.fine_deg);
  const auto [pointed, point_gap] = spread_of(taken.point_deg);
  const bool by_point = pointed > fine;
  if (by_point) gap = point_gap;
  const int count = std::max(fine, pointed);
  double spread = std::min(1.0, static_cast<double>(count) / kWantedPoints);
  if (gap > kWidestGap_deg) spread *= 0.7;
  if (by_point) spread *= 0.7;
  if (taken.by_thimble > 0) spread *= 0.7;
  if (!taken.misread.empty() || !taken.on_a_speck.empty()) spread *= 0.7;
  const bool any = taken.in_all > taken.by_caliper;
  const bool cooled = any && taken.warmest_c <= kCooled_c, zeroed = any && taken.zeroed;
  part.points = part.of * (0.55 * spread + (zeroed ? 0.15 : 0) + (cooled ? 0.15 : 0) + (taken.looked ? 0.15 : 0));
  part.why = counted(count, "angle") + " read near the middle of the band" +
             (by_point ? " with the point micrometer; the flat one repeats better" : " with the fine micrometer") +
             ", the widest gap " + in_words(gap) + " degrees; " + std::to_string(kWantedPoints) +
             " evenly round see what there is.";
  if (taken.by_caliper > 0) part.why += " A caliper that reads to 10 um cannot tell such a variation.";
  if (any && !zeroed) part.why += " The micrometer was not zeroed first.";
  if (any && !cooled) {
    part.why += " The part was read at " + in_words(taken.warmest_c) + " C: wait until it is at the room's 20 C.";
  }
  part.why += spoilt_by(taken);
  if (!taken.looked) part.why += " Look at the part before it is measured.";
  return part;
}

}  // namespace brakewright::practice
