#pragma once

#include <memory>

#include "shop/store.hpp"
#include "store/lock.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// The shop's store in one SQLite database; see shop/store.hpp for what each method promises.
class SqliteStore final : public shop::Store {
 public:
  SqliteStore(std::unique_ptr<Database> database, std::unique_ptr<Lock> lock);

  void transact(const std::function<void()>& work) override;

  void put(const shop::Settings&) override;
  void put(const shop::Person&) override;
  void put(const shop::Instrument&) override;
  void put(const shop::ZeroCheck&) override;
  void put(const shop::Lathe&) override;
  void put(const shop::KnownPart&) override;
  void put(const shop::Piece&) override;
  void put(const shop::Booking&) override;
  void put(const shop::Insert&) override;
  void put(const shop::Corner&) override;
  void put(const shop::Band&) override;
  void put(const shop::TaperPlate&) override;
  void put(const shop::Job&) override;
  void put(const shop::Part&) override;
  void put(const shop::MeasuringPlan&) override;
  void put(const shop::Reading&) override;
  void put(const shop::Finding&) override;
  void put(const shop::Decision&) override;
  void put(const shop::Mount&) override;
  void put(const shop::MountProof&) override;
  void put(const shop::CutPlan&) override;
  void put(const shop::Pass&) override;
  void put(const shop::BenchStep&) override;
  void put(const shop::Cut&) override;
  void put(const shop::Refit&) override;
  void put(const shop::Amendment&) override;
  shop::Change append(shop::Change change) override;
  std::int64_t next_job_number() override;

  shop::Settings settings() override;
  std::vector<shop::Person> people() override;
  std::vector<shop::Instrument> instruments() override;
  std::vector<shop::ZeroCheck> zero_checks(std::optional<shop::Uuid> instrument_id) override;
  std::vector<shop::Lathe> lathes() override;
  std::vector<shop::Piece> pieces() override;
  std::vector<shop::Booking> last_bookings() override;
  std::vector<shop::Booking> bookings_of(const shop::Uuid& piece_id) override;
  std::optional<shop::Booking> booking(const shop::Uuid& id) override;
  std::vector<shop::Insert> inserts() override;
  std::vector<shop::Corner> corners() override;
  std::vector<shop::Band> bands() override;
  std::vector<shop::TaperPlate> taper_plates() override;
  std::vector<shop::KnownPart> known_parts(const std::string& words, std::int64_t limit) override;
  shop::JobPage jobs(const shop::JobQuery&) override;
  std::optional<shop::JobFile> job_file(const shop::Uuid& job_id) override;
  std::optional<shop::JobFile> job_file_by_number(std::int64_t number) override;
  std::optional<shop::Reading> reading(const shop::Uuid& id) override;
  std::optional<shop::Uuid> job_of_part(const shop::Uuid& part_id) override;
  std::vector<shop::Change> changes(std::int64_t after, std::int64_t limit, std::optional<shop::Uuid> job_id) override;
  std::int64_t last_seq() override;

  Database& database() { return *database_; }

 private:
  void must_be_within_transact() const;
  shop::JobFile rest_of(shop::Job job);

  std::unique_ptr<Lock> lock_;
  std::unique_ptr<Database> database_;
};

}  // namespace brakewright::store
