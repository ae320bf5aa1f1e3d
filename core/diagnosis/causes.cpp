#include "core/diagnosis/causes.hpp"

#include <algorithm>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::diagnosis {
namespace {

constexpr std::array<CauseInfo, kCauseCount> kCauseTexts{{
    {.words = "Nothing in particular: a sound bench leaves such signs",
     .check = "Read once more what stands nearest to its limit.",
     .correction = "None. Put it on, and keep the readings with the job.",
     .basis = "what the simulated bench leaves with no fault"},
    {.words = "Chip, rust or burr between the part and its seat: the faces were cut square to the wrong plane",
     .check = "Wipe and stone both seats, indicate the face before cutting, and make the two-scratch test.",
     .correction = "Clean both seats, mount again, prove the mount, and cut lightly once more if the iron allows.",
     .basis = "F01; common practice, no source; vector algebra"},
    {.words = "Bent arbor, or an adapter that does not run true",
     .check = "Indicate the bare shoulder; two scratches half a turn apart lie across from each other on the part.",
     .correction = "Clean the arbor's taper and shoulders, change the adapter, and indicate the arbor bare.",
     .basis = "F02; common practice, no source; vector algebra"},
    {.words = "Wrong cone, or one that bears on a chamfer or burr: the part sat off centre",
     .check = "Look at the rim or indicate it: it wanders while the face runs true. The cone must seat in mid-taper on "
              "a clean edge.",
     .correction = "Choose the cone so that the bore sits near the middle of its taper.",
     .basis = "F06; common practice, no source"},
    {.words = "Races loose, pitted or greasy: the part seats anew each time",
     .check = "Clean the cups, look for spin marks, and read three mountings.",
     .correction = "Renew the cups, or do not cut on them.",
     .basis = "F07; common practice, no source"},
    {.words = "Nut not tight: the part slipped during the cut",
     .check = "Mark nut and arbor with one line, and look at it after the first pass. Spindle at rest, by the lathe's "
              "own instructions.",
     .correction = "Stop, mount again, and begin the cut anew.",
     .basis = "F05; common practice, no source"},
    {.words = "Worn or blunt edge: it rubbed and tore",
     .check = "Lens on the edge; compare Ra with feed x feed/(32 x nose radius).",
     .correction = "A new edge, and a last pass of 0.05 mm or more.",
     .basis = "F11; formula, and common practice, no source"},
    {.words = "No damping band, or a loose one: the disc sang",
     .check = "Listen, count the marks to a turn; times speed over 60 they are the frequency.",
     .correction = "Fit the band, change the edge, shorten the tool, snug the gibs, or change the speed.",
     .basis = "F08; common practice, no source"},
    {.words = "Last pass too coarse",
     .check = "Count the grooves over a length of the face: one to each feed.",
     .correction = "A finishing pass at 0.05 mm to a turn or less, then the non-directional finish.",
     .basis = "F10; common practice, no source"},
    {.words = "Hard spots that overheating left: the edge rode over them",
     .check = "Look after the first pass for blue or shiny spots that stay.",
     .correction = "Replace the part; do not grind them away.",
     .basis = "F16; common practice, no source"},
    {.words = "Taper from the lathe: worn slide, or arms that are unequal or give",
     .check = "Measure at two or three radii; change the edges over and see whether it stays.",
     .correction = "New edge, slide adjusted, a lighter pass.",
     .basis = "F09; common practice, no source"},
    {.words = "All metal taken from one side, or a part cast so: unequal cheeks",
     .check = "Measure each face to the vent slot; look at the depth logged for each side.",
     .correction = "Take equal depths. Where the thin cheek is below what the part's maker allows, replace it.",
     .basis = "F12; common practice, no source"},
    {.words = "Cut or measured warm",
     .check = "Read the thickness against time: 50 K make 0.014 mm in 25 mm.",
     .correction = "Let it cool to the room, then measure again before deciding.",
     .basis = "F15; calculated"},
    {.words = "Micrometer off its zero",
     .check = "Wipe the jaws and measure a gauge block or setting standard.",
     .correction = "Set the zero, write the offset down, and read again.",
     .basis = "F19; common practice, no source"},
    {.words = "Lip at the rim left standing",
     .check = "Measure how high the rim stands over the band.",
     .correction = "Break the lip first, or face beyond it.",
     .basis = "F17; common practice, no source"},
}};

}  // namespace

std::size_t index_of(const Cause& cause) {
  const auto* found = std::find(kCauses.begin(), kCauses.end(), cause);
  if (found == kCauses.end()) {
    throw InputError("unknown_fault", "cause", "must be a fault that diagnosis tells apart, or none");
  }
  return static_cast<std::size_t>(found - kCauses.begin());
}

const CauseInfo& about(const Cause& cause) { return kCauseTexts[index_of(cause)]; }

std::string_view name_of(const Cause& cause) { return cause ? practice::name_of(*cause) : "nothing"; }

}  // namespace brakewright::diagnosis
