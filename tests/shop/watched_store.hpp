#pragma once

#include <cstdint>

#include "shop/store.hpp"

namespace brakewright::shop {

/// Another store, that counts what is asked of it. Like any store it is asked by one thread at a time.
class WatchedStore : public Store {
 public:
  explicit WatchedStore(Store& inner) : inner_(inner) {}

  std::int64_t jobs_read = 0;
  std::int64_t jobs_before = 0;  ///< read for something else first
  std::int64_t jobs_expected = 0;
  std::int64_t words_forgotten = 0;
  std::int64_t answered_between = 0;  ///< questions for the last seq while some of the jobs were read, and not all

  std::optional<JobFile> job_file(const Uuid& job_id) override {
    ++jobs_read;
    return inner_.job_file(job_id);
  }
  std::int64_t last_seq() override {
    if (jobs_read > jobs_before && jobs_read < jobs_expected) ++answered_between;
    return inner_.last_seq();
  }

  void transact(const std::function<void()>& work) override { inner_.transact(work); }
  void put(const Settings& it) override { inner_.put(it); }
  void put(const Person& it) override { inner_.put(it); }
  void put(const Instrument& it) override { inner_.put(it); }
  void put(const ZeroCheck& it) override { inner_.put(it); }
  void put(const Lathe& it) override { inner_.put(it); }
  void put(const KnownPart& it) override { inner_.put(it); }
  void put(const Piece& it) override { inner_.put(it); }
  void put(const Booking& it) override { inner_.put(it); }
  void put(const Insert& it) override { inner_.put(it); }
  void put(const Corner& it) override { inner_.put(it); }
  void put(const Band& it) override { inner_.put(it); }
  void put(const TaperPlate& it) override { inner_.put(it); }
  void put(const Job& it) override { inner_.put(it); }
  void put(const Part& it) override { inner_.put(it); }
  void put(const MeasuringPlan& it) override { inner_.put(it); }
  void put(const Reading& it) override { inner_.put(it); }
  void put(const Finding& it) override { inner_.put(it); }
  void put(const Decision& it) override { inner_.put(it); }
  void put(const Mount& it) override { inner_.put(it); }
  void put(const MountProof& it) override { inner_.put(it); }
  void put(const CutPlan& it) override { inner_.put(it); }
  void put(const Pass& it) override { inner_.put(it); }
  void put(const BenchStep& it) override { inner_.put(it); }
  void put(const Cut& it) override { inner_.put(it); }
  void put(const Refit& it) override { inner_.put(it); }
  void put(const Amendment& it) override { inner_.put(it); }
  Change append(Change change) override { return inner_.append(std::move(change)); }
  void erase_detail(std::int64_t seq) override { inner_.erase_detail(seq); }
  void forget_words() override {
    ++words_forgotten;
    inner_.forget_words();
  }
  JournalHead journal_head() override { return inner_.journal_head(); }
  std::optional<JournalHead> seal_head(const Uuid& job_id) override { return inner_.seal_head(job_id); }
  std::int64_t next_job_number() override { return inner_.next_job_number(); }
  Settings settings() override { return inner_.settings(); }
  std::vector<Person> people() override { return inner_.people(); }
  std::vector<Instrument> instruments() override { return inner_.instruments(); }
  std::vector<ZeroCheck> zero_checks(std::optional<Uuid> of) override { return inner_.zero_checks(of); }
  std::vector<Lathe> lathes() override { return inner_.lathes(); }
  std::vector<Piece> pieces() override { return inner_.pieces(); }
  std::vector<Booking> last_bookings() override { return inner_.last_bookings(); }
  std::vector<Booking> bookings_of(const Uuid& piece_id) override { return inner_.bookings_of(piece_id); }
  std::optional<Booking> booking(const Uuid& id) override { return inner_.booking(id); }
  std::vector<Insert> inserts() override { return inner_.inserts(); }
  std::vector<Corner> corners() override { return inner_.corners(); }
  std::vector<Band> bands() override { return inner_.bands(); }
  std::vector<TaperPlate> taper_plates() override { return inner_.taper_plates(); }
  std::vector<KnownPart> known_parts(const std::string& words, std::int64_t limit) override {
    return inner_.known_parts(words, limit);
  }
  JobPage jobs(const JobQuery& query) override { return inner_.jobs(query); }
  std::optional<JobFile> job_file_by_number(std::int64_t number) override { return inner_.job_file_by_number(number); }
  std::optional<Reading> reading(const Uuid& id) override { return inner_.reading(id); }
  std::optional<Uuid> job_of_part(const Uuid& part_id) override { return inner_.job_of_part(part_id); }
  std::vector<Change> changes(std::int64_t after, std::int64_t limit, std::optional<Uuid> job_id) override {
    return inner_.changes(after, limit, job_id);
  }
  std::vector<Change> own_changes(UtcTime from, UtcTime to) override { return inner_.own_changes(from, to); }

 private:
  Store& inner_;
};

}  // namespace brakewright::shop
