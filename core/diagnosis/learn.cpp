#include <algorithm>
#include <cmath>
#include <vector>

#include "core/diagnosis/diagnose.hpp"
#include "core/diagnosis/learnt.hpp"

namespace brakewright::diagnosis {
namespace {

constexpr double kAdded = 0.5, kBlunders = 0.002;
/// Lessons that a way takes over from its cause's other ways.
constexpr double kLent = 8;
constexpr int kRounds = 12;
/// Of a chi-squared with 1 to 4 degrees of freedom: what chance alone passes once in a million.
constexpr double kUnlike[] = {23.9, 27.6, 30.7, 33.4};

using Counts = std::array<double, kMostLevels>;

/// Of each lesson, how much of it belongs to each way of its cause.
using Shares = std::vector<std::array<double, kWays>>;

/// By size alone, where the sorting begins.
Shares shares_by_size(std::span<const Lesson> lessons) {
  Shares shares(lessons.size());
  for (std::size_t i = 0; i < lessons.size(); ++i) {
    shares[i].fill(0.1);
    shares[i][std::min(kWays - 1, static_cast<std::size_t>(std::max(0.0, lessons[i].size) * kWays))] =
        1 - 0.1 * (kWays - 1);
  }
  return shares;
}

Counts sum_of(const Counts& a, const Counts& b) {
  Counts sum = a;
  for (std::size_t i = 0; i < kMostLevels; ++i) sum[i] += b[i];
  return sum;
}

double total_of(const Counts& counts) {
  double sum = 0;
  for (const double count : counts) sum += count;
  return sum;
}

/// Whether two sets of counts are of one distribution, as far as they tell (likelihood ratio).
bool alike(const Counts& a, const Counts& b, std::size_t levels) {
  const double na = total_of(a), nb = total_of(b);
  double g = 0;
  for (std::size_t i = 0; i < levels; ++i) {
    const double both = (a[i] + b[i]) / (na + nb);
    if (a[i] > 0) g += 2 * a[i] * std::log(a[i] / na / both);
    if (b[i] > 0) g += 2 * b[i] * std::log(b[i] / nb / both);
  }
  return g < kUnlike[levels - 2];
}

/// What a sign shows where the cause has nothing to do with it: the counts of all causes that show it as a sound part
/// does, and which these are.
struct Background {
  Counts counts{};
  std::array<bool, kCauseCount> shows{};
};

Background background_of(const std::array<Counts, kCauseCount>& by_cause, std::size_t levels) {
  Background found;
  found.shows[index_of({})] = true;
  for (int round = 0; round < 4; ++round) {
    Background next;
    for (std::size_t c = 0; c < kCauseCount; ++c) {
      Counts others{};
      for (std::size_t k = 0; k < kCauseCount; ++k) {
        if (found.shows[k] && k != c) others = sum_of(others, by_cause[k]);
      }
      next.shows[c] = c == index_of({}) || alike(by_cause[c], others, levels);
      if (next.shows[c]) next.counts = sum_of(next.counts, by_cause[c]);
    }
    found = next;
  }
  return found;
}

/// Shares of counts, with something added in other shares.
Counts shares_of(const Counts& counts, const Counts& added_shares, double added, std::size_t levels) {
  const double sum = total_of(counts) + added;
  Counts shares{};
  for (std::size_t i = 0; i < levels; ++i) shares[i] = (counts[i] + added * added_shares[i]) / sum;
  return shares;
}

/// Chances of one sign's levels for every kind.
std::array<Counts, kKinds> sign_chances(const std::array<Counts, kKinds>& by_kind, std::size_t levels) {
  std::array<Counts, kCauseCount> by_cause{};
  for (std::size_t kind = 0; kind < kKinds; ++kind) {
    by_cause[kind / kWays] = sum_of(by_cause[kind / kWays], by_kind[kind]);
  }
  const Background background = background_of(by_cause, levels);
  Counts even{};
  std::fill_n(even.begin(), levels, 1.0 / static_cast<double>(levels));
  const double added = kAdded * static_cast<double>(levels);
  std::array<Counts, kKinds> chances{};
  for (std::size_t kind = 0; kind < kKinds; ++kind) {
    const std::size_t cause = kind / kWays;
    const Counts of_cause =
        shares_of(background.shows[cause] ? background.counts : by_cause[cause], even, added, levels);
    const Counts of_kind = background.shows[cause] ? of_cause : shares_of(by_kind[kind], of_cause, kLent, levels);
    for (std::size_t i = 0; i < levels; ++i) chances[kind][i] = (1 - kBlunders) * of_kind[i] + kBlunders * even[i];
  }
  return chances;
}

Learnt counted(std::span<const Lesson> lessons, const Shares& shares) {
  Learnt figures;
  for (std::size_t s = 0; s < kSigns; ++s) {
    const Sign sign = static_cast<Sign>(s);
    std::array<Counts, kKinds> by_kind{};
    for (std::size_t i = 0; i < lessons.size(); ++i) {
      const auto& value = lessons[i].signs.values[s];
      if (!value) continue;
      const auto level = static_cast<std::size_t>(level_of(sign, *value));
      const std::size_t first = index_of(lessons[i].cause) * kWays;
      for (std::size_t way = 0; way < kWays; ++way) by_kind[first + way][level] += shares[i][way];
    }
    figures.chance[s] = sign_chances(by_kind, static_cast<std::size_t>(about(sign).levels));
  }
  std::array<double, kCauseCount> lessons_of{};
  for (std::size_t i = 0; i < lessons.size(); ++i) {
    const std::size_t cause = index_of(lessons[i].cause);
    ++lessons_of[cause];
    for (std::size_t way = 0; way < kWays; ++way) figures.share[cause * kWays + way] += shares[i][way];
  }
  for (std::size_t kind = 0; kind < kKinds; ++kind) {
    figures.share[kind] = (figures.share[kind] + 1) / (lessons_of[kind / kWays] + kWays) / kCauseCount;
  }
  return figures;
}

/// Sorts each lesson into the ways of its cause anew, by what its signs say.
void sort_anew(std::span<const Lesson> lessons, const Learnt& figures, Shares& shares) {
  for (std::size_t i = 0; i < lessons.size(); ++i) {
    const auto kinds = kind_chances_of(lessons[i].signs, figures);
    const std::size_t first = index_of(lessons[i].cause) * kWays;
    double sum = 0;
    for (std::size_t way = 0; way < kWays; ++way) sum += shares[i][way] = std::max(1e-12, kinds[first + way]);
    for (double& share : shares[i]) share /= sum;
  }
}

Learnt flattened(const Learnt& figures, double power) {
  Learnt flat = figures;
  for (auto& sign : flat.chance) {
    for (auto& row : sign) {
      double sum = 0;
      for (double& chance : row) sum += chance = chance > 0 ? std::pow(chance, power) : 0;
      for (double& chance : row) chance /= sum;
    }
  }
  return flat;
}

/// Of the causes on top: how many are right, less how many were said to be.
double right_less_said(std::span<const Lesson> trials, const Learnt& figures) {
  double sum = 0;
  for (const Lesson& trial : trials) {
    const auto chances = chances_of(trial.signs, figures);
    const auto top = std::max_element(chances.begin(), chances.end());
    sum += (static_cast<std::size_t>(top - chances.begin()) == index_of(trial.cause) ? 1 : 0) - *top;
  }
  return sum;
}

Learnt sorted_and_counted(std::span<const Lesson> lessons) {
  Shares shares = shares_by_size(lessons);
  Learnt figures = counted(lessons, shares);
  for (int round = 0; round < kRounds; ++round) {
    sort_anew(lessons, figures, shares);
    figures = counted(lessons, shares);
  }
  return figures;
}

}  // namespace

Learnt learn(std::span<const Lesson> lessons, std::size_t trials, std::uint64_t seed) {
  double power = 1, least = 1e300;
  if (trials > 0) {
    const auto kept = lessons.last(trials);
    const Learnt without = sorted_and_counted(lessons.first(lessons.size() - trials));
    for (int percent = 60; percent <= 110; percent += 2) {
      const double off = std::abs(right_less_said(kept, flattened(without, percent / 100.0)));
      if (off < least) power = percent / 100.0, least = off;
    }
  }
  Learnt figures = flattened(sorted_and_counted(lessons), power);
  figures.parts = static_cast<std::int64_t>(lessons.size());
  figures.seed = seed;
  return figures;
}

}  // namespace brakewright::diagnosis
