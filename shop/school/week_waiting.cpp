#include "shop/school/week_waiting.hpp"

#include <algorithm>
#include <set>

namespace brakewright::shop {
namespace {

double minutes_in(const Waiter& waiter, const std::vector<Spell>& spells) {
  double minutes = 0;
  for (const Spell& spell : spells) {
    const UtcTime from = std::max(spell.from, waiter.from), to = std::min(spell.to, waiter.to);
    if (from < to) minutes += minutes_of(to - from);
  }
  return minutes;
}

}  // namespace

double minutes_of(std::chrono::milliseconds time) {
  return std::chrono::duration<double, std::ratio<60>>(time).count();
}

std::vector<Spell> spells_of(std::vector<UtcTime> moments) {
  std::sort(moments.begin(), moments.end());
  std::vector<Spell> spells;
  for (const UtcTime at : moments) {
    if (spells.empty() || at - spells.back().to >= kGoneAway) spells.push_back({at, at});
    spells.back().to = at;
  }
  return spells;
}

std::optional<UtcTime> waited_until(const QueueEntry& entry, const JobFile& file) {
  std::optional<UtcTime> until = entry.left_at;
  const auto ends = [&](UtcTime at) {
    if (at >= entry.joined_at && (!until || at < *until)) until = at;
  };
  for (const Mount& mount : file.mounts) ends(mount.at);
  for (const Pass& pass : file.passes) ends(pass.at);
  for (const Cut& cut : file.cuts) ends(cut.at);
  if (file.job.sealed_at) ends(*file.job.sealed_at);
  return until;
}

std::vector<WeekWaiting> waiting_of(const std::vector<Waiter>& waiters, const std::vector<Spell>& spells) {
  std::vector<WeekWaiting> lathes;
  std::map<Uuid, std::set<std::int64_t>> numbers;
  for (const Waiter& waiter : waiters) {
    auto lathe = std::find_if(lathes.begin(), lathes.end(),
                              [&](const WeekWaiting& one) { return one.lathe_id == waiter.lathe_id; });
    if (lathe == lathes.end()) lathe = lathes.insert(lathes.end(), WeekWaiting{.lathe_id = waiter.lathe_id});
    const double minutes = minutes_in(waiter, spells);
    lathe->minutes += minutes;
    lathe->longest_minutes = std::max(lathe->longest_minutes, minutes);
    numbers[waiter.lathe_id].insert(waiter.job_number);
  }
  for (WeekWaiting& lathe : lathes) {
    const auto& of_lathe = numbers[lathe.lathe_id];
    lathe.job_numbers.assign(of_lathe.begin(), of_lathe.end());
    lathe.jobs = static_cast<std::int64_t>(of_lathe.size());
  }
  return lathes;
}

}  // namespace brakewright::shop
