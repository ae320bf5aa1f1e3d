#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/carried/carried.hpp"
#include "report/ring/ring.hpp"
#include "report/scale/scale.hpp"
#include "report/stack/stack.hpp"
#include "report/table/table.hpp"
#include "report/trace/trace.hpp"

/// What the record says, in its final words and figures. The sheets draw this and know nothing else, so that every
/// paper, picture and file says the same.
namespace brakewright::report {

struct TitleContent {
  std::string record = "Rotor record";
  std::string shop_name = {};
  std::string job_number = {};
  std::string vehicle = {};
  std::string brought_by = {};
  std::string complaint = {};
  std::string axle_and_sides = {};  ///< and which jobs the rest of the vehicle is
  std::string odometer = {};
  std::string worker = {};
  std::string lathe = {};
  std::string opened = {};
  std::string sealed = {};  ///< empty while open
  std::string printed = {};
  std::string sealed_by = {};
  std::string seal_sha256 = {};
  std::string seal_entry = {};         ///< number of the journal's entry that sealed the job; empty where there is none
  std::string seal_entry_groups = {};  ///< beginning of that entry's hash, to be read aloud: "a1b2 c3d4 e5f6 0718"
  std::string job_url = {};
  std::vector<std::string> stamps = {};  ///< such as "practice", "demo data, invented"
};

struct ReasonContent {
  std::string text = {};
  std::string basis = {};  ///< probability, limit and its source
};

struct VerdictContent {
  std::string word = {};
  std::optional<double> p = {};
  double asked = 0.95;
  std::string p_text = {};
  std::vector<ReasonContent> reasons = {};
  std::string next_label = {};  ///< heading of `next`
  std::string next = {};        ///< the reading that would settle it, or what is missing
  std::string decision = {};    ///< word of the last decision, empty: none
  std::string decided_by = {};
  std::string decision_note = {};  ///< overruled: what was computed and what was decided instead
  std::string decision_reason = {};
};

struct FigureContent {
  std::string name = {};
  std::string limit = {};  ///< under the name, with its unit
  std::string before = {};
  std::string before_note = {};  ///< under it, small
  std::string after = {};
  std::string after_note = {};
  bool large = false;
};

struct CheckContent {
  std::string word = {};  ///< "pass", "fail", "cannot tell", "not cut", ...
  std::vector<ReasonContent> lines = {};
};

/// What was done to one rotor at the lathe.
struct LatheWorkContent {
  bool any = false;
  StackSection stack = {};
  Table pieces = {};  ///< of the stack, in its order
  std::string stack_note = {};
  std::vector<ReasonContent> proof = {};
  std::vector<double> outboard_um = {};  ///< planned depth of each pass
  std::vector<double> inboard_um = {};
  std::string layers_note = {};                                      ///< what they leave
  std::string first_surface = "outboard", last_surface = "inboard";  ///< at both ends of the layers
  std::string passes_note = "dial marks per face";
  Table passes = {};
  std::string plan_note = {};
  Table steps = {};
  std::string steps_note = {};
  std::vector<ReasonContent> dial_check = {};
};

/// What was read on the car and how one rotor went back on it.
struct OnCarContent {
  bool any = false;
  TracePlot traces = {};
  Table readings = {};
  std::vector<ReasonContent> told = {};  ///< whose runout it is, how it went back on, what was read after it
  Table steps = {};
  std::string steps_note = {};
};

/// What the driver takes along when a part went back on the car.
struct DriverCardContent {
  std::string title = {};
  std::string of = {};  ///< vehicle, axle, job and day
  std::vector<std::string> steps = {};
  std::string watch = {};  ///< when to come back at once
  std::string basis = {};  ///< whose word comes first
};

struct RotorContent {
  std::string title = {};
  std::string description = {};
  Ring before = {};
  Ring after = {};
  std::string full_scale_text = {};
  RingWords ring_words = {};
  TracePlot thickness = {};
  TracePlot runout = {};
  ThicknessScale scale = {};
  std::string figures_unit = {};  ///< heading of the figures, naming their unit
  std::vector<FigureContent> figures = {};
  Table cut_table = {};  ///< marks per side, planned against done
  std::string cut_note = {};
  CheckContent check = {};
  Table limits = {};
  Table readings = {};
  std::string readings_note = {};
  LatheWorkContent work = {};
  OnCarContent on_car = {};
};

struct Content {
  TitleContent title = {};
  VerdictContent verdict = {};
  std::vector<RotorContent> rotors = {};  ///< one or two
  std::vector<ReasonContent> findings = {};
  Table instruments = {};
  std::vector<ReasonContent> amendments = {};
  std::vector<std::string> cautions = {};
  bool measured = false;  ///< anything at all
  bool turned = false;    ///< anything done at the lathe
  bool on_car = false;    ///< anything read or done on the car
  std::optional<DriverCardContent> card = {};
  CarriedJob carried = {};
  shop::JournalHead newest_entry = {};  ///< of the journal when this was printed
};

}  // namespace brakewright::report
