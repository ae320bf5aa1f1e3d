#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/cleanup/cleanup.hpp"
#include "core/practice/state.hpp"

/// How a run is marked: against what an expert would have done with the same information.
namespace brakewright::practice {

/// How likely each decision is the right one, given some information.
struct RightChances {
  double leave = 0;
  double cut = 0;
  double replace = 0;
  std::string because = {};  ///< with numbers

  double of(Action action) const;
  Action best() const;
};

/// What can be read on the part, to judge it by.
struct PartInformation {
  std::vector<double> angles_deg = {};  ///< of the thickness, 3 distinct ones at least
  std::vector<double> thickness_mm = {};
  double temperature_c = kRoom_c;
  double resolution_mm = 0.001;
  double u_mm = 0.0015;
  std::vector<double> runout_angles_deg = {};
  std::vector<double> runout_um = {};  ///< of the outboard face
  std::array<double, 2> scoring_um = {};
  /// Read warm and cold, by more than one kind of micrometer or in several traces: nobody can say by which of them it
  /// was judged.
  bool mixed = false;
};

/// By the house's own verdict.
RightChances chances_of(const Bench& bench, const PartInformation& information);

/// The same while a hub's races are pitted: it is neither cut nor put back on them, whatever the iron says. What is
/// sure is that every mounting seats anew; by how much as often as not is told. Common practice, no source.
/// @param with_new_cups  what would be right if its cups were new
RightChances chances_on_pits(const BenchState& state, const RightChances& with_new_cups);

/// All that could have been known before the cut.
PartInformation all_information(const Truth& truth, const bench_sim::SimPart& before);

/// What the student had read when it was decided; nothing where that says less than the bench could easily tell:
/// too few angles, no runout read there, a micrometer not zeroed or turned by its thimble, a reading that is plainly
/// odd, a part that its nut does not hold.
std::optional<PartInformation> own_information(const BenchState& state);

/// What a mark rests on.
struct Facts {
  bench_sim::SimPart before = {};  ///< the part as it came, by part_before
  RightChances of_iron = {};       ///< by all that could be known of the faces, on sound races
  RightChances all = {};           ///< and of the races
  std::optional<RightChances> own = {};
  Cleanup least = {};                     ///< the least cut on a clean, true mount
  double least_final_mm = 0;              ///< what an expert would leave
  bool on_pits = false;                   ///< races were pitted, and new cups did not come in before the cut
  bool cut = false;                       ///< iron was taken off
  bool right_by_all = false;              ///< the decision, by all that could have been known
  bool right = false;                     ///< or by what was read
  bool lucky = false;                     ///< right by all, plainly against all that was read
  Action wanted = Action::leave;          ///< what was to be done: as decided, where that was right
  bool wants_cut = false;                 ///< cutting was right, or was done
  std::size_t cut_mount = 0;              ///< of state.mounts, in which most was cut; the last where none was
  double expert_s = 0;                    ///< an expert's time for the same
  std::int64_t plan_passes = 0;           ///< of it
  std::vector<double> positions_um = {};  ///< runout on the car of the part as it is now, by position
};

Facts facts_of(const BenchState& state);

MarkedPart mark_measuring(const BenchState& state, const Facts& facts);
MarkedPart mark_verdict(const BenchState& state, const Facts& facts);
MarkedPart mark_stack(const BenchState& state, const Facts& facts);
MarkedPart mark_proof(const BenchState& state, const Facts& facts);
MarkedPart mark_metal(const BenchState& state, const Facts& facts);
MarkedPart mark_finish(const BenchState& state, const Facts& facts);
MarkedPart mark_time(const BenchState& state, const Facts& facts);
MarkedPart mark_runout(const BenchState& state, const Facts& facts);

/// Runout that a true mount may add. Common practice, no source.
inline constexpr double kTrueMount_um = 15;

/// Whole face runout that a mount's tilt makes, at the band's middle.
double mount_runout_um(const BenchState& state, const MountingRecord& mount);

/// Share of the worn band that was reached by the cut, of both faces.
double cleaned_share(const BenchState& state, const Facts& facts);

/// Worst of both faces; by radial_finish at the band's middle.
double worst_ra_um(const BenchState& state);

std::vector<std::string> expert_of(const BenchState& state, const Facts& facts);

/// What to practise next: faults that train the weakest part, and one difficulty up or down.
void add_next(const BenchState& state, Mark& mark);

/// "1 reading", "8 readings".
std::string counted(std::int64_t count, const std::string& word);
/// With so many decimals.
std::string in_words(double value, int decimals = 0);
std::string word_of(Action action);

}  // namespace brakewright::practice
