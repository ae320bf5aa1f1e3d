#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/diagnosis/causes.hpp"
#include "core/diagnosis/learnt.hpp"
#include "core/diagnosis/signs.hpp"

namespace brakewright::diagnosis {

/// What one known sign says of a cause.
struct Witness {
  Sign sign = Sign::bench_runout_before;
  double value = 0;
  double factor = 1;   ///< by what the sign multiplies the odds of this cause against all others, all else being known
  bool alone = false;  ///< the factor is of the sign by itself: where several say the same, none adds much to the rest
  std::string text = {};
};

struct Suspect {
  Cause cause = {};
  double p = 0;
  std::vector<Witness> speaks_for = {};      ///< three at most, strongest first; factors of 1.2 and more
  std::vector<Witness> speaks_against = {};  ///< the same, of 1/1.2 and less
};

/// What to look at next.
struct NextCheck {
  Sign sign = Sign::bench_runout_before;
  double gain_bits = 0;  ///< expected, of information on the cause: >= 0
  std::string text = {};
};

struct Diagnosis {
  std::vector<Suspect> causes = {};          ///< all of them, likeliest first; probabilities sum to 1
  double doubt_bits = 0;                     ///< entropy of the above: log2 of so many equally likely causes
  std::optional<NextCheck> next_check = {};  ///< absent where every sign is known
};

/// The likely causes of what was found, and the sign not yet known that is expected to tell most.
///
/// Bayes' rule over causes and their ways with chances learnt from simulated parts (`Learnt`); a sign that is not known
/// says nothing. The expected gain of a sign is the entropy now less the mean, over its levels as they are foreseen, of
/// the entropy that each would leave (Lindley 1956). A cause that the simulated bench cannot make is not in the list.
/// @throws InputError as check(Signs)
/// Time: a few milliseconds.
Diagnosis diagnose(const Signs& signs, const Learnt& figures = learnt());

/// The causes' probabilities alone, in the order of `kCauses`.
std::array<double, kCauseCount> chances_of(const Signs& signs, const Learnt& figures);

/// The same for each way of each cause: cause by cause in that order, the ways of one together.
std::array<double, kKinds> kind_chances_of(const Signs& signs, const Learnt& figures);

/// Expected gain of information on the cause from one sign; 0 where it is known.
double gain_bits(const Signs& signs, Sign sign, const Learnt& figures);

}  // namespace brakewright::diagnosis
