#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/input_error.hpp"
#include "shop/times.hpp"

/// Holding a record on paper against the shop that it names.
namespace brakewright::server {

enum class RecordAnswer {
  as_printed,      ///< byte for byte what this shop prints of the job as it was sealed
  differs,         ///< has the job's seal, and is not what this shop prints of it
  sealed_later,    ///< has a seal that was taken back, or made anew, later
  not_in_journal,  ///< has a seal that this shop's journal has not, or has with another hash
  not_proven,      ///< has a seal of this shop's journal, which is not whole up to there
  not_sealed       ///< says itself that it is not sealed by an entry of a journal
};
/// "as_printed", ...
std::string_view word_of_answer(RecordAnswer answer);

/// A job of the record, as the shop's journal has it.
struct CheckedJob {
  std::int64_t number = 0;
  std::int64_t seal_entry = 0;                     ///< as the record says
  std::optional<shop::UtcTime> sealed_at = {};     ///< absent where the journal has no such seal
  std::string sealed_by = {};                      ///< name; empty for who may not know names
  std::optional<std::int64_t> later_entry = {};    ///< that took the seal back or made it anew
  std::optional<std::int64_t> amended_entry = {};  ///< newest amendment since the record was printed
  std::int64_t amendments_since = 0;
};

struct RecordCheck {
  RecordAnswer answer = RecordAnswer::not_sealed;
  std::vector<std::string> sentences = {};  ///< the answer in words, what it rests on, and what it leaves open
  std::vector<CheckedJob> jobs = {};        ///< those that are sealed by an entry
};

struct RecordAsker {
  bool knows_names = false;  ///< of people, and what the journal has in the place of a seal
  std::string address = {};  ///< of the shop now; a record that names it is not told to name another
};

/// Reads the shop's file as it was last committed, beside whoever has it open, and changes nothing. A record is drawn
/// again from the shop as it was when the record says that it was printed, made again from the journal, with what it
/// carries of paper, time and address; so an answer as_printed holds for every byte of it.
/// What is cheap comes first: nothing is proven or drawn for a record whose seal the journal has not.
/// @throws InputError  as report::carried_in; StoreError
RecordCheck check_record(std::string_view pdf, const std::filesystem::path& shop_file, const RecordAsker& asker);

}  // namespace brakewright::server
