#pragma once

#include <vector>

#include "shop/school/entities.hpp"
#include "shop/school/week.hpp"

/// How long jobs waited for a lathe. Rules as pure functions.
namespace brakewright::shop {

/// Entries of the journal further apart than this are two spells of work. Common practice, no source.
inline constexpr std::chrono::minutes kGoneAway{15};

double minutes_of(std::chrono::milliseconds time);

/// From the first to the last moment of a spell in which the shop was in use.
struct Spell {
  UtcTime from = {};
  UtcTime to = {};
};

/// Moments less than kGoneAway apart are one spell.
/// @param moments  of journal entries, in any order
std::vector<Spell> spells_of(std::vector<UtcTime> moments);

/// When the waiting of an entry ended: it left the queue, a part of its job was mounted or cut after it had joined, or
/// the job was sealed; nothing while it waits.
std::optional<UtcTime> waited_until(const QueueEntry& entry, const JobFile& file);

/// One entry of a queue whose waiting reaches into a span.
struct Waiter {
  Uuid lathe_id = {};
  std::int64_t job_number = 0;
  UtcTime from = {};
  UtcTime to = {};
};

/// Minutes of each lathe, in the order in which its first waiter comes.
std::vector<WeekWaiting> waiting_of(const std::vector<Waiter>& waiters, const std::vector<Spell>& spells);

}  // namespace brakewright::shop
