#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"

namespace brakewright::shop {
struct Assessment;
}

/// The record of one job on paper: one drawing code for PDF, SVG and PNG.
namespace brakewright::report {

/// A wall clock beside UTC, only where somebody says so.
struct LocalClock {
  std::chrono::minutes ahead_of_utc{0};
  std::string label = {};  ///< such as "CET"; shown behind each local time
};

/// Everything that the record speaks of. Nothing is looked up: what is not in here is not on the sheet. The
/// references must outlive the call, not longer.
struct RecordInput {
  const shop::JobFile& file;
  const shop::Assessment& assessment;  ///< of this very file
  const std::vector<shop::Person>& people;
  const std::vector<shop::Instrument>& instruments;
  const std::vector<shop::Lathe>& lathes;
  const std::vector<shop::ZeroCheck>& zero_checks;  ///< in any order; those that the readings name are shown
  const shop::Settings& settings;
  std::string job_url = {};  ///< address of the job on the shop's network, for the QR code; empty: no code is drawn
  shop::UtcTime printed_at;
  std::optional<LocalClock> local_clock = {};  ///< times are UTC when absent
  std::vector<shop::Piece> pieces = {};        ///< of the pegboard; those of the stack are named and drawn
  std::vector<shop::Insert> inserts = {};
  std::vector<shop::TaperPlate> taper_plates = {};
  std::vector<shop::Job> beside = {};  ///< other jobs of the vehicle, which the sheet names
  /// Of a sealed job the entry of the shop's journal that sealed it, and the newest one when this is printed: the
  /// record carries both, so that a copy can be held against the shop. Absent where the journal has no such entry.
  std::optional<shop::JournalHead> seal_entry = {};
  shop::JournalHead newest_entry = {};
};

/// How many sheets the record has: 1 while nothing is measured, else 2, one more where something was done at the lathe,
/// and one more where something was read or done on the car. Never more: what does not fit is shortened with an
/// ellipsis and points to the job.
int sheets(const RecordInput& input, shop::Paper paper);

/// The whole record. The same input gives the same bytes (its creation date is `printed_at`). Its keywords are what
/// report/carried/carried.hpp says.
/// Any text of the input is drawn as text, whatever characters it has; bytes that are no UTF-8 show as U+FFFD.
/// @throws std::runtime_error  when the drawing library fails, for example for want of memory
std::string record_pdf(const RecordInput& input, shop::Paper paper);

/// The records of all jobs of one vehicle in one file: front axle before rear, of one axle by their numbers; each job
/// with its own sheets and its own count of them. `printed_at` is the first input's.
/// @throws InputError "missing" (field "jobs") for no job at all
std::string vehicle_pdf(const std::vector<RecordInput>& inputs, shop::Paper paper);

/// One sheet as SVG 1.1, letters as outlines, so that it looks the same where the typeface is not installed.
/// @param sheet  from 1
/// @throws InputError "no_such_sheet" (field "sheet") when there is no such sheet
std::string record_svg(const RecordInput& input, shop::Paper paper, int sheet);

/// One sheet as PNG on white.
/// @param dpi  pixels per inch, 36 to 600
/// @throws InputError "no_such_sheet" (field "sheet"), "out_of_range" (field "dpi")
std::string record_png(const RecordInput& input, shop::Paper paper, int sheet, int dpi);

}  // namespace brakewright::report
