#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/bench_sim/cut/cut.hpp"
#include "core/bench_sim/cut/tool_dial.hpp"
#include "core/bench_sim/mount/measure.hpp"
#include "core/bench_sim/mount/mounting.hpp"
#include "core/bench_sim/part/part.hpp"
#include "core/mount/own_stack.hpp"
#include "core/practice/run.hpp"
#include "core/practice/truth.hpp"

/// Where a bench stands between two acts.
namespace brakewright::practice {

/// Grid of the part: three angles and more to a wave of every mode at the lowest speed; 17 MB of maps at most.
inline constexpr int kAngles = 1440;
inline constexpr double kRingStep_mm = 0.05;

/// The clock's tick, of which a step of the grid takes a whole number at each of the lathe's speeds: so that the clock
/// does not depend on how turns are cut into acts.
inline constexpr std::int64_t kTicks_per_s = 14400;

inline constexpr double kCooling_s = 1200;  ///< time constant of a part in still air; our own assumption, no source
inline constexpr double kExpansion_per_k = 11e-6;  ///< as bench_sim reads it
inline constexpr double kIndicator_um = 1;         ///< last digit

inline constexpr std::size_t index(Side side) { return side == Side::outboard ? 0 : 1; }

/// A part on the arbor.
struct Mounted {
  std::vector<std::string> pieces = {};
  mount::OwnStack own = {};
  double turn_deg = 0;
  bool nut_tight = true;
  bench_sim::Mounting mounting = {};
  std::uint64_t number = 0;  ///< which mounting of the run
  std::int64_t steps = 0;    ///< of the spindle, since it was mounted
  std::size_t slips = 0;     ///< that have happened
  std::unique_ptr<bench_sim::Cut> cut = {};
};

/// One of the two tools.
struct Tool {
  bench_sim::DialState dial = {};
  double gap_um = 0;    ///< of its tip over the perfect face, with the dial at 0
  double edge_um = 0;   ///< by which a new insert stands back
  double drift_um = 0;  ///< by which it was pushed back while it was not locked
  double wear_mm = 0;
  double cut_length_m = 0;
  bool locked = false;
  ToolView felt = {};  ///< of the last turn
};

/// What was odd about a reading.
struct Odd {
  bool misread = false;   ///< a whole turn of the thimble off
  bool on_speck = false;  ///< one place at least
  bool bridged = false;   ///< flat anvils stood across a groove
};

/// An act that was done.
struct Done {
  Act act = {};
  Outcome outcome = {};
  double clock_s = 0;              ///< after it
  std::uint64_t mounting = 0;      ///< that was on, counted from 1; 0 for none
  double temperature_c = kRoom_c;  ///< of the part, before it
  bool zeroed = false;             ///< Measure: its instrument was zeroed by then
  Odd odd = {};                    ///< Measure, ReadRunout
  double removed_mm3 = 0;          ///< of both faces, by then
  double touch_share = 0;          ///< Turns off the feed: of the last turn's angles, the larger of both tools
};

/// A mounting, for the marking.
struct MountingRecord {
  std::vector<std::string> pieces = {};
  bool keeps_rules = false;
  double turn_deg = 0;
  bool wiped = false;  ///< before it
  bool nut_tight = true;
  double seating_sd_um = 0;  ///< of the seat at that time
  bench_sim::Motion motion = {};
  double removed_mm3 = 0;  ///< in it
  bool slipped = false;
};

/// What the thrust was, to be heard.
struct Heard {
  std::vector<float> thrust_n = {};
  double steps_per_s = 0;
};

struct BenchState {
  explicit BenchState(const Exercise& wanted);

  Exercise exercise;
  Truth truth;
  Bench bench;
  bench_sim::SimPart part;
  std::string bent_clamp = {};  ///< the clamp or taper that is out of true; empty where none is
  std::string worn_nut = {};

  std::int64_t ticks = 0;
  std::optional<Action> decided = {};
  std::optional<Mounted> mounted = {};
  std::array<Tool, 2> tools = {};
  bool band = false;
  bool glasses = false;
  bool gloves = false;
  double rpm = 0;
  double feed_mm_per_rev = 0;
  double feed_from_mm = 0;  ///< where it was engaged
  bool pass_counted = true;
  double radius_mm = 0;
  int passes = 0;
  std::vector<bench_sim::Dirt> dirt = {};
  std::optional<Speck> speck = {};
  double seating_sd_um = 0;    ///< of the seat as it is now
  bool races_renewed = false;  ///< new cups are in
  std::vector<std::string> zeroed = {};
  Odd odd = {};  ///< of the last reading
  std::uint64_t readings = 0, micrometer_readings = 0, traces = 0, edges = 0, mountings = 0, refits = 0;
  double removed_mm3 = 0;  ///< in mountings before this one
  bool wiped = false;      ///< at any time
  std::optional<Refit> refitted = {};
  double refit_runout_um = 0;
  std::optional<Ended> ended = {};
  Heard heard = {};
  std::vector<Done> done = {};
  std::vector<MountingRecord> mounts = {};

  double clock_s() const { return static_cast<double>(ticks) / static_cast<double>(kTicks_per_s); }
  double temperature_c() const;
  bool turns() const { return rpm > 0; }
  bool races_pitted() const { return truth.has(Fault::pitted_races) && !races_renewed; }
  double removed_so_far_mm3() const;
  void take(double seconds);
  void end(std::string code, std::string text, bool unsafe = true);
  bench_sim::GraduatedDial dial() const;
  double tip_um(Side side) const;
  void settle() const;
  const bench_sim::Motion& motion() const;
};

/// @throws InputError "not_now": what has to be done first
[[noreturn]] void not_now(const std::string& first, const std::string& field = "do");

inline constexpr const char* kOnTheCar = "It is on the car: washing it or mounting it on the lathe takes it off.";

// What each act does; checked first, then done.
Outcome act_on(BenchState& state, const Look& act);
Outcome act_on(BenchState& state, const ZeroMicrometer& act);
Outcome act_on(BenchState& state, const Measure& act);
Outcome act_on(BenchState& state, const ReadRunout& act);
Outcome act_on(BenchState& state, const Wait& act);
Outcome act_on(BenchState& state, const Decide& act);
Outcome act_on(BenchState& state, const Wipe& act);
Outcome act_on(BenchState& state, const RenewRaces& act);
Outcome act_on(BenchState& state, const MountPart& act);
Outcome act_on(BenchState& state, const Unmount& act);
Outcome act_on(BenchState& state, const Band& act);
Outcome act_on(BenchState& state, const Wear& act);
Outcome act_on(BenchState& state, const ChangeEdge& act);
Outcome act_on(BenchState& state, const Spindle& act);
Outcome act_on(BenchState& state, const Place& act);
Outcome act_on(BenchState& state, const TurnDial& act);
Outcome act_on(BenchState& state, const LockTool& act);
Outcome act_on(BenchState& state, const Feed& act);
Outcome act_on(BenchState& state, const Turns& act);
Outcome act_on(BenchState& state, const Reach& act);
Outcome act_on(BenchState& state, const WalkAway& act);
Outcome act_on(BenchState& state, const Wash& act);
Outcome act_on(BenchState& state, const Refit& act);
Outcome act_on(BenchState& state, const Finish& act);

/// How near to the axis the tools may come beside a part on the arbor: clear of its hat.
double nearest_radius_mm(const BenchState& state);

/// A new cut of the part as it is mounted, with band and edges as they are; the old one's iron is kept.
void renew_cut(BenchState& state);

double band_middle_mm(const bench_sim::PartMake& make);

/// The part as it came, on the rings of the bench's own and fewer angles: a groove is narrow, and goes all round.
bench_sim::SimPart part_before(const BenchState& state);

/// What has become of a face between two radii.
struct FaceChange {
  double taken_share = 0;  ///< of its places, where iron is gone
  double depth_um = 0;     ///< that is gone, on the mean
};

/// @param before  as part_before
FaceChange change_of(const BenchState& state, const bench_sim::SimPart& before, Side side, double from_mm,
                     double to_mm);

/// The same over the worn band.
FaceChange band_change(const BenchState& state, const bench_sim::SimPart& before, Side side);

/// Height of the waves that singing has left at the band's middle; 0 where none can be seen. Waves of fewer than 60 to
/// a turn are the part's own; lower ones than 1.5 um are not seen. Both our own assumptions, no source.
double sung_um(const BenchState& state, Side side);

/// Outboard less inboard wall of a vented part as it is now; 0 of a solid one.
double wall_difference_mm(const BenchState& state, const bench_sim::SimPart& before);

/// Face runout on the car's hub, or on the part's own bearings but for their play, at the band's middle, as it truly
/// is.
double runout_on_hub_um(const bench_sim::SimPart& part, const Bench& bench, int position, const bench_sim::Tilt& dirt);

Mark mark_of(const BenchState& state);

}  // namespace brakewright::practice
