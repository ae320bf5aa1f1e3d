#include <algorithm>
#include <array>
#include <map>
#include <span>

#include "report/content/figures.hpp"
#include "report/content/lathe_work.hpp"
#include "report/content/names.hpp"
#include "shop/words.hpp"

namespace brakewright::report {

namespace {

struct StepWords {
  std::string_view step;
  std::string_view done;       ///< "damping band on"
  std::string_view with = {};  ///< in front of what was typed, where that belongs to it: a dial's reading, a grit
};

constexpr auto kSteps = std::to_array<StepWords>({
    {"bore_clean", "bore clean"},
    {"races_clean", "races clean"},
    {"faces_clean", "bearing faces clean"},
    {"burrs_off", "burrs off"},
    {"pieces_wiped", "arbor and pieces wiped"},
    {"nut_tight", "nut tight"},
    {"edges", "both edges looked at"},
    {"corners", "corners chosen"},
    {"band_on", "damping band on"},
    {"guards", "guards, glasses, sleeves and hair seen to"},
    {"machine_on", "machine on"},
    {"heads_open", "heads open"},
    {"run_in", "run in"},
    {"touch_outboard", "touched off outboard"},
    {"dial_outboard", "outboard dial read", "outboard dial at "},
    {"touch_inboard", "touched off inboard"},
    {"dial_inboard", "inboard dial read", "inboard dial at "},
    {"inner_edge", "run to the inner edge"},
    {"marks", "marks set"},
    {"lock", "tools locked"},
    {"feed_on", "feed on"},
    {"pass", "cut across"},
    {"feed_off", "feed off"},
    {"machine_off", "machine off"},
    {"measure", "measured"},
    {"stopped", "everything off after the stop"},
    {"sand_outboard", "outboard face sanded", "outboard face sanded with "},
    {"sand_inboard", "inboard face sanded", "inboard face sanded with "},
    {"washed", "washed"},
    {"cloth_white", "white cloth stayed white"},
    {"cool", "left to cool"},
    {"flange_clean", "flange of the hub cleaned"},
    {"hat_clean", "hat cleaned inside"},
    {"part_on", "on its hub", "on its hub, "},
    {"nuts_by_hand", "nuts on by hand", "nuts on by hand, torque "},
    {"nuts_first", "first round of the nuts"},
    {"nuts_second", "second round"},
    {"nuts_full", "all nuts at torque"},
    {"runout_checked", "runout read as fitted", "runout as fitted "},
    {"pedal_pumped", "pedal pumped hard before moving"},
    {"bedding_told", "card for bedding in given to the driver"},
    {"retorque_told", "driver told to have the nuts drawn up again"},
});

/// What is otherwise where a drum is turned by its one tool.
constexpr auto kStepsOfADrum = std::to_array<StepWords>({
    {"edges", "edge looked at"},
    {"band_on", "damper strap on"},
    {"heads_open", "tool clear"},
    {"touch_outboard", "touched off"},
    {"dial_outboard", "dial read", "dial at "},
    {"inner_edge", "run to the closed end"},
    {"marks", "depth set"},
    {"lock", "tool locked"},
    {"sand_outboard", "sanded inside", "sanded inside with "},
});

const StepWords* find_words(std::span<const StepWords> steps, const std::string& step) {
  const auto known = std::find_if(steps.begin(), steps.end(), [&](const auto& one) { return one.step == step; });
  return known == steps.end() ? nullptr : &*known;
}

/// A word that is not among them is said as it is kept.
std::string words_of(const shop::BenchStep& step, bool drum) {
  const StepWords* known = drum ? find_words(kStepsOfADrum, step.step) : nullptr;
  if (known == nullptr) known = find_words(kSteps, step.step);
  if (known == nullptr) return spoken(step.step);
  if (!known->with.empty() && !step.detail.empty()) return std::string(known->with) + step.detail;
  return std::string(known->done);
}

/// What was ticked in one phase, or one pass of it.
struct Group {
  std::vector<std::pair<std::string, std::string>> done = {};  ///< step and its words, in order
  std::vector<std::string> people = {};
  shop::UtcTime first = {};
  shop::UtcTime last = {};
};

using PhasePass = std::pair<shop::BenchPhase, std::int64_t>;

/// "09:15" of a time as the record writes it.
std::string clock_of(shop::UtcTime time, const RecordInput& input) {
  return time_figure(time, input.local_clock).substr(11, 5);
}

std::string name_of(const PhasePass& key) {
  switch (key.first) {
    case shop::BenchPhase::mount:
      return "Before mounting";
    case shop::BenchPhase::finish:
      return "Finish";
    case shop::BenchPhase::refit:
      return "Back on the car";
    case shop::BenchPhase::cut:
      break;
  }
  return key.second == 0 ? "Before the cut" : "Pass " + std::to_string(key.second);
}

bool is_trouble(shop::StepEvent event) {
  return event == shop::StepEvent::trouble || event == shop::StepEvent::stopped || event == shop::StepEvent::paused ||
         event == shop::StepEvent::resumed;
}

/// "Pass 2: stopped during the pass." and what was said of it.
std::string trouble_of(const shop::BenchStep& step) {
  const std::string where = name_of({step.phase, step.pass}) + ": ";
  const std::string at = step.step == "pass" ? " while cutting" : " at '" + spoken(step.step) + "'";
  const std::string said = step.detail.empty() ? "" : ": " + spoken(step.detail);
  switch (step.event) {
    case shop::StepEvent::paused:
      return where + "paused" + at + said + ".";
    case shop::StepEvent::resumed:
      return where + "went on" + said + ".";
    case shop::StepEvent::stopped:
      return where + "stopped" + at + said + ".";
    default:
      return where + "something was wrong" + at + said + ".";
  }
}

void take(Group& group, const shop::BenchStep& step, const RecordInput& input, bool drum) {
  const std::string who = person_name(input, step.by_person_id, false);
  if (group.people.empty()) group.first = step.taken_at;
  group.last = std::max(group.last, step.taken_at);
  if (std::find(group.people.begin(), group.people.end(), who) == group.people.end()) group.people.push_back(who);
  const auto known =
      std::find_if(group.done.begin(), group.done.end(), [&](const auto& one) { return one.first == step.step; });
  if (step.event == shop::StepEvent::done) {
    if (known == group.done.end()) {
      group.done.emplace_back(step.step, words_of(step, drum));
    } else {
      known->second = words_of(step, drum);
    }
  }
  if (step.event == shop::StepEvent::undone && known != group.done.end()) group.done.erase(known);
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

/// What a group says behind its name.
std::string told_of(const Group& group) {
  if (group.done.empty()) return "all of it taken back.";
  std::vector<std::string> words;
  for (const auto& [step, one] : group.done) words.push_back(one);
  return joined(words) + ".";
}

struct Line {
  shop::UtcTime first = {};
  shop::UtcTime last = {};
  std::string text = {};
  std::string people = {};
};

/// Passes that follow each other and went alike are one line.
std::vector<Line> lines_of(const std::map<PhasePass, Group>& groups) {
  std::vector<Line> lines;
  for (auto at = groups.begin(); at != groups.end();) {
    const auto& [key, group] = *at;
    const std::string told = told_of(group);
    Line line{group.first, group.last, name_of(key), joined(group.people)};
    auto next = std::next(at);
    std::int64_t to = key.second;
    while (key.first == shop::BenchPhase::cut && key.second > 0 && next != groups.end() &&
           next->first == PhasePass{key.first, to + 1} && told_of(next->second) == told &&
           joined(next->second.people) == line.people) {
      line.last = next->second.last;
      ++to;
      ++next;
    }
    if (to > key.second)
      line.text = "Passes " + std::to_string(key.second) + (to == key.second + 1 ? " and " : " to ") +
                  std::to_string(to) + ", each";
    line.text += ": " + told;
    lines.push_back(std::move(line));
    at = next;
  }
  return lines;
}

bool belongs(const shop::BenchStep& step, const shop::Part& part, StepsWhere where) {
  return step.part_id == part.id && (step.phase == shop::BenchPhase::refit) == (where == StepsWhere::on_the_car);
}

std::vector<std::string> people_of(const RecordInput& input, const shop::Part& part, StepsWhere where) {
  std::vector<std::string> people;
  for (const shop::BenchStep& step : input.file.bench_steps) {
    const std::string who = person_name(input, step.by_person_id, false);
    if (belongs(step, part, where) && std::find(people.begin(), people.end(), who) == people.end()) {
      people.push_back(who);
    }
  }
  return people;
}

}  // namespace

Table steps_of(const RecordInput& input, const shop::Part& part, StepsWhere where) {
  Table table{
      .columns = {{.head = "when", .share = 10, .whole = true}, {.head = "what was done", .share = 66, .lines = 6}},
      .none = "no step on record",
      .more = "more, see the job"};
  const bool several = people_of(input, part, where).size() > 1;
  if (several) table.columns.push_back({.head = "by", .share = 14, .whole = true});
  std::map<PhasePass, Group> groups;
  std::vector<Line> troubles;
  for (const shop::BenchStep& step : input.file.bench_steps) {
    if (!belongs(step, part, where)) continue;
    if (is_trouble(step.event)) {
      troubles.push_back(
          {step.taken_at, step.taken_at, trouble_of(step), person_name(input, step.by_person_id, false)});
    } else {
      take(groups[{step.phase, step.pass}], step, input, shop::is_drum(part.kind));
    }
  }
  std::vector<Line> lines = lines_of(groups);
  lines.insert(lines.end(), troubles.begin(), troubles.end());
  std::stable_sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) { return a.first < b.first; });
  for (const Line& line : lines) {
    const std::string from = clock_of(line.first, input);
    const std::string to = clock_of(line.last, input);
    table.rows.push_back({from == to ? from : from + "–" + to, line.text});
    if (several) table.rows.back().push_back(line.people);
  }
  return table;
}

std::string steps_note_of(const RecordInput& input, const shop::Part& part, StepsWhere where) {
  const std::vector<std::string> people = people_of(input, part, where);
  return people.size() == 1 ? "what was ticked, by " + people.front() : "what was ticked, when, by whom";
}

}  // namespace brakewright::report
