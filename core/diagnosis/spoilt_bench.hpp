#pragma once

#include <array>

#include "core/bench_sim/mount/measure.hpp"
#include "core/bench_sim/mount/mounting.hpp"
#include "core/bench_sim/part/part.hpp"
#include "core/diagnosis/causes.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::diagnosis {

/// A bench, a part and instruments as one cause, or none, has them. Sizes that are drawn: common practice, no source,
/// where `bench_sim` names none.
struct SpoiltBench {
  Cause cause = {};
  double size = 0;
  bench_sim::PartMake make = {};
  bench_sim::PartFaults faults = {};
  bench_sim::MountInput mount = {};
  bool lip_left = false;  ///< the cut stops at the band's outer edge
  // tools
  double nose_radius_mm = 0.8;
  double edge_radius_um = 8;
  double wear_mm = 0;
  double feed_mm_per_rev = 0.08;
  double holder_k_n_per_m = 1e7;
  std::array<double, 2> depth_um{};  ///< outboard, inboard, under the lowest spot of the face
  double slide_um_per_mm = 0;        ///< by which each tool draws back on its way out
  double dial_error_um = 0;          ///< of both dials together
  // what sings
  double waves_per_turn = 80;
  double over_limit = 3;  ///< working width over the limit with no band
  double band_factor = 6;
  // instruments, and what stands beside
  double temperature_rise_k = 0;
  bench_sim::SimMicrometer micrometer = {};
  double first_zero_error_mm = 0;  ///< of the micrometer that read the thickness before the cut
  bench_sim::SimIndicator indicator = {};
  bench_sim::Lean hub = {};  ///< of the car, read at the middle of the band
};

SpoiltBench spoilt_bench(Random& random);

/// Mounts the part in its faults and cuts both faces.
struct CutShape {
  bench_sim::SimPart before = {};
  bench_sim::SimPart after = {};
  bench_sim::Motion first = {};    ///< as it was mounted
  bench_sim::Motion last = {};     ///< at the end of the cut
  std::array<double, 2> tip_um{};  ///< outboard, inboard, at the start
};
CutShape cut_shape(const SpoiltBench& bench);

/// Finish along the radius, flakes left out.
struct CutFinish {
  double ra_um = 0;
  double rt_um = 0;
  double kinematic_ra_um = 0;
};
CutFinish cut_finish(const SpoiltBench& bench);

struct CutSong {
  double marks_per_turn = 0;
  double height_um = 0;
  double swing_um = 0;  ///< of the tool against the disc at the end
};
CutSong cut_song(const SpoiltBench& bench);

}  // namespace brakewright::diagnosis
