#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/length/length.hpp"
#include "shop/times.hpp"
#include "shop/uuid.hpp"

/// What a school remembers beside its jobs. Plain data; who may change what, and when, is the business of
/// shop/school/school.hpp. Each struct lists its fields once, in shop/school/fields.hpp.
namespace brakewright::shop {

/// A part whose size is known better than anybody in the shop can read it, at one marked place.
struct ReferencePart {
  Uuid id = {};
  std::string name = {};
  std::string place_words = {};      ///< where on it, such as "on the painted dot, 15 mm in from the edge"
  TypedLength reference = {};        ///< its size there
  Length expanded_uncertainty = {};  ///< of the reference, k = 2
  std::string source = {};           ///< who measured it, with what, when
  bool active = true;

  friend bool operator==(const ReferencePart&, const ReferencePart&) = default;
};

/// Who measures which reference parts with what, how often. Each person has an order of their own.
struct Study {
  Uuid id = {};
  std::string name = {};
  std::vector<Uuid> reference_part_ids = {};
  std::vector<Uuid> person_ids = {};
  std::vector<Uuid> instrument_ids = {};
  std::int64_t repeats = 3;                   ///< of each part by each person with each instrument
  std::int64_t seed = 0;                      ///< of the orders; 0 lets the shop choose one
  std::optional<TypedLength> tolerance = {};  ///< whole width that the spread is held against
  bool closed = false;                        ///< nothing is read in it any more, and everybody sees its answer
  Uuid made_by_person_id = {};
  UtcTime made_at = {};
  std::optional<UtcTime> closed_at = {};
  /// Standard uncertainty that all its readings share by their instruments, as these were known when it was closed.
  std::optional<double> u_instrument_um = {};

  friend bool operator==(const Study&, const Study&) = default;
};

/// One reading in a study, as typed. Never changed, only withdrawn; then its place is open again.
struct StudyReading {
  Uuid id = {};
  Uuid study_id = {};
  Uuid person_id = {};
  Uuid reference_part_id = {};
  Uuid instrument_id = {};
  std::int64_t repeat = 0;  ///< from 0
  TypedLength value = {};
  UtcTime at = {};
  std::optional<Uuid> withdrawn_by_person_id = {};
  std::optional<UtcTime> withdrawn_at = {};

  friend bool operator==(const StudyReading&, const StudyReading&) = default;
};

/// What a tablet sends of it.
struct NewStudyReading {
  Uuid id = {};
  Uuid person_id = {};
  Uuid reference_part_id = {};
  Uuid instrument_id = {};
  std::int64_t repeat = 0;
  std::string text = {};
  Unit default_unit = Unit::mm;
  bool confirmed = false;  ///< keep it although it looks wrong
};

/// Something that a person must know before they stand at the machine, asked as a question.
struct SafetyPoint {
  Uuid id = {};
  std::int64_t position = 0;  ///< among the others
  std::string question = {};
  std::vector<std::string> choices = {};
  std::int64_t right_choice = 0;  ///< index into the choices
  std::string reason = {};        ///< shown after the answer
  bool active = true;
  UtcTime asked_since = {};  ///< of this wording; answers from before it count no more

  friend bool operator==(const SafetyPoint&, const SafetyPoint&) = default;
};

/// Never changed; the newest of a person to a point counts.
struct SafetyAnswer {
  Uuid id = {};
  Uuid person_id = {};
  Uuid safety_point_id = {};
  std::int64_t choice = 0;
  bool was_right = false;
  UtcTime at = {};

  friend bool operator==(const SafetyAnswer&, const SafetyAnswer&) = default;
};

struct NewSafetyAnswer {
  Uuid id = {};
  Uuid person_id = {};
  Uuid safety_point_id = {};
  std::int64_t choice = 0;
};

/// What a permit for the lathe needs, as the teacher sets it.
struct PermitRule {
  std::int64_t version = 1;
  bool needs_safety_points = true;
  bool needs_measuring = true;            ///< a closed study in which this person did well enough, by the next two
  double share_within = 0.8;              ///< of its parts whose normalised error is 1 or less
  std::optional<Length> sd_at_most = {};  ///< standard deviation of repeated readings; absent: not asked
  std::int64_t supervised_cuts = 2;
  std::int64_t lapses_after_days = 180;
  std::optional<std::int64_t> practice_points = {};  ///< of a safe run at the simulated bench; absent: not asked

  friend bool operator==(const PermitRule&, const PermitRule&) = default;
};

/// The rule as it was set; the one with the highest version holds.
struct KeptPermitRule {
  Uuid id = {};
  PermitRule rule = {};
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const KeptPermitRule&, const KeptPermitRule&) = default;
};

/// A cut at which a teacher or a lead hand stood by.
struct SupervisedCut {
  Uuid id = {};
  Uuid person_id = {};
  std::optional<Uuid> job_id = {};
  std::string note = {};
  Uuid signed_by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const SupervisedCut&, const SupervisedCut&) = default;
};

/// Leave to cut without anybody beside one. Only ever withdrawn.
struct Permit {
  Uuid id = {};
  Uuid person_id = {};
  Uuid given_by_person_id = {};
  UtcTime at = {};
  Date lapses_on = {};      ///< last day on which it stands
  std::string reason = {};  ///< needed where something that the rule asks is missing
  std::optional<Uuid> withdrawn_by_person_id = {};
  std::optional<UtcTime> withdrawn_at = {};
  std::string withdrawn_why = {};

  friend bool operator==(const Permit&, const Permit&) = default;
};

struct NewPermit {
  Uuid id = {};
  std::string reason = {};
};

/// Why something ends before its time.
struct EndReason {
  std::string why = {};
};

/// A class of one term.
struct SchoolClass {
  Uuid id = {};
  std::string name = {};
  std::string term = {};
  std::optional<Date> starts_on = {};
  std::optional<Date> ends_on = {};
  bool archived = false;

  friend bool operator==(const SchoolClass&, const SchoolClass&) = default;
};

struct Membership {
  Uuid id = {};
  Uuid class_id = {};
  Uuid person_id = {};
  UtcTime since = {};
  std::optional<UtcTime> until = {};

  friend bool operator==(const Membership&, const Membership&) = default;
};

/// Something that a person learns to do.
struct Competence {
  Uuid id = {};
  std::int64_t position = 0;  ///< among the others
  std::string name = {};
  std::string words = {};  ///< what is done when it is done well
  bool active = true;

  friend bool operator==(const Competence&, const Competence&) = default;
};

/// Saw it done; did it with help; did it alone; did it and somebody signs for it.
enum class EvidenceLevel { seen, with_help, alone, signed_off };

/// Only ever withdrawn.
struct Evidence {
  Uuid id = {};
  Uuid competence_id = {};
  Uuid person_id = {};
  EvidenceLevel level = EvidenceLevel::seen;
  std::optional<Uuid> job_id = {};
  std::optional<Uuid> study_id = {};
  std::optional<Uuid> practice_run_id = {};
  std::string note = {};
  std::optional<Uuid> signed_by_person_id = {};  ///< of the highest level, a teacher or a lead hand
  UtcTime at = {};
  std::optional<Uuid> withdrawn_by_person_id = {};
  std::optional<UtcTime> withdrawn_at = {};

  friend bool operator==(const Evidence&, const Evidence&) = default;
};

/// A job that waits for a lathe. Only ever left, once.
struct QueueEntry {
  Uuid id = {};
  Uuid lathe_id = {};
  Uuid job_id = {};
  Uuid person_id = {};
  UtcTime joined_at = {};
  std::optional<UtcTime> left_at = {};
  std::string left_why = {};

  friend bool operator==(const QueueEntry&, const QueueEntry&) = default;
};

struct NewQueueEntry {
  Uuid id = {};
  Uuid job_id = {};
  Uuid person_id = {};
};

}  // namespace brakewright::shop
