#include "server/records/record_check.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <nlohmann/json.hpp>

#include "report/carried/carried.hpp"
#include "server/records/check_words.hpp"
#include "server/records/record_matter.hpp"
#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/school/school.hpp"
#include "store/past.hpp"
#include "store/sqlite_school.hpp"

namespace brakewright::server {
namespace {

using report::Carried;
using report::CarriedJob;

constexpr std::int64_t kPage = 500;

std::optional<shop::Change> entry_at(shop::Store& store, std::int64_t seq) {
  auto found = store.changes(seq - 1, 1, std::nullopt);
  if (found.empty() || found.front().seq != seq) return {};
  return std::move(found.front());
}

template <class F>
void each_entry(shop::Store& store, std::int64_t after, std::optional<shop::Uuid> job_id, F&& visit) {
  while (true) {
    const auto page = store.changes(after, kPage, job_id);
    for (const shop::Change& entry : page) visit(entry);
    if (page.empty()) return;
    after = page.back().seq;
  }
}

/// The job as an entry of a kind "job...." tells it.
std::optional<shop::Job> job_in(const shop::Change& entry) {
  try {
    return shop::from_json<shop::Job>(shop::parse_json(entry.detail_json));
  } catch (const InputError&) {
    return {};
  }
}

std::string name_in(shop::Store& store, const shop::Uuid& person_id) {
  const auto people = store.people();
  const shop::Person* found = shop::find(people, person_id);
  return found == nullptr ? "somebody unknown" : found->name;
}

/// The address without the job; nothing where the address is not one that a record is printed with.
std::optional<std::string> base_of(const std::string& job_url, std::int64_t job_number) {
  if (job_url.empty()) return "";
  const std::string end = "/jobs/" + std::to_string(job_number);
  if (!job_url.ends_with(end) || job_url.size() == end.size()) return {};
  return job_url.substr(0, job_url.size() - end.size());
}

class Checking {
 public:
  Checking(std::string_view pdf, const std::filesystem::path& file, const RecordAsker& asker)
      : pdf_(pdf), file_(file), asker_(asker), carried_(report::carried_in(pdf)) {}

  RecordCheck run() {
    if (!report::traceable(carried_)) {
      check_.sentences = words_of_unsealed(carried_);
      return std::move(check_);
    }
    store_ = store::open_beside(file_);
    if (const auto missing = missing_in_journal()) {
      return told(RecordAnswer::not_in_journal, words_of_missing(carried_, asker_.knows_names ? *missing : ""));
    }
    if (const auto fault = fault_of_proof()) {
      return told(RecordAnswer::not_proven, words_of_unproven(carried_, asker_.knows_names ? *fault : ""));
    }
    for (CheckedJob& job : check_.jobs) look_behind(job);
    const bool same = drawn_again() == pdf_;
    const bool later =
        std::any_of(check_.jobs.begin(), check_.jobs.end(), [](const CheckedJob& job) { return job.later_entry; });
    return told(later  ? RecordAnswer::sealed_later
                : same ? RecordAnswer::as_printed
                       : RecordAnswer::differs,
                words_of_found(carried_, check_.jobs,
                               {.same = same,
                                .odd_time = !printed_when_it_says(),
                                .erased_since = !same && erased_since(),
                                .other_address = other_address()}));
  }

 private:
  RecordCheck told(RecordAnswer answer, std::vector<std::string> sentences) {
    check_.answer = answer;
    check_.sentences = std::move(sentences);
    return std::move(check_);
  }

  /// Fills in the jobs. @return what the journal lacks, in words; nothing when it has all
  std::optional<std::string> missing_in_journal() {
    for (const CarriedJob& job : carried_.jobs) {
      if (job.seal_entry == 0) continue;
      check_.jobs.push_back({.number = job.number, .seal_entry = job.seal_entry});
      if (auto why = why_missing(job, check_.jobs.back())) return why;
    }
    const auto newest = entry_at(*store_, carried_.newest_entry);
    const std::string name = entry_name(carried_.newest_entry);
    if (!newest) return "when it was printed the journal had " + name + ", which is not there";
    if (newest->entry_sha256 != carried_.newest_entry_sha256) {
      return "when it was printed the journal ended with " + name + ", which has another hash here";
    }
    newest_ = *newest;
    return {};
  }

  std::optional<std::string> why_missing(const CarriedJob& job, CheckedJob& checked) {
    const auto entry = entry_at(*store_, job.seal_entry);
    const std::string name = entry_name(job.seal_entry);
    if (!entry) return name + " is not there: the journal ends with " + entry_name(store_->last_seq());
    if (entry->kind != "job.sealed" || !entry->job_id) return name + " seals no job";
    if (entry->entry_sha256 != job.seal_entry_sha256) return name + " seals a job, and has another hash here";
    const auto sealed = job_in(*entry);
    const auto present = store_->job_file(*entry->job_id);
    if (!sealed || !present || present->job.number != job.number) return name + " seals another job";
    if (sealed->seal_sha256 != job.seal_sha256) return name + " seals the job with another hash of its content";
    if (job.seal_entry > carried_.newest_entry) return name + " is from after the printing that the record tells";
    checked.sealed_at = sealed->sealed_at;
    if (asker_.knows_names) checked.sealed_by = name_in(*store_, entry->by_person_id);
    ids_.push_back(*entry->job_id);
    return {};
  }

  std::optional<std::string> fault_of_proof() const {
    std::vector<std::int64_t> seals;
    for (const CheckedJob& job : check_.jobs) seals.push_back(job.seal_entry);
    return store::fault_up_to(file_, carried_.newest_entry, seals);
  }

  /// What the journal tells of a job behind its seal.
  void look_behind(CheckedJob& job) {
    const shop::Uuid id = ids_[static_cast<std::size_t>(&job - check_.jobs.data())];
    each_entry(*store_, job.seal_entry, id, [&](const shop::Change& entry) {
      const bool anew = entry.kind == "job.sealed";
      const bool taken_back =
          entry.kind.starts_with("job.") && !anew && entry.subject_id == id &&
          job_in(entry).value_or(shop::Job{.state = shop::JobState::sealed}).state == shop::JobState::open;
      if (anew || taken_back) job.later_entry = entry.seq;
      if (entry.kind.starts_with("amendment.") && entry.seq > carried_.newest_entry) {
        ++job.amendments_since;
        job.amended_entry = entry.seq;
      }
    });
  }

  /// What the shop prints; empty when it prints no such record.
  std::string drawn_again() {
    const auto base = base_of(carried_.job_url, carried_.jobs.front().number);
    if (!base) return {};
    try {
      const auto past = store::shop_as_of(*store_, carried_.newest_entry);
      shop::Shop as_of(*past, {.now = [&] { return carried_.printed_at; },
                               .random =
                                   [](std::span<std::uint8_t>) {
                                     throw std::logic_error("nothing is made while a record is drawn");
                                   }});
      const auto school_store = store::open_school(*past);
      const shop::School school(as_of, *school_store, [&] { return carried_.printed_at; });
      const shop::JobFile first = as_of.job_file_by_number(carried_.jobs.front().number);
      return record_file(as_of, first.job.id, carried_.jobs.size() > 1, carried_.paper,
                         {.printed_at = carried_.printed_at,
                          .address = *base,
                          .seal_entry = [&](const shop::Uuid& job_id) { return seal_as_of_printing(job_id); },
                          .newest_entry = shop::JournalHead{.seq = newest_.seq, .entry_sha256 = newest_.entry_sha256}});
    } catch (const InputError&) {  // no such job then, or rows that the journal tells no more
      return {};
    }
  }

  std::optional<shop::JournalHead> seal_as_of_printing(const shop::Uuid& job_id) {
    auto head = store_->seal_head(job_id);
    if (head && head->seq > carried_.newest_entry) head.reset();
    return head;
  }

  /// Whether the entries of the journal around the printing are of that time, give or take a clock that was set.
  bool printed_when_it_says() {
    constexpr std::chrono::minutes kClockSet{10};
    if (carried_.printed_at + kClockSet < newest_.at) return false;
    const auto next = entry_at(*store_, carried_.newest_entry + 1);
    return !next || carried_.printed_at - kClockSet <= next->at;
  }

  bool erased_since() {
    bool found = false;
    each_entry(*store_, carried_.newest_entry, std::nullopt,
               [&](const shop::Change& entry) { found = found || entry.kind == "person.erased"; });
    return found;
  }

  std::string other_address() const {
    const auto base = base_of(carried_.job_url, carried_.jobs.front().number);
    return base && (base->empty() || *base == asker_.address) ? "" : carried_.job_url;
  }

  std::string_view pdf_;
  const std::filesystem::path& file_;
  const RecordAsker& asker_;
  Carried carried_;
  std::unique_ptr<shop::Store> store_;
  shop::Change newest_;
  std::vector<shop::Uuid> ids_;  ///< of the jobs in check_
  RecordCheck check_;
};

}  // namespace

std::string_view word_of_answer(RecordAnswer answer) {
  static constexpr auto kWords = std::to_array<std::string_view>(
      {"as_printed", "differs", "sealed_later", "not_in_journal", "not_proven", "not_sealed"});
  return kWords[static_cast<std::size_t>(answer)];
}

RecordCheck check_record(std::string_view pdf, const std::filesystem::path& shop_file, const RecordAsker& asker) {
  return Checking(pdf, shop_file, asker).run();
}

}  // namespace brakewright::server
