#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"
#include "shop/school/entities.hpp"

/// Who is next at a lathe, about when, and what the others do meanwhile. Rules as pure functions.
namespace brakewright::shop {

/// What a quarter of the parts stay under, and what a quarter go over.
struct Quartiles {
  double low = 0;
  double high = 0;

  friend bool operator==(const Quartiles&, const Quartiles&) = default;
};

/// How long one part of a finished job took.
struct PartTime {
  Uuid lathe_id = {};
  double handling_min = 0;  ///< from the mount to the end of the last pass, less the passes themselves
  double cut_min = 0;
};

/// Of those parts of a finished job that say it. Those that took over three hours were left standing and do not, nor do
/// those that were mounted on two lathes.
std::vector<PartTime> part_times(const JobFile& finished);

/// How long things take at a lathe.
struct LatheTimes {
  double handling_min = 15;  ///< of one part: mounting, proving, setting, taking off; common practice, no source
  double cut_min = 6;        ///< of one part, where no plan says it; common practice, no source
  std::optional<Quartiles> handling_quartiles_min = {};  ///< both: nothing where they rest on no parts
  std::optional<Quartiles> cut_quartiles_min = {};
  std::size_t parts = 0;  ///< on which they rest; 0: the usual ones above
};

/// Medians and quartiles of the parts that were turned on one lathe; the usual times below five of them.
LatheTimes lathe_times(const std::vector<PartTime>& parts, const Uuid& lathe_id);

struct Minutes {
  double middle = 0;
  std::optional<Quartiles> quartiles = {};  ///< as if every part were quick, or every one slow
};

/// What is left to do at the lathe for a job, minutes: parts that are cut and taken off count no more.
/// @param planned_s  cutting time of each part, by the settled passes or the computed ones; absent: the usual one
Minutes minutes_left(const JobFile& file, const std::map<Uuid, double>& planned_s, const LatheTimes& times);

/// Whether a job still needs the lathe.
bool needs_lathe(const JobFile& file, WaitsFor waits_for);

/// What the one who waits does meanwhile, for people.
std::string meanwhile(WaitsFor waits_for, bool has_study_places, bool has_safety_points);

/// One job in a queue.
struct QueueLine {
  QueueEntry entry = {};
  std::int64_t job_number = 0;
  std::string vehicle = {};
  WaitsFor waits_for = WaitsFor::nothing;
  double minutes = 0;  ///< at the lathe
  std::optional<Quartiles> minutes_quartiles = {};
  double starts_in_minutes = 0;  ///< once those before it are through
  bool rests_on_plans = false;   ///< every part's passes are settled on or computed
  std::string meanwhile = {};
};

struct LatheQueue {
  Uuid lathe_id = {};
  LatheTimes times = {};
  std::vector<QueueLine> lines = {};  ///< the first is at the lathe
};

}  // namespace brakewright::shop
