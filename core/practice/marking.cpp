#include "core/practice/marking.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/uncertainty/random.hpp"

namespace brakewright::practice {
namespace {

MarkedPart mark_safety(const BenchState& state) {
  MarkedPart part{.code = "safety", .points = 5, .of = 5, .why = "Nothing unsafe was done."};
  if (!state.ended->unsafe) return part;
  part.points = 0;
  part.why = state.ended->text;
  return part;
}

struct Training {
  const char* code;
  std::vector<Fault> faults;  ///< two, and a third for the harder ones
  const char* why;
};

const std::vector<Training>& trainings() {
  static const std::vector<Training> all = {
      {"measuring", {Fault::micrometer_zero, Fault::thickness_waves, Fault::warm_part}, "to measure with more care"},
      {"verdict", {Fault::wobble, Fault::thickness_waves, Fault::grooves}, "to tell whether there is iron to cut"},
      {"stack", {Fault::wrong_cone, Fault::wobble, Fault::loose_nut}, "to choose the stack by its sizes"},
      {"proof", {Fault::dirty_seat, Fault::wobble, Fault::bent_arbor}, "to prove the mount before it is cut on"},
      {"metal", {Fault::wobble, Fault::thickness_waves, Fault::grooves}, "to take off no more than needed"},
      {"time", {Fault::wobble, Fault::thickness_waves, Fault::taper}, "to do it in fewer steps"},
      {"finish", {Fault::no_band, Fault::wobble, Fault::worn_edge}, "to leave a smooth, quiet face"},
      {"runout", {Fault::wobble, Fault::dirty_seat, Fault::pitted_races}, "to bring it true onto the car"},
      {"safety", {Fault::wobble, Fault::thickness_waves, Fault::grooves}, "to do it all without a risk to the hand"},
  };
  return all;
}

double least_share(const Mark& mark) {
  double least = 1;
  for (const MarkedPart& part : mark.parts) least = std::min(least, part.points / part.of);
  return least;
}

}  // namespace

std::string counted(std::int64_t count, const std::string& word) {
  return std::to_string(count) + " " + word + (count == 1 ? "" : "s");
}

std::string in_words(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  const std::string written = text;
  return written == "-0" ? "0" : written;
}

std::string word_of(Action action) {
  return action == Action::leave ? "leave it" : action == Action::cut ? "cut it" : "replace it";
}

void add_next(const BenchState& state, Mark& mark) {
  constexpr double kUp = 80, kDown = 55;
  Random random(state.exercise.seed, stream_of(Draw::next));
  mark.next.seed = random.below(std::uint64_t{1} << 53);
  const int step = !mark.safe || mark.points < kDown ? -1 : mark.points >= kUp ? 1 : 0;
  mark.next.difficulty = std::clamp(state.exercise.difficulty + step, 0, 5);
  const std::string how_hard = step > 0 ? "one step harder." : step < 0 ? "one step easier." : "as hard as this one.";
  constexpr double kNothingWeak = 0.95;
  if (least_share(mark) >= kNothingWeak) {
    mark.next_why = "Nothing was weak. The next part is what its seed draws, " + how_hard;
    return;
  }
  const auto training = std::find_if(trainings().begin(), trainings().end(),
                                     [&](const Training& one) { return one.code == mark.weakest; });
  const auto count = mark.next.difficulty >= 3 ? 3 : 2;
  std::vector<Fault> faults(training->faults.begin(), training->faults.begin() + count);
  const bool thin = random.uniform() < 0.5;
  if (mark.weakest == "verdict" && thin) faults.push_back(Fault::thin);
  std::sort(faults.begin(), faults.end());
  mark.next.faults = faults;
  mark.next_why =
      "The weakest part was " + mark.weakest + ". The next part is chosen " + training->why + ", " + how_hard;
}

Mark mark_of(const BenchState& state) {
  const Facts facts = facts_of(state);
  Mark mark;
  mark.safe = !state.ended->unsafe;
  mark.parts = {mark_measuring(state, facts), mark_verdict(state, facts)};
  if (facts.wants_cut) {
    for (const auto& one : {mark_stack, mark_proof, mark_finish, mark_metal}) mark.parts.push_back(one(state, facts));
  } else if (!state.mounts.empty()) {
    for (const auto& one : {mark_stack, mark_proof}) mark.parts.push_back(one(state, facts));
  }
  mark.parts.push_back(mark_time(state, facts));
  const bool goes_back = facts.wants_cut || facts.wanted == Action::leave || state.refitted;
  if (goes_back) mark.parts.push_back(mark_runout(state, facts));
  const MarkedPart safety = mark_safety(state);
  mark.parts.insert(mark.safe ? mark.parts.end() : mark.parts.begin(), safety);
  double points = 0, of = 0;
  for (const MarkedPart& part : mark.parts) {
    points += part.points;
    of += part.of;
  }
  mark.points = std::round(1000 * points / of) / 10;
  mark.weakest = std::min_element(mark.parts.begin(), mark.parts.end(), [](const auto& a, const auto& b) {
                   return a.points / a.of < b.points / b.of;
                 })->code;
  mark.faults = state.truth.faults;
  mark.expert = expert_of(state, facts);
  add_next(state, mark);
  return mark;
}

}  // namespace brakewright::practice
