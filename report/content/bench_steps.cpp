#include <algorithm>
#include <map>

#include "report/content/figures.hpp"
#include "report/content/lathe_work.hpp"
#include "report/content/names.hpp"
#include "shop/words.hpp"

namespace brakewright::report {

namespace {

/// What was ticked in one phase, or one pass of it.
struct Group {
  std::vector<std::string> done = {};
  std::vector<std::string> people = {};
  shop::UtcTime first = {};
  shop::UtcTime last = {};
};

using Key = std::pair<shop::BenchPhase, std::int64_t>;

/// "09:15" of a time as the record writes it.
std::string clock_of(shop::UtcTime time, const RecordInput& input) {
  return time_figure(time, input.local_clock).substr(11, 5);
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string name_of(const Key& key) {
  switch (key.first) {
    case shop::BenchPhase::mount:
      return "before mounting";
    case shop::BenchPhase::finish:
      return "finish";
    case shop::BenchPhase::cut:
      break;
  }
  return key.second == 0 ? "before the cut" : "pass " + std::to_string(key.second);
}

bool is_trouble(shop::StepEvent event) {
  return event == shop::StepEvent::trouble || event == shop::StepEvent::stopped || event == shop::StepEvent::paused ||
         event == shop::StepEvent::resumed;
}

void take(Group& group, const shop::BenchStep& step, const RecordInput& input) {
  const std::string word = spoken(step.step);
  const std::string who = person_name(input, step.by_person_id, false);
  if (group.people.empty()) group.first = step.taken_at;
  group.last = std::max(group.last, step.taken_at);
  if (std::find(group.people.begin(), group.people.end(), who) == group.people.end()) group.people.push_back(who);
  const auto known = std::find(group.done.begin(), group.done.end(), word);
  if (step.event == shop::StepEvent::done && known == group.done.end()) group.done.push_back(word);
  if (step.event == shop::StepEvent::undone && known != group.done.end()) group.done.erase(known);
}

}  // namespace

Table steps_of(const RecordInput& input, const shop::Part& part) {
  Table table{.columns = {{"when", 17}, {"", 15}, {"ticked", 50}, {"by", 17}},
              .none = "no step on record",
              .more = "more, see the job"};
  std::map<Key, Group> groups;
  std::vector<std::vector<std::string>> troubles;
  for (const shop::BenchStep& step : input.file.bench_steps) {
    if (step.part_id != part.id) continue;
    const Key key{step.phase, step.pass};
    if (!is_trouble(step.event)) {
      take(groups[key], step, input);
      continue;
    }
    const std::string what = step.detail.empty() ? "" : ": " + spoken(step.detail);
    troubles.push_back({clock_of(step.taken_at, input), name_of(key),
                        spoken(shop::word_of(step.event)) + what + ", at " + spoken(step.step),
                        person_name(input, step.by_person_id, false)});
  }
  for (const auto& [key, group] : groups) {
    const std::string from = clock_of(group.first, input);
    const std::string to = clock_of(group.last, input);
    table.rows.push_back({from == to ? from : from + "–" + to, name_of(key),
                          group.done.empty() ? "taken back" : listed(group.done), listed(group.people)});
  }
  table.rows.insert(table.rows.end(), troubles.begin(), troubles.end());
  return table;
}

}  // namespace brakewright::report
