#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/length/length.hpp"
#include "shop/bench_work.hpp"
#include "shop/equipment.hpp"
#include "shop/refit_work.hpp"
#include "shop/times.hpp"
#include "shop/uuid.hpp"

/// What a shop remembers. Plain data; who may change what, and when, is the business of shop/shop.hpp.
///
/// Each struct lists its fields once, in shop/fields.hpp; the JSON of the API, the columns of the store, exports and
/// the journal are all made from that list, so a quantity has the same name everywhere.
namespace brakewright::shop {

enum class Role { teacher, student, lead_hand, visitor };

/// Whether somebody of this role answers for others' work.
inline bool leads(Role role) { return role == Role::teacher || role == Role::lead_hand; }

struct Person {
  Uuid id = {};
  std::string name = {};
  Role role = Role::student;
  bool active = true;
  UtcTime created_at = {};

  friend bool operator==(const Person&, const Person&) = default;
};

enum class InstrumentKind { micrometer, dial_indicator, depth_gauge, caliper, roughness_tester, drum_gauge };

struct Instrument {
  Uuid id = {};
  std::string name = {};
  InstrumentKind kind = InstrumentKind::micrometer;
  std::string serial = {};
  Length resolution = {};
  Length mpe = {};            ///< largest permissible error, as a half width
  Length repeatability = {};  ///< standard deviation of repeated readings at one place
  Unit default_unit = Unit::mm;
  std::optional<Date> calibrated_on = {};
  std::optional<Date> calibration_due_on = {};
  bool active = true;

  friend bool operator==(const Instrument&, const Instrument&) = default;
};

/// What an instrument shows on its zero or its setting standard, less what it should show.
struct ZeroCheck {
  Uuid id = {};
  Uuid instrument_id = {};
  TypedLength error = {};
  std::optional<Uuid> job_id = {};
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const ZeroCheck&, const ZeroCheck&) = default;
};

/// What the figures printed beside a dial's marks count: depth on one face, or the double of it.
enum class DialReads { depth, diameter };
enum class ThreadHand { left, right };

struct Lathe {
  Uuid id = {};
  std::string name = {};
  double dial_um_per_mark = 25.4;                       ///< tool travel (depth on one face) per mark
  std::optional<double> dial_inboard_um_per_mark = {};  ///< of the inboard tool's dial; absent: as the other
  DialReads dial_reads = DialReads::depth;
  double dial_sd_um = 5.0;        ///< standard deviation of a set depth about what the dial says
  double mount_runout_um = 30.0;  ///< usual runout of a part on this arbor, peak to valley
  std::optional<Length> arbor_diameter = {};
  std::optional<Length> thread_start = {};  ///< these along the arbor, from its shoulder
  std::optional<Length> tip = {};
  Length nut_engagement{8'000'000};  ///< thread that the nut needs beyond the stack
  ThreadHand nut_thread = ThreadHand::left;
  std::optional<Length> travel = {};  ///< of the tools across the face
  Length approach{6'000'000};         ///< tool travel beyond the ring in one pass
  std::vector<double> speeds_rpm = {};
  std::vector<double> feeds_mm_per_rev = {};
  std::string note = {};
  bool active = true;

  friend bool operator==(const Lathe&, const Lathe&) = default;
};

enum class LimitSource { cast_on_part, service_information, house_rule, common_practice, unknown };

/// A figure that a part is held against, with where it came from.
struct Limit {
  TypedLength value = {};
  LimitSource source = LimitSource::unknown;
  std::string source_note = {};

  friend bool operator==(const Limit&, const Limit&) = default;
};

/// What a part is. A drum in the hat of a disc is turned as a drum; the disc round it is a part of another job.
enum class PartKind { disc, drum, drum_in_hat };

/// The limits of one part. None is assumed: an absent one is said to be unknown.
/// Sizes are thicknesses of a disc, inner diameters of a drum: there the largest is the limit.
struct Limits {
  std::optional<Limit> nominal = {};       ///< when new
  std::optional<Limit> machine_to = {};    ///< thinnest, or widest, after a cut
  std::optional<Limit> discard = {};       ///< at which the part is scrap, in use
  std::optional<Limit> variation = {};     ///< of a disc: largest thickness variation round one circle
  std::optional<Limit> runout = {};        ///< of a disc: largest face runout on the car, peak to valley
  std::optional<Limit> scoring = {};       ///< deepest groove that may stay
  std::optional<Limit> finish_ra = {};     ///< largest arithmetic mean roughness Ra after a cut
  std::optional<Limit> out_of_round = {};  ///< of a drum: largest less least diameter at one depth
  std::optional<Limit> taper = {};         ///< of a drum: largest less least of the mean diameters at its depths

  friend bool operator==(const Limits&, const Limits&) = default;
};

/// What of a part touches the stack on the arbor, and the inner edge of its braking ring. Diameters and lengths; those
/// of the other construction stay unsaid. core/mount says what each means.
struct Seat {
  std::optional<TypedLength> bore = {};  ///< hubless
  std::optional<TypedLength> flange = {};
  std::optional<TypedLength> flat_inner = {};
  std::optional<TypedLength> flat_outer = {};
  std::optional<TypedLength> flat_inner_inboard = {};
  std::optional<TypedLength> flat_outer_inboard = {};
  std::optional<TypedLength> hub_length = {};  ///< integral hub
  std::optional<TypedLength> inner_race = {};
  std::optional<TypedLength> outer_race = {};
  std::optional<TypedLength> ring_inner = {};  ///< inner diameter of the braking ring

  friend bool operator==(const Seat&, const Seat&) = default;
};

/// A part that the shop has met before: fills the limits in the next time.
struct KnownPart {
  Uuid id = {};
  std::string name = {};  ///< the shop's own words, such as "saloon front, vented, 22 mm"
  Limits limits = {};
  std::optional<TypedLength> outer_diameter = {};
  bool vented = true;
  Seat seat = {};
  std::optional<std::int64_t> studs = {};
  UtcTime last_met_at = {};
  std::optional<PartKind> kind = {};  ///< these as of a Part
  std::optional<TypedLength> band_width = {};
  std::optional<TypedLength> lining_radius = {};
  std::optional<double> lining_arc_deg = {};

  friend bool operator==(const KnownPart&, const KnownPart&) = default;
};

enum class Complaint { pulsation, noise, pull, pad_change, inspection, practice };
enum class Axle { front, rear };
enum class JobState { open, sealed };
enum class DistanceUnit { km, mi };
enum class FeltIn { pedal, steering_wheel, seat, body };

struct Job {
  Uuid id = {};
  std::int64_t number = 0;  ///< counts up within the shop; what people say aloud
  JobState state = JobState::open;
  std::string brought_by = {};
  std::string vehicle = {};
  Complaint complaint = Complaint::pulsation;
  std::string complaint_note = {};
  Axle axle = Axle::front;
  std::optional<std::int64_t> odometer = {};
  DistanceUnit odometer_unit = DistanceUnit::km;
  std::optional<std::string> tyre = {};        ///< as on its wall, such as "205/55 R16"
  std::optional<double> vehicle_mass_kg = {};  ///< laden as it is driven
  std::optional<FeltIn> felt_in = {};          ///< these of a pulsation, as the driver tells it
  std::optional<double> felt_speed_km_per_h = {};
  std::optional<double> felt_frequency_hz = {};
  std::optional<Uuid> worker_person_id = {};
  std::optional<Uuid> lathe_id = {};
  Uuid opened_by_person_id = {};
  UtcTime opened_at = {};
  UtcTime changed_at = {};
  std::int64_t version = 1;  ///< counts each change of these fields, so that two tablets cannot overwrite each other
  std::optional<Uuid> sealed_by_person_id = {};
  std::optional<UtcTime> sealed_at = {};
  std::string seal_sha256 = {};  ///< hash of the job's JSON at sealing, 64 hex digits
  /// First job of the same vehicle, where this one was opened beside it: its other axle, or a drum in the hat of a
  /// disc.
  std::optional<Uuid> beside_job_id = {};

  friend bool operator==(const Job&, const Job&) = default;
};

enum class Side { left, right };
enum class Construction { hubless, integral_hub };

struct Part {
  Uuid id = {};
  Uuid job_id = {};
  Side side = Side::left;
  Construction construction = Construction::hubless;
  bool vented = true;
  std::optional<TypedLength> outer_diameter = {};
  std::optional<Uuid> known_part_id = {};
  Limits limits = {};
  Seat seat = {};
  std::optional<std::int64_t> studs = {};                ///< positions in which it goes on its hub
  std::optional<TypedLength> hub_reading_diameter = {};  ///< of the circle on which the hub's flange is read
  std::int64_t version = 1;
  std::optional<PartKind> kind = {};              ///< absent: a disc. All parts of a job are of one kind
  std::optional<TypedLength> band_width = {};     ///< of a drum: its braking band, along the axis
  std::optional<TypedLength> lining_radius = {};  ///< of a drum's shoe: of the lining's outer face
  std::optional<double> lining_arc_deg = {};      ///< that the lining covers; 120 when not told

  friend bool operator==(const Part&, const Part&) = default;
};

/// At the bench before and after the cut; on the car as it came, and once it is back on the car.
enum class Stage { before, after, on_car, refit };
enum class Turning { clockwise, anticlockwise };
enum class RunoutPlace { on_car, on_arbor };

/// How one part is gone round at one stage.
struct MeasuringPlan {
  Uuid part_id = {};
  Stage stage = Stage::before;
  std::int64_t points = 8;  ///< evenly spaced, 4 to 24, from the index mark; of a drum over half a turn, on which its
                            ///< diameters all lie
  Turning turning = Turning::clockwise;        ///< in which way the points count up, seen from outside
  std::vector<Length> circles_from_edge = {};  ///< one to three, distance of each circle in from the outer edge; of a
                                               ///< drum the depth in from its open edge
  RunoutPlace runout_place = RunoutPlace::on_car;
  std::optional<double> part_temperature_c = {};     ///< 20 when not told
  std::optional<Uuid> thickness_instrument_id = {};  ///< of a drum: of its diameters
  std::optional<Uuid> runout_instrument_id = {};
  std::int64_t version = 1;

  friend bool operator==(const MeasuringPlan&, const MeasuringPlan&) = default;
};

enum class Quantity {
  thickness,
  runout_outboard,
  runout_inboard,
  scoring_outboard,
  scoring_inboard,
  roughness_outboard,  ///< Ra
  roughness_inboard,
  bore,
  hat_height,
  cheek_outboard,  ///< vented: from the face to the vent slot
  cheek_inboard,
  bearing_play,  ///< of the wheel bearing along its axle, rocked or pushed and pulled
  hub_runout,    ///< of the bare flange, at the plan's points
  diameter       ///< inside a drum. Its one surface is "outboard": the other quantities of it are called so
};

/// Whether a reading counts. Derived, never stored: see states_of in shop/readings.hpp.
enum class ReadingState { current, superseded, withdrawn };

/// One reading, as typed. Never changed: a later one supersedes it, or it is withdrawn; both stay on record.
struct Reading {
  Uuid id = {};  ///< made by whoever typed it, so that sending it twice stores it once
  Uuid job_id = {};
  Uuid part_id = {};
  Stage stage = Stage::before;
  Quantity quantity = Quantity::thickness;
  std::int64_t circle = 0;  ///< index into the plan's circles; of runout on the car: by how many studs the part was
                            ///< turned on its hub, in the sense of the angles; 0 where the quantity has none
  std::int64_t point = 0;   ///< index of the point; 0 where the quantity has none
  double angle_deg = 0;     ///< from the index mark, in the plan's direction
  TypedLength value = {};
  std::optional<Uuid> instrument_id = {};
  std::optional<Uuid> zero_check_id = {};          ///< the instrument's last zero check before this reading
  std::vector<std::string> confirmed_doubts = {};  ///< what was questioned, and kept all the same
  std::optional<Uuid> supersedes_id = {};
  Uuid by_person_id = {};
  UtcTime taken_at = {};     ///< by the tablet's clock
  UtcTime received_at = {};  ///< by the shop's clock
  std::optional<Uuid> withdrawn_by_person_id = {};
  std::optional<UtcTime> withdrawn_at = {};

  friend bool operator==(const Reading&, const Reading&) = default;
};

enum class FindingKind {
  nothing_found,
  crack,
  heat_check,
  hard_spot,
  blueing,
  broken_fin,
  vent_rust,
  rust_lip,
  deep_pitting,
  loose_hat,
  worn_bearing_race,
  other
};
enum class Judgement { noted, reject };

/// What was seen. Never changed, only withdrawn.
struct Finding {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  FindingKind kind = FindingKind::nothing_found;
  Judgement judgement = Judgement::noted;
  std::string note = {};
  Uuid by_person_id = {};
  UtcTime at = {};
  std::optional<Uuid> withdrawn_by_person_id = {};
  std::optional<UtcTime> withdrawn_at = {};

  friend bool operator==(const Finding&, const Finding&) = default;
};

enum class Action { leave, cut, replace, measure_again };

/// What a person decided, beside what was computed at that moment. Later decisions stand beside earlier ones.
struct Decision {
  Uuid id = {};
  Uuid job_id = {};
  Action computed_action = Action::measure_again;
  double computed_p = 0;
  std::string computed_json = {};  ///< the whole verdict as it was shown
  Action action = Action::measure_again;
  std::string reason = {};  ///< needed when `action` differs from `computed_action`
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Decision&, const Decision&) = default;
};

/// What the dials were turned by, in all, when one rotor was cut.
struct Cut {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  std::optional<Uuid> lathe_id = {};
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double dial_um_per_mark = 25.4;
  std::optional<double> dial_inboard_um_per_mark = {};  ///< absent: as the other
  std::string note = {};
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Cut&, const Cut&) = default;
};

/// A later word on a sealed job; the sealed original stays as it was.
struct Amendment {
  Uuid id = {};
  Uuid job_id = {};
  std::string text = {};
  std::optional<Uuid> subject_id = {};  ///< the reading, finding or decision it speaks of
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Amendment&, const Amendment&) = default;
};

inline bool is_drum(const std::optional<PartKind>& kind) { return kind && *kind != PartKind::disc; }

/// All that belongs to one job, readings in order of receipt, withdrawn and superseded ones included.
struct JobFile {
  Job job = {};
  std::vector<Part> parts = {};
  std::vector<MeasuringPlan> plans = {};
  std::vector<Reading> readings = {};
  std::vector<Finding> findings = {};
  std::vector<Decision> decisions = {};
  std::vector<Mount> mounts = {};
  std::vector<MountProof> mount_proofs = {};
  std::vector<CutPlan> cut_plans = {};
  std::vector<Pass> passes = {};
  std::vector<BenchStep> bench_steps = {};
  std::vector<Cut> cuts = {};
  std::vector<Refit> refits = {};
  std::vector<Amendment> amendments = {};
  std::int64_t seq = 0;  ///< last journal entry of this job

  friend bool operator==(const JobFile&, const JobFile&) = default;
};

/// What a job needs next.
enum class WaitsFor {
  limits,
  findings,
  readings,
  decision,
  mount,
  plan,
  cut,
  finish,
  readings_after,
  refit,
  seal,
  nothing
};

enum class Paper { a4, letter };

/// Rules of turning that the shop goes by, each with what it rests on.
struct CuttingRules {
  double rough_max_um = 250;  ///< most that one pass takes off a face
  double finish_min_um = 50;  ///< the last pass on a face that is cut
  double finish_max_um = 100;
  std::string depth_basis = "common practice, no source";
  double ra_target_um = 1.5;
  double ra_factor = 1.5;  ///< real over ideal roughness
  std::string ra_basis = "common practice, no source";
  double mount_runout_max_um = 50;  ///< of a part on the arbor, peak to valley, before it is cut
  std::string mount_basis = "common practice, no source";

  friend bool operator==(const CuttingRules&, const CuttingRules&) = default;
};

/// What holds for the whole shop. The confidence and allowances are house rules and are shown as such.
struct Settings {
  std::string shop_name = {};
  double confidence = 0.95;                    ///< asked of "thick enough after the cut", and of within and outside
  std::optional<Length> house_allowance = {};  ///< machine-to over discard where machine-to is unknown
  Length cut_margin{10'000};                   ///< below the lowest point of a face, so that it cleans up
  std::optional<double> wear_mm_per_10000_km = {};
  Unit default_unit = Unit::mm;
  Paper paper = Paper::a4;
  std::int64_t points = 8;
  CuttingRules cutting = {};
  bool demo = false;  ///< invented data, said on every page
  std::int64_t version = 1;

  friend bool operator==(const Settings&, const Settings&) = default;
};

/// One entry of the shop's journal: every change, in order, with who and when, chained to the one before it by
/// hashes (shop/journal/chain.hpp).
struct Change {
  std::int64_t seq = 0;  ///< counts up by one in the whole shop
  Uuid id = {};
  std::string kind = {};  ///< such as "reading.added", "job.sealed"
  std::optional<Uuid> job_id = {};
  Uuid subject_id = {};
  std::string detail_json = {};  ///< the thing as it was written; empty once it was erased
  Uuid by_person_id = {};
  UtcTime at = {};
  std::string salt = {};           ///< 32 hex digits before the detail in its hash; empty once it was erased
  std::string detail_sha256 = {};  ///< stays when the detail is erased
  std::string entry_sha256 = {};   ///< of all above and of the entry before

  friend bool operator==(const Change&, const Change&) = default;
};

/// The newest entry of the journal, signed with the shop's key (Ed25519).
struct JournalHead {
  std::int64_t seq = 0;
  std::string entry_sha256 = {};
  std::string public_key = {};  ///< 64 hex digits; empty, as the signature, in a shop without a key
  std::string signature = {};   ///< 128 hex digits, over what signed_text of shop/journal/chain.hpp says

  friend bool operator==(const JournalHead&, const JournalHead&) = default;
};

}  // namespace brakewright::shop
