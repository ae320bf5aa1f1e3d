#pragma once

#include <array>
#include <functional>
#include <limits>
#include <map>
#include <mutex>
#include <optional>
#include <semaphore>
#include <string>
#include <vector>

#include "core/practice/run.hpp"
#include "shop/practice/book.hpp"
#include "shop/practice/live_runs.hpp"
#include "shop/practice/store.hpp"
#include "shop/shop.hpp"

namespace brakewright::shop {

/// A run in a line: `run.acts` and `run.view_json` are those of its newest act, ended or not.
struct PracticeLine {
  PracticeRun run = {};
  std::string person_name = {};
  std::optional<std::string> set_name = {};
  UtcTime last_act_at = {};
};

/// Which runs are wanted: all, or those that fulfil each of these.
struct PracticeWish {
  std::optional<Uuid> person_id = {};      ///< of this person
  std::optional<UtcTime> live_since = {};  ///< not ended, and acted in since
  std::optional<Uuid> before = {};         ///< begun before this run
  std::size_t most = std::numeric_limits<std::size_t>::max();
};

/// The newest that fulfil a wish.
struct PracticePage {
  std::vector<PracticeLine> lines = {};
  std::size_t earlier = 0;  ///< so many more fulfil it, all begun before the last of `lines`
};

/// A run with all that was done in it.
struct PracticeFile {
  PracticeLine line = {};
  practice::Bench bench = {};
  std::vector<KeptAct> acts = {};
  std::string mark_json = {};  ///< empty while it is not ended, and where it was given up
};

/// What an act gave back. The view is that of the bench as it stands.
struct PracticeAnswer {
  std::int64_t number = 0;
  std::string outcome_json = {};
  std::string view_json = {};
};

/// Practice at the simulated bench: runs of people, and what a teacher sets the class.
///
/// What a run begins with and ends in goes through the shop's journal; its acts are kept in a PracticeBook while it
/// goes on, each before it is answered, and then folded into its record. Benches are set up again from their acts
/// whenever they are not in memory. People at different benches wait neither for each other nor for the shop.
///
/// However many look on at once, memory holds kLiveRuns benches that are acted at and kShownRuns that have ended (more
/// only while more are being asked for at once), and kReplays processors set benches up: an act waits for its turn at
/// that, a picture or a sound is refused.
///
/// Safe to call from several threads. All throw InputError for values that the giver can mend, RuleError where a rule
/// forbids it, StoreError when the medium fails; a bench that has done what could not be kept is set up again.
class Practice {
 public:
  static constexpr std::size_t kLiveRuns = 24;
  static constexpr std::size_t kShownRuns = 4;  ///< ended ones; they take no live one's place
  static constexpr std::ptrdiff_t kReplays = 2;
  static constexpr std::int64_t kMostActs = 4'000;  ///< of a run; after them it can only be ended

  /// Reads what is there, and drops kept acts of runs that are ended or unknown (the shop was restored from a backup).
  Practice(Shop& shop, PracticeStore& store, PracticeBook& book, Surroundings around,
           std::size_t live_runs = kLiveRuns);

  /// Called with a run's id after it began, went on or ended, from the thread that did it; must be quick.
  void on_change(std::function<void(const Uuid& run_id)> listener);

  std::vector<PracticeSet> sets();
  /// @throws InputError "unknown_fault" naming "faults[k]"; RuleError "needs_teacher"
  PracticeSet put_set(const Uuid& set_id, const NewPracticeSet& wanted, const Uuid& by);

  /// Begins a run. A person has one open run of each set, which is then gone on with, and one free one: an open free
  /// run is given up, unless nothing was done in it and the same is wanted again.
  /// @throws RuleError "unknown_set" for one that is not there or, for a student, not open; "visitor"
  PracticeFile begin(const NewPracticeRun& wanted, const Uuid& by);

  /// Newest first; from memory. @throws RuleError "unknown_run" for a `before` that is none
  PracticePage runs(const PracticeWish& wish = {});
  Uuid person_of(const Uuid& run_id);  ///< @throws RuleError "unknown_run"; so do all below
  PracticeFile run(const Uuid& run_id);
  /// @throws RuleError "not_yours", "number_taken", "number_ahead", "not_now", "ended", "too_many_acts",
  ///         "bench_changed" when the acts so far do not give what they gave (a newer program simulates otherwise)
  PracticeAnswer act(const Uuid& run_id, const NewPracticeAct& wanted, const Uuid& by);
  /// What an eye sees of a face, as shop/practice/seen.hpp has it; no more than that goes out of here.
  /// @throws RuleError "bench_busy" when the bench is not in memory and as many are being set up as may be at once;
  ///         ask again in a few seconds. So does `sound`.
  practice::Picture picture(const Uuid& run_id, practice::Side side, int angles, int rings);
  std::vector<float> sound(const Uuid& run_id, double seconds, int rate_hz);

  /// As PracticeStore::best_points.
  std::map<Uuid, double> best_points();
  bool has_ended(const Uuid& run_id, const Uuid& person_id);  ///< with a mark

 private:
  /// What is known of a run without its bench.
  struct Known {
    PracticeRun run;
    UtcTime last_act_at;
    bool ends = false;  ///< ended at the bench, and not yet in the record
  };

  void read_all();
  Known known(const Uuid& run_id);
  std::optional<PracticeSet> known_set(const Uuid& set_id);
  PracticeLine line_of(const Known& known, const std::vector<Person>& people);
  PracticeRun planned(const NewPracticeRun& wanted, const Person& person);
  std::int64_t drawn_seed();
  std::optional<std::vector<std::string>> faults_of_next(const Uuid& person_id, std::int64_t seed,
                                                         std::int64_t difficulty);
  std::optional<Uuid> open_run_of(const Uuid& person_id, const std::optional<Uuid>& set_id);
  std::vector<KeptAct> kept_acts(const PracticeRun& run);
  std::shared_ptr<LiveRun> hold(const Uuid& run_id);
  enum class Turn { waits, refused };
  practice::Run& set_up(LiveRun& live, const PracticeRun& run, Turn turn = Turn::waits);
  PracticeAnswer go_on(LiveRun& live, const Known& before, const NewPracticeAct& wanted);
  void fold(LiveRun& live, const Known& ended);
  Known mark_late(LiveRun& live, const Known& ended);
  void give_up(const Uuid& run_id);
  bool can_go_on(const Uuid& run_id);
  void write_end(const Known& ended, const std::vector<KeptAct>& acts, const std::string& mark_json);
  void note(const Known& known);
  void tell(const Uuid& run_id);

  Shop& shop_;
  PracticeStore& store_;
  PracticeBook& book_;
  Surroundings around_;
  LiveRuns live_;
  LiveRuns shown_{kShownRuns};
  std::counting_semaphore<kReplays> replays_{kReplays};  ///< taken last, while a bench's guard is held
  std::mutex setting_;  ///< so that sets stand in memory in the order of the journal; taken before the shop's
  std::array<std::mutex, 16> beginning_;  ///< one for each person, by their id; taken before a bench's guard
  std::mutex guard_;                      ///< of what follows; nothing else is taken while it is held
  std::map<Uuid, Known> known_;
  std::vector<PracticeSet> sets_;
  std::mutex telling_;
  std::vector<std::function<void(const Uuid&)>> listeners_;
};

}  // namespace brakewright::shop
