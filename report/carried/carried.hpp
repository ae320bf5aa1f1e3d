#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "shop/entities.hpp"

/// What a record on paper carries with it so that a copy can be held against the shop that printed it.
///
/// It stands whole in the PDF's keywords (ISO 32000-1, 14.3.3), as items with "; " between them:
/// - `Brakewright record 1`: the form of this text
/// - `paper a4`
/// - `printed 2026-03-04T11:42:00.250Z`
/// - `journal 1310 <64 hex digits>`: the newest entry of the shop's journal at the printing, and its chain hash
/// - `address http://...`: of the first job on the shop's network, where it had one without ";" or blanks
/// - a job of these: `job 41 sealed 1204 <64 hex digits> <64 hex digits> <64 hex digits>`: its number; the journal's
///   entry that sealed it; that entry's chain hash; the hash of the job's content; the shop's public key that signed
///   the entry, or `unsigned`. `job 42 sealed elsewhere`: sealed, and this shop's journal has no entry of it.
///   `job 43 not sealed`
///
/// A record of jobs of which none is sealed by an entry has the first item and those of its jobs alone.
namespace brakewright::report {

struct CarriedJob {
  std::int64_t number = 0;
  bool sealed = false;
  std::int64_t seal_entry = 0;  ///< 0 where the journal has none
  std::string seal_entry_sha256 = {};
  std::string seal_sha256 = {};  ///< of the job's content
  std::string public_key = {};

  friend bool operator==(const CarriedJob&, const CarriedJob&) = default;
};

struct Carried {
  shop::Paper paper = shop::Paper::a4;
  shop::UtcTime printed_at = {};
  std::int64_t newest_entry = 0;
  std::string newest_entry_sha256 = {};
  std::string job_url = {};  ///< of the first job; empty without an address
  std::vector<CarriedJob> jobs = {};

  friend bool operator==(const Carried&, const Carried&) = default;
};

/// Whether any job of it was sealed by an entry of the journal.
bool traceable(const Carried& carried);

std::string text_of(const Carried& carried);

/// The most bytes of a PDF that carried_in looks at.
inline constexpr std::size_t kMostRecordBytes = 4 * 1024 * 1024;

/// What a PDF carries, read from its bytes alone: the keywords that stand last in it.
/// @throws InputError (field empty) "too_large" over kMostRecordBytes; "not_a_pdf"; "damaged" for a PDF whose end is
///         missing or whose keywords begin as those of a record and are none; "no_record" for one without
Carried carried_in(std::string_view pdf);

}  // namespace brakewright::report
