#pragma once

#include <functional>
#include <map>
#include <mutex>
#include <utility>
#include <vector>

#include "shop/school/permits.hpp"
#include "shop/school/queue.hpp"
#include "shop/school/roster.hpp"
#include "shop/school/store.hpp"
#include "shop/school/study_answer.hpp"
#include "shop/school/study_order.hpp"
#include "shop/shop.hpp"

namespace brakewright::shop {

/// A study with all its readings, withdrawn ones included.
struct StudyFile {
  Study study = {};
  std::vector<StudyReading> readings = {};
};

/// A class with everybody who is or was in it.
struct ClassFile {
  SchoolClass school_class = {};
  std::vector<Membership> memberships = {};
};

/// What a school asks about practice at the simulated bench. Both are asked while the shop is locked.
struct PracticeSeen {
  std::function<std::map<Uuid, double>()> best_points = {};  ///< of each person with a safe run that counts
  std::function<bool(const Uuid& run_id, const Uuid& person_id)> has_ended = {};  ///< a run, of this person
};

/// The highest level that counts; nothing without any.
std::optional<EvidenceLevel> level_reached(const std::vector<Evidence>& evidence, const Uuid& person_id,
                                           const Uuid& competence_id);

/// A school over a shop: the rules over a SchoolStore. Every method that changes something takes who does it and writes
/// the change and its journal entry in one transaction of the shop; all are safe to repeat with the same ids, and to
/// call from several threads.
///
/// All throw InputError for values that the giver can mend, RuleError where a rule forbids it, StoreError when the
/// medium fails.
class School {
 public:
  /// Tells the shop how well people read, for as long as it lives.
  School(Shop& shop, SchoolStore& store, std::function<UtcTime()> now);
  ~School();
  School(const School&) = delete;
  School& operator=(const School&) = delete;

  UtcTime now() const { return now_(); }

  /// Before anybody asks. What it holds on to must outlive the school's last answer.
  void practice_from(PracticeSeen seen) { practice_ = std::move(seen); }

  std::vector<ReferencePart> reference_parts();
  /// @throws RuleError "in_use" for another size, uncertainty or place while a study rests on those it has
  ReferencePart put_reference_part(ReferencePart part, const Uuid& by);

  std::vector<StudyFile> studies();
  StudyFile study(const Uuid& study_id);
  /// Seed, maker and times are the shop's. Closing is for good.
  /// @throws RuleError "readings_exist" for other parts, instruments, repeats, or without a person, that were read;
  ///         "closed" for any change of a closed study but its name
  Study put_study(Study study, const Uuid& by);
  /// What a person has still to read, in their order.
  std::vector<StudyPlace> open_places(const Uuid& study_id, const Uuid& person_id);
  /// Stores a reading, or answers the stored one when its id is known already.
  /// @throws DoubtfulReading  when it cannot be a reading of that part and `confirmed` is not set; RuleError "closed",
  ///         "place_taken", "not_yours" for a student who enters another's
  StudyReading add_study_reading(const Uuid& study_id, const NewStudyReading& wanted, const Uuid& by);
  /// Opens its place again. @throws RuleError "not_yours" for a student and a reading that is not their newest
  StudyReading withdraw_study_reading(const Uuid& study_id, const Uuid& reading_id, const Uuid& by);
  StudyAnswer study_answer(const Uuid& study_id);
  /// How everybody did in the closed studies. Worked out once for each study.
  std::vector<StudyMark> study_marks();

  std::vector<SafetyPoint> safety_points();  ///< in their order
  /// Another wording asks everybody anew.
  SafetyPoint put_safety_point(SafetyPoint point, const Uuid& by);
  std::vector<SafetyAnswer> safety_answers(const Uuid& person_id);
  SafetyAnswer answer_safety_point(const NewSafetyAnswer& wanted, const Uuid& by);
  PermitRule permit_rule();
  PermitRule change_permit_rule(PermitRule rule, const Uuid& by);  ///< version must be the current one
  std::vector<SupervisedCut> supervised_cuts();
  SupervisedCut sign_cut(SupervisedCut cut, const Uuid& by);
  PermitState permit_of(const Uuid& person_id);
  /// Whether they may work at the lathe on this job: their permit stands, or somebody who leads stands by.
  bool may_cut(const Uuid& person_id, const Uuid& job_id);
  std::vector<PermitState> permits();  ///< of everybody
  /// @throws RuleError "reason_needed" where something that the rule asks is missing and no reason is given
  PermitState give_permit(const Uuid& person_id, const NewPermit& wanted, const Uuid& by);
  PermitState withdraw_permit(const Uuid& person_id, const Uuid& permit_id, const std::string& why, const Uuid& by);

  std::vector<ClassFile> classes();
  ClassFile school_class(const Uuid& class_id);
  SchoolClass put_class(SchoolClass wanted, const Uuid& by);
  Membership join_class(Membership wanted, const Uuid& by);  ///< who is in it already stays so
  Membership leave_class(const Uuid& class_id, const Uuid& person_id, const Uuid& by);
  /// All lines or none. @throws InputError  as read_roster
  RosterReport import_roster(const Uuid& class_id, std::string_view csv, bool dry_run, const Uuid& by);

  std::vector<Competence> competences();  ///< in their order
  Competence put_competence(Competence wanted, const Uuid& by);
  std::vector<Evidence> evidence();
  std::vector<Evidence> evidence_of(const Uuid& person_id);
  /// The highest level is signed by who leads, and not for themselves.
  Evidence add_evidence(Evidence wanted, const Uuid& by);
  Evidence withdraw_evidence(const Uuid& evidence_id, const Uuid& by);
  /// Enters what of shop/school/starter is not here yet.
  void put_starter_lists(const Uuid& by);

  LatheQueue queue(const Uuid& lathe_id);
  std::vector<QueueEntry> queue_entries();  ///< of all lathes, those that left too
  /// @throws RuleError "waits_already", "needs_no_lathe"
  LatheQueue join_queue(const Uuid& lathe_id, const NewQueueEntry& wanted, const Uuid& by);
  LatheQueue leave_queue(const Uuid& lathe_id, const Uuid& entry_id, const std::string& why, const Uuid& by);

 private:
  template <class F>
  auto looking(F&& look);
  template <class F>
  auto journaled(const Uuid& by, F&& work);

  Person expect_person(const Uuid& id, const std::string& field);
  void expect_all_known(const Study& study);
  void expect_free(const ReferencePart& present, const ReferencePart& wanted);
  void expect_own(const Uuid& person_id, const Uuid& by);
  void expect_place(const Study& study, const StudyReading& made);
  static void expect_newest(const std::vector<StudyReading>& readings, const StudyReading& reading);
  static std::int64_t seed_from(const Uuid& id);
  void expect_leads(const Uuid& id, const std::string& field);
  PermitRule rule_in_force();
  std::vector<PermitState> states_of(const std::vector<Person>& people);
  std::vector<StudyMark> marks_of(const Study& study);
  Hands hands();
  std::vector<PartTime> finished_parts();
  std::vector<PartTime> times_of(const Uuid& sealed_job_id);
  std::map<Uuid, double> planned_s(const JobFile& file);
  static bool reads_in_a_study(const std::vector<StudyFile>& files, const Uuid& person_id);
  bool has_open_safety_points(const Uuid& person_id);

  Shop& shop_;
  SchoolStore& store_;
  std::function<UtcTime()> now_;
  PracticeSeen practice_ = {};
  std::mutex kept_guard_;
  std::map<Uuid, std::vector<StudyMark>> marks_;      ///< by closed study
  std::map<Uuid, std::vector<PartTime>> part_times_;  ///< by sealed job
};

}  // namespace brakewright::shop
