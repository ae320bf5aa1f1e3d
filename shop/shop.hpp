#pragma once

#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "core/input_error.hpp"
#include "shop/entities.hpp"
#include "shop/requests.hpp"
#include "shop/store.hpp"

namespace brakewright::shop {

/// The clock and the dice, from outside.
struct Surroundings {
  std::function<UtcTime()> now;
  RandomBytes random;
};

/// Why a reading is questioned: a stable word, a sentence, and what it would be if the doubt is right.
struct Doubt {
  std::string code;  ///< "other_unit", "lost_turn", "thicker_than_before", "below_zero", "far_from_others", ...
  std::string message;
  std::optional<Length> suggestion;
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

  /// Called after each committed change, from the thread that made it.
  void on_change(std::function<void(const Change&)> listener);

  Settings settings();
  Settings change_settings(const Settings& wanted, const Uuid& by);  ///< version must be the current one

  std::vector<Person> people();
  Person put_person(Person person, const Uuid& by);  ///< `by` may be the person itself in an empty shop
  std::vector<Instrument> instruments();
  Instrument put_instrument(Instrument instrument, const Uuid& by);
  std::vector<Lathe> lathes();
  Lathe put_lathe(Lathe lathe, const Uuid& by);
  std::vector<ZeroCheck> zero_checks(std::optional<Uuid> instrument_id);
  ZeroCheck add_zero_check(const Uuid& id, const Uuid& instrument_id, const std::string& text, Unit default_unit,
                           std::optional<Uuid> job_id, const Uuid& by);
  std::vector<KnownPart> known_parts(const std::string& words, std::int64_t limit);
  KnownPart put_known_part(KnownPart part, const Uuid& by);

  JobPage jobs(const JobQuery& query);
  JobFile job_file(const Uuid& job_id);
  JobFile job_file_by_number(std::int64_t number);

  /// Opens a job with its parts (one or two); number, state, times and versions are the shop's.
  JobFile open_job(Job job, std::vector<Part> parts, const Uuid& by);
  Job change_job(const Job& wanted, const Uuid& by);
  Part change_part(const Part& wanted, const Uuid& by);
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
  Cut record_cut(Cut cut, const Uuid& by);

  Job seal(const Uuid& job_id, const Uuid& by);
  Amendment amend(Amendment amendment, const Uuid& by);

  std::vector<Change> changes(std::int64_t after, std::int64_t limit, std::optional<Uuid> job_id);
  std::int64_t last_seq();

 private:
  Store& store_;
  Surroundings surroundings_;
  std::mutex guard_;
  std::vector<std::function<void(const Change&)>> listeners_;
};

}  // namespace brakewright::shop
