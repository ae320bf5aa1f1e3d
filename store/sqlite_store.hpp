#pragma once

#include <memory>
#include <optional>
#include <string>

#include "shop/journal/signing.hpp"
#include "shop/store.hpp"
#include "store/lock.hpp"
#include "store/sqlite.hpp"

namespace brakewright::store {

/// The shop's store in one SQLite database; see shop/store.hpp for what each method promises.
class SqliteStore final : public shop::Store {
 public:
  /// @param key  signs the journal's head; none for a shop that is only read, or only lives in memory
  SqliteStore(std::unique_ptr<Database> database, std::unique_ptr<Lock> lock,
              std::optional<shop::SigningKey> key = std::nullopt);

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
  void erase_detail(std::int64_t seq) override;
  void forget_words() override;
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
  std::vector<shop::Change> own_changes(shop::UtcTime from, shop::UtcTime to) override;
  shop::JournalHead journal_head() override;
  std::optional<shop::JournalHead> seal_head(const shop::Uuid& job_id) override;

  Database& database() { return *database_; }
  /// Names this shop's key in the journal, unless it named it last; by the person of the entry before.
  void announce_key(const shop::Change& before);
  /// A head at this entry, signed with the shop's key.
  shop::JournalHead signed_head(const shop::Change& entry) const;

 private:
  void must_be_within_transact() const;
  shop::JobFile rest_of(shop::Job job);
  void write_head();

  std::unique_ptr<Lock> lock_;
  std::unique_ptr<Database> database_;
  std::optional<shop::SigningKey> key_;
  std::string announced_key_;           ///< the public key that the journal named last
  std::optional<shop::Change> newest_;  ///< entry of the journal, while a transaction appends to it
};

}  // namespace brakewright::store
