#include "core/chatter/lobes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "core/chatter/check.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/budget.hpp"
#include "core/want.hpp"

namespace brakewright::chatter {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;
constexpr std::size_t kMostSpeeds = 10000;
constexpr int kMostHalvings = 100;

double depth_mm(double re_m_per_n, double kf_n_per_m2) { return -kMmPerM / (2 * kf_n_per_m2 * re_m_per_n); }

/// Where a function that goes one way between two frequencies takes a value that lies between.
template <class Function>
double frequency_of(const Function& function, double value, double from_hz, double to_hz) {
  const bool grows = function(to_hz) > function(from_hz);
  for (int i = 0; i < kMostHalvings && from_hz != to_hz; ++i) {
    const double middle = (from_hz + to_hz) / 2;
    if (middle == from_hz || middle == to_hz) break;
    ((function(middle) < value) == grows ? from_hz : to_hz) = middle;
  }
  return (from_hz + to_hz) / 2;
}

/// All modes at one speed: the phase by which the waves of this turn and those of the one before must fit.
class AtSpeed {
 public:
  AtSpeed(std::span<const Mode> modes, double kf_n_per_m2, double rpm)
      : modes_(modes), kf_(kf_n_per_m2), turn_s_(60 / rpm) {}

  /// Takes the least limit that lies in a band, if that is less than the one found so far.
  void search(const ChatterBand& band, std::optional<Limit>& best) const {
    if (best && depth_mm(band.least_re_m_per_n, kf_) >= best->depth_mm) return;
    const double soft = band.soft_hz, stiff = band.stiff_hz;
    if ((phase_slope(soft) > 0) == (phase_slope(stiff) > 0)) {
      search_one_way(soft, soft, stiff, best);
      return;
    }
    const bool above = phase_slope(soft) > 0;
    double near = soft, far = stiff;
    for (int i = 0; i < kMostHalvings; ++i) {
      const double middle = (near + far) / 2;
      ((phase_slope(middle) > 0) == above ? near : far) = middle;
    }
    search_one_way(soft, soft, near, best);
    search_one_way(soft, near, stiff, best);
  }

 private:
  /// 0 at the ends of whole waves. Measured from a frequency in the same band, so that it has no jumps.
  double phase(double hz, double from_hz) const {
    const auto there = flexibility_m_per_n(modes_, from_hz);
    const double turned = std::arg(flexibility_m_per_n(modes_, hz) / there) + std::arg(there);
    return kTurn * hz * turn_s_ - 3 * std::numbers::pi - 2 * turned;
  }

  double phase_slope(double hz) const {
    return kTurn * turn_s_ - 2 * (flexibility_slope(modes_, hz) / flexibility_m_per_n(modes_, hz)).imag();
  }

  void search_one_way(double from_hz, double soft_hz, double stiff_hz, std::optional<Limit>& best) const {
    const auto at = [&](double hz) { return phase(hz, from_hz); };
    const double soft = at(soft_hz) / kTurn, stiff = at(stiff_hz) / kTurn;
    const double whole = stiff > soft ? std::ceil(soft) : std::floor(soft);
    if ((stiff > soft && whole > stiff) || (stiff <= soft && whole < stiff)) return;
    const double hz = frequency_of(at, kTurn * whole, soft_hz, stiff_hz);
    const double re = flexibility_m_per_n(modes_, hz).real();
    if (!(re < 0)) return;
    const double depth = depth_mm(re, kf_);
    if (best && depth >= best->depth_mm) return;
    best = Limit{.depth_mm = depth, .chatter_hz = hz, .whole_waves = std::floor(hz * turn_s_)};
  }

  std::span<const Mode> modes_;
  double kf_, turn_s_;
};

}  // namespace

Limit limit_of_one_mode(const Mode& mode, double kf_n_per_m2, double rpm) {
  check(mode, "");
  if (!(mode.weight > 0)) throw InputError("out_of_range", "weight", "must be more than 0 for one mode");
  check_force(kf_n_per_m2, "kf_n_per_m2");
  check_speed(rpm, "rpm");
  const std::span<const Mode> modes(&mode, 1);
  const double turn_s = 60 / rpm;
  // 1 - r^2 + 2 i zeta r lies at pi - lag from the positive axis, so that e = pi + 2 lag
  const auto waves = [&](double hz) {
    const double r = hz / mode.fn_hz, lag = std::atan2(2 * mode.zeta * r, (r - 1) * (r + 1));
    return hz * turn_s - 0.5 - lag / std::numbers::pi;
  };
  const double softest_hz = mode.fn_hz * std::sqrt(1 + 2 * mode.zeta);
  const double below = std::floor(waves(softest_hz));
  std::optional<Limit> best;
  const auto take = [&](double whole, double from_hz, double to_hz) {
    const double hz = frequency_of(waves, whole, from_hz, to_hz);
    const double re = flexibility_m_per_n(modes, hz).real();
    if (!(re < 0)) return;
    const Limit limit{.depth_mm = depth_mm(re, kf_n_per_m2), .chatter_hz = hz, .whole_waves = whole};
    if (!best || limit.depth_mm < best->depth_mm) best = limit;
  };
  if (below >= 0 && waves(mode.fn_hz) < below) take(below, mode.fn_hz, softest_hz);
  const double above = std::max(0.0, below + 1);
  take(above, softest_hz, std::max(softest_hz, (above + 1) / turn_s));
  return best.value();
}

Limit absolute_limit(std::span<const Mode> modes, double kf_n_per_m2) {
  check_force(kf_n_per_m2, "kf_n_per_m2");
  const ChatterBand softest = chatter_bands(modes).front();
  return {.depth_mm = depth_mm(softest.least_re_m_per_n, kf_n_per_m2), .chatter_hz = softest.soft_hz, .whole_waves = 0};
}

std::vector<std::optional<Limit>> limits(std::span<const Mode> modes, double kf_n_per_m2, std::span<const double> rpm) {
  check_force(kf_n_per_m2, "kf_n_per_m2");
  if (rpm.empty() || rpm.size() > kMostSpeeds) throw InputError("out_of_range", "rpm", "from one to 10000 speeds");
  for (std::size_t i = 0; i < rpm.size(); ++i) check_speed(rpm[i], "rpm[" + std::to_string(i) + "]");
  const auto bands = chatter_bands(modes);
  double top_hz = 0;
  for (const ChatterBand& band : bands) top_hz = std::max({top_hz, band.soft_hz, band.stiff_hz});
  std::vector<std::optional<Limit>> found;
  for (const double speed : rpm) {
    const AtSpeed at(modes, kf_n_per_m2, speed);
    std::optional<Limit> best;
    for (const ChatterBand& band : bands) at.search(band, best);
    const double re_at_top = flexibility_m_per_n(modes, top_hz).real();
    // beyond the scanned bands the deflection only falls: the last lobe, of less than one wave a turn, ends by rpm/60
    if (re_at_top < 0 && speed / 60 > top_hz) at.search({top_hz, 2 * speed / 60, re_at_top}, best);
    found.push_back(best);
  }
  return found;
}

double relative_u_of_absolute_limit(std::span<const Mode> modes, double kf_n_per_m2, const RelativeU& u) {
  want(u.k, 0, 2, "u_relative.k", "must be from 0 to 2");
  want(u.zeta, 0, 2, "u_relative.zeta", "must be from 0 to 2");
  want(u.kf, 0, 2, "u_relative.kf", "must be from 0 to 2");
  const double limit = absolute_limit(modes, kf_n_per_m2).depth_mm;
  constexpr double kStep = 1e-4;
  const bool room_above = std::all_of(modes.begin(), modes.end(), [](const Mode& mode) { return mode.zeta < 0.9; });
  std::vector<Mode> shifted(modes.begin(), modes.end());
  for (Mode& mode : shifted) mode.zeta *= room_above ? 1 + kStep : 1 - kStep;
  const double change = absolute_limit(shifted, kf_n_per_m2).depth_mm / limit - 1;
  const double per_zeta = change / (room_above ? kStep : -kStep);
  return std::hypot(u.k, u.kf, per_zeta * u.zeta);
}

Band95 band_of_absolute_limit(std::span<const Mode> modes, double kf_n_per_m2, const RelativeU& u) {
  const double u_log = relative_u_of_absolute_limit(modes, kf_n_per_m2, u);
  const double limit = absolute_limit(modes, kf_n_per_m2).depth_mm;
  const double ends = std::exp(coverage_factor(std::nullopt, 0.95) * u_log);
  return {.low_mm = limit / ends, .high_mm = limit * ends};
}

}  // namespace brakewright::chatter
