#include "core/chatter/outlook.hpp"

#include <algorithm>
#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <numbers>
#include <string>

#include "core/chatter/twin_limit.hpp"
#include "core/cutting/force.hpp"
#include "core/want.hpp"

namespace brakewright::chatter {
namespace {

constexpr double kThrustShare = 0.5;
constexpr double kCountedDepth_mm = 0.1;
constexpr double kSwingingShare = 0.2;
constexpr double kIron_kg_per_m3 = 7200;
constexpr double kMostZeta = 0.9;
constexpr std::size_t kMostDepths = 10000;

constexpr double kUForce = 0.3;
constexpr double kUStiffnessBySize = 0.4, kUStiffnessByTone = 0.25;
constexpr double kUDamping = 0.5, kUDampingHeard = 0.3;
constexpr double kUBand = 0.4, kUBandHeard = 0.2;

void check_ring(const RingTone& ring) {
  want(ring.hz, 1, 1e5, "ring.hz", "must be from 1 to 100000 Hz");
  want(ring.zeta, 1e-6, 0.99, "ring.zeta", "must be from 1e-6 to 0.99");
  want(ring.u_zeta, 0, 1, "ring.u_zeta", "must be from 0 to 1");
  want(ring.band_factor, 1, 1000, "ring.band_factor", "must be from 1 to 1000");
}

void check_outlook(const OutlookInput& input) {
  want(input.outer_radius_mm, 1, 1000, "outer_radius_mm", "must be from 1 to 1000 mm");
  want(input.inner_radius_mm, 1, 1000, "inner_radius_mm", "must be from 1 to 1000 mm");
  want(input.inner_radius_mm < input.outer_radius_mm, "inner_radius_mm", "must be less than the outer radius");
  want(input.thickness_mm, 0.1, 1000, "thickness_mm", "must be from 0.1 to 1000 mm");
  check_ring(input.ring);
  check(input.holder, "holder.");
  want(input.holder.weight > 0, "holder.weight", "must be more than 0");
  want(input.nose_radius_mm, 1e-3, 100, "nose_radius_mm", "must be from 0.001 to 100 mm");
  want(input.confidence, 0.5, 0.9999, "confidence", "must be from 0.5 to 0.9999");
  want(input.depths_mm.size() <= kMostDepths, "depths_mm", "10000 depths at most");
  for (std::size_t i = 0; i < input.depths_mm.size(); ++i) {
    want(input.depths_mm[i], 0, 1e4, "depths_mm[" + std::to_string(i) + "]", "must be from 0 to 10000 mm");
  }
}

double bare_zeta(const RingTone& ring) { return ring.heard_with_band ? ring.zeta / ring.band_factor : ring.zeta; }

/// Of the disc's damping in the cut: what is known of the band counts where it was not on at the tap as in the cut.
double u_of_damping(const RingTone& ring, bool banded) {
  const double band = ring.band_heard ? kUBandHeard : kUBand;
  const bool tapped = ring.by == RingKnownBy::tap;
  const double told = tapped ? std::hypot(ring.u_zeta / ring.zeta, kUDampingHeard) : kUDamping;
  return banded == ring.heard_with_band ? told : std::hypot(told, band);
}

double disc_stiffness(const OutlookInput& input) {
  const double area_mm2 = std::numbers::pi * (input.outer_radius_mm + input.inner_radius_mm) *
                          (input.outer_radius_mm - input.inner_radius_mm);
  const double ring_kg = kIron_kg_per_m3 * area_mm2 * input.thickness_mm / std::pow(kMmPerM, 3);
  return kSwingingShare * ring_kg * std::pow(2 * std::numbers::pi * input.ring.hz, 2);
}

/// The change of the thrust with the chip's thickness all along the round edge, the part that points into the disc.
double force_stiffness(const cutting::NoseCut& cut) {
  const auto force = cutting::nose_force(cut);
  const double chip_m = force.chip_area_mm2 / force.contact_mm / kMmPerM;
  const double into_disc_n = force.force_n * force.mean_cos * force.mean_cos;
  return kThrustShare * (1 - cut.mc) * into_disc_n / chip_m / (cut.depth_mm / kMmPerM);
}

/// One way to sing, and how well its limit is known.
struct Way {
  BandedLimit limit;
  double u = 0;  ///< relative
};

Way way_of(std::span<const Mode> modes, double kf, const RelativeU& u) {
  const Band95 band = band_of_absolute_limit(modes, kf, u);
  return {.limit = {.mm = absolute_limit(modes, kf).depth_mm, .band = band},
          .u = relative_u_of_absolute_limit(modes, kf, u)};
}

double chance_over(double depth_mm, const Way& way) {
  if (depth_mm <= 0) return 0;
  return cdf(boost::math::normal(), std::log(depth_mm / way.limit.mm) / way.u);
}

/// The depth that sings with this chance by one of the ways.
double depth_with_chance(double p, const std::array<Way, 2>& ways) {
  const double z = quantile(boost::math::normal(), p);
  const auto at = [z](const Way& way) { return way.limit.mm * std::exp(z * way.u); };
  return std::min(at(ways[0]), at(ways[1]));
}

bool is_nearer(double hz, double to_hz, double than_hz) {
  return std::abs(std::log(hz / to_hz)) < std::abs(std::log(hz / than_hz));
}

std::optional<double> lesser(const std::optional<Limit>& a, const std::optional<Limit>& b) {
  if (!a && !b) return std::nullopt;
  if (!a || !b) return (a ? a : b)->depth_mm;
  return std::min(a->depth_mm, b->depth_mm);
}

/// The least of both ways; both share the force's error, so that their bands move together.
BandedLimit least_of(double mm, const BandedLimit& a, const BandedLimit& b) {
  return {
      .mm = mm,
      .band = {.low_mm = std::min(a.band.low_mm, b.band.low_mm), .high_mm = std::min(a.band.high_mm, b.band.high_mm)}};
}

}  // namespace

Outlook outlook_of(const OutlookInput& input) {
  check_outlook(input);
  Outlook found{.counted_depth_mm = std::min(kCountedDepth_mm, input.nose_radius_mm)};
  found.kf_n_per_m2 = force_stiffness({.depth_mm = found.counted_depth_mm,
                                       .feed_mm_per_rev = input.feed_mm_per_rev,
                                       .nose_radius_mm = input.nose_radius_mm});
  found.k_disc_n_per_m = disc_stiffness(input);
  const double kf = found.kf_n_per_m2, bare = bare_zeta(input.ring);
  const auto twin = [&](double zeta) {
    return TwinCut{.tool = input.holder,
                   .disc = {.k_n_per_m = found.k_disc_n_per_m, .zeta = zeta, .fn_hz = input.ring.hz},
                   .kf_n_per_m2 = kf};
  };
  const TwinCut without = twin(bare), with_band = twin(std::min(kMostZeta, bare * input.ring.band_factor));
  const TwinCut& cut = input.banded ? with_band : without;
  const TwinLimit here = twin_limit(cut);
  found.disc_governs = here.disc_governs;
  found.sings_hz = here.least().chatter_hz;
  found.bare_mm = twin_limit(without).least().depth_mm;
  found.banded_mm = twin_limit(with_band).least().depth_mm;
  found.single_side_mm = here.single_side.depth_mm;
  found.single_by_disc = is_nearer(here.single_side.chatter_hz, here.disc_mode.chatter_hz, here.tools_only.chatter_hz);

  const auto opposed = opposed_modes(cut);
  const std::array<Mode, 1> holders{input.holder};
  const double u_disc = input.ring.by == RingKnownBy::size ? kUStiffnessBySize : kUStiffnessByTone;
  const std::array<Way, 2> ways{
      way_of(opposed, kf, {.k = u_disc, .zeta = u_of_damping(input.ring, input.banded), .kf = kUForce}),
      way_of(holders, kf, {.k = kUStiffnessByTone, .zeta = kUDamping, .kf = kUForce})};
  found.disc = ways[0].limit;
  found.tools = ways[1].limit;
  found.least = least_of(here.least().depth_mm, found.disc, found.tools);
  found.quiet_mm = depth_with_chance(1 - input.confidence, ways);
  found.sings_mm = depth_with_chance(input.confidence, ways);
  for (const double depth_mm : input.depths_mm) {
    found.p_sings.push_back(std::max(chance_over(depth_mm, ways[0]), chance_over(depth_mm, ways[1])));
  }
  const auto with_disc = limits(opposed, kf, input.rpm), alone = limits(holders, kf, input.rpm);
  for (std::size_t i = 0; i < input.rpm.size(); ++i) found.limit_mm.push_back(lesser(with_disc[i], alone[i]));
  return found;
}

}  // namespace brakewright::chatter
