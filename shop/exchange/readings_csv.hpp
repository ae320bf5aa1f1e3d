#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "shop/shop.hpp"

/// Readings of one job as a table for a spreadsheet, out and in.
namespace brakewright::shop {

/// A line that was not taken.
struct ImportLine {
  std::int64_t line = 0;  ///< in the text, from 1, the heading included
  std::string field;      ///< heading of the cell, or empty for the whole line
  std::string message;
};

/// What became of an import.
struct ImportReport {
  std::int64_t added = 0;
  std::int64_t known = 0;  ///< were there already, so that importing twice adds nothing
  std::vector<ImportLine> refused;
};

struct ImportOptions {
  Unit default_unit = Unit::mm;  ///< of a number whose line and heading name no unit
  bool dry_run = false;          ///< find out everything, store nothing
};

/// Adds readings from a table to an open job, line by line: what is good is stored, what is not is in the report.
///
/// Headings, in any order, in capitals or not, with blanks, hyphens or underscores:
///   side                 left or right; may be left out where the job has one part
///   stage                before, after, on_car or refit; left out = before
///   quantity, value      one reading to a line; `value` may be `value_mm`, `value_in` or `value_um`
///   thickness, runout_outboard, ... (any quantity, with or without a unit)   several readings to a line
///   unit                 of a bare number; a unit behind the number itself comes first
///   point_number, circle_number   from 1; circle left out = the first. A column that has a 0 in it counts from 0.
///   studs_turned         of runout read on the car: by how many studs the part was turned on its hub, from 0
///   angle_deg            in place of the point: the plan's point within half a degree of it
///   instrument           name or serial number as the shop knows it
///   confirmed            yes keeps a reading that would be questioned
///   taken_at, id, state  as `readings_csv` writes them; only lines whose state is current are read
/// Other headings (notes, names) are passed over.
/// A line without an id gets one from what it says and how often the same was said before it, so that the same table
/// can be imported again and again.
/// @throws InputError "not_a_table", "no_heading", "too_many" when the table as a whole cannot be used (field names
///         the heading); RuleError when the job is sealed or unknown; StoreError; earlier lines then stay stored
ImportReport import_readings(Shop& shop, const Uuid& job_id, std::string_view csv, const ImportOptions& options,
                             const Uuid& by);

/// All readings of a job, superseded and withdrawn ones included and marked so, one to a line, points from 1. Values
/// stand as typed and in both units with a decimal point; text that a spreadsheet would run as a formula is guarded.
/// `import_readings` reads it back into the same job without adding anything.
/// @param people, instruments  of the shop, for their names
std::string readings_csv(const JobFile& file, const std::vector<Person>& people,
                         const std::vector<Instrument>& instruments);

}  // namespace brakewright::shop
