#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/refit/refit.hpp"
#include "core/separation/separation.hpp"
#include "shop/assess.hpp"

/// From what was read on the car to how a part goes back on its hub: where records become input of core/separation and
/// core/refit.
namespace brakewright::shop {

/// On what an advice rests, the best first.
enum class RefitEvidence {
  positions,      ///< the part as it is now, read on its hub in two positions or more
  hub_and_part,   ///< the part as it is now in one position, and the hub: bare, or told apart before the cut
  hub_and_bench,  ///< the hub, and the part on the arbor after its cut; or the latter and one position
  part_alone,     ///< one position: whose runout it is cannot be told
  bench_alone,
  hub_alone,
  nothing
};

/// Readings of one turn with the part in one position, or of the bare hub. Angles count from the hub's chalk mark
/// (stud 0); in position 0 the part's index mark lies there.
struct CarTrace {
  std::optional<std::int64_t> turned = {};  ///< by how many studs the part was turned; nothing for the bare hub
  Stage stage = Stage::on_car;
  std::vector<double> angles_deg = {};
  std::vector<double> values_um = {};
  double runout_um = 0;
};

/// The part on one set of studs, with one plate or none.
struct RefitFitting {
  std::int64_t position = 0;
  double turn_deg = 0;
  double runout_um = 0;  ///< likely (median), peak to valley, at the indicator's circle
  double low95_um = 0;
  double high95_um = 0;
  std::optional<double> p_within = {};
  std::optional<Standing> standing = {};
  double high_deg = 0;
  std::optional<Uuid> plate_id = {};
  std::string plate_name = {};
  std::optional<std::int64_t> plate_position = {};
  bool read = false;  ///< the part, as it is now, was read in this position
};

struct RefitChoice {
  RefitFitting best = {};
  RefitFitting best_without_plate = {};
  std::vector<RefitFitting> all = {};  ///< each position without a plate, then each plate at its best
  /// Where one position was read and nothing tells hub and part apart: that position. Best is sought in it alone.
  std::optional<std::int64_t> known_position = {};
};

struct RefitAdvice {
  Uuid part_id = {};
  std::vector<std::string> missing = {};  ///< "part.studs", "part.outer_diameter", "part.hub_reading_diameter",
                                          ///< "part.limits.runout"
  RefitEvidence evidence = RefitEvidence::nothing;
  Stage stage = Stage::on_car;  ///< whose readings of the part on the car count
  std::vector<CarTrace> traces = {};
  std::optional<double> bearing_play_um = {};
  std::optional<double> radius_mm = {};  ///< of the indicator's circle
  std::optional<double> noise_um = {};   ///< standard deviation of one reading; absent without any
  std::optional<LengthLimit> limit = {};
  std::optional<Separation> separation = {};  ///< with two positions or more
  std::optional<RefitChoice> refit = {};
  std::vector<Advice> advice = {};  ///< cautions first
  std::vector<Advice> next = {};    ///< what to measure next, the cheapest that would settle it first
};

/// In a sentence.
const char* text_of(RefitEvidence evidence);

/// Only current readings count, and of the part on the car those since it last changed: a cut, or once it is back on
/// the car. What was read on the car before a cut then tells the hub alone. A bench trace counts with the wobble that
/// the arbor usually adds. A trace of fewer than three angles counts for nothing.
/// @param plates  tapered plates of the shop; those out of use or for other numbers of studs are passed over
/// Pure: the same file gives the same answer everywhere. Figures that the core refuses leave `refit` absent, and the
/// refusal stands in `advice`.
RefitAdvice advise_refit(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates,
                         const AssessContext& context);

}  // namespace brakewright::shop
