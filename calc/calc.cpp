#include "calc/calc.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "calc/methods.hpp"

namespace brakewright::calc {
namespace {

constexpr auto kMethods = std::to_array<Method>({
    {"after-cut", "What the cut took, and whether the part is now within its limits", run_after_cut},
    {"anova", "Split scatter into that between groups and that within them (one way)", run_anova},
    {"budget", "Combine uncertainties to an expanded one with its coverage factor", run_budget},
    {"circle", "Fit waves to readings round a circle and say which these angles cannot see", run_circle},
    {"cleanup", "The least cut that cleans both faces, and what it leaves", run_cleanup},
    {"conformity", "Say with what probability a measured value lies within limits", run_conformity},
    {"cutplan", "Passes in dial marks that finish soonest within the shop's rules", run_cutplan},
    {"diagnose", "What probably spoilt a finished part, from the signs on it, and the check that would tell most",
     run_diagnose},
    {"dialcheck", "Dial depth against measured removal after a cut: what may explain the difference", run_dialcheck},
    {"dialstudy", "What a mark of each dial of a lathe really is, from its finished jobs", run_dialstudy},
    {"disc-modes", "How a disc rings: as a flat ring, as a recorded tap tells, and which mode left marks on it",
     run_disc_modes},
    {"drum", "Leave, turn, replace or measure again: one drum or both of an axle, with passes and shoe contact",
     run_drum},
    {"finish", "Roughness that a round nose leaves at a feed", run_finish},
    {"force", "Cutting force and power of a round nose in grey iron", run_force},
    {"foresee", "What passes will do: time, finish, force, and what they leave", run_foresee},
    {"gauge-plan", "Who reads which part in which order, at random and blind, for a gauge study", run_gauge_plan},
    {"gauge-study", "What parts, people and repeats differ by: repeatability, reproducibility, each person's own",
     run_gauge_study},
    {"heat", "How hot one stop and several make a disc, before and after the cut", run_heat},
    {"index", "The position on the studs that leaves the least runout, and whether a tapered plate is needed",
     run_index},
    {"length", "Read a length as people type it, in inches or millimetres", run_length},
    {"lobes", "Depth at which turning begins to chatter, by speed, for one mode or several together", run_lobes},
    {"mount", "The best stack of adapters on the arbor, or the one dimension that misses", run_mount},
    {"outlook", "How deep two tools may go on a disc of this size before it sings, and the chance at each depth",
     run_outlook},
    {"pulsation", "Which wheel order and which corner a pulsation fits, and what to measure next", run_pulsation},
    {"roughness", "Ra, Rz and what goes with them of a stylus profile, through the Gaussian filter", run_roughness},
    {"runout", "Reduce a face's trace to its runout, as read and as it probably is", run_runout},
    {"scratch", "Runout from one or two scratch marks: the part's share and the mount's", run_scratch},
    {"separate", "Whose runout is it: carrier and part told apart from readings in several positions", run_separate},
    {"stability", "Whether a small vibration of the cut grows from one turn, or one tooth, to the next", run_stability},
    {"thickness", "Thickness and its variation: the trade's figures and the posterior behind them", run_thickness},
    {"twin-limit", "Depth at which two opposed tools begin to chatter on one disc", run_twin_limit},
    {"verdict", "Leave, cut, replace or measure again: one part or both of an axle", run_verdict},
});

}  // namespace

std::span<const Method> methods() { return kMethods; }

const Method* find(std::string_view name) {
  const auto found = std::find_if(kMethods.begin(), kMethods.end(), [&](const Method& m) { return m.name == name; });
  return found == kMethods.end() ? nullptr : &*found;
}

}  // namespace brakewright::calc
