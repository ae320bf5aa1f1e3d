#pragma once

#include <optional>
#include <string>
#include <vector>

/// The lathe's two depth dials held against the metal: after one cut, and over many.
namespace brakewright::dials {

/// A measured or estimated quantity with its standard uncertainty, micrometres.
struct Estimate {
  double um = 0;
  double u_um = 0;  ///< >= 0
};

/// No depth, and no doubt about one, is more than this.
inline constexpr double kMost_um = 1e5;

/// What one face was set to and what is known of it.
struct FaceCut {
  double marks = 0;             ///< that its dial took in all from first touch, >= 0
  double dial_um_per_mark = 0;  ///< > 0, taken as exact
  /// How far the mean of the face lay below its highest spot before the cut, where the dial begins to count: so much of
  /// the dial's depth was air. Absent: 30 um with a standard uncertainty of 17.3 um (0 to 60 um, each as likely).
  std::optional<Estimate> touch_loss = {};
  std::optional<Estimate> removed = {};  ///< mean depth that left this face, from outer face to vent before and after
  std::optional<bool> touched_all = {};  ///< whether the tool left no spot of the old face; absent: taken as yes
};

struct DialCheckInput {
  FaceCut outboard;
  FaceCut inboard;
  double dial_sd_um = 2.5;                        ///< standard deviation of one setting of one dial, >= 0
  int settings = 1;                               ///< how often each dial was set: the passes, from 1 to 1000
  Estimate removed;                               ///< mean thickness lost, both faces together; u > 0
  std::optional<double> temperature_rise_k = {};  ///< part after less part before, where the readings are not corrected
  double u_temperature_rise_k = 2;                ///< its standard uncertainty, >= 0
  double thickness_mm = 25;                       ///< of the part, > 0: how much it grows
};

/// One face, or both together, as dialled and as measured.
struct Balance {
  double dialled_um = 0;
  Estimate touch_loss;
  Estimate expected;  ///< dialled less touch loss; both together also less what heat adds to the reading
  std::optional<Estimate> measured;
  std::optional<double> difference_um;  ///< measured less expected: negative where less is gone than was dialled
  std::optional<double> z;              ///< the difference over its standard uncertainty
};

/// One explanation, with its probability among all that are looked at.
struct DialFinding {
  std::string code;  ///< "agrees", "backlash", "spring", "misread_mark", "one_side_not_cut", "hot_part", "other"
  double p = 0;
  std::string side;                 ///< "outboard", "inboard", "both"; empty where the numbers cannot say which
  std::optional<int> marks;         ///< misread_mark: real less recorded marks, where one number stands out
  std::optional<double> amount_um;  ///< backlash, spring, hot_part: the most probable loss in the sum
  std::string text;                 ///< with numbers that can be checked by hand
  std::string check;                ///< what to do to be sure
  std::string basis;                ///< where the check comes from
};

/// What is held of each explanation before the numbers are seen.
struct Prior {
  std::string code;
  double p = 0;
  std::string meaning;
};

struct DialCheck {
  Balance sum;
  Balance outboard;
  Balance inboard;
  double temperature_shift_um = 0;  ///< by how much the warm part reads thicker
  double chi_squared = 0;           ///< of everything measured against "agrees"
  int dof = 1;
  bool agrees =
      false;  ///< chi_squared is within what 95 of 100 sound cuts keep: |z| <= 1.96 where only the sum is known
  std::vector<DialFinding> findings;           ///< most probable first; those under 1 % are left out
  std::vector<std::string> cannot_tell_apart;  ///< codes: the fewest that hold 90 %, where that is more than one
  std::vector<Prior> priors;                   ///< our own, no source
  std::vector<std::string> notes;              ///< what limits the answer
};

/// Whether the metal did what the dials said, and if not, what did.
///
/// Of each face dialled - touch loss is expected, give or take the settings. Each explanation says what else would have
/// happened, and how likely; the answer is Bayes' rule over Gaussian likelihoods of the sum and of each face that was
/// measured on its own:
///   backlash          one screw, or both, gives 75 um less (sd 35), whatever the depth
///   spring            both faces give 12 % less (sd 5 %) of their depth
///   misread_mark      one dial stood 1, 2, 5 or 10 marks off
///   one_side_not_cut  one face lost nothing
///   hot_part          the part was measured warm: grows 11e-6 per K; 25 K (sd 15 K) where no temperature is known
///   other             sound within 200 um only
/// A part known to be warm is allowed for in every explanation; "agrees" is then called "hot_part" where heat makes
/// more than the difference's standard uncertainty.
/// Degenerate: a face that was not touched all round lost anything from nothing to all that was dialled, each as
/// likely; a face that was touched all round has been cut.
/// @throws InputError "out_of_range" or "not_finite" naming the field
/// Source: Bayes' rule; the priors are our own; sizes of backlash and spring from memory, no source read.
DialCheck check_dials(const DialCheckInput& input);

}  // namespace brakewright::dials
