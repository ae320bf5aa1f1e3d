#include "shop/school/queue.hpp"

#include <algorithm>

#include "shop/quantile.hpp"

namespace brakewright::shop {
namespace {

constexpr double kLeftStandingMin = 180;

double minutes_between(UtcTime from, UtcTime to) {
  return std::chrono::duration<double, std::ratio<60>>(to - from).count();
}

std::optional<PartTime> time_of(const JobFile& file, const Uuid& part_id) {
  const Mount* first = nullptr;
  for (const Mount& mount : file.mounts) {
    if (mount.part_id != part_id) continue;
    if (first == nullptr) first = &mount;
    if (mount.lathe_id != first->lathe_id) return std::nullopt;
  }
  if (first == nullptr) return std::nullopt;
  PartTime time{.lathe_id = first->lathe_id};
  std::optional<UtcTime> ended;
  for (const Pass& pass : file.passes) {
    if (pass.part_id != part_id) continue;
    time.cut_min += minutes_between(pass.began_at, pass.ended_at);
    if (!ended || pass.ended_at > *ended) ended = pass.ended_at;
  }
  if (!ended) return std::nullopt;
  const double whole = minutes_between(first->at, *ended);
  time.handling_min = whole - time.cut_min;
  if (whole <= 0 || whole > kLeftStandingMin || time.handling_min < 0 || time.cut_min <= 0) return std::nullopt;
  return time;
}

bool is_cut(const JobFile& file, const Uuid& part_id) {
  return std::any_of(file.cuts.begin(), file.cuts.end(), [&](const Cut& cut) { return cut.part_id == part_id; });
}

}  // namespace

std::vector<PartTime> part_times(const JobFile& finished) {
  std::vector<PartTime> times;
  for (const Part& part : finished.parts) {
    if (const auto time = time_of(finished, part.id)) times.push_back(*time);
  }
  return times;
}

LatheTimes lathe_times(const std::vector<PartTime>& parts, const Uuid& lathe_id) {
  constexpr std::size_t kEnough = 5;
  std::vector<double> handling, cutting;
  for (const PartTime& part : parts) {
    if (part.lathe_id != lathe_id) continue;
    handling.push_back(part.handling_min);
    cutting.push_back(part.cut_min);
  }
  if (handling.size() < kEnough) return {};
  const auto quartiles = [](const std::vector<double>& of) {
    return Quartiles{*quantile(of, 0.25), *quantile(of, 0.75)};
  };
  return {.handling_min = *quantile(handling, 0.5),
          .cut_min = *quantile(cutting, 0.5),
          .handling_quartiles_min = quartiles(handling),
          .cut_quartiles_min = quartiles(cutting),
          .parts = handling.size()};
}

Minutes minutes_left(const JobFile& file, const std::map<Uuid, double>& planned_s, const LatheTimes& times) {
  Minutes minutes;
  if (times.handling_quartiles_min && times.cut_quartiles_min) minutes.quartiles.emplace();
  for (const Part& part : file.parts) {
    if (is_cut(file, part.id)) continue;
    const auto planned = planned_s.find(part.id);
    const bool is_planned = planned != planned_s.end();
    const double planned_min = is_planned ? planned->second / 60 : 0;
    minutes.middle += times.handling_min + (is_planned ? planned_min : times.cut_min);
    if (!minutes.quartiles) continue;
    minutes.quartiles->low +=
        times.handling_quartiles_min->low + (is_planned ? planned_min : times.cut_quartiles_min->low);
    minutes.quartiles->high +=
        times.handling_quartiles_min->high + (is_planned ? planned_min : times.cut_quartiles_min->high);
  }
  return minutes;
}

bool needs_lathe(const JobFile& file, WaitsFor waits_for) {
  if (file.job.state == JobState::sealed) return false;
  switch (waits_for) {
    case WaitsFor::finish:
    case WaitsFor::readings_after:
    case WaitsFor::refit:
    case WaitsFor::seal:
    case WaitsFor::nothing:
      return false;
    default:
      return true;
  }
}

std::string meanwhile(WaitsFor waits_for, bool has_study_places, bool has_safety_points) {
  switch (waits_for) {
    case WaitsFor::limits:
      return "Find the part's limits and where they come from.";
    case WaitsFor::findings:
      return "Look the parts over, and note what you find.";
    case WaitsFor::readings:
      return "Measure the parts.";
    case WaitsFor::decision:
      return "Decide with your teacher: leave, cut or replace.";
    default:
      break;
  }
  if (has_safety_points) return "Answer the safety points that are still open.";
  if (has_study_places) return "Go on reading the reference parts of the study.";
  if (waits_for == WaitsFor::mount) return "Choose the pieces for the mount, clean them and the part's faces.";
  if (waits_for == WaitsFor::plan) return "Look at the passes and settle on them.";
  return "Clean the part and its hub, and lay out what the lathe needs.";
}

}  // namespace brakewright::shop
