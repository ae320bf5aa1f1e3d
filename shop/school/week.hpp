#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shop/school/school.hpp"
#include "shop/school/share.hpp"
#include "shop/shop.hpp"

/// A span of the shop's record in figures, for the teacher: where the time went, what reads badly, who needs help,
/// what was saved. Every figure names the jobs behind it by their numbers, ascending.
namespace brakewright::shop {

enum class WeekWork { arrival, measuring, deciding, mounting, cutting, finishing, refitting, closing };

using JobNumbers = std::vector<std::int64_t>;

struct WeekTime {
  WeekWork work = WeekWork::arrival;
  double minutes = 0;
  std::int64_t jobs = 0;
  JobNumbers job_numbers = {};
};

/// Jobs that waited for one lathe.
struct WeekWaiting {
  Uuid lathe_id = {};
  std::int64_t jobs = 0;
  double minutes = 0;  ///< of all together, while the shop was in use
  double longest_minutes = 0;
  JobNumbers job_numbers = {};
};

/// Readings of one instrument.
struct WeekInstrument {
  Uuid instrument_id = {};
  std::int64_t readings = 0;
  std::int64_t questioned = 0;               ///< kept although they looked wrong
  std::int64_t taken_back = 0;               ///< withdrawn, or read again
  std::optional<double> zero_error_um = {};  ///< largest that a zero check showed, without its sign
  Share in_doubt = {};                       ///< readings questioned or taken back, each counted once
  bool stands_out = false;                   ///< by in_doubt, from the other instruments
  JobNumbers job_numbers = {};
};

/// Mounts with one piece of the pegboard in them.
struct WeekPiece {
  Uuid piece_id = {};
  std::int64_t proofs = 0;
  std::int64_t over_rule = 0;  ///< of those, that showed more runout than the shop's rule
  double mean_runout_um = 0;
  Share over = {};          ///< over_rule of proofs
  bool stands_out = false;  ///< by it, from the other pieces
  JobNumbers job_numbers = {};
};

enum class WeekHelpWith { reading, measuring, deciding, cutting, safety, permit, competence };

/// One thing that somebody needs help with, and the record that says so.
struct WeekHelp {
  WeekHelpWith what = WeekHelpWith::reading;
  std::string text = {};
  JobNumbers job_numbers = {};        ///< reading, deciding, cutting
  std::optional<Uuid> study_id = {};  ///< measuring
};

/// What somebody did of it, and what did not go well.
struct WeekPerson {
  Uuid person_id = {};
  std::int64_t jobs = 0;
  std::int64_t readings = 0;
  std::int64_t questioned = 0;  ///< kept although they looked wrong
  std::int64_t taken_back = 0;
  std::int64_t decided_otherwise = 0;  ///< than computed
  std::int64_t stopped_passes = 0;
  std::vector<WeekHelp> help = {};  ///< of students; empty where nothing stands out
  JobNumbers job_numbers = {};
};

/// What one corner of an insert cut. A pass that was stopped counts as a pass and cuts nothing, as in `Corner::used_m`.
struct WeekCorner {
  std::int64_t number = 0;
  EdgeCondition condition = EdgeCondition::sharp;
  double used_m = 0;        ///< since it was new
  std::int64_t passes = 0;  ///< in this span, as all below
  std::int64_t parts = 0;
  double cut_m = 0;                      ///< length of cut along the surface
  std::optional<double> metal_cm3 = {};  ///< that the dials were set to; absent where no pass tells it
  JobNumbers job_numbers = {};
};

struct WeekInsert {
  Uuid insert_id = {};
  std::int64_t passes = 0;
  double used_m = 0;  ///< of all its corners, since they were new
  std::int64_t sharp_corners = 0;
  std::int64_t corners = 0;
  std::vector<WeekCorner> corner_use = {};  ///< of those on record, by number
};

struct WeekFigures {
  UtcTime from = {};
  UtcTime to = {};
  std::int64_t jobs = 0;  ///< that somebody worked on
  std::int64_t sealed_jobs = 0;
  std::vector<WeekTime> time = {};
  std::vector<WeekWaiting> waiting = {};
  std::vector<WeekInstrument> instruments = {};
  std::vector<WeekPiece> pieces = {};
  std::int64_t proofs = 0;  ///< of mounts, whatever was in them
  std::int64_t proofs_over_rule = 0;
  std::vector<WeekPerson> people = {};
  std::vector<WeekInsert> inserts = {};
  std::int64_t parts_cut = 0;   ///< of jobs sealed in it: turned, and left on record as such
  std::int64_t parts_left = 0;  ///< good as they were
  std::int64_t parts_replaced = 0;
  JobNumbers cut_job_numbers = {};  ///< behind these three
  JobNumbers left_job_numbers = {};
  JobNumbers replaced_job_numbers = {};
};

/// The span of time that an entry ends counts for the work it tells, where it is shorter than a quarter of an hour:
/// after that somebody had gone away. The shop is in use between entries of any kind less than that apart, and a job
/// waits for a lathe, from joining its queue until work at a lathe begins on it, only while the shop is in use. Common
/// practice, no source.
/// @throws InputError "out_of_range" (field "to") unless from < to, at most 400 days apart
WeekFigures week_of(Shop& shop, School& school, UtcTime from, UtcTime to);

/// What turning instead of buying saved: the parts that were cut, each for the price of a new one less what a cut
/// costs; negative where cutting is dearer. In the money of the prices.
double money_saved(const WeekFigures& figures, double part_price, double cut_cost);

}  // namespace brakewright::shop
