#include "core/diagnosis/diagnose.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace brakewright::diagnosis {
namespace {

using Kinds = std::array<double, kKinds>;
using Chances = std::array<double, kCauseCount>;

constexpr double kTellsAnything = 1.2;
constexpr std::size_t kMostWitnesses = 3;

/// Posterior of each way of each cause.
Kinds kinds_of(const Signs& signs, const Learnt& figures, std::optional<std::size_t> left_out = {}) {
  Kinds logs{};
  for (std::size_t kind = 0; kind < kKinds; ++kind) logs[kind] = std::log(figures.share[kind]);
  for (std::size_t s = 0; s < kSigns; ++s) {
    if (!signs.values[s] || s == left_out) continue;
    const Sign sign = static_cast<Sign>(s);
    const int level = level_of(sign, *signs.values[s]);
    for (std::size_t kind = 0; kind < kKinds; ++kind) logs[kind] += std::log(figures.of(sign, kind, level));
  }
  const double most = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (double& value : logs) sum += value = std::exp(value - most);
  for (double& value : logs) value /= sum;
  return logs;
}

Chances causes_of(const Kinds& kinds) {
  Chances chances{};
  for (std::size_t kind = 0; kind < kKinds; ++kind) chances[kind / kWays] += kinds[kind];
  return chances;
}

double entropy_bits(const Chances& chances) {
  double bits = 0;
  for (const double p : chances) {
    if (p > 0) bits -= p * std::log2(p);
  }
  return bits;
}

double gain_of(const Kinds& kinds, Sign sign, const Learnt& figures) {
  double left_bits = 0;
  for (int level = 0; level < about(sign).levels; ++level) {
    Kinds then = kinds;
    double foreseen = 0;
    for (std::size_t kind = 0; kind < kKinds; ++kind) foreseen += then[kind] *= figures.of(sign, kind, level);
    if (!(foreseen > 0)) continue;
    for (double& value : then) value /= foreseen;
    left_bits += foreseen * entropy_bits(causes_of(then));
  }
  return std::max(0.0, entropy_bits(causes_of(kinds)) - left_bits);
}

/// Odds that stay finite where a double holds no more.
double odds_of(double p) { return std::max(p, 1e-300) / std::max(1 - p, 1e-16); }

std::string witness_text(const Witness& witness) {
  const double times = witness.factor >= 1 ? witness.factor : 1 / witness.factor;
  char number[32];
  if (times > 1000) {
    std::snprintf(number, sizeof number, "more than 1000");
  } else {
    std::snprintf(number, sizeof number, times < 10 ? "%.1f" : "%.0f", times);
  }
  return said(witness.sign, witness.value) + "; " + (witness.alone ? "by itself " : "") + number + " to 1 " +
         (witness.factor >= 1 ? "for this cause." : "against this cause.");
}

/// The strongest of those that speak for the cause, or of those against it.
std::vector<Witness> strongest(std::vector<Witness> witnesses, bool for_it) {
  const auto weight = [&](const Witness& witness) { return for_it ? witness.factor : 1 / witness.factor; };
  std::stable_sort(witnesses.begin(), witnesses.end(),
                   [&](const Witness& a, const Witness& b) { return weight(a) > weight(b); });
  std::vector<Witness> heard;
  for (Witness& witness : witnesses) {
    if (weight(witness) < kTellsAnything || heard.size() == kMostWitnesses) break;
    witness.text = witness_text(witness);
    heard.push_back(std::move(witness));
  }
  return heard;
}

/// What each known sign says of every cause, with all else known or by itself.
std::array<std::vector<Witness>, kCauseCount> witnesses_of(const Signs& signs, const Learnt& figures, bool alone) {
  const Chances all = causes_of(kinds_of(signs, figures)), none = causes_of(kinds_of({}, figures));
  std::array<std::vector<Witness>, kCauseCount> witnesses;
  for (std::size_t s = 0; s < kSigns; ++s) {
    if (!signs.values[s]) continue;
    Signs only;
    only.values[s] = signs.values[s];
    const Chances with = alone ? causes_of(kinds_of(only, figures)) : all;
    const Chances without = alone ? none : causes_of(kinds_of(signs, figures, s));
    for (std::size_t c = 0; c < kCauseCount; ++c) {
      witnesses[c].push_back({.sign = static_cast<Sign>(s),
                              .value = *signs.values[s],
                              .factor = odds_of(with[c]) / odds_of(without[c]),
                              .alone = alone});
    }
  }
  return witnesses;
}

std::optional<NextCheck> next_of(const Signs& signs, const Kinds& kinds, const Learnt& figures) {
  std::optional<NextCheck> best;
  for (std::size_t s = 0; s < kSigns; ++s) {
    if (signs.values[s]) continue;
    const Sign sign = static_cast<Sign>(s);
    const double gain = gain_of(kinds, sign, figures);
    if (!best || gain > best->gain_bits) best = NextCheck{.sign = sign, .gain_bits = gain, .text = {}};
  }
  if (best) best->text = std::string(about(best->sign).words) + ". " + std::string(about(best->sign).how);
  return best;
}

}  // namespace

Diagnosis diagnose(const Signs& signs, const Learnt& figures) {
  check(signs);
  const Kinds kinds = kinds_of(signs, figures);
  const Chances chances = causes_of(kinds);
  const auto witnesses = witnesses_of(signs, figures, false), by_themselves = witnesses_of(signs, figures, true);
  Diagnosis diagnosis{.doubt_bits = entropy_bits(chances)};
  for (std::size_t c = 0; c < kCauseCount; ++c) {
    Suspect suspect{.cause = kCauses[c], .p = chances[c]};
    suspect.speaks_for = strongest(witnesses[c], true);
    suspect.speaks_against = strongest(witnesses[c], false);
    const bool likelier = suspect.p > 1.0 / kCauseCount;
    if (likelier && suspect.speaks_for.empty()) suspect.speaks_for = strongest(by_themselves[c], true);
    if (!likelier && suspect.speaks_against.empty()) suspect.speaks_against = strongest(by_themselves[c], false);
    diagnosis.causes.push_back(std::move(suspect));
  }
  std::stable_sort(diagnosis.causes.begin(), diagnosis.causes.end(),
                   [](const Suspect& a, const Suspect& b) { return a.p > b.p; });
  diagnosis.next_check = next_of(signs, kinds, figures);
  return diagnosis;
}

std::array<double, kCauseCount> chances_of(const Signs& signs, const Learnt& figures) {
  return causes_of(kinds_of(signs, figures));
}

std::array<double, kKinds> kind_chances_of(const Signs& signs, const Learnt& figures) {
  return kinds_of(signs, figures);
}

double gain_bits(const Signs& signs, Sign sign, const Learnt& figures) {
  return signs[sign] ? 0 : gain_of(kinds_of(signs, figures), sign, figures);
}

}  // namespace brakewright::diagnosis
