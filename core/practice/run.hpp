#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/practice/act.hpp"
#include "core/practice/exercise.hpp"

namespace brakewright::practice {

/// What an act gave back. Only what a student would see, hear or read.
struct Outcome {
  double took_s = 0;                    ///< of the bench's own time
  std::optional<double> shown_mm = {};  ///< Measure
  std::vector<double> angles_deg = {};  ///< ReadRunout, closing one last
  std::vector<double> shown_um = {};
  /// Look. On the part "grooves_outboard", "grooves_inboard", "lip", "blue_spots", "uneven_cheeks", "warm",
  /// "chatter_outboard", "chatter_inboard", "old_face_outboard", "old_face_inboard" (after a cut that did not reach all
  /// of the worn band); at the tools "edge_worn"; on the mount "dirt_on_seat", or in a hub "grease_in_races",
  /// "pits_in_races"; "worn_thread:<piece>", "rim_orbits", "nut_not_tight", "part_slipped", "no_band".
  std::vector<std::string> seen = {};
  std::optional<double> hub_runout_um = {};  ///< Refit: on the car
};

/// How it feels and sounds at one tool now.
struct ToolView {
  double dial_marks = 0;
  bool locked = false;
  double thrust_n = 0;       ///< mean of the last turn
  double contact_share = 0;  ///< of the last turn's angles; 0 in the air
  double swing_um = 0;       ///< peak to valley of what it gives
  bool sings = false;        ///< chatter
  bool rubs = false;
};

/// Why a run was ended by the bench.
struct Ended {
  /// "finished"; "reached_in", "gloves", "no_glasses", "left_alone", "into_hat", "measured_turning", "wiped_turning",
  /// "loose_part", "broken_edge"
  std::string code = {};
  std::string text = {};  ///< what happened and what could have; a sentence or two
  bool unsafe = false;
};

/// The bench as its student sees it.
struct View {
  std::int64_t acts = 0;  ///< done so far
  double clock_s = 0;     ///< of the bench's own time
  std::optional<Action> decided = {};
  std::vector<std::string> mounted = {};  ///< pieces, when the part is on the arbor
  double turn_deg = 0;
  bool nut_tight = false;
  bool band = false;
  bool glasses = false;
  bool gloves = false;
  double rpm = 0;
  double feed_mm_per_rev = 0;
  double radius_mm = 0;
  double turns = 0;  ///< of this mounting
  double part_temperature_c = 20;
  int passes = 0;  ///< times that the feed went over the band's outer edge
  ToolView outboard = {};
  ToolView inboard = {};
  bool refitted = false;
  std::optional<Ended> ended = {};
};

/// Heights for a picture, coarser than the cut's own grid.
struct Picture {
  int angles = 0;
  int rings = 0;
  double inner_radius_mm = 0;
  double ring_step_mm = 0;
  std::vector<float> height_um = {};  ///< [ring * angles + angle], over the face's perfect plane
};

/// A part of what was done well or not.
struct MarkedPart {
  std::string code = {};  ///< "measuring", "verdict", "stack", "proof", "metal", "time", "finish", "runout", "safety"
  double points = 0;      ///< 0 to `of`
  double of = 0;
  std::string why = {};  ///< a sentence with numbers
};

struct Mark {
  std::vector<MarkedPart> parts = {};
  double points = 0;         ///< 0 to 100
  bool safe = true;          ///< false: no points count towards a permit
  std::string weakest = {};  ///< code of the part with the least share
  Exercise next = {};        ///< for the weakest part
  std::string next_why = {};
  std::vector<Fault> faults = {};        ///< what was there: the truth is told at the end
  std::vector<std::string> expert = {};  ///< what an expert would have done with the same information, in order
};

/// One run: an exercise and the acts done at it.
class Run {
 public:
  /// @throws InputError as bench_of
  explicit Run(const Exercise& exercise);
  ~Run();
  Run(Run&&) noexcept;
  Run& operator=(Run&&) noexcept;

  const Bench& bench() const;

  /// Does an act. One that is refused changes nothing and does not count.
  /// @throws InputError naming the act's field; "not_now" with what has to be done first; "ended" once it has
  Outcome apply(const Act& act);

  View view() const;

  /// @param angles 36 to 720; rings 8 to 128: as near as the grid has
  Picture picture(Side side, int angles, int rings) const;

  /// Sound of the last `Turns`, at most its last `seconds`; mono at `rate_hz`.
  std::vector<float> sound(double seconds, int rate_hz) const;

  /// @throws InputError "not_yet" while the run has not ended
  Mark mark() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace brakewright::practice
