#pragma once

#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "shop/entities.hpp"

namespace brakewright::shop {

/// One line of the board or of a search.
struct JobLine {
  Job job = {};
  std::vector<Part> parts = {};
  std::string worker_name = {};            ///< empty when nobody has it
  WaitsFor waits_for = WaitsFor::nothing;  ///< filled in by the shop, not by a store
};

struct JobQuery {
  std::optional<JobState> state = {};
  std::string words =
      {};  ///< all must occur, in any of number, vehicle, who brought it, complaint note, worker; empty = all
  std::optional<Uuid> vehicle_of = {};  ///< this job and those beside it, the first of the vehicle among them
  std::int64_t limit = 50;
  std::int64_t offset = 0;
};

struct JobPage {
  std::vector<JobLine> lines = {};
  std::int64_t total = 0;
};

/// Where a shop is kept. Every method either does the whole of what it says or throws and leaves nothing behind.
///
/// One thread at a time may be inside a store. Reading methods see all that was committed before.
/// @throws StoreError  when the medium fails: disk full, file damaged, database of a newer version; the message is
///                     for people and says what to do.
class Store {
 public:
  virtual ~Store() = default;

  /// Runs `work`; what it wrote becomes durable (on the disk, not in a cache) before this returns, or not at all
  /// when it throws. Inside another transact() it becomes part of that one.
  virtual void transact(const std::function<void()>& work) = 0;

  // Only within transact(): insert or, where an id exists already, replace. Zero checks, bookings, decisions, cuts,
  // amendments and all of shop/bench_work.hpp and shop/refit_work.hpp are only ever inserted, readings and findings
  // only change by being withdrawn, a sealed job never: anything else throws.
  virtual void put(const Settings&) = 0;
  virtual void put(const Person&) = 0;
  virtual void put(const Instrument&) = 0;
  virtual void put(const ZeroCheck&) = 0;
  virtual void put(const Lathe&) = 0;
  virtual void put(const KnownPart&) = 0;
  virtual void put(const Piece&) = 0;
  virtual void put(const Booking&) = 0;
  virtual void put(const Insert&) = 0;
  virtual void put(const Corner&) = 0;
  virtual void put(const Band&) = 0;
  virtual void put(const TaperPlate&) = 0;
  virtual void put(const Job&) = 0;
  virtual void put(const Part&) = 0;
  virtual void put(const MeasuringPlan&) = 0;
  virtual void put(const Reading&) = 0;
  virtual void put(const Finding&) = 0;
  virtual void put(const Decision&) = 0;
  virtual void put(const Mount&) = 0;
  virtual void put(const MountProof&) = 0;
  virtual void put(const CutPlan&) = 0;
  virtual void put(const Pass&) = 0;
  virtual void put(const BenchStep&) = 0;
  virtual void put(const Cut&) = 0;
  virtual void put(const Refit&) = 0;
  virtual void put(const Amendment&) = 0;

  /// Appends to the journal and gives the entry its `seq`, its hashes and, where it has none, a salt.
  virtual Change append(Change change) = 0;

  /// Empties detail and salt of an entry for good; its hashes stay, and with them the chain. Only for an entry that a
  /// later one of kind "person.erased" names.
  virtual void erase_detail(std::int64_t seq) = 0;

  /// Takes what no row says any more out of the index of words for good. Goes through the whole index: once, after
  /// all that is to be erased.
  virtual void forget_words() = 0;

  /// The next job number, never given twice.
  virtual std::int64_t next_job_number() = 0;

  virtual Settings settings() = 0;
  virtual std::vector<Person> people() = 0;
  virtual std::vector<Instrument> instruments() = 0;
  virtual std::vector<ZeroCheck> zero_checks(std::optional<Uuid> instrument_id) = 0;  ///< newest first
  virtual std::vector<Lathe> lathes() = 0;
  virtual std::vector<Piece> pieces() = 0;
  virtual std::vector<Booking> last_bookings() = 0;  ///< of each piece that was ever booked, the newest
  virtual std::vector<Booking> bookings_of(const Uuid& piece_id) = 0;  ///< newest first
  virtual std::optional<Booking> booking(const Uuid& id) = 0;
  virtual std::vector<Insert> inserts() = 0;
  virtual std::vector<Corner> corners() = 0;
  virtual std::vector<Band> bands() = 0;
  virtual std::vector<TaperPlate> taper_plates() = 0;
  virtual std::vector<KnownPart> known_parts(const std::string& words, std::int64_t limit) = 0;
  virtual JobPage jobs(const JobQuery&) = 0;
  virtual std::optional<JobFile> job_file(const Uuid& job_id) = 0;
  virtual std::optional<JobFile> job_file_by_number(std::int64_t number) = 0;
  virtual std::optional<Reading> reading(const Uuid& id) = 0;
  virtual std::optional<Uuid> job_of_part(const Uuid& part_id) = 0;

  /// Journal entries with seq > `after`, oldest first, at most `limit`; of one job when `job_id` is given.
  virtual std::vector<Change> changes(std::int64_t after, std::int64_t limit, std::optional<Uuid> job_id) = 0;
  virtual std::int64_t last_seq() = 0;
  /// Entries of this shop's own from `from` until before `to`, oldest first; not those of another shop that an entry
  /// "journal.brought" announces.
  virtual std::vector<Change> own_changes(UtcTime from, UtcTime to) = 0;

  /// As it was signed when the newest entry was committed.
  virtual JournalHead journal_head() = 0;
  /// As it was signed with the entry that sealed a job; none for an open job.
  virtual std::optional<JournalHead> seal_head(const Uuid& job_id) = 0;
};

/// The medium under a store failed. Nothing acknowledged is lost.
class StoreError : public std::runtime_error {
 public:
  enum class Cause { full, damaged, newer_version, busy, other };
  StoreError(Cause cause, const std::string& message) : std::runtime_error(message), cause_(cause) {}
  Cause cause() const { return cause_; }

 private:
  Cause cause_;
};

}  // namespace brakewright::shop
