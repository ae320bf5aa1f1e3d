#pragma once

#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/input_error.hpp"
#include "shop/assess.hpp"
#include "shop/diagnosis_advice.hpp"
#include "shop/doubts.hpp"
#include "shop/entities.hpp"
#include "shop/journal/recorder.hpp"
#include "shop/plans.hpp"
#include "shop/pulsation_advice.hpp"
#include "shop/refit_advice.hpp"
#include "shop/requests.hpp"
#include "shop/road_advice.hpp"
#include "shop/stacks.hpp"
#include "shop/store.hpp"

namespace brakewright::shop {

/// The clock, the dice and the writing of a verdict, from outside.
struct Surroundings {
  std::function<UtcTime()> now;
  RandomBytes random;
  /// The JSON object of an assessment's verdict, of discs or of drums, as the page shows it, to be kept with each
  /// decision. Without it only action and probability are kept.
  std::function<std::string(const Assessment&)> verdict_json = {};
};

/// A reading that looks wrong and was not confirmed. Nothing was stored.
class DoubtfulReading : public InputError {
 public:
  DoubtfulReading(std::string field, std::vector<Doubt> doubts);
  const std::vector<Doubt>& doubts() const { return doubts_; }

 private:
  std::vector<Doubt> doubts_;
};

/// The request meets a rule of the shop: a sealed job, a verdict that may not be overruled, an id that is unknown.
class RuleError : public InputError {
 public:
  using InputError::InputError;
};

/// Somebody else changed the thing since the asker last saw it. Nothing was stored; `current_json` is what stands.
class ConflictError : public InputError {
 public:
  ConflictError(std::string field, const std::string& message, std::string current_json)
      : InputError("changed_meanwhile", std::move(field), message), current_json_(std::move(current_json)) {}
  const std::string& current_json() const { return current_json_; }

 private:
  std::string current_json_;
};

/// A shop: the rules over a store. Every method that changes something takes who does it, writes the change and its
/// journal entry in one transaction, and is safe to repeat with the same ids. Safe to call from several threads.
///
/// All throw InputError for values that the giver can mend, RuleError where the shop's rules forbid it, StoreError
/// when the medium fails.
class Shop {
 public:
  Shop(Store& store, Surroundings surroundings);

  /// Called after each committed change, in order of seq, from a thread that made one. It may read from the shop, but
  /// not change it, and must be quick.
  void on_change(std::function<void(const Change&)> listener);

  /// A fresh id of the present moment, for what the shop itself makes.
  Uuid new_id();

  /// Makes all changes of `work` one transaction: all or none of them, one wait for the disk.
  void batch(const std::function<void()>& work);

  /// How the rooms of the shop (folders of shop/ with shelves of their own) change it: runs `work` with the store
  /// locked and in one transaction, with what it records in the journal.
  /// @throws RuleError "unknown_person" (by_person_id) unless the shop is empty
  void journaled(const Uuid& by, const std::function<void(const Recorder&)>& work);
  /// How they read their shelves: runs `work` while nobody else is inside the store.
  void undisturbed(const std::function<void()>& work);

  /// Where the shop learns how well people read; asked when an assessment needs it, and again after `hands_changed`.
  void hands_from(std::function<Hands()> learn);
  void hands_changed();

  Settings settings();
  Settings change_settings(const Settings& wanted, const Uuid& by);  ///< version must be the current one

  std::vector<Person> people();
  Person put_person(Person person, const Uuid& by);  ///< `by` may be the person itself in an empty shop
  /// Takes the name of a student or a visitor out of the shop and out of the journal's entries of them, for good: they
  /// become a former student with a number. The entry "person.erased" {entries, person} names the entries whose
  /// detail went. What others typed into notes stays.
  Person erase_person(const Uuid& person_id, const Uuid& by);
  std::vector<Instrument> instruments();
  Instrument put_instrument(Instrument instrument, const Uuid& by);
  std::vector<Lathe> lathes();
  Lathe put_lathe(Lathe lathe, const Uuid& by);
  std::vector<Piece> pieces();
  std::vector<Booking> last_bookings();                    ///< of each piece that was ever booked, the newest
  std::vector<Booking> bookings_of(const Uuid& piece_id);  ///< newest first
  /// @throws InputError  when a dimension that the piece's kind needs is missing or contradicts another
  Piece put_piece(Piece piece, const Uuid& by);
  /// All of them or none. @return how many were not there as they are
  std::int64_t put_pieces(const std::vector<Piece>& pieces, const Uuid& by);
  Booking book(const NewBooking& wanted, const Uuid& by);
  std::vector<Insert> inserts();
  Insert put_insert(Insert insert, const Uuid& by);
  std::vector<Corner> corners();
  /// What a corner has cut is the shop's to count: `used_m` is taken only where the corner is new, or set back to 0.
  Corner put_corner(Corner corner, const Uuid& by);
  std::vector<Band> bands();
  Band put_band(Band band, const Uuid& by);
  std::vector<TaperPlate> taper_plates();
  TaperPlate put_taper_plate(TaperPlate plate, const Uuid& by);
  std::vector<ZeroCheck> zero_checks(std::optional<Uuid> instrument_id);
  ZeroCheck add_zero_check(const Uuid& id, const Uuid& instrument_id, const std::string& text, Unit default_unit,
                           std::optional<Uuid> job_id, const Uuid& by);
  std::vector<KnownPart> known_parts(const std::string& words, std::int64_t limit);
  KnownPart put_known_part(KnownPart part, const Uuid& by);

  JobPage jobs(const JobQuery& query);
  JobFile job_file(const Uuid& job_id);
  JobFile job_file_by_number(std::int64_t number);

  /// Opens a job with its parts (one or two, of different sides and one kind) and a plan for each before the cut, by
  /// first_plan of shop/places.hpp. Number, state, times and versions are the shop's. A job that is opened beside
  /// another one of the same vehicle names the vehicle's first job.
  JobFile open_job(Job job, std::vector<Part> parts, const Uuid& by);
  Job change_job(const Job& wanted, const Uuid& by);
  Part change_part(const Part& wanted, const Uuid& by);
  /// @throws RuleError "readings_exist" for other points, circles or turning while current readings stand on them
  MeasuringPlan put_plan(const MeasuringPlan& wanted, const Uuid& by);

  /// Stores a reading, or answers the stored one when its id is known already.
  /// @throws DoubtfulReading  when it looks wrong and `confirmed` is not set
  Reading add_reading(const Uuid& job_id, const NewReading& reading, const Uuid& by);
  /// Refuses what add_reading would refuse, in the same words, and stores nothing: for a trial import.
  void check_reading(const Uuid& job_id, const NewReading& reading, const Uuid& by);
  /// Takes a reading back (undo); what it superseded counts again.
  Reading withdraw_reading(const Uuid& job_id, const Uuid& reading_id, const Uuid& by);

  Finding add_finding(Finding finding, const Uuid& by);
  Finding withdraw_finding(const Uuid& job_id, const Uuid& finding_id, const Uuid& by);

  /// @throws RuleError "reason_needed" for an overruling without a reason; "below_discard" for a cut of a part that
  ///         is at or under its discard thickness, whoever asks
  Decision decide(const Uuid& id, const Uuid& job_id, Action action, const std::string& reason, const Uuid& by);
  /// The best stacks for a part from what hangs on the pegboard or is out for this job.
  StackAdvice stacks(const Uuid& job_id, const Uuid& part_id, std::size_t count);
  /// Takes the pieces off the pegboard; those of an earlier mount of the part that are not in it come back.
  /// @throws RuleError "breaks_a_rule" for pieces that are no stack by core/mount, unless a reason is given
  Mount record_mount(const Uuid& job_id, const NewMount& wanted, const Uuid& by);
  /// @throws RuleError "reason_needed" when it goes on over the shop's rule without one
  MountProof record_proof(const Uuid& job_id, const NewMountProof& wanted, const Uuid& by);
  /// The soonest passes for a part. @param insert_id  the shop's first in use when left out
  /// @param own_size  of a drum: no further than its own least cut asks, whatever its partner needs
  PlanAdvice plan(const Uuid& job_id, const Uuid& part_id, std::optional<Uuid> insert_id, bool own_size = false);
  /// What other passes will do; stores nothing.
  PlanAdvice foresight(const Uuid& job_id, const Uuid& part_id, const NewForesight& wanted);
  /// @throws RuleError "not_enough_known" while a plan cannot be looked ahead at; "below_discard" and
  ///         "below_machine_to" for passes that leave the part so thin, "over_discard" and "over_machine_to" so wide,
  ///         whoever asks; "other_lathe" for another than the job's
  CutPlan settle_plan(const Uuid& job_id, const NewCutPlan& wanted, const Uuid& by);
  /// Counts up what its corners have cut.
  Pass record_pass(const Uuid& job_id, const NewPass& wanted, const Uuid& by);
  BenchStep record_step(const Uuid& job_id, const NewBenchStep& wanted, const Uuid& by);
  Cut record_cut(Cut cut, const Uuid& by);
  /// How a part goes back on its hub, by what was read so far.
  RefitAdvice refit_advice(const Uuid& job_id, const Uuid& part_id);
  /// @throws RuleError "studs_unknown" while the part's studs are not on record, "unknown_plate" for a tapered plate
  ///         that the shop has not, "reason_needed" for another position or plate than the computed one without a
  ///         reason
  Refit record_refit(const Uuid& job_id, const NewRefit& wanted, const Uuid& by);

  /// What the cut changes on the road.
  RoadAdvice road(const Uuid& job_id, const RoadWish& wish);
  /// Which wheel order and which corner the complaint fits.
  PulsationAdvice pulsation(const Uuid& job_id);
  /// What probably spoilt the parts that were cut.
  DiagnosisAdvice diagnosis(const Uuid& job_id);

  /// What the readings mean so far. Kept until the job, an instrument, a lathe, a zero check or a setting changes.
  Assessment assessment(const Uuid& job_id);

  /// What the finished jobs of a lathe say of it.
  LatheRecord lathe_study(const Uuid& lathe_id);

  /// Closes a job for good. @throws RuleError "not_decided", "not_cut", "not_finished", "not_measured_after" while it
  /// waits for those
  Job seal(const Uuid& job_id, const Uuid& by);
  /// Whether a sealed job is still what was sealed: its hash, worked out again. False for an open one.
  bool seal_holds(const Uuid& job_id);
  Amendment amend(Amendment amendment, const Uuid& by);

  std::vector<Change> changes(std::int64_t after, std::int64_t limit, std::optional<Uuid> job_id);
  std::vector<Change> own_changes(UtcTime from, UtcTime to);  ///< as Store::own_changes
  std::int64_t last_seq();
  JournalHead journal_head();
  /// The journal's head as it was signed when a job was sealed; none for an open job.
  std::optional<JournalHead> seal_head(const Uuid& job_id);

 private:
  template <class F>
  auto changing(const Uuid& by, F&& work);
  void announce();
  void forget();
  void record(std::string kind, std::optional<Uuid> job_id, const Uuid& subject_id, std::string detail_json,
              const Uuid& by);

  const std::vector<Person>& known_people();
  const std::vector<Instrument>& known_instruments();
  const std::vector<Lathe>& known_lathes();
  const std::vector<ZeroCheck>& known_zero_checks();
  const Hands& known_hands();
  void expect_person(const Uuid& id, const std::string& field);
  void expect_instrument(const std::optional<Uuid>& id, const std::string& field);
  void expect_lathe(const std::optional<Uuid>& id, const std::string& field);
  void expect_piece(const Uuid& id, const std::string& field);
  Booking put_booking(const NewBooking& wanted, const Uuid& by);
  void book_for(const Mount& mount, const JobFile& file, const Uuid& by);
  void wear_corner(const std::optional<Uuid>& corner_id, double cut_m, const Uuid& by);
  Mount checked_mount(const JobFile& file, const NewMount& wanted);

  std::optional<Uuid> first_of_vehicle(const Job& job);
  JobFile& file(const Uuid& job_id);
  JobFile& open_file(const Uuid& job_id);
  Reading checked_reading(JobFile& file, const NewReading& wanted, const Uuid& by);
  MeasuringPlan plan_for(JobFile& file, const Uuid& part_id, Stage stage, const Uuid& by);
  Assessment assess_now(const JobFile& file);
  std::shared_ptr<const Assessment> assessed(const Uuid& job_id);

  /// Copies of what an assessment rests on beside the job.
  struct Ground {
    Settings settings;
    std::vector<Instrument> instruments;
    std::vector<ZeroCheck> zero_checks;
    std::vector<Lathe> lathes;
    BenchReady ready;
    std::optional<BenchFigures> bench;
    Hands hands = {};

    AssessContext context() const { return {settings, instruments, zero_checks, lathes, ready, bench, hands}; }
  };
  Ground ground_for(const JobFile& file);
  BenchReady bench_ready(const JobFile& file);
  std::optional<BenchFigures> bench_figures(const JobFile& file);
  /// Reads every sealed job the first time that anybody asks, and locks the shop for one of them at a time; within a
  /// change it stays locked all the while, so that it is better asked before.
  void learn_finished();
  void note_finished(const JobFile& file);
  void note_pegboard();

  struct OnTheCar;  ///< copies of what an advice on the car rests on
  OnTheCar on_the_car(const Uuid& job_id);
  struct RefitKnown;
  std::optional<RefitKnown> refit_known(const Uuid& job_id, const Uuid& part_id);
  struct Bench;  ///< copies of what a plan rests on
  Bench bench_for(const Uuid& job_id, const Uuid& part_id, std::optional<Uuid> insert_id);

  struct Seen {
    std::int64_t seq = 0;
    std::uint64_t context = 0;
    std::shared_ptr<const Assessment> assessment;
  };

  Store& store_;
  Surroundings surroundings_;
  std::recursive_mutex guard_;  ///< of all below and of the store
  int depth_ = 0;               ///< of nested changes
  std::vector<Change> uncommitted_;
  std::deque<Change> unannounced_;
  std::optional<std::vector<Person>> people_;
  std::optional<std::vector<Instrument>> instruments_;
  std::optional<std::vector<Lathe>> lathes_;
  std::optional<std::vector<ZeroCheck>> zero_checks_;
  std::optional<bool> pegboard_is_empty_;
  std::function<Hands()> learn_hands_;
  std::optional<Hands> hands_;
  FinishedCuts finished_;          ///< of the sealed jobs that were read so far
  std::set<Uuid> finished_begun_;  ///< of which somebody is reading, or has read, the cuts
  bool all_finished_known_ = false;
  std::map<Uuid, JobFile> files_;
  std::map<Uuid, Seen> assessments_;
  std::uint64_t context_ = 0;  ///< counts what an assessment rests on beside the job: settings, instruments, lathes

  std::recursive_mutex announcing_;
  std::vector<std::function<void(const Change&)>> listeners_;
};

}  // namespace brakewright::shop
