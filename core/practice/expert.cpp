#include <algorithm>

#include "core/practice/marking.hpp"

namespace brakewright::practice {
namespace {

/// "clamp 1" for "clamp_1".
std::string name_of_piece(std::string id) {
  std::replace(id.begin(), id.end(), '_', ' ');
  return id;
}

std::string names_of(const std::vector<std::string>& pieces) {
  std::string text;
  for (const std::string& id : pieces) text += (text.empty() ? "" : ", ") + name_of_piece(id);
  return text;
}

void tell_measuring(const BenchState& state, std::vector<std::string>& told) {
  told.push_back("Put on glasses, take off gloves, and look at part, seats and edges first.");
  if (state.truth.has(Fault::warm_part)) {
    told.push_back(
        "The part came in at " + in_words(state.truth.part_start_c) + " C and reads " +
        in_words(*state.truth.part.thickness_mm * 1000 * kExpansion_per_k * (state.truth.part_start_c - kRoom_c)) +
        " um too thick: wait until it is cold.");
  }
  told.push_back(state.truth.zero_error_mm != 0
                     ? "Zero the micrometer: it was off by " + in_words(1000 * state.truth.zero_error_mm) + " um."
                     : "Zero the micrometer.");
  told.push_back("Measure at 8 angles or more, evenly round, at " + in_words(band_middle_mm(state.truth.make)) +
                 " mm: the middle of the worn band, by the ratchet.");
  if (state.truth.misread_number > 0 && state.micrometer_readings >= state.truth.misread_number) {
    told.push_back("One reading was half a millimetre off: a whole turn of the thimble. Read such a place again.");
  }
  if (state.truth.speck) {
    told.push_back("At " + in_words(state.truth.speck->angle_deg) +
                   " degrees a speck stuck to the outboard face: it lifts readings by " +
                   in_words(state.truth.speck->height_um) + " um: wipe, and read that place again.");
  }
}

/// The best stack without what is worn or out of true.
std::vector<std::string> sound_stack(const BenchState& state) {
  constexpr std::size_t kListed = 60;
  const auto stacks =
      mount::find_stacks(state.bench.lathe.arbor, state.truth.make.shape.seat, state.bench.pieces, kListed).stacks;
  const auto sound = std::find_if(stacks.begin(), stacks.end(), [&](const mount::Stack& stack) {
    return stack.pieces.front() != state.bent_clamp && stack.pieces.back() != state.worn_nut;
  });
  return sound == stacks.end() ? stacks.front().pieces : sound->pieces;
}

void tell_seats(const BenchState& state, std::vector<std::string>& told) {
  const bool dirty = !state.truth.dirt.empty();
  if (!state.bench.hubbed()) {
    told.push_back(dirty ? "Wipe both seats: there was dirt on them." : "Wipe both seats.");
    return;
  }
  if (state.truth.has(Fault::pitted_races)) {
    told.push_back(
        "The races are pitted, as a look shows: it seats anew at each mounting, and no reading proves the next. Drive "
        "in new cups before it is mounted, or refuse the cut.");
  }
  told.push_back(dirty ? "Wipe races and tapers: there was grease in the races." : "Wipe races and tapers.");
}

void tell_mounting(const BenchState& state, std::vector<std::string>& told) {
  tell_seats(state, told);
  std::string stack = "Take the stack " + names_of(sound_stack(state)) + ".";
  if (!state.worn_nut.empty())
    stack += " The thread of " + name_of_piece(state.worn_nut) + " is worn, as a look shows.";
  told.push_back(stack);
  std::string proof =
      "Read the runout on the mount, turn the part half a turn on the arbor and read again: what stays with the "
      "spindle is the mount's.";
  if (!state.bent_clamp.empty()) {
    const auto tilt = bench_sim::tilt_of(state.truth.bent.shoulder_runout_um, state.truth.bent.shoulder_radius_mm, 0);
    proof += " With " + name_of_piece(state.bent_clamp) + " at the shoulder that is " +
             in_words(bench_sim::runout_um_of(tilt, band_middle_mm(state.truth.make))) +
             " um: it is out of true, so another " + (state.bench.hubbed() ? "taper" : "clamp") + " goes there.";
  }
  told.push_back(proof);
}

void tell_cutting(const BenchState& state, const Facts& facts, std::vector<std::string>& told) {
  if (!state.truth.has(Fault::no_band)) {
    told.push_back("Keep the damping band on.");
  } else {
    told.push_back("Put the damping band on: without it the disc sings.");
  }
  if (state.truth.has(Fault::worn_edge)) {
    told.push_back("Change the edges: their worn land was " + in_words(state.truth.wear_mm, 2) + " mm.");
  }
  told.push_back("Touch off each face, then take " + in_words(facts.least.outboard_cut_um) + " um outboard (" +
                 counted(facts.least.outboard_marks, "mark") + ") and " + in_words(facts.least.inboard_cut_um) +
                 " um inboard (" + counted(facts.least.inboard_marks, "mark") + ") in " +
                 (facts.plan_passes == 1 ? std::string("one pass") : std::to_string(facts.plan_passes) + " passes") +
                 ", both tools locked, which leaves " + in_words(facts.least_final_mm, 2) + " mm.");
  told.push_back(state.truth.nose_radius_mm < 0.6
                     ? "Take the last pass at 0.1 mm a turn: with this nose of " +
                           in_words(state.truth.nose_radius_mm, 1) + " mm 0.2 is too rough."
                     : "Take the last pass at 0.2 mm a turn or less.");
  told.push_back(
      "Take it off the lathe, wash it with soap and water, and dry it: the cut's dust else goes into the pads.");
}

void tell_refit(const BenchState& state, const Facts& facts, std::vector<std::string>& told) {
  const auto position = std::min_element(facts.positions_um.begin(), facts.positions_um.end());
  const std::string nuts = "Draw all nuts in stages across the star, with a torque wrench.";
  if (state.bench.hubbed()) {
    told.push_back("Clean the races, pack them anew and set the bearings: " + in_words(*position) +
                   " um of runout on the car as it is now. Its hub is part of it, so there is no position to choose. " +
                   nuts);
    return;
  }
  told.push_back("Clean the hub and put the part back in position " +
                 std::to_string(position - facts.positions_um.begin()) + ": " + in_words(*position) +
                 " um of runout as it is now. " + nuts);
}

}  // namespace

std::vector<std::string> expert_of(const BenchState& state, const Facts& facts) {
  std::vector<std::string> told;
  tell_measuring(state, told);
  tell_mounting(state, told);
  const Action best = facts.of_iron.best();
  told.push_back(facts.of_iron.because + ": " + word_of(best) + ", right with " +
                 in_words(100 * facts.of_iron.of(best)) + " %.");
  if (best == Action::cut) tell_cutting(state, facts, told);
  if (best != Action::replace) tell_refit(state, facts, told);
  if (best == facts.wanted && (best == Action::cut) == facts.wants_cut) {
    told.push_back("All that takes about " + in_words(facts.expert_s / 60) + " minutes.");
  }
  return told;
}

}  // namespace brakewright::practice
